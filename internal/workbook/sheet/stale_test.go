package sheet_test

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/internal/evaluator"
	"github.com/evapbook/evapbook/internal/workbook/sheet"
	"github.com/evapbook/evapbook/internal/xlsx"
)

// A line over figures that do not follow warns from the first changed input on,
// in its words and in its look, and before that in neither.
func TestStaleLinesWarn(t *testing.T) {
	for name, write := range map[string]func(*sheet.Page){
		"computed": func(p *sheet.Page) { p.ComputedAtWriting(6) },
		"picked":   func(p *sheet.Page) { p.PickedAtWriting("Hours picked.", 6, 1) },
	} {
		b := &xlsx.Book{}
		p := sheet.Page{Sheet: b.AddSheet("S"), Row: 3}
		write(&p)
		require.Len(t, p.Conditional, 1)
		p.SetAt("A1", xlsx.Cell{Value: 0, Name: "B_inputs_changed"})
		p.SetAt("A2", xlsx.Cell{Value: false, Formula: p.Conditional[0].When})
		path := filepath.Join(t.TempDir(), "book.xlsx")
		f, err := os.Create(path)
		require.NoError(t, err)
		require.NoError(t, b.Write(f))
		require.NoError(t, f.Close())
		w, err := evaluator.Open(path)
		require.NoError(t, err)
		line := func(changed int) (words, look any) {
			require.NoError(t, w.Set(map[string]any{"B_inputs_changed": changed}))
			require.NoError(t, w.Recalculate())
			cells, err := w.Range("S!A2:A3")
			require.NoError(t, err)
			return cells[1][0], cells[0][0]
		}
		quiet, look := line(0)
		assert.Equal(t, false, look, name)
		for changed := 1; changed <= 2; changed++ {
			words, look := line(changed)
			assert.NotEqual(t, quiet, words, "%s, %d changed", name, changed)
			assert.Equal(t, true, look, "%s, %d changed", name, changed)
		}
	}
}
