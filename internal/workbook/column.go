package workbook

import (
	"math"
	"regexp"
	"strconv"
	"strings"

	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/xlsx"
)

// column declares one column of a table: what it is called, what kind of
// quantity it holds, the cell formula and the engine's value beside it. Values
// and formulas are in SI; display turns a column into what people see.
type column struct {
	key   string
	band  string // begins a group of columns with this title
	title string
	kind  units.Kind
	eq    int    // equation number of docs/model.md, 0 for none
	note  string // shown under the header
	fine  bool   // small amounts: shown with two decimals

	formula    string // for every row; empty: a plain value
	first      string // for the first row, where formula looks at the row before
	rowFormula func(i int) string
	value      func(i int) any
	always     bool // has a value also in rows without weather
	raw        bool // formula and value are already in the unit people see
}

// table is a set of columns with its rows.
type table struct {
	name    string // of the grid, used in references
	row     int    // first row of data on the sheet
	rows    int
	columns []column
	blank   func(i int) bool // rows without weather
	filter  bool
	shared  bool // rows share their formulas in the file
}

// Header rows above a table: group, title, unit, and equation where shown.
const headerRows = 4

// grid renders a table in a unit system.
func (t *table) grid(sys units.System) *xlsx.Grid {
	g := &xlsx.Grid{Name: t.name, Row: t.row, Col: 1, Rows: t.rows, Filter: t.filter, Shared: t.shared}
	for i := range t.columns {
		g.Columns = append(g.Columns, t.columns[i].grid(t, sys))
	}
	return g
}

func (c *column) grid(t *table, sys units.System) xlsx.GridColumn {
	u := c.kind.Unit(sys)
	shown := u
	if c.raw {
		u = units.Unit{Scale: 1}
	}
	band := styleBand
	if c.band == "" {
		band = styleBandRest
	}
	g := xlsx.GridColumn{
		Key:    c.key,
		Header: []xlsx.Cell{{Value: c.band, Style: band}, {Value: c.title, Style: styleHead}, {Value: shown.Symbol, Style: styleUnit}, {Value: equation(c.eq), Style: styleEq}},
		Width:  c.width(),
		Style:  c.style(shown),
		Value:  func(i int) any { return display(u, c.value(i)) },
	}
	blank := func(i int) bool { return t.blank != nil && t.blank(i) }
	switch {
	case c.formula == "" && c.rowFormula == nil:
	case c.first != "" || c.rowFormula != nil || c.always:
		all := displayFormula(u, c.formula)
		g.FormulaAt = func(i int) string {
			switch {
			case blank(i):
				return ""
			case i == 0 && c.first != "":
				return displayFormula(u, c.first)
			case c.rowFormula != nil:
				return displayFormula(u, c.rowFormula(i))
			default:
				return all
			}
		}
	default:
		g.Formula = displayFormula(u, c.formula)
	}
	if !c.always {
		g.Blank = blank
	}
	return g
}

// style is how the column's cells look.
func (c *column) style(u units.Unit) xlsx.Style {
	s := xlsx.Style{NumFmt: u.Format}
	switch {
	case c.fine:
		s.NumFmt = "#,##0.00"
	case c.kind == units.Text:
		s.HAlign = xlsx.Centre
	}
	return s
}

// equation names an equation of docs/model.md; "" for 0.
func equation(n int) string {
	if n == 0 {
		return ""
	}
	return "eq. " + strconv.Itoa(n)
}

// width is the column width in characters that its title and numbers need.
func (c *column) width() float64 {
	least := 9.0
	switch c.kind {
	case units.DateTime:
		return 15
	case units.Text, units.Date:
		least = 11
	case units.Plain, units.Kelvin, units.Pressure:
		least = 11.5
	}
	return max(least, min(15, float64(longestWord(c.title))+1.5))
}

func longestWord(s string) int {
	n := 0
	for _, w := range strings.Fields(s) {
		n = max(n, len(w))
	}
	return n
}

// display is a value in SI as people see it.
func display(u units.Unit, v any) any {
	switch v := v.(type) {
	case float64:
		return u.FromSI(v)
	default:
		return v
	}
}

// displayFormula is a formula in SI turned into the unit people see.
func displayFormula(u units.Unit, f string) string {
	if f == "" || (u.Scale == 1 && u.Offset == 0) {
		return f
	}
	if !term.MatchString(f) {
		f = "(" + f + ")"
	}
	return u.FromSICell(f)
}

// term is a reference or name, which needs no brackets around it.
var term = regexp.MustCompile(`^(\[[^\]]*\]|\w+)$`)

// num writes a number into a formula with all its digits.
func num(v float64) string {
	return strings.Replace(strconv.FormatFloat(v, 'G', -1, 64), "E+", "E", 1)
}

func round(v float64, digits int) float64 {
	p := math.Pow10(digits)
	return math.Round(v*p) / p
}

func pow(base float64, n int) float64 { return math.Pow(base, float64(n)) }
