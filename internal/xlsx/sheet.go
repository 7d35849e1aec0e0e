package xlsx

import "github.com/evapbook/evapbook/internal/xlsx/chart"

// Sheet is one worksheet. Rows and columns count from 1.
type Sheet struct {
	// Name stands on the tab: 1 to 31 letters, digits, underscores, hyphens and
	// single spaces. References in the file quote it where they have to.
	Name string
	// Key is what templates, links and references of this package call the sheet,
	// whatever its tab says; empty means Name. It is one word.
	Key string
	Tab string // tab colour, RRGGBB

	// Cols are the widths of the first columns in characters; 0 keeps the default.
	Cols []float64
	// FreezeRows and FreezeCols stay in view while scrolling.
	FreezeRows, FreezeCols int
	ShowGrid               bool
	Print                  Print

	// Protect guards the sheet without a password. Cells of a [Style] with
	// Unlocked can be edited; selecting, filtering and changing column widths
	// stay allowed everywhere.
	Protect bool

	Grids       []*Grid
	Charts      []*chart.Chart
	Images      []Image
	Merges      []string // "A1:D1"; not over a grid
	Validations []Validation
	Conditional []CondFormat

	cells   map[at]Cell
	marks   map[string]box
	heights map[int]float64
	faults  []error
}

// at is a place on a sheet.
type at struct{ row, col int }

// Cell is one cell.
type Cell struct {
	// Value is a number (any integer or float kind), string, bool, [time.Time]
	// (its wall clock) or nil. Beside a Formula it is the cached result and has to
	// be there; "" is a result too.
	Value any
	// Formula is without the leading '='. References in brackets are filled in;
	// the package comment has the notation.
	Formula string
	Style   Style
	// Name, if not empty, becomes a name of the whole workbook for this cell.
	Name string
	// Link goes to a place in this workbook, "Hours!A1", or to an "https://" or
	// "mailto:" address.
	Link string
}

// Set puts a cell in a row and column. Setting a place twice is an error that
// [Book.Check] and [Book.Write] report.
func (s *Sheet) Set(row, col int, c Cell) {
	if s.cells == nil {
		s.cells = map[at]Cell{}
	}
	if row < 1 || row > maxRows || col < 1 || col > maxCols {
		s.fault("row %d, column %d is not on a sheet", row, col)
		return
	}
	k := at{row, col}
	if _, twice := s.cells[k]; twice {
		s.fault("%s is set twice", cellRef(row, col))
		return
	}
	s.cells[k] = c
}

// Has tells whether a place was set.
func (s *Sheet) Has(row, col int) bool {
	_, ok := s.cells[at{row, col}]
	return ok
}

// Mark gives a range of the sheet a key, so that charts and formulas can mean it
// as [Sheet.key:] wherever it comes to stand. A key marks one range.
func (s *Sheet) Mark(key string, row, col, lastRow, lastCol int) {
	if s.marks == nil {
		s.marks = map[string]box{}
	}
	if _, twice := s.marks[key]; twice || !wordPattern.MatchString(key) {
		s.fault("mark %q is given twice or is not a word", key)
		return
	}
	s.marks[key] = box{row, col, lastRow, lastCol}
}

// key is what references call the sheet.
func (s *Sheet) key() string {
	if s.Key == "" {
		return s.Name
	}
	return s.Key
}

// quoted is the sheet's name as references in the file have it.
func (s *Sheet) quoted() string {
	if wordPattern.MatchString(s.Name) {
		return s.Name
	}
	return "'" + s.Name + "'"
}

// SetAt is [Sheet.Set] with a reference such as "B4".
func (s *Sheet) SetAt(ref string, c Cell) {
	row, col, ok := parseCell(ref)
	if !ok {
		s.fault("%q is not a cell", ref)
		return
	}
	s.Set(row, col, c)
}

// SetRow puts cells side by side.
func (s *Sheet) SetRow(row, col int, cells ...Cell) {
	for i, c := range cells {
		s.Set(row, col+i, c)
	}
}

// Height sets the height of a row in points, above 0 and up to 409.
func (s *Sheet) Height(row int, points float64) {
	if row < 1 || row > maxRows || !(points > 0 && points <= 409) {
		s.fault("row %d cannot be %g points high", row, points)
		return
	}
	if s.heights == nil {
		s.heights = map[int]float64{}
	}
	s.heights[row] = points
}

// Paper is a paper size.
type Paper int

// Paper sizes. The numbers are those of ECMA-376 part 1, 18.3.1.63 paperSize.
const (
	A4     Paper = 9
	Letter Paper = 1
)

// Print says how a sheet comes out on paper.
type Print struct {
	Paper     Paper // 0 means A4
	Landscape bool
	// FitWidth and FitHeight are pages to fit on; 0 lets that direction run on.
	// With both 0 the sheet is printed at its own size.
	FitWidth, FitHeight int
	// TitleRows and TitleCols repeat on each page: first and last, {0, 0} for none.
	TitleRows, TitleCols [2]int
	Area                 string // "A1:H60"
	// Header and Footer are in the notation of ECMA-376 part 1, 18.3.1.46: &L, &C
	// and &R begin the parts, &P is the page, &N the pages, &A the sheet.
	Header, Footer string
	Margins        Margins
	CentreAcross   bool
}

// Margins are in inches. The zero value means 0.7 at the sides and 0.75 above
// and below, the values of the common programs.
type Margins struct{ Left, Right, Top, Bottom, Header, Footer float64 }

// Image is a PNG or JPEG picture with its top left corner in a cell.
type Image struct {
	Row, Col int
	// Width and Height are in pixels of 1/96 inch; 0 for both is the picture's own
	// size, 0 for one keeps the proportions.
	Width, Height int
	Data          []byte
	Alt           string // what it shows, for those who cannot see it; required
}
