package xlsx_test

import (
	"bytes"
	"io"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/internal/xlsx"
	"github.com/evapbook/evapbook/internal/xlsx/chart"
)

// small is a sound book to put faults into: headers in row 1 of Sheet_a, a grid
// below row 10, and a second sheet.
func small() (b *xlsx.Book, s *xlsx.Sheet) {
	b = &xlsx.Book{}
	s = b.AddSheet("Sheet_a")
	s.SetRow(1, 1, xlsx.Cell{Value: "Month"}, xlsx.Cell{Value: "kWh"})
	s.SetRow(2, 1, xlsx.Cell{Value: "Jan"}, xlsx.Cell{Value: 3.5})
	s.SetRow(3, 1, xlsx.Cell{Value: "Feb"}, xlsx.Cell{Value: 4.5})
	s.Grids = []*xlsx.Grid{{Row: 12, Col: 1, Rows: 3, Columns: []xlsx.GridColumn{
		{Key: "x", Header: []xlsx.Cell{{Value: "x"}}, Value: func(i int) any { return i }},
		{Key: "y", Header: []xlsx.Cell{{Value: "y"}}, Value: func(i int) any { return 2 * i }, Formula: "2*[x]"},
	}}}
	b.AddSheet("Sheet_b")
	return b, s
}

func chartOf(s *xlsx.Sheet) *chart.Chart {
	c := &chart.Chart{Row: 1, Col: 5, Kind: chart.Columns, Alt: "test", Series: []chart.Series{{X: "Sheet_a!$A$2:$A$3", Y: "Sheet_a!$B$2:$B$3"}}}
	s.Charts = append(s.Charts, c)
	return c
}

