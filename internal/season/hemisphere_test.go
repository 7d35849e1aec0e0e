package season

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/data/sample"
	"github.com/evapbook/evapbook/internal/weather"
)

func sampleYear(t testing.TB) *weather.Series {
	t.Helper()
	r, name := sample.Open()
	s, err := weather.Read(r, name, weather.Options{})
	require.NoError(t, err)
	return s
}

// The sample moved by half a year under its calendar, as a place of the same
// climate south of the equator has it: every total that does not ask for
// neighbours is the same, and the season's dates move along. With heat capacity
// the year begins with a house at the setpoint, here in winter and there in
// summer, which the first days remember.
func TestSouthernSeason(t *testing.T) {
	for mass, tolerance := range map[string]float64{"0": 1e-12, "110": 2e-4} {
		t.Run(mass, func(t *testing.T) { southern(t, mass, tolerance) })
	}
}

func southern(t *testing.T, mass string, tolerance float64) {
	const halfYear = 182
	north := sampleYear(t)
	south := *north
	south.Hours = make([]weather.Hour, len(north.Hours))
	for i := range south.Hours {
		south.Hours[i] = north.Hours[(i+halfYear*24)%len(north.Hours)]
		south.Hours[i].Time = north.Hours[i].Time
	}
	n, s := runJob(t, north, "house.thermal_mass", mass), runJob(t, &south, "house.thermal_mass", mass)
	later := func(day int) int { return (day - halfYear + len(n.Days)) % len(n.Days) }
	a, b := n.Totals, s.Totals
	assert.Equal(t, a.Hours, b.Hours)
	assert.Equal(t, a.Water.DaysOfUse, b.Water.DaysOfUse)
	for name, v := range map[string][2]float64{
		"load": {a.Load, b.Load}, "water": {a.Water.Evaporated, b.Water.Evaporated}, "cooler": {a.CoolerKWh, b.CoolerKWh},
		"refrigeration": {a.RefKWh, b.RefKWh}, "degree-hours": {a.Over, b.Over}, "peak day": {a.PeakDayWater, b.PeakDayWater},
		"capacity": {n.AC.Capacity, s.AC.Capacity},
	} {
		assert.InEpsilon(t, v[0], v[1], tolerance, name)
	}
	assert.Equal(t, later(a.FirstEvap), b.FirstEvap)
	assert.Equal(t, later(a.LastEvap), b.LastEvap)
	assert.Equal(t, later(a.EvapOpens), b.EvapOpens)
	assert.Equal(t, later(a.EvapCloses), b.EvapCloses)
	assert.Greater(t, b.FirstEvap, b.LastEvap, "the season spans the turn of the year")
}
