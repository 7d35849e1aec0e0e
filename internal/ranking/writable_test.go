package ranking

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// A site is left out with its reason when one of its values cannot stand in a
// cell, and only then.
func TestWritable(t *testing.T) {
	nan := math.NaN()
	sound := Row{File: "é — 東.csv", Site: strings.Repeat("x", longestCell), Kind: "direct"}
	assert.NoError(t, writable([]Row{sound, {}}))
	for _, c := range []struct {
		spoil func(*Row)
		want  string
	}{
		{func(r *Row) { r.Elevation = math.Inf(1) }, "elevation_m cannot be written: +Inf is not a number"},
		{func(r *Row) { r.Held = &nan }, "cannot be written: NaN is not a number"},
		{func(r *Row) { r.File = "a\xffb" }, "file cannot be written: the text is not UTF-8"},
		{func(r *Row) { r.Site = "a\x1b[2Jb" }, "site cannot be written: the text has control characters"},
		{func(r *Row) { r.Site = "a\uffff" }, "site cannot be written: the text has control characters"},
		{func(r *Row) { r.Site += "x" }, "site cannot be written: the text has 32768 bytes"},
	} {
		row := sound
		c.spoil(&row)
		assert.ErrorContains(t, writable([]Row{sound, row}), c.want)
	}
}
