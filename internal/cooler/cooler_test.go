package cooler_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/internal/cooler"
	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/psychro"
)

func air(t *testing.T, db, wb, p float64) psychro.Air {
	t.Helper()
	a, err := psychro.FromWetBulb(db, wb, p)
	require.NoError(t, err)
	return a
}

// Two-stage rows worked with e_i 0.60, e_d 0.85 from the definitions of
// wet-bulb effectiveness (ANSI/ASHRAE Standards 133 and 143) and the handbook
// equations by a script independent of this code. Tolerances are half the
// last digit given there.
func TestStages(t *testing.T) {
	rows := []struct {
		name             string
		db, wb, p        float64
		direct, directW  float64
		t1, wb1, t3, t3W float64
		overall          float64
	}{
		{"dry station at 1650 m", 34.9, 15.5, 83011, 18.41, 12.27, 23.26, 11.48, 13.25, 9.59, 1.116},
		{"hot desert 0.4 %", 43.4, 21.1, 97342, 24.45, 15.00, 30.02, 16.92, 18.89, 11.75, 1.099},
		{"100/65 °F at sea level", 37.78, 18.33, 101325, 21.25, 11.99, 26.11, 14.18, 15.97, 9.35, 1.121},
	}
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) {
			u := cooler.Unit{Airflow: 2, Effectiveness: 0.85, Indirect: 0.60}
			a := air(t, r.db, r.wb, r.p)

			u.Kind = job.Direct
			s, err := u.Water(a, r.wb)
			require.NoError(t, err)
			assert.InDelta(t, r.direct, s.Leaving.T, 0.006)
			assert.InDelta(t, r.directW, s.Leaving.W*1000, 0.006)

			u.Kind = job.TwoStage
			s, err = u.Water(a, r.wb)
			require.NoError(t, err)
			assert.InDelta(t, r.t1, s.T1, 0.006)
			assert.InDelta(t, r.wb1, s.WetBulb1, 0.006)
			assert.InDelta(t, r.t3, s.Leaving.T, 0.006)
			assert.InDelta(t, r.t3W, s.Leaving.W*1000, 0.006)
			assert.InDelta(t, r.overall, (r.db-s.Leaving.T)/(r.db-r.wb), 0.0006)

			u.Kind = job.Indirect
			s, err = u.Water(a, r.wb)
			require.NoError(t, err)
			assert.InDelta(t, r.t1, s.Leaving.T, 0.006)
			assert.Equal(t, a.W, s.Leaving.W)
		})
	}
}

// Published field statements of what a cooler delivers, tolerance as the
// source's own rounding and unstated pressure ask for.
func TestPublishedSupply(t *testing.T) {
	f := func(f float64) float64 { return (f - 32) / 1.8 }
	rows := []struct {
		source          string
		dbF, rh, e, p   float64
		wantF, withinF  float64
		wetBulbF, wbTol float64
	}{
		{"syndicated science column, cooler output chart", 90, 0.50, 0.725, 101325, 79, 0.5, 74.91, 0.01},
		{"the same", 90, 0.10, 0.725, 101325, 67, 0.5, 57.99, 0.01},
		{"Tucson service firm: supply = WB + 0.2 (DB - WB)", 96, 0.25, 0.80, 101325, 75, 1.3, 0, 0},
		{"the same, at best", 105, 0.40, 0.80, 101325, 88, 1.3, 0, 0},
		{"North Carolina State data: 90 °F, 20 % can reach 67 °F", 90, 0.20, 0.85, 101325, 67, 0.5, 62.80, 0.01},
		{"Kulkarni and Rajput, IJAET 2013: e 0.90", 39.9*1.8 + 32, 0.328, 0.90, 101325, 27.22*1.8 + 32, 0.02, 25.82*1.8 + 32, 0.01},
	}
	for _, r := range rows {
		t.Run(r.source, func(t *testing.T) {
			a, err := psychro.FromRelHum(f(r.dbF), r.rh, r.p)
			require.NoError(t, err)
			wb, err := a.WetBulb()
			require.NoError(t, err)
			s, err := cooler.Unit{Kind: job.Direct, Airflow: 1, Effectiveness: r.e}.Water(a, wb)
			require.NoError(t, err)
			assert.InDelta(t, r.wantF, s.Leaving.T*1.8+32, r.withinF)
			if r.wetBulbF > 0 {
				assert.InDelta(t, r.wetBulbF, wb*1.8+32, r.wbTol)
			}
		})
	}
}

