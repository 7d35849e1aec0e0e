package workbook

import (
	"github.com/evapbook/evapbook/internal/look"
	"github.com/evapbook/evapbook/internal/season"
	"github.com/evapbook/evapbook/internal/xlsx"
)

// outcomeColour keeps an outcome the same colour everywhere.
var outcomeColour = map[season.Outcome]string{
	season.Idle: look.Idle, season.Vent: look.Vent, season.Evap: look.Evap, season.Damp: look.Damp, season.Warm: look.Warm,
}

var (
	styleTitle   = xlsx.Style{Bold: true, Size: look.Title, Color: look.Leaf}
	styleSection = xlsx.Style{Bold: true, Size: look.Head, Color: look.Leaf, Border: xlsx.Under(xlsx.Thin, look.Leaf)}
	styleText    = xlsx.Style{Size: look.Text, Color: look.Ink, Wrap: true, VAlign: xlsx.Top}
	styleLine    = xlsx.Style{Size: look.Text, Color: look.Ink}
	styleQuiet   = xlsx.Style{Size: look.Small, Color: look.Quiet}
	styleSmall   = xlsx.Style{Size: look.Small, Color: look.Quiet, Wrap: true, VAlign: xlsx.Top}
	styleWarn    = xlsx.Style{Size: look.Text, Color: look.Ink, Fill: look.AlarmFill, Wrap: true, VAlign: xlsx.Top}
	styleLink    = xlsx.Style{Size: look.Small, Color: look.Link, Underline: true}

	styleBand     = xlsx.Style{Bold: true, Size: look.Small, Color: look.Paper, Fill: look.Leaf}
	styleBandRest = xlsx.Style{Size: look.Small, Color: look.Paper, Fill: look.Leaf}
	styleHead     = xlsx.Style{Bold: true, Size: look.Small, Color: look.Ink, Fill: look.Sand, Wrap: true, HAlign: xlsx.Centre, VAlign: xlsx.Middle}
	styleUnit     = xlsx.Style{Size: look.Small, Color: look.Quiet, Fill: look.Sand, HAlign: xlsx.Centre}
	styleEq       = xlsx.Style{Size: look.Small, Italic: true, Color: look.Quiet, Fill: look.Sand, HAlign: xlsx.Centre, Border: xlsx.Under(xlsx.Thin, look.Rule)}

	styleLabel  = xlsx.Style{Size: look.Text, Color: look.Ink, Border: xlsx.Under(xlsx.Hair, look.Rule), VAlign: xlsx.Middle}
	styleSymbol = xlsx.Style{Size: look.Text, Color: look.Quiet, Border: xlsx.Under(xlsx.Hair, look.Rule), VAlign: xlsx.Middle, HAlign: xlsx.Left, Indent: 1}
	styleInput  = xlsx.Style{Size: look.Text, Color: look.Ink, Fill: look.InputFill, Border: xlsx.Box(xlsx.Thin, look.InputEdge), Unlocked: true, HAlign: xlsx.Right, VAlign: xlsx.Middle}
)

// numberStyle is a table number in the given format.
func numberStyle(format string) xlsx.Style {
	return xlsx.Style{Size: look.Text, Color: look.Ink, NumFmt: format, HAlign: xlsx.Right, Border: xlsx.Under(xlsx.Hair, look.Rule), VAlign: xlsx.Middle}
}
