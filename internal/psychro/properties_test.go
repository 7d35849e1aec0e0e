package psychro_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/internal/psychro"
)

// forEachState visits a grid of weather and of a little beyond it.
func forEachState(visit func(a psychro.Air, rh float64)) {
	for _, p := range []float64{55e3, 70e3, 84307, 95e3, 101325, 108e3} {
		for tdb := -40.0; tdb <= 60; tdb += 1.25 {
			for _, rh := range []float64{0, 0.001, 0.01, 0.05, 0.1, 0.25, 0.4, 0.55, 0.7, 0.85, 0.95, 0.999, 1} {
				a, err := psychro.FromRelHum(tdb, rh, p)
				if err != nil {
					panic(err)
				}
				visit(a, rh)
			}
		}
	}
}

func TestOrder(t *testing.T) {
	forEachState(func(a psychro.Air, rh float64) {
		wet, err := a.WetBulb()
		require.NoError(t, err)
		require.LessOrEqual(t, wet, a.T, "%+v", a)
		if rh == 0 {
			return
		}
		dew, err := a.DewPoint()
		require.NoError(t, err)
		require.LessOrEqual(t, dew, wet+1e-10, "%+v", a)
	})
}

func TestRoundTrips(t *testing.T) {
	forEachState(func(a psychro.Air, rh float64) {
		require.InDelta(t, rh, a.RelHum(), 1e-13)
		wet, err := a.WetBulb()
		require.NoError(t, err)
		back, err := psychro.FromWetBulb(a.T, wet, a.P)
		require.NoError(t, err)
		require.InDelta(t, a.W, back.W, 1e-12, "wet bulb of %+v", a)
		if rh == 0 {
			return
		}
		dew, err := a.DewPoint()
		require.NoError(t, err)
		back, err = psychro.FromDewPoint(a.T, dew, a.P)
		require.NoError(t, err)
		require.InEpsilon(t, a.W, back.W, 1e-11, "dew point of %+v", a)
		require.InEpsilon(t, a.VapourPressure(), psychro.SaturationPressure(dew), 1e-11)
	})
}

// Saturated air: wet bulb and dew point are the dry bulb, also when W came
// back an ulp or a rounded relative humidity above saturation.
func TestSaturated(t *testing.T) {
	for _, tdb := range []float64{-40, -0.005, 0, 0.005, 0.01, 0.02, 5, 25, 60} {
		ws, err := psychro.SaturationHumidityRatio(tdb, 90e3)
		require.NoError(t, err)
		for _, w := range []float64{math.Nextafter(ws, 0), ws, math.Nextafter(ws, 1), ws * 1.005} {
			a := psychro.Air{T: tdb, W: w, P: 90e3}
			wet, err := a.WetBulb()
			require.NoError(t, err)
			require.InDelta(t, tdb, wet, 1e-10)
			dew, err := a.DewPoint()
			require.NoError(t, err)
			require.InDelta(t, tdb, dew, 1e-10)
			water, ice, err := a.WetBulbRoots()
			require.NoError(t, err)
			require.True(t, water == wet || ice == wet)
		}
		a, err := psychro.FromRelHum(tdb, 1+psychro.FogTolerance, 90e3)
		require.NoError(t, err)
		require.InEpsilon(t, ws, a.W, 1e-15, "capped at saturation")
	}
}

func TestMonotonic(t *testing.T) {
	for tdb := -20.0; tdb <= 55; tdb += 2.5 {
		for _, p := range []float64{60e3, 80e3, 101325} {
			previous := math.Inf(-1)
			for rh := 0.0; rh <= 1; rh += 1.0 / 64 {
				wet := wetBulb(t, tdb, rh, p)
				require.Greater(t, wet, previous, "wet bulb rises with humidity: %g °C, %g, %g Pa", tdb, rh, p)
				previous = wet
			}
		}
		// With pressure the wet bulb of unsaturated air rises as well, but
		// for the jump from ice to water, which is upward too.
		for _, rh := range []float64{0, 0.1, 0.5, 0.9} {
			previous := math.Inf(-1)
			for p := 55e3; p <= 108e3; p += 1e3 {
				wet := wetBulb(t, tdb, rh, p)
				require.Greater(t, wet, previous, "wet bulb rises with pressure: %g °C, %g, %g Pa", tdb, rh, p)
				previous = wet
			}
		}
	}
}

func wetBulb(t *testing.T, tdb, rh, p float64) float64 {
	t.Helper()
	a, err := psychro.FromRelHum(tdb, rh, p)
	require.NoError(t, err)
	wet, err := a.WetBulb()
	require.NoError(t, err)
	return wet
}

// The vapour pressure is continuous at 0 °C and, to 1e-5 Pa, where ice gives
// way to water (testdata/psychro/README.md: 3.5e-6 Pa); so is its inverse.
func TestContinuity(t *testing.T) {
	const d = 1e-9
	for at, jump := range map[float64]float64{0: 1e-6, psychro.TriplePoint: 1e-5} {
		below, above := psychro.SaturationPressure(at-d), psychro.SaturationPressure(at+d)
		require.InDelta(t, below, above, jump)
		for _, x := range []float64{at - d, at, at + d} {
			back, err := psychro.DewPointOf(psychro.SaturationPressure(x))
			require.NoError(t, err)
			require.InDelta(t, x, back, 1e-7)
		}
	}
	for _, rh := range []float64{0.2, 0.8, 1} { // dry bulb through both points
		for _, at := range []float64{0, psychro.TriplePoint} {
			require.InDelta(t, wetBulb(t, at-d, rh, 101325), wetBulb(t, at+d, rh, 101325), 1e-7)
		}
	}
}

func TestSaturationPressureSlope(t *testing.T) {
	const d = 1e-4
	for _, x := range []float64{-90, -40, -10, -1, 1, 20, 60, 150} {
		ps, slope := psychro.SaturationPressureSlope(x)
		require.Equal(t, psychro.SaturationPressure(x), ps)
		central := (psychro.SaturationPressure(x+d) - psychro.SaturationPressure(x-d)) / (2 * d)
		require.InEpsilon(t, central, slope, 1e-7)
	}
	for _, x := range []float64{math.NaN(), math.Inf(1), -100.1, 200.1} {
		ps, slope := psychro.SaturationPressureSlope(x)
		require.True(t, math.IsNaN(ps) && math.IsNaN(slope))
		require.True(t, math.IsNaN(psychro.SaturationPressure(x)))
	}
}

// Moist density from the gas law of both parts: eqs. 11 and 26 against
// p = rho R T with the humidity's own gas constant (R of water from eq. 2).
func TestDensityFromPartialPressures(t *testing.T) {
	forEachState(func(a psychro.Air, _ float64) {
		e, k := a.VapourPressure(), a.T+273.15
		want := (a.P-e)/(287.042*k) + e/(461.524*k)
		require.InEpsilon(t, want, a.Density(), 1e-6)
	})
}

func TestSpecificHeatIsSlopeOfEnthalpy(t *testing.T) {
	a := psychro.Air{T: 30, W: 0.01, P: 101325}
	warmer := psychro.Air{T: 31, W: 0.01, P: 101325}
	require.InDelta(t, warmer.Enthalpy()-a.Enthalpy(), a.SpecificHeat(), 1e-8)
	require.InDelta(t, 1024.6, a.SpecificHeat(), 1e-9)
}