// Franco et al., Trans. ASABE 2010: 1 m² of cellulose pad evaporates 1.8 to
// 2.62 kg/h per kelvin of air cooling at 1.0 to 1.5 m/s. 5 % as the spread
// between computed and published.
func TestMassBalanceAgainstLaboratory(t *testing.T) {
	for _, r := range []struct{ flow, want float64 }{{1.0, 1.8}, {1.5, 2.62}} {
		a := air(t, 35, 20, 101325)
		s, err := cooler.Unit{Kind: job.Direct, Airflow: r.flow, Effectiveness: 0.67}.Water(a, 20)
		require.NoError(t, err)
		perKelvin := 3600 * s.MassFlow * s.Evaporating / (a.T - s.Leaving.T)
		assert.InEpsilon(t, r.want, perKelvin, 0.05, "at %.1f m/s", r.flow)
	}
}

// Water taken up equals heat given up: over wetted media enthalpy changes only
// by that of the make-up water (at the wet bulb), eq. 33 of the handbook.
func TestEnthalpyBalance(t *testing.T) {
	a := air(t, 38, 19, 84000)
	s, err := cooler.Unit{Kind: job.Direct, Airflow: 2, Effectiveness: 0.8}.Water(a, 19)
	require.NoError(t, err)
	water := 4186 * 19 * (s.Leaving.W - a.W)
	assert.InDelta(t, a.Enthalpy()+water, s.Leaving.Enthalpy(), 20, "J/kg; eq. 33 rounds its coefficients to 1 J/(kg K)")
}

// Saturated air cannot be cooled further, and takes up no water.
func TestSaturatedAir(t *testing.T) {
	a, err := psychro.FromRelHum(20, 1, 95000)
	require.NoError(t, err)
	wb, err := a.WetBulb()
	require.NoError(t, err)
	for _, kind := range []job.CoolerKind{job.Direct, job.Indirect, job.TwoStage} {
		s, err := cooler.Unit{Kind: kind, Airflow: 2, Effectiveness: 0.8, Indirect: 0.6}.Water(a, wb)
		require.NoError(t, err)
		assert.InDelta(t, 20, s.Leaving.T, 1e-6)
		assert.InDelta(t, 0, s.Evaporating, 1e-9)
	}
}

// A motor of two speeds that takes 0.45 of full power at 0.67 of full speed:
// below it cycles there, above it alternates, and both meet at the two speeds.
func TestFixedSpeeds(t *testing.T) {
	u := cooler.Unit{PumpPower: 50, LowestSpeed: 0.67, LowSpeedPower: 0.45}
	for _, r := range []struct{ share, fraction, fan float64 }{
		{0.335, 0.5, 0.5 * 0.45 * 600}, {0.67, 1, 0.45 * 600}, {0.835, 1, 0.725 * 600}, {1, 1, 600}, {0, 0, 0},
	} {
		got := u.Run(r.share, 600)
		assert.InDelta(t, r.fraction, got.Fraction, 1e-12)
		assert.InDelta(t, r.fan, got.Fan, 1e-9, "share %v", r.share)
		assert.InDelta(t, 50*r.fraction, got.Pump, 1e-9)
	}
	u.LowestSpeed, u.LowSpeedPower = 1, 0.45 // one speed has no low-speed power
	assert.InDelta(t, 300, u.Run(0.5, 600).Fan, 1e-9)
	assert.InDelta(t, 600, u.Run(1, 600).Fan, 1e-9)
}

// A variable drive that loses 0.08 whatever its speed: the rest goes with the
// cube of speed (fan laws), at the lowest speed and below by cycling.
func TestVariableDrive(t *testing.T) {
	u := cooler.Unit{Variable: true, LowestSpeed: 0.3, LowSpeedPower: 0.08}
	assert.InDelta(t, 540*(0.08+0.92*8./27), u.Run(2./3, 540).Fan, 1e-9)
	assert.InDelta(t, 540, u.Run(1, 540).Fan, 1e-9)
	low := 540 * (0.08 + 0.92*0.027)
	assert.InDelta(t, low, u.Run(0.3, 540).Fan, 1e-9)
	assert.InDelta(t, low/3, u.Run(0.1, 540).Fan, 1e-9)
}

// Ducts under a hot roof warm the air they carry, with water or without.
func TestDuctGain(t *testing.T) {
	a := air(t, 38, 19, 84000)
	u := cooler.Unit{Airflow: 2, Effectiveness: 0.8, FanPower: 600}
	bare, err := u.Water(a, 19)
	require.NoError(t, err)
	u.DuctGain = 1.5
	ducted, err := u.Water(a, 19)
	require.NoError(t, err)
	assert.InDelta(t, 1.5, ducted.T-bare.T, 1e-12)
	assert.InDelta(t, 1.5+u.Vent(a).FanPower/(u.Vent(a).MassFlow*u.Vent(a).SpecificHeat), u.Vent(a).T-a.T, 1e-12)
}
