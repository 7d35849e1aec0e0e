package climate

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// Exceeded is what sorting would give.
func TestExceededIsThatOfSorting(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		values := rapid.SliceOfN(rapid.Float64Range(-60, 60), 1, 300).Draw(t, "values")
		if rapid.Bool().Draw(t, "whole degrees") { // as files have them, with many ties
			for i := range values {
				values[i] = float64(int(values[i]))
			}
		}
		k := rapid.IntRange(0, 310).Draw(t, "k")
		kept := slices.Clone(values)
		sorted := slices.Sorted(slices.Values(values))
		if got, want := Exceeded(values, k), sorted[max(0, len(sorted)-1-k)]; got != want {
			t.Fatalf("%v with %d: %g, want %g", values, k, got, want)
		}
		assert.Equal(t, kept, values, "the hours stay in order")
	})
}
