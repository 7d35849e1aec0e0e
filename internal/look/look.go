// Package look holds how our pages look, whatever they are written on: the
// colours with the meaning of each, and the type sizes. It knows no program
// and no file format, so that a workbook and a page in a browser agree.
package look

// Colour is a colour of our palette as RRGGBB.
type Colour = string

// The paper and what stands on it.
const (
	Paper     Colour = "FFFFFF"
	Ink       Colour = "22313F" // text
	Quiet     Colour = "5F6B76" // secondary text: units, captions, remarks
	Link      Colour = "1F5F7A" // text that leads elsewhere
	Leaf      Colour = "2F6B5E" // titles, and the banner of a good fit
	Sand      Colour = "F4EFE6" // heads of columns, and tiles
	Rule      Colour = "CFC6B8" // lines
	Alarm     Colour = "9A3412" // text about what no longer agrees
	AlarmFill Colour = "FBE3D6" // and the paper under it; also under cautions
	Amber     Colour = "B7791F" // the banner of a fit with limits
	Faint     Colour = "A9ADB1" // text of a value that is no test
	Grey      Colour = "8A8F94" // what is neither good nor bad: care, heating, the plant
)

// Cells to type into.
const (
	InputFill Colour = "FFF6D6"
	InputEdge Colour = "C9A227"
)

// What becomes of an hour. The colours can be told apart with the common kinds
// of colour blindness and as greys: the darker, the worse.
// Source of the hues: Okabe and Ito, "Color Universal Design" (2008).
const (
	Idle Colour = "E9E9E4" // no cooling needed
	Vent Colour = "A8D5BA" // open windows hold
	Evap Colour = "3E8FB0" // the cooler holds
	Damp Colour = "E69F00" // not covered: too damp
	Warm Colour = "B5402A" // not covered: too warm
)

// The ways of cooling, and the air.
const (
	Cooler       Colour = "3E8FB0"
	Refrigerated Colour = "6B5B95"
	Both         Colour = "7A9E7E"

	Outdoor Colour = "B5402A"
	WetBulb Colour = "7FB7C9"
	Supply  Colour = "1F5F7A"
	Indoor  Colour = "2F6B5E"
)

// What a cost is for.
const (
	Energy Colour = "E69F00"
	Water  Colour = "3E8FB0"
	Care   Colour = Grey
)

// The lines of the psychrometric chart.
const (
	HumidityLine   Colour = "B8B8B8"
	SaturationLine Colour = "5F6B76"
)

// For whom a sheet is, by the colour of its tab.
const (
	TabFront      Colour = InputEdge // where to begin, and what can be changed
	TabCustomer   Colour = Leaf
	TabTechnician Colour = "C8B28A"
	TabEngineer   Colour = "7396A6"
	TabComputed   Colour = Grey // every step, and where the figures come from
)

// Series colours the series of a chart that have no meaning of their own.
var Series = []Colour{Evap, Warm, Damp, Leaf, Refrigerated, Grey}

// Scales of colour maps, from the lowest to the highest value; each reads the
// same as greys.
var (
	ScaleCool = []Colour{Paper, "BFD9E4", "6FAFCB"}     // the darker, the more: supply temperature, water
	ScaleWarm = []Colour{Paper, "F6D9A8", "DB8A3A"}     // the darker, the warmer
	ScaleBad  = []Colour{Paper, "F3C9B5", "D9896B"}     // the darker, the worse
	ScaleGood = []Colour{"D9896B", "F6D9A8", Paper}     // the paler, the better
	ScaleHeld = []Colour{"E9B8A6", InputFill, "9CCDB0"} // from poor over middling to full
	ColdToHot = []Colour{"7A1F12", Warm, "D9822B", "E8C468", Vent, WetBulb, Evap, Supply, Ink}
)

// Type sizes in points: one scale for all pages.
const (
	Title = 20
	Big   = 18 // the verdict, and figures on tiles
	Head  = 13
	Text  = 11
	Small = 9

	// TitleHeight is the height of a row that holds a title.
	TitleHeight = 30
)