// TestFaults plants, one at a time, what makes a program refuse or repair a book
// (workbook notes, section 4: seen in issues of open-source writers) and what a
// slip of the caller would be.
func TestFaults(t *testing.T) {
	b, s := small()
	chartOf(s)
	require.NoError(t, b.Write(io.Discard), "the sound book")

	cell := func(c xlsx.Cell) func(*xlsx.Book, *xlsx.Sheet) {
		return func(_ *xlsx.Book, s *xlsx.Sheet) { s.SetAt("D5", c) }
	}
	name := func(n, ref string) func(*xlsx.Book, *xlsx.Sheet) {
		return func(b *xlsx.Book, _ *xlsx.Sheet) { b.Names = append(b.Names, xlsx.Name{Name: n, Ref: ref}) }
	}
	charted := func(f func(*chart.Chart)) func(*xlsx.Book, *xlsx.Sheet) {
		return func(_ *xlsx.Book, s *xlsx.Sheet) { f(chartOf(s)) }
	}
	rule := func(v xlsx.Validation) func(*xlsx.Book, *xlsx.Sheet) {
		return func(_ *xlsx.Book, s *xlsx.Sheet) { s.Validations = []xlsx.Validation{v} }
	}
	format := func(c xlsx.CondFormat) func(*xlsx.Book, *xlsx.Sheet) {
		return func(_ *xlsx.Book, s *xlsx.Sheet) { s.Conditional = []xlsx.CondFormat{c} }
	}
	for _, c := range []struct {
		name  string
		plant func(*xlsx.Book, *xlsx.Sheet)
		want  string
	}{
		{"no sheets", func(b *xlsx.Book, _ *xlsx.Sheet) { b.Sheets = nil }, "at least one sheet"},
		{"sheet name with two blanks", func(b *xlsx.Book, _ *xlsx.Sheet) { b.AddSheet("My  sheet") }, "single spaces"},
		{"sheet name too long", func(b *xlsx.Book, _ *xlsx.Sheet) { b.AddSheet(strings.Repeat("x", 32)) }, "31"},
		{"sheet name like a cell", func(b *xlsx.Book, _ *xlsx.Sheet) { b.AddSheet("AB12") }, "looks like"},
		{"sheet name twice", func(b *xlsx.Book, _ *xlsx.Sheet) { b.AddSheet("SHEET_A") }, "two sheets"},

		{"cell twice", func(_ *xlsx.Book, s *xlsx.Sheet) { s.SetAt("A1", xlsx.Cell{Value: 1}) }, "A1 is set twice"},
		{"cell in a grid", func(_ *xlsx.Book, s *xlsx.Sheet) { s.SetAt("A13", xlsx.Cell{Value: 1}) }, "part of grid"},
		{"cell on a header", func(_ *xlsx.Book, s *xlsx.Sheet) { s.SetAt("A11", xlsx.Cell{Value: 1}) }, "header of a grid"},
		{"not a cell", func(_ *xlsx.Book, s *xlsx.Sheet) { s.SetAt("A0", xlsx.Cell{Value: 1}) }, `"A0" is not a cell`},
		{"NaN", cell(xlsx.Cell{Value: math.NaN()}), "Sheet_a!D5"},
		{"text too long", cell(xlsx.Cell{Value: strings.Repeat("x", 40_000)}), "40000 characters"},
		{"formula with =", cell(xlsx.Cell{Value: 1, Formula: "=A1"}), "begins with '='"},
		{"formula too long", cell(xlsx.Cell{Value: 1, Formula: strings.Repeat("1+", 5000) + "1"}), "10001 characters"},
		{"text in a formula too long", cell(xlsx.Cell{Value: "x", Formula: `"` + strings.Repeat("x", 256) + `"`}), "text of 256 characters"},
		{"formula without cache", cell(xlsx.Cell{Formula: "A1"}), "no cached value"},
		{"formula to no sheet", cell(xlsx.Cell{Value: 1, Formula: "Sheet_c!A1"}), "Sheet_c"},
		{"formula with a newer function", cell(xlsx.Cell{Value: 1, Formula: "MAXIFS(A1,A1,1)"}), "_xlfn."},
		{"unknown key", cell(xlsx.Cell{Value: 1, Formula: "SUM([Sheet_a.z:])"}), `Sheet_a!D5: formula "SUM([Sheet_a.z:])"`},
		{"colour", cell(xlsx.Cell{Style: xlsx.Style{Fill: "red"}}), `"red" is not`},
		{"number format", cell(xlsx.Cell{Style: xlsx.Style{NumFmt: "0 kWh"}}), "number format"},
		{"link", cell(xlsx.Cell{Link: "Sheet_c!A1"}), "link"},
		{"row height", func(_ *xlsx.Book, s *xlsx.Sheet) { s.Height(1, 500) }, "500 points"},
		{"column width", func(_ *xlsx.Book, s *xlsx.Sheet) { s.Cols = []float64{300} }, "width"},

		{"name like a cell", name("AB12", "1"), "looks like a cell"},
		{"name like a row and column", name("R1C1", "1"), "looks like a row"},
		{"name c", name("c", "1"), "looks like a row"},
		{"name true", name("True", "1"), "truth value"},
		{"name with blank", name("a b", "1"), "letter or underscore"},
		{"name to no sheet", name("In_x", "Sheet_c!$A$1"), "Sheet_c"},
		{"name without dollars", name("In_x", "Sheet_a!A1"), "Sheet_a!$A$1"},
		{"names but for capitals", func(b *xlsx.Book, s *xlsx.Sheet) {
			b.Names = []xlsx.Name{{Name: "In_x", Ref: "1"}}
			s.SetAt("D5", xlsx.Cell{Value: 1, Name: "IN_X"})
		}, "given twice"},

		{"merges overlap", func(_ *xlsx.Book, s *xlsx.Sheet) { s.Merges = []string{"D1:E2", "E2:F3"} }, "overlap"},
		{"merge hides", func(_ *xlsx.Book, s *xlsx.Sheet) { s.Merges = []string{"A1:B1"} }, "hides the content of B1"},
		{"merge over grid", func(_ *xlsx.Book, s *xlsx.Sheet) { s.Merges = []string{"A11:B11"} }, "over grid"},
		{"merge of one", func(_ *xlsx.Book, s *xlsx.Sheet) { s.Merges = []string{"A1"} }, "not a range"},

		{"two filters", func(_ *xlsx.Book, s *xlsx.Sheet) {
			s.Grids[0].Filter = true
			s.Grids = append(s.Grids, &xlsx.Grid{Name: "Other", Row: 12, Col: 6, Rows: 1, Filter: true, Columns: s.Grids[0].Columns[:1]})
		}, "2 filters"},

		{"grid key twice", func(_ *xlsx.Book, s *xlsx.Sheet) { s.Grids[0].Columns[1].Key = "x" }, "given twice"},
		{"grid name twice", func(b *xlsx.Book, s *xlsx.Sheet) {
			b.Sheets[1].Grids = []*xlsx.Grid{{Name: "sheet_A", Row: 1, Col: 1, Columns: s.Grids[0].Columns[:1]}}
		}, "two grids"},
		{"grids overlap", func(_ *xlsx.Book, s *xlsx.Sheet) {
			s.Grids = append(s.Grids, &xlsx.Grid{Name: "Other", Row: 14, Col: 2, Rows: 1, Columns: s.Grids[0].Columns[:1]})
		}, "overlap"},
		{"grid headers uneven", func(_ *xlsx.Book, s *xlsx.Sheet) { s.Grids[0].Columns[1].Header = nil }, "0 header cells"},
		{"grid without values", func(_ *xlsx.Book, s *xlsx.Sheet) { s.Grids[0].Columns[1].Value = nil }, "no values to cache"},
		{"grid headers above the sheet", func(_ *xlsx.Book, s *xlsx.Sheet) { s.Grids[0].Row = 1 }, "header rows above row 1"},
		{"grid refers to itself", func(_ *xlsx.Book, s *xlsx.Sheet) { s.Grids[0].Columns[1].Formula = "[y]+1" }, "its own cell"},

		{"choices too long", rule(xlsx.Validation{Range: "D1", List: []string{strings.Repeat("x", 256)}}), "255"},
		{"choice with comma", rule(xlsx.Validation{Range: "D1", List: []string{"a,b"}}), "comma"},
		{"two rules", rule(xlsx.Validation{Range: "D1", List: []string{"a"}, Formula: "TRUE"}), "2 rules"},
		{"limits", rule(xlsx.Validation{Range: "D1", Whole: &xlsx.Limits{Min: 2, Max: 1}}), "limits"},
		{"long title", rule(xlsx.Validation{Range: "D1", Formula: "TRUE", ErrorTitle: strings.Repeat("x", 33)}), "32"},
		{"validation of nothing", rule(xlsx.Validation{Range: "D", Formula: "TRUE"}), "not a range"},
		{"validation formula", rule(xlsx.Validation{Range: "D1", Formula: "=A1>0"}), "begins with '='"},
		{"format without rule", format(xlsx.CondFormat{Range: "D1"}), "0 rules"},
		{"scale of one", format(xlsx.CondFormat{Range: "D1", Scale: []xlsx.Stop{{Kind: xlsx.AtMin, Color: "FFFFFF"}}}), "two or three"},
		{"comparison", format(xlsx.CondFormat{Range: "D1", Is: &xlsx.Comparison{Op: "=>", Value: "1"}}), "=>"},
		{"comparison with nothing", format(xlsx.CondFormat{Range: "D1", Is: &xlsx.Comparison{Op: "="}}), "is empty"},
		{"format formula", format(xlsx.CondFormat{Range: "D1", When: "In_x>1"}), "In_x"},

		{"chart to no sheet", charted(func(c *chart.Chart) { c.Series[0].Y = "Sheet_c!$A$1" }), "Sheet_c"},
		{"chart of a block", charted(func(c *chart.Chart) { c.Series[0].Y = "Sheet_a!$A$1:$B$3" }), "neither one row nor one column"},
		{"chart without sheet", charted(func(c *chart.Chart) { c.Series[0].Y = "$B$2:$B$3" }), "with a sheet"},
		{"chart of unequal lengths", charted(func(c *chart.Chart) { c.Series[0].X = "Sheet_a!$A$1:$A$3" }), "3 x for 2 y"},
		{"chart without alternative", charted(func(c *chart.Chart) { c.Alt = "" }), "alternative text"},
		{"chart of mixed kinds", charted(func(c *chart.Chart) { c.Series[0].Kind = chart.Scatter }), "combined"},
		{"chart axis", charted(func(c *chart.Chart) { c.Y.Min, c.Y.Max = new(2.0), new(1.0) }), "axis from 2 to 1"},
		{"image", func(_ *xlsx.Book, s *xlsx.Sheet) {
			s.Images = []xlsx.Image{{Row: 1, Col: 1, Alt: "x", Data: []byte("GIF89a")}}
		}, "PNG or JPEG"},
		{"print area", func(_ *xlsx.Book, s *xlsx.Sheet) { s.Print.Area = "A" }, "print area"},
		{"margin", func(_ *xlsx.Book, s *xlsx.Sheet) { s.Print.Margins.Left = -1 }, "margin"},
	} {
		t.Run(c.name, func(t *testing.T) {
			b, s := small()
			c.plant(b, s)
			var out bytes.Buffer
			err := b.Write(&out)
			assert.ErrorContains(t, err, c.want)
			assert.Zero(t, out.Len(), "bytes written in spite of a fault")
			if err != nil {
				assert.True(t, strings.HasPrefix(err.Error(), "xlsx: "), err)
			}
		})
	}
}

