// Package chart declares native charts and writes their part of a file. It
// knows neither sheets nor cells: what a reference points to comes from the
// caller as [Points].
//
// The XML is our own: the library leaves out the cached points, date axes and
// the X axis of scatter charts, and its defaults are hard to read. Order of
// elements: ECMA-376 part 1, 21.2.
package chart

// Chart is a native chart with its top left corner in a cell. Its points are
// stored in the file, so that previews without a calculation show them.
type Chart struct {
	Row, Col int
	// Width and Height are in pixels of 1/96 inch; 0 means 640 by 320.
	Width, Height int

	Title string
	Alt   string // what it shows, for those who cannot see it; required

	Kind   Kind
	Stack  Stack // of columns, bars and areas
	Series []Series
	X, Y   Axis // X is the axis of categories, upright for Bars

	NoLegend bool // else it stands below

	Gap     int // between columns in percent of their width; 0 means 60
	Overlap int // of clustered columns, -100 to 100 percent
}

// Kind is the form of a chart or series.
type Kind int

// Kinds of chart. A series may differ from its chart, except that Bars and
// Scatter stand alone.
const (
	Columns Kind = iota + 1
	Bars         // lying columns
	Lines        // points joined over categories or dates
	Areas
	Scatter // x and y both numbers
)

// Stack says how series of columns, bars and areas stand to each other.
type Stack int

// Ways to stack.
const (
	Clustered Stack = iota
	Stacked
)

// Series is one row of values. References are templates ("[Days.tmax:]") or
// have a sheet ("Monthly!$B$4:$B$15"); they span one row or column.
type Series struct {
	Name string
	X    string // categories, dates or, for Scatter, x values
	Y    string // values

	Kind Kind // 0 is the chart's

	Color string // RRGGBB; empty is the next of the palette
	// Transparency of a column, bar, area or marker in percent.
	Transparency int
	NoFill       bool // invisible, as the lower part of a band
	NoLegend     bool // left out of the legend
	// Beside writes the series' name at each of its points, "l" left or "r" right
	// of it: a label for a line, as a series of one point.
	Beside string

	Width float64 // of a line in points; 0 means 1.5 for Lines, no line for Scatter
	Dash  Dash
	// Marker is drawn at each point. Without line and marker, Scatter takes small
	// circles.
	Marker Marker
}

// Dash is the pattern of a line. The words are those of ECMA-376 part 1,
// 20.1.10.48.
type Dash string

// Patterns of lines.
const (
	Solid  Dash = ""
	Dashes Dash = "dash"
)

// Marker is a mark at each point; the zero value is none.
type Marker struct {
	Shape Shape
	Size  int // points, 2 to 72; 0 means 5
}

// Shape is the form of a marker.
type Shape string

// Forms of markers.
const (
	Circle   Shape = "circle"
	Diamond  Shape = "diamond"
	Triangle Shape = "triangle"
)

// Axis is one axis. The zero value lets the program choose.
type Axis struct {
	Title    string
	Min, Max *float64 // new(0.0), or nil for automatic
	Major    float64  // distance of the labels; 0 is automatic
	NumFmt   string   // empty is that of the cells

	// Date makes the X axis of columns, lines and areas one of days. Major is
	// then in Unit. Points within one day fall together; use Scatter for hours.
	Date bool
	Unit DateUnit // of Major; empty is days

	LabelEvery int // of a category axis: every n-th label; 0 is automatic
	Reverse    bool
	NoGrid     bool
}

// DateUnit is the unit of an axis of days.
type DateUnit string

// Units of dates.
const (
	Days   DateUnit = "days"
	Months DateUnit = "months"
)

// SeriesKind is the kind a series is drawn as.
func (c *Chart) SeriesKind(s *Series) Kind {
	if s.Kind == 0 {
		return c.Kind
	}
	return s.Kind
}

// Size is the size in pixels of 1/96 inch.
func (c *Chart) Size() (width, height int) {
	width, height = c.Width, c.Height
	if width == 0 {
		width = 640
	}
	if height == 0 {
		height = 320
	}
	return width, height
}
