package xlsx_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"github.com/evapbook/evapbook/internal/xlsx"
)

// A shared formula stands in the first row that has one, with the range that
// shares it; blank rows and formulas that leave the sheet do not share.
func TestSharedFormulas(t *testing.T) {
	b := &xlsx.Book{}
	other := b.AddSheet("Other")
	other.Grids = []*xlsx.Grid{{Row: 1, Col: 1, Rows: 4, Columns: []xlsx.GridColumn{
		{Key: "k", Value: func(i int) any { return float64(i) }},
	}}}
	s := b.AddSheet("Data")
	s.Grids = []*xlsx.Grid{{Row: 2, Col: 1, Rows: 4, Shared: true, Columns: []xlsx.GridColumn{
		{Key: "a", Value: func(i int) any { return float64(i) }},
		{Key: "b", Formula: "2*[a]", Value: func(i int) any { return 2 * float64(i) }, Blank: func(i int) bool { return i == 0 }},
		{Key: "c", Formula: "[Other.k]+1", Value: func(i int) any { return float64(i) + 1 }},
	}}}
	cells := cellsOf(t, parts(t, b)["xl/worksheets/sheet2.xml"])
	first := cells["B3"].one(t, "f")
	assert.Equal(t, "2*A3", first.Text)
	assert.Equal(t, []string{"shared", "B3:B5", "0"}, []string{first.attr("t"), first.attr("ref"), first.attr("si")})
	second := cells["B4"].one(t, "f")
	assert.Equal(t, []string{"shared", "", "0", ""}, []string{second.attr("t"), second.attr("ref"), second.attr("si"), second.Text})
	assert.Nil(t, cells["B2"])
	assert.Equal(t, "Other!A2+1", cells["C3"].one(t, "f").Text)
	assert.Empty(t, cells["C3"].one(t, "f").attr("t"))
}

// shared is a grid whose columns share their formulas where that is sound.
func shared() *xlsx.Book {
	b := &xlsx.Book{}
	s := b.AddSheet("Hours")
	s.SetAt("A1", xlsx.Cell{Value: 3, Name: "K_three"})
	v := func(i int) any { return float64(i) }
	s.Grids = []*xlsx.Grid{{Row: 5, Col: 1, Rows: 4, Shared: true, Columns: []xlsx.GridColumn{
		{Key: "n", Value: v},
		{Key: "plain", Formula: "[n]*K_three/3", Value: v, Blank: func(i int) bool { return i == 0 }},
		{Key: "loose", Formula: "[n]*A1/3", Value: v},
		{Key: "fixed", Formula: "[n]*$A$1/3", Value: v},
		{Key: "halffixed", Formula: "[n]*$A1/3", Value: v},
		{Key: "column", Formula: "[n]*A$1/3", Value: v},
		{Key: "other", Formula: "[n]*Other!$A$1/3", Value: v},
		{Key: "texts", Formula: `[n]+IF("A1"="",1,0)+LOG10(1)`, Value: v},
		{Key: "whole", Formula: "[n]+SUM([n#0:1])-1", Value: v},
	}}}
	b.AddSheet("Other").SetAt("A1", xlsx.Cell{Value: 3})
	return b
}

// A formula is shared only where filling down makes the same of it as writing it
// out: a reference without a dollar sign before its row stays put when written
// out and moves when shared.
func TestWhatIsShared(t *testing.T) {
	cells := cellsOf(t, parts(t, shared())["xl/worksheets/sheet1.xml"])
	for _, c := range []struct{ column, first, formula, ref string }{
		{"B", "B6", "A6*K_three/3", "B6:B8"}, // the first row is blank
		{"D", "D5", "A5*$A$1/3", "D5:D8"},
		{"F", "F5", "A5*A$1/3", "F5:F8"},
		{"H", "H5", `A5+IF("A1"="",1,0)+LOG10(1)`, "H5:H8"},
		{"I", "I5", "A5+SUM($A$5:$A$6)-1", "I5:I8"},
	} {
		f := cells[c.first].one(t, "f")
		assert.Equal(t, c.formula, f.Text)
		assert.Equal(t, c.ref, f.attr("ref"))
		last := cells[c.column+"8"].one(t, "f")
		assert.Equal(t, "shared", last.attr("t"), c.column)
		assert.Empty(t, last.Text)
		assert.Equal(t, f.attr("si"), last.attr("si"))
	}
	for cell, formula := range map[string]string{"C8": "A8*A1/3", "E8": "A8*$A1/3", "G8": "A8*Other!$A$1/3"} {
		assert.Equal(t, formula, cells[cell].one(t, "f").Text, "written out")
		assert.Empty(t, cells[cell].one(t, "f").attr("t"))
	}
}

// LibreOffice reads the shared formulas as what is cached beside them.
func TestSharedFormulasInLibreOffice(t *testing.T) {
	if testing.Short() {
		t.Skip("SKIPPED: starts LibreOffice; run without -short")
	}
	compareWithOffice(t, shared(), 28)
}
