package given

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"github.com/evapbook/evapbook/internal/workbook/sheet"
	"github.com/evapbook/evapbook/internal/xlsx"
)

// The line on Inputs names every input and stays within what a cell takes.
func TestChangedNames(t *testing.T) {
	p := &sheet.Page{Sheet: &xlsx.Sheet{}, Row: 5}
	for range 200 {
		p.Set(p.Row, inChanged, xlsx.Cell{Value: ""})
		p.Row++
	}
	f := changedNames(p, 5)
	assert.Equal(t, 200, strings.Count(f, `="changed"`))
	assert.Less(t, len(f), 8192, "the longest formula")
}
