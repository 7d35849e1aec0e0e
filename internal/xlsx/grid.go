package xlsx

// Grid is a block of equal rows described by its columns: the way to write
// thousands of rows. Other formulas refer to its cells by key.
type Grid struct {
	// Name is what references use, [Name.key]; empty means the sheet's name.
	Name string
	// Row is the first row of data. The header rows stand directly above it.
	Row, Col int
	Rows     int
	Columns  []GridColumn
	// Filter puts filter buttons on the lowest header row.
	Filter bool
	// Shared writes a column's Formula once and lets the other rows share it, as
	// spreadsheet programs do on filling down. It makes large files several times
	// smaller. Formulas that refer to other sheets are written out all the same.
	Shared bool
}

// GridColumn is one column of a [Grid].
type GridColumn struct {
	// Key names the column in references: letters, digits, underscores.
	Key string
	// Header cells from the top down. All columns of a grid have equally many.
	Header []Cell
	Width  float64 // characters; 0 leaves the sheet's width
	Style  Style
	// Value gives row i, counted from 0; see [Cell.Value]. nil leaves the cell
	// blank, with its formula. It is called once or more for each row.
	Value func(i int) any
	// Formula, if any, holds for every row, and Value is then the cached result.
	Formula string
	// FormulaAt, if not nil, replaces Formula; "" makes the cell a plain value.
	// Rows that return the same text share its translation.
	FormulaAt func(i int) string
	// Blank leaves out value and formula of row i, as where the data are missing.
	Blank func(i int) bool
}

func (g *Grid) headerRows() int {
	if len(g.Columns) == 0 {
		return 0
	}
	return len(g.Columns[0].Header)
}

func (g *Grid) last() int { return g.Row + g.Rows - 1 }

func (g *Grid) lastCol() int { return g.Col + len(g.Columns) - 1 }

// box is the grid with its header rows.
func (g *Grid) box() box {
	return box{g.Row - g.headerRows(), g.Col, max(g.last(), g.Row-1), g.lastCol()}
}

func (g *Grid) column(key string) int {
	for i := range g.Columns {
		if g.Columns[i].Key == key {
			return i
		}
	}
	return -1
}

// value is what the cell of column c in row i shows, or nil for a blank.
func (c *GridColumn) value(i int) any {
	if c.Value == nil || (c.Blank != nil && c.Blank(i)) {
		return nil
	}
	return c.Value(i)
}
