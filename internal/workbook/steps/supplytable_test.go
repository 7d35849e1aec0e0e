package steps

import (
	"testing"

	"github.com/evapbook/evapbook/data/sample"
	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/reading"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/weather"
	"github.com/evapbook/evapbook/internal/workbook/figures"
	"github.com/stretchr/testify/require"
)

// The table on the Startup sheet and the reading command are one model: the
// supply a reading expects at the site is that of the table.
func TestStartupTableIsWhatAReadingExpects(t *testing.T) {
	for _, kind := range []job.CoolerKind{job.Direct, job.Indirect, job.TwoStage} {
		c := sampleCase(t, units.IP, "cooler.kind", string(kind), "cooler.pad_condition", "0.9")
		rows, err := SupplyRows(c)
		require.NoError(t, err)
		require.Len(t, rows, len(SupplyRelHum)*len(SupplyOutdoor[units.IP]))
		j := c.Season.Job
		stated := reading.Default()
		stated.Kind, stated.Effectiveness, stated.Indirect, stated.Condition = kind, j.Cooler.Effectiveness, j.Cooler.IndirectEffectiveness, j.Cooler.PadCondition
		stated.Airflow, stated.FanPower = j.Cooler.Airflow, j.Cooler.FanPower
		for _, r := range rows {
			got, err := reading.Judge(reading.Visit{Altitude: j.Site.Altitude, Outdoor: r.air.T, Humidity: reading.Humidity{Measure: reading.RelHum, Value: r.cells.Rh}, Supply: r.Supply.T}, stated)
			require.NoError(t, err)
			require.InDelta(t, r.Supply.T, got.Expected, 1e-8, "%s %.1f °C %.0f %%", kind, r.air.T, 100*r.cells.Rh)
			require.Contains(t, []reading.Verdict{reading.Good, reading.CannotTell}, got.Verdict)
		}
	}
}

// sampleCase is the sample's house with some inputs set, keys and values in turn.
func sampleCase(t *testing.T, sys units.System, set ...string) *figures.Case {
	t.Helper()
	r, name := sample.Open()
	s, err := weather.Read(r, name, weather.Options{})
	require.NoError(t, err)
	j := job.New()
	for i := 0; i < len(set); i += 2 {
		require.NoError(t, j.Set(set[i], set[i+1]))
	}
	require.NoError(t, j.Resolve(s.Station.Name, s.Station.Elevation, s.Station.Region()))
	c, err := figures.Compute(s, j, sys, "test")
	require.NoError(t, err)
	return c
}
