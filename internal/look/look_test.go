package look

import (
	"math"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// luminance is the relative luminance of a colour, 0 black to 1 white.
// Source: W3C, Web Content Accessibility Guidelines 2.2, "relative luminance".
func luminance(t *testing.T, c Colour) float64 {
	t.Helper()
	var rgb [3]float64
	for i := range rgb {
		n, err := strconv.ParseUint(c[2*i:2*i+2], 16, 8)
		require.NoError(t, err, c)
		v := float64(n) / 255
		if v <= 0.04045 {
			rgb[i] = v / 12.92
		} else {
			rgb[i] = math.Pow((v+0.055)/1.055, 2.4)
		}
	}
	return 0.2126*rgb[0] + 0.7152*rgb[1] + 0.0722*rgb[2]
}

// As greys the outcomes stay in their order: the darker, the worse. The two
// that are held and the two that are not may lie close, but not across.
func TestOutcomesAsGreys(t *testing.T) {
	least := min(luminance(t, Idle), luminance(t, Vent))
	assert.Greater(t, least, luminance(t, Damp))
	assert.Greater(t, luminance(t, Damp), luminance(t, Warm))
	assert.Greater(t, luminance(t, Evap), luminance(t, Warm))
}

// Text can be read on its paper: contrast of at least 4.5 to 1, 3 to 1 for
// large text. Source: W3C, Web Content Accessibility Guidelines 2.2, 1.4.3.
func TestTextCanBeRead(t *testing.T) {
	for _, x := range []struct {
		text, on Colour
		least    float64
	}{
		{Ink, Paper, 4.5}, {Ink, Sand, 4.5}, {Ink, InputFill, 4.5}, {Ink, AlarmFill, 4.5}, {Quiet, Paper, 4.5}, {Quiet, Sand, 4.5}, {Link, Paper, 4.5},
		{Alarm, Paper, 4.5}, {Alarm, AlarmFill, 4.5}, {Paper, Leaf, 4.5}, {Paper, Warm, 4.5}, {Paper, Amber, 3},
	} {
		a, b := luminance(t, x.text), luminance(t, x.on)
		assert.GreaterOrEqual(t, (max(a, b)+0.05)/(min(a, b)+0.05), x.least, "%s on %s", x.text, x.on)
	}
}

// Colour maps run one way as greys, so that a grey print reads the same.
func TestScalesAsGreys(t *testing.T) {
	for _, scale := range [][]Colour{ScaleCool, ScaleWarm, ScaleBad} {
		for i := 1; i < len(scale); i++ {
			assert.Greater(t, luminance(t, scale[i-1]), luminance(t, scale[i]), scale)
		}
	}
}

// The numbers on a colour map can be read on every colour of it.
func TestNumbersOnScalesCanBeRead(t *testing.T) {
	for _, scale := range [][]Colour{ScaleCool, ScaleWarm, ScaleBad, ScaleGood, ScaleHeld} {
		for _, colour := range scale {
			assert.GreaterOrEqual(t, (luminance(t, colour)+0.05)/(luminance(t, Ink)+0.05), 4.5, "ink on %s", colour)
		}
	}
}