// Faults that only the values show stop the writing and name the cell.
func TestFaultsInGridRows(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(*xlsx.GridColumn)
		want   string
	}{
		{"NaN", func(g *xlsx.GridColumn) { g.Value = func(i int) any { return math.NaN() } }, "xlsx: Sheet_a!B12 (column y, row 0 of the data): NaN"},
		{"later row", func(g *xlsx.GridColumn) {
			g.Value = func(i int) any { return []any{1.0, 2.0, math.Inf(1)}[i] }
		}, "Sheet_a!B14"},
		{"above the first row", func(g *xlsx.GridColumn) { g.Formula = "[y@-1]+1" }, "Sheet_a!B12"},
		{"formula of a row", func(g *xlsx.GridColumn) { g.FormulaAt = func(int) string { return "[z]" } }, `no column "z"`},
		{"kind", func(g *xlsx.GridColumn) { g.Value = func(int) any { return struct{}{} } }, "cannot hold"},
	} {
		t.Run(c.name, func(t *testing.T) {
			b, s := small()
			c.change(&s.Grids[0].Columns[1])
			assert.ErrorContains(t, b.Write(io.Discard), c.want)
		})
	}
}

func TestManyFaultsAtOnce(t *testing.T) {
	b, s := small()
	for i := range 30 {
		s.Set(20+i, 1, xlsx.Cell{Value: math.NaN()})
	}
	err := b.Check()
	assert.ErrorContains(t, err, "Sheet_a!A20")
	assert.ErrorContains(t, err, "and 10 more faults")
}
