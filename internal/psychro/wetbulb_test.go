package psychro_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/internal/psychro"
)

// wetBulbRatio is eq. 33 or 35 as printed, in kJ, written here a second
// time so that the solver is not measured by its own balance.
// Source: ASHRAE Fundamentals 2017 ch. 1 eqs. 21, 33 and 35.
func wetBulbRatio(t, x, p float64) float64 {
	ps := psychro.SaturationPressure(x)
	if ps >= p {
		return math.Inf(1)
	}
	ws := 0.621945 * ps / (p - ps)
	if x >= 0 {
		return ((2501-2.326*x)*ws - 1.006*(t-x)) / (2501 + 1.86*t - 4.186*x)
	}
	return ((2830-0.24*x)*ws - 1.006*(t-x)) / (2830 + 1.86*t - 2.1*x)
}

// bisect halves until the bracket no longer shrinks. The wick follows the
// rule of Air.WetBulb.
func bisect(a psychro.Air) float64 {
	low, high := psychro.MinTemperature, a.T
	if a.T >= 0 {
		if a.W >= wetBulbRatio(a.T, 0, a.P) {
			low = 0
		} else {
			high = math.Nextafter(0, -1)
		}
	}
	for {
		mid := (low + high) / 2
		if mid == low || mid == high {
			return mid
		}
		if wetBulbRatio(a.T, mid, a.P) > a.W {
			high = mid
		} else {
			low = mid
		}
	}
}

// Every state of a dense grid converges and equals the bisection. The bound
// is that of rounding in W: 1e-16 of ~1 in the heat balance, over its slope.
func TestWetBulbSweep(t *testing.T) {
	stepT, stepRH := 0.5, 1
	if testing.Short() {
		stepT, stepRH = 2.5, 5
	}
	worst := 0.0
	for p := 55e3; p <= 108e3; p += 5300 {
		for tdb := -40.0; tdb <= 60; tdb += stepT {
			for rh := 0; rh <= 100; rh += stepRH {
				a, err := psychro.FromRelHum(tdb, float64(rh)/100, p)
				require.NoError(t, err)
				got, err := a.WetBulb()
				require.NoError(t, err)
				d := math.Abs(got - bisect(a))
				if !(d <= 1e-10) {
					t.Fatalf("%g °C, %d %%, %g Pa: wet bulb %.13g, bisection %.13g", tdb, rh, p, got, bisect(a))
				}
				worst = max(worst, d)
			}
		}
	}
	t.Logf("largest difference from bisection %.2g K", worst)
}

// The whole range of the package, boiling included: dry bulbs to 200 °C,
// where the wet bulb stays below the boiling point of the pressure.
func TestWetBulbWideRange(t *testing.T) {
	for _, p := range []float64{psychro.MinPressure, 30e3, 101325, 500e3, psychro.MaxPressure} {
		boiling, err := psychro.DewPointOf(p)
		require.NoError(t, err)
		for tdb := -100.0; tdb <= 200; tdb += 2.5 {
			for _, w := range []float64{0, 1e-6, 1e-4, 0.001, 0.01, 0.1, 1, 10} {
				a, err := psychro.FromHumidityRatio(tdb, w, p)
				if err != nil {
					require.ErrorIs(t, err, psychro.ErrSupersaturated)
					continue
				}
				got, err := a.WetBulb()
				require.NoError(t, err, "%+v", a)
				require.LessOrEqual(t, got, tdb)
				require.Less(t, got, boiling)
				if got > psychro.MinTemperature {
					require.InDelta(t, bisect(a), got, 1e-9, "%+v", a)
				}
			}
		}
	}
}

// The package's own equation holds at the solution to 1e-12 in W.
func TestWetBulbResidual(t *testing.T) {
	forEachState(func(a psychro.Air, _ float64) {
		wet, err := a.WetBulb()
		require.NoError(t, err)
		require.InDelta(t, a.W, wetBulbRatio(a.T, wet, a.P), 1e-12, "%+v", a)
	})
}

