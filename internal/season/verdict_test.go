package season

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// The marks of the verdict, each reached exactly and missed by one hour, of a
// wet need of 1,000 hours: docs/model.md, Verdict. They are our own.
func TestVerdictAtItsMarks(t *testing.T) {
	for _, c := range []struct {
		evap, moving int // hours held with water, and others comfortable in moving air
		want         Verdict
	}{
		{800, 150, GoodFit},
		{799, 151, FitInPart},
		{800, 149, FitInPart},
		{1000, 0, GoodFit},
		{500, 200, FitInPart},
		{0, 700, FitInPart},
		{500, 199, PoorFit},
		{0, 0, PoorFit},
	} {
		total := Totals{Sums: Sums{Moving: c.moving}}
		total.Hours[Vent], total.Hours[Evap], total.Hours[Warm] = 2000, c.evap, 1000-c.evap
		assert.Equal(t, c.want, total.Verdict(), "%d held, %d in moving air", c.evap, c.moving)
	}
	for need, want := range map[int]Verdict{0: HardlyNeeded, 149: HardlyNeeded, 150: PoorFit} {
		total := Totals{}
		total.Hours[Vent], total.Hours[Damp] = 2000, need
		assert.Equal(t, want, total.Verdict(), "%d hours of wet need", need)
	}
}
