package money_test

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"github.com/evapbook/evapbook/internal/climate"
	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/money"
	"github.com/evapbook/evapbook/internal/season"
)

// All ways a price and a yearly cost can lie: what costs no more to buy has
// paid at once unless it costs more to run; what never saves never pays.
func TestPaybackOfEqualPrices(t *testing.T) {
	never := math.Inf(1)
	for _, r := range []struct{ installed, care, want float64 }{
		{100, 50, 0}, {100, 40, 0}, {100, 60, never},
		{90, 50, 0}, {90, 60, never},
		{110, 50, never}, {110, 60, never}, {110, 45, 2},
		{100.5, 49.75, 2}, // fractions of a currency count
	} {
		c := compare(func(j *job.Job) {
			j.Price.Electricity = 0
			j.Price.CoolerInstalled, j.Price.CoolerCare = r.installed, r.care
			j.Price.ACInstalled, j.Price.ACCare = 100, 50
		})
		assert.Equal(t, r.want, c.Payback(money.Cooler, money.Refrigerated), "%v against 100 and 50 a year", r)
	}
}

// Lives are whole years, the nearest: a machine is bought on a birthday.
func TestLivesAreRounded(t *testing.T) {
	c := compare(func(j *job.Job) { j.Price.CoolerLife, j.Price.ACLife = 14.6, 12.4 })
	assert.Equal(t, 15, c.Years)
	assert.Equal(t, []money.Machine{{Life: 15}, {Life: 12}}, c.Options[money.Both].Machines)
}

// A year's bill by hand: 2,000 L evaporated in 100 running hours, 10 days with
// a drain of 15 L each and one after every 8 h; water 1.50 and sewer 0.50 a m³;
// 20 kWh in January at 0.20, 20 on a July morning at 0.30 and 10 at the July peak
// at 0.50.
func TestYearlyBill(t *testing.T) {
	j := job.New()
	j.Cooler.WaterCare, j.Cooler.Sump, j.Cooler.PurgeInterval = job.Purge, 15, 8
	j.Price.CoolerLife, j.Price.ACLife = 15, 15
	j.Price.Water, j.Price.Sewer, j.Price.Electricity = 1.5, 0.5, 0.2
	j.Price.SeasonElectricity, j.Price.PeakElectricity, j.Price.PeakDays, j.Price.SummerTime = 0.3, 0.5, job.EveryDay, job.NoSummerTime
	j.Price.SeasonFirst, j.Price.SeasonLast, j.Price.PeakFrom, j.Price.PeakTo = 6, 9, 16, 21
	j.Plant.Water, j.Plant.CO2 = 1.8, 0.4
	s := &season.Season{Job: j}
	s.Totals.Water = season.Water{Evaporated: 2000, PumpHours: 100, DaysOfUse: 10}
	s.Totals.CoolerKWh = 50
	s.Hours = []season.Hour{{CoolerKWh: 20}, {CoolerKWh: 20}, {CoolerKWh: 10}}
	s.Climate = &climate.Climate{Hours: []climate.Hour{
		{Start: time.Date(2023, 1, 10, 17, 0, 0, 0, time.UTC)}, {Start: time.Date(2023, 7, 10, 9, 0, 0, 0, time.UTC)}, {Start: time.Date(2023, 7, 10, 17, 0, 0, 0, time.UTC)},
	}}
	got := money.Compare(s).Options[money.Cooler].Yearly
	litres := 2000 + 15*(100./8+10)
	want := money.Yearly{KWh: 50, Water: litres, PlantWater: 90, CO2: 20, Energy: 15, WaterCost: litres / 1000 * 2, Care: j.Price.CoolerCare}
	assert.Equal(t, want, got)
}
