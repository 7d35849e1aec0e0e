package workbook

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// A sheet that does not follow the inputs says so, and one that does has no
// such line: what the list of sheets says is what stands on them.
func TestSheetsSayWhetherTheyFollow(t *testing.T) {
	c := bookKinds[0].compute(t, fourWeeks)
	b := readBook(t, writeBook(t, c))
	for _, s := range sheets(c) {
		warns := false
		for _, cell := range b.Sheet(s.title()).Cells {
			warns = warns || cell.HasFormula && s.key != "Inputs" && strings.Contains(cell.Formula, "B_inputs_changed")
		}
		assert.Equal(t, s.follows != live, warns, s.key)
	}
}
