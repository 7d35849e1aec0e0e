package workbook

import (
	"github.com/evapbook/evapbook/internal/season"
	"github.com/evapbook/evapbook/internal/xlsx"
)

// The colours of the workbook. The outcome colours can be told apart with the
// common kinds of colour blindness and as greys: the darker, the worse.
// Source of the hues: Okabe and Ito, "Color Universal Design" (2008).
const (
	ink       = "22313F" // text
	quiet     = "5F6B76" // secondary text
	paper     = "FFFFFF"
	sand      = "F4EFE6" // headers
	sandDeep  = "E3D8C5" // group headers
	leaf      = "2F6B5E" // titles
	inputFill = "FFF6D6" // cells to type into
	rule      = "CFC6B8" // lines
	warnFill  = "FBE3D6"

	colourVent = "A8D5BA"
	colourEvap = "3E8FB0"
	colourDamp = "E69F00"
	colourWarm = "B5402A"
	colourIdle = "E9E9E4"

	colourCooler       = "3E8FB0"
	colourRefrigerated = "6B5B95"
	colourBoth         = "7A9E7E"
	colourOutdoor      = "B5402A"
	colourWetBulb      = "7FB7C9"
	colourSupply       = "1F5F7A"
	colourIndoor       = "2F6B5E"
)

// palette colours chart series that name no colour.
var palette = []string{colourEvap, colourWarm, colourDamp, leaf, colourRefrigerated, "8A8F94"}

var outcomeColour = map[season.Outcome]string{
	season.Idle: colourIdle, season.Vent: colourVent, season.Evap: colourEvap, season.Damp: colourDamp, season.Warm: colourWarm,
}

// One scale of type sizes, in points.
const (
	sizeTitle  = 20
	sizeHead   = 13
	sizeBig    = 18
	sizeText   = 11
	sizeSmall  = 9
	headHeight = 30
)

var (
	styleTitle   = xlsx.Style{Bold: true, Size: sizeTitle, Color: leaf}
	styleSection = xlsx.Style{Bold: true, Size: sizeHead, Color: leaf, Border: xlsx.Under(xlsx.Thin, leaf)}
	styleText    = xlsx.Style{Size: sizeText, Color: ink, Wrap: true, VAlign: xlsx.Top}
	styleLine    = xlsx.Style{Size: sizeText, Color: ink}
	styleQuiet   = xlsx.Style{Size: sizeSmall, Color: quiet}
	styleSmall   = xlsx.Style{Size: sizeSmall, Color: quiet, Wrap: true, VAlign: xlsx.Top}
	styleWarn    = xlsx.Style{Size: sizeText, Color: ink, Fill: warnFill, Wrap: true, VAlign: xlsx.Top}
	styleLink    = xlsx.Style{Size: sizeSmall, Color: "1F5F7A", Underline: true}

	styleBand     = xlsx.Style{Bold: true, Size: sizeSmall, Color: paper, Fill: leaf}
	styleBandRest = xlsx.Style{Size: sizeSmall, Color: paper, Fill: leaf}
	styleHead     = xlsx.Style{Bold: true, Size: sizeSmall, Color: ink, Fill: sand, Wrap: true, HAlign: xlsx.Centre, VAlign: xlsx.Middle}
	styleUnit     = xlsx.Style{Size: sizeSmall, Color: quiet, Fill: sand, HAlign: xlsx.Centre}
	styleEq       = xlsx.Style{Size: sizeSmall, Italic: true, Color: quiet, Fill: sand, HAlign: xlsx.Centre, Border: xlsx.Under(xlsx.Thin, rule)}

	styleLabel  = xlsx.Style{Size: sizeText, Color: ink, Border: xlsx.Under(xlsx.Hair, rule), VAlign: xlsx.Middle}
	styleSymbol = xlsx.Style{Size: sizeText, Color: quiet, Border: xlsx.Under(xlsx.Hair, rule), VAlign: xlsx.Middle, HAlign: xlsx.Left, Indent: 1}
	styleInput  = xlsx.Style{Size: sizeText, Color: ink, Fill: inputFill, Border: xlsx.Box(xlsx.Thin, "C9A227"), Unlocked: true, HAlign: xlsx.Right, VAlign: xlsx.Middle}
)

// numberStyle is a table number in the given format.
func numberStyle(format string) xlsx.Style {
	return xlsx.Style{Size: sizeText, Color: ink, NumFmt: format, HAlign: xlsx.Right, Border: xlsx.Under(xlsx.Hair, rule), VAlign: xlsx.Middle}
}
