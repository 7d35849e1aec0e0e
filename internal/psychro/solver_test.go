package psychro

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Derivatives written by hand against central differences.

func TestCurveDerivatives(t *testing.T) {
	for _, c := range []*VapourCurve{&OverIce, &OverWater} {
		for k := 200.0; k <= 360; k += 8 {
			const d = 1e-3
			assert.InEpsilon(t, (c.ln(k+d)-c.ln(k-d))/(2*d), c.slope(k), 1e-8, "slope at %v K", k)
			assert.InEpsilon(t, (c.slope(k+d)-c.slope(k-d))/(2*d), c.curvature(k), 1e-7, "curvature at %v K", k)
		}
	}
}

func TestBalanceDerivatives(t *testing.T) {
	for _, k := range []*Wick{&WaterWick, &IceWick} {
		for _, a := range states() {
			x := a.T - 3
			if (k == &IceWick) != (x < 0) || math.Abs(x) < 0.1 {
				continue
			}
			const d = 1e-3
			above, above1, _ := a.balance(k, x+d)
			below, below1, _ := a.balance(k, x-d)
			_, g1, g2 := a.balance(k, x)
			assert.InEpsilon(t, (above-below)/(2*d), g1, 1e-6, "%+v at %v °C", a, x)
			assert.InEpsilon(t, (above1-below1)/(2*d), g2, 1e-5, "%+v at %v °C", a, x)
		}
	}
}

// A wet bulb above the boiling point is none: the balance says "too warm".
func TestBalanceAboveBoiling(t *testing.T) {
	g, _, _ := Air{T: 95, W: 0.1, P: 60000}.balance(&WaterWick, 90)
	assert.True(t, math.IsInf(g, 1))
}

// What wetBulbStart is for: the depression below the dry bulb right to 28 %
// anywhere weather goes (27 % measured, in the hottest, driest and thinnest
// air), so that two or three steps end it.
func TestWetBulbStart(t *testing.T) {
	for _, a := range states() {
		ps, slope, err := a.check()
		require.NoError(t, err)
		want, err := a.WetBulb()
		require.NoError(t, err)
		got := a.wetBulbStart(wickAt(want), ps, slope)
		assert.InDelta(t, want, got, 0.28*(a.T-want), "%+v", a)
	}
}

// states are airs of -40 to 52 °C, 2 to 98 % and 60 to 105 kPa.
func states() []Air {
	var out []Air
	for t := -40.0; t <= 52; t += 4 {
		for rh := 0.02; rh < 1; rh += 0.12 {
			for p := 60e3; p <= 105e3; p += 15e3 {
				e := rh * SaturationPressure(t)
				out = append(out, Air{T: t, W: MassRatio * e / (p - e), P: p})
			}
		}
	}
	return out
}
