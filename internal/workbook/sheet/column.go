package sheet

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/xlsx"
)

// Column declares one column of a table: what it is called, what kind of
// quantity it holds, the cell formula and the engine's value beside it. Values
// and formulas are in SI; display turns a column into what people see.
type Column struct {
	Key   string
	Band  string // begins a group of columns with this title
	Title string
	Kind  units.Kind
	Eq    int    // equation number of docs/model.md, 0 for none
	Note  string // shown under the header
	Fine  bool   // small amounts: shown with two decimals
	Show  string // number format in place of the kind's

	Formula    string // for every row; empty: a plain value
	First      string // for the first row, where formula looks at the row before
	RowFormula func(i int) string
	Value      func(i int) any
	Always     bool // has a value also in rows without weather
	Raw        bool // formula and value are already in the unit people see
}

// Table is a set of columns with its rows.
type Table struct {
	Name    string // of the grid, used in references
	Row     int    // first row of data on the sheet
	Rows    int
	Columns []Column
	Blank   func(i int) bool // rows without weather
	Filter  bool
	Spoken  bool // units as people outside the trade read them
	Shared  bool // rows share their formulas in the file
}

// Header rows above a table: group, title, unit, and equation where shown.
const HeaderRows = 4

// Grid renders a table in a unit system.
func (t *Table) Grid(sys units.System) *xlsx.Grid {
	g := &xlsx.Grid{Name: t.Name, Row: t.Row, Col: 1, Rows: t.Rows, Filter: t.Filter, Shared: t.Shared}
	for i := range t.Columns {
		g.Columns = append(g.Columns, t.Columns[i].Grid(t, sys))
	}
	return g
}

// Grid renders the column in a unit system.
func (c *Column) Grid(t *Table, sys units.System) xlsx.GridColumn {
	u := c.Kind.Unit(sys)
	shown := u
	if c.Raw {
		u = units.Unit{Scale: 1}
	}
	band := band
	if c.Band == "" {
		band = bandRest
	}
	symbol := shown.Symbol
	if t.Spoken {
		symbol = Spoken(shown)
	}
	g := xlsx.GridColumn{
		Key:    c.Key,
		Header: []xlsx.Cell{{Value: c.Band, Style: band}, {Value: c.Title, Style: Head}, {Value: symbol, Style: unit}, {Value: Equation(c.Eq), Style: eq}},
		Width:  c.Width(),
		Style:  c.Style(shown),
		Value:  func(i int) any { return Display(u, c.Value(i)) },
	}
	blank := func(i int) bool { return t.Blank != nil && t.Blank(i) }
	switch {
	case c.Formula == "" && c.RowFormula == nil:
	case c.First != "" || c.RowFormula != nil || c.Always:
		all := DisplayFormula(u, c.Formula)
		g.FormulaAt = func(i int) string {
			switch {
			case blank(i):
				return ""
			case i == 0 && c.First != "":
				return DisplayFormula(u, c.First)
			case c.RowFormula != nil:
				return DisplayFormula(u, c.RowFormula(i))
			default:
				return all
			}
		}
	default:
		g.Formula = DisplayFormula(u, c.Formula)
	}
	if !c.Always {
		g.Blank = blank
	}
	return g
}

// Style is how the column's cells look.
func (c *Column) Style(u units.Unit) xlsx.Style {
	s := xlsx.Style{NumFmt: u.Format}
	switch {
	case c.Show != "":
		s.NumFmt = c.Show
	case c.Fine:
		s.NumFmt = "#,##0.00"
	case c.Kind == units.Text:
		s.HAlign = xlsx.Centre
	}
	return s
}

// Equation names an equation of docs/model.md; "" for 0.
func Equation(n int) string {
	if n == 0 {
		return ""
	}
	return "eq. " + strconv.Itoa(n)
}

// Width is the column width in characters that its title and numbers need.
func (c *Column) Width() float64 {
	least := 9.0
	switch c.Kind {
	case units.DateTime:
		return 15
	case units.Text, units.Date:
		least = 11
	case units.Plain, units.Kelvin, units.Pressure:
		least = 11.5
	}
	return max(least, min(15, float64(longestWord(c.Title))+1.5))
}

func longestWord(s string) int {
	n := 0
	for _, w := range strings.Fields(s) {
		n = max(n, len(w))
	}
	return n
}

// Display is a value in SI as people see it.
func Display(u units.Unit, v any) any {
	switch v := v.(type) {
	case float64:
		return u.FromSI(v)
	default:
		return v
	}
}

// DisplayFormula is a formula in SI turned into the unit people see.
func DisplayFormula(u units.Unit, f string) string {
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

// span is rows first to last (exclusive) of a grid in a reference.
func Rows(first, last int) string { return fmt.Sprintf("#%d:%d", first, last-1) }

// Banded is the column under a band of its own.
func Banded(c Column, band string) Column {
	c.Band = band
	return c
}

// Fine shows a column of small amounts with two decimals.
func Fine(c Column) Column {
	c.Fine = true
	return c
}
