package psychro

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A wet bulb read as exactly 0 °C, as files of whole degrees have it thousands
// of times, comes back as 0 °C whatever the dry bulb, the pressure and the way
// the last digit of the humidity ratio fell: on a wet wick, not up to 0.9 K
// lower on an iced one.
func TestWetBulbOfZeroStaysZero(t *testing.T) {
	for dry := 0.0; dry <= 9; dry += 0.25 {
		for p := 70e3; p < 105e3; p += 517 {
			a, err := FromWetBulb(dry, 0, p)
			require.NoError(t, err)
			for _, w := range []float64{a.W, math.Nextafter(a.W, 0), math.Nextafter(a.W, 1), a.W - 1e-15} {
				b := Air{T: dry, W: w, P: p}
				got, err := b.WetBulb()
				if b.RelHum() > 1 {
					continue // the next number above saturation
				}
				require.NoError(t, err)
				require.InDelta(t, 0, got, 2*FreezingMargin, "dry bulb %g, %g Pa, humidity ratio %v", dry, p, w)
			}
		}
	}
}

// A wet bulb that was solved, and so may miss 0 °C by some 1e-12 K on either
// side, gives the humidity ratio of the wet wick.
func TestSolvedWetBulbNearZero(t *testing.T) {
	exact, err := FromWetBulb(6, 0, 85e3)
	require.NoError(t, err)
	for _, off := range []float64{-1e-10, -1e-12, 1e-12, 1e-10} {
		a, err := FromWetBulb(6, off, 85e3)
		require.NoError(t, err)
		assert.InDelta(t, exact.W, a.W, 1e-12, "%g K off", off)
	}
	ice, err := FromWetBulb(6, -1e-6, 85e3)
	require.NoError(t, err)
	assert.Greater(t, math.Abs(ice.W-exact.W), 1e-5, "beyond the margin the wick is ice")
}

// Saturated air has its own temperature as wet bulb, on the wick that its
// temperature gives it: ice below 0 °C, water from there on.
func TestRootsOfSaturatedAir(t *testing.T) {
	for _, at := range []float64{-5, 0, 5} {
		a, err := FromRelHum(at, 1, 90000)
		require.NoError(t, err)
		water, ice, err := a.WetBulbRoots()
		require.NoError(t, err)
		if at < 0 {
			assert.Equal(t, at, ice)
			assert.True(t, math.IsNaN(water), "%g °C on water: %g", at, water)
			continue
		}
		assert.Equal(t, at, water)
		assert.True(t, math.IsNaN(ice), "%g °C on ice: %g", at, ice)
	}
}

// Saturation over ice and over water differ a little at the triple point. Air
// whose balance changes its sign in that gap has the triple point as wet bulb;
// steps from either side lead to the other for ever.
func TestWetBulbInTheGapAtTheTriplePoint(t *testing.T) {
	found := 0
	for _, dry := range []float64{0.5, 3.046857298217917, 20, 45} {
		for p := 60e3; p < 105e3; p += 1013 {
			ice, water := math.Exp(OverIce.ln(TriplePoint+ZeroCelsius)), math.Exp(OverWater.ln(TriplePoint+ZeroCelsius))
			for i := range 21 {
				between := ice + (water-ice)*float64(i)/20
				w := WaterWick.HumidityRatio(dry, TriplePoint, MassRatio*between/(p-between))
				if w < 0 {
					continue // no air is so dry
				}
				a := Air{T: dry, W: w, P: p}
				wet, err := a.WetBulb()
				require.NoError(t, err, "%g °C, %g Pa, %d", dry, p, i)
				assert.InDelta(t, TriplePoint, wet, 1e-6, "%g °C, %g Pa, %d", dry, p, i)
				found++
			}
		}
	}
	assert.Greater(t, found, 1800)

	// Met in Albuquerque's year, 400 m below its station, behind an indirect stage.
	wet, err := Air{T: 3.046857298217917, W: 0.0042954048725568775, P: 69444.73272618724}.WetBulb()
	require.NoError(t, err)
	assert.InDelta(t, TriplePoint, wet, 1e-6)
}
