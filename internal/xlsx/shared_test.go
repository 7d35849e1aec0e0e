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
