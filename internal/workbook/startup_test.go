package workbook

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/internal/climate"
	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/reading"
	"github.com/evapbook/evapbook/internal/season"
	"github.com/evapbook/evapbook/internal/startup"
	"github.com/evapbook/evapbook/internal/units"
)

// The table on the Startup sheet and the reading command are one model: the
// supply a reading expects at the site is that of the table.
func TestStartupTableIsWhatAReadingExpects(t *testing.T) {
	for _, kind := range []job.CoolerKind{job.Direct, job.Indirect, job.TwoStage} {
		c := compute(t, readSample(t), units.IP, changes{"cooler.kind": string(kind), "cooler.pad_condition": "0.9"})
		rows, err := c.supplyRows()
		require.NoError(t, err)
		require.Len(t, rows, len(supplyRelHum)*len(supplyOutdoor[units.IP]))
		j := c.Season.Job
		stated := reading.Default()
		stated.Kind, stated.Effectiveness, stated.Indirect, stated.Condition = kind, j.Cooler.Effectiveness, j.Cooler.IndirectEffectiveness, j.Cooler.PadCondition
		stated.Airflow, stated.FanPower = j.Cooler.Airflow, j.Cooler.FanPower
		for _, r := range rows {
			got, err := reading.Judge(reading.Visit{Altitude: j.Site.Altitude, Outdoor: r.air.T, Humidity: reading.Humidity{Measure: reading.RelHum, Value: r.cells.rh}, Supply: r.supply.T}, stated)
			require.NoError(t, err)
			require.InDelta(t, r.supply.T, got.Expected, 1e-8, "%s %.1f °C %.0f %%", kind, r.air.T, 100*r.cells.rh)
			require.Contains(t, []reading.Verdict{reading.Good, reading.CannotTell}, got.Verdict)
		}
	}
}

// A light book has both pages and neither the steps nor formulas.
func TestStartupInALightBook(t *testing.T) {
	c := compute(t, readSample(t), units.SI, nil)
	c.ValuesOnly = true
	for _, s := range c.sheets() {
		require.NotEqual(t, "SupplyTable", s.name)
	}
	require.NoError(t, c.Write(new(bytes.Buffer)))
}

// The line under the dates says which of the three it is.
func TestStartupWarnsWhereFrostAndSeasonMeet(t *testing.T) {
	days := make([]climate.Day, 365)
	for i := range days {
		days[i].Season = i - 200
	}
	c := &Case{Season: &season.Season{Climate: &climate.Climate{Days: days}}}
	const least = startup.FreezeMargin + startup.VisitDays
	for _, x := range []struct {
		freeze, opens int
		want          string
	}{
		{-1, 150, "never freezes"}, {100, -1, "never freezes"}, {100, 100 + least + 1, "one year of weather"}, {100, 100 + least, "on before frosts end"},
	} {
		c.Season.Climate.Days = days
		require.Contains(t, c.tight(x.freeze, x.opens, "on before frosts end"), x.want)
	}
}

// Every step says what to do and what to accept, short enough for its cell.
func TestListsFit(t *testing.T) {
	for _, s := range append(append([]step{}, startupSteps...), closedownSteps...) {
		require.NotEmpty(t, s.accept, s.what)
		require.LessOrEqual(t, len(s.what), 2*84)
		require.LessOrEqual(t, len(s.accept), 48, s.accept)
	}
}