// PsychroLib issue 31 (testdata/psychro/README.md): 150 °C with W = 1 has its
// wet bulb below 100 °C, not at the dry bulb.
func TestWetBulbAboveBoiling(t *testing.T) {
	a, err := psychro.FromHumidityRatio(150, 1, 101325)
	require.NoError(t, err)
	wet, err := a.WetBulb()
	require.NoError(t, err)
	require.InDelta(t, bisect(a), wet, 1e-9)
	require.Less(t, wet, 90.0)
	_, err = psychro.FromRelHum(101, 1, 101325)
	require.ErrorIs(t, err, psychro.ErrBoiling)
}

// As air of 8 °C gets moister its wet bulb climbs on the ice wick; by the rule
// the water wick takes over as soon as it can, at exactly 0 °C.
func TestWickRuleAtFreezing(t *testing.T) {
	const p = 101325
	threshold := wetBulbRatio(8, 0, p)
	for _, tc := range []struct {
		name string
		w    float64
		ice  bool
	}{
		{"just enough vapour for water", threshold * (1 + 1e-9), false},
		{"within the margin", threshold - psychro.FreezingRatioMargin/2, false},
		{"just too little", threshold - 2*psychro.FreezingRatioMargin, true},
	} {
		t.Run(tc.name, func(t *testing.T) {
			wet, err := psychro.Air{T: 8, W: tc.w, P: p}.WetBulb()
			require.NoError(t, err)
			require.Equal(t, tc.ice, wet < 0, "wet bulb %g", wet)
			_, ice, err := psychro.Air{T: 8, W: tc.w, P: p}.WetBulbRoots()
			require.NoError(t, err)
			require.Less(t, ice, 0.0, "the ice root exists on both sides")
		})
	}
}

func BenchmarkWetBulb(b *testing.B) {
	b.ReportAllocs()
	type input struct{ t, rh, p float64 }
	states := make([]input, 1024)
	for i := range states { // a lattice over -40..60 °C, 1..100 %, 55..108 kPa
		f := func(step float64) float64 { _, r := math.Modf(float64(i) * step); return r }
		states[i] = input{-40 + 100*f(0.61803398875), 0.01 + 0.99*f(0.41421356237), 55e3 + 53e3*f(0.73205080757)}
	}
	sum := 0.0
	for i := 0; b.Loop(); i++ {
		s := states[i%len(states)]
		a, err := psychro.FromRelHum(s.t, s.rh, s.p)
		if err != nil {
			b.Fatal(err)
		}
		x, err := a.WetBulb()
		if err != nil {
			b.Fatal(err)
		}
		sum += x
	}
	if math.IsNaN(sum) {
		b.Fatal("NaN")
	}
}

func FuzzWetBulb(f *testing.F) {
	f.Add(40.0, 0.14, 101325.0)
	f.Add(0.0, 1.0, 101325.0)
	f.Add(0.01, 0.999999, 55000.0)
	f.Add(10.0, 0.05, 95460.8)
	f.Add(150.0, 0.2, 101325.0)
	f.Add(-100.0, 0.0, 10000.0)
	f.Add(math.NaN(), math.Inf(1), 0.0)
	f.Fuzz(func(t *testing.T, tdb, rh, p float64) {
		a, err := psychro.FromRelHum(tdb, rh, p)
		if err != nil {
			require.NotEmpty(t, err.Error())
			return
		}
		wet, err := a.WetBulb()
		require.NoError(t, err, "%+v", a)
		require.LessOrEqual(t, wet, a.T)
		if wet > psychro.MinTemperature {
			require.InDelta(t, bisect(a), wet, 1e-9, "%+v", a)
		}
		if dew, err := a.DewPoint(); err == nil {
			require.LessOrEqual(t, dew, wet+1e-9)
		}
	})
}
