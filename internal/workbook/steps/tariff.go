package steps

import (
	"github.com/evapbook/evapbook/internal/climate"
	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/money"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/workbook/figures"
	"github.com/evapbook/evapbook/internal/workbook/fx"
	"github.com/evapbook/evapbook/internal/workbook/sheet"
)

// tariffColumns are what a kWh costs in each hour.
func tariffColumns(c *figures.Case, in func(int) *climate.Hour) []sheet.Column {
	tariff := money.TariffOf(&c.Season.Job.Price)
	return []sheet.Column{
		{
			Key: "day", Band: "Price of electricity", Title: "Day, month × 100 + day", Kind: units.Count,
			Value: func(i int) any { return int(in(i).Start.Month())*100 + in(i).Start.Day() },
		},
		{
			Key: "clock", Title: "Hour by the clock on the wall", Kind: units.Count,
			Formula: fx.CivilHour("[hour]", "[day]"),
			Value:   func(i int) any { return tariff.CivilHour(in(i).Start) },
		},
		{
			Key: "price", Title: "Per kWh", Kind: units.PricePerKWh, Eq: 28,
			Formula: fx.PriceAt("[month]", "[clock]"),
			Value:   func(i int) any { return tariff.At(in(i).Start) },
		},
	}
}

// tariffBasis is what the tariff comes to before any hour is priced.
func tariffBasis(c *figures.Case) []sheet.Scalar {
	p := &c.Season.Job.Price
	tariff := money.TariffOf(p)
	ahead, back := money.Changes(p.SummerTime)
	return []sheet.Scalar{
		{Name: "B_peak_price", Label: "Price of electricity in peak hours, mean of all days", Kind: units.PricePerKWh, Eq: 28, Formula: fx.PeakPrice, Value: tariff.PeakMean(), Note: "a typical year has no weekdays"},
		{Name: "B_clock_ahead", Label: "Day on which clocks are put forward, month × 100 + day", Kind: units.Count, Formula: fx.ClockChange(func(s job.SummerTime) int { a, _ := money.Changes(s); return a }), Value: ahead, Note: "the middle of the days it falls on, years differing; from memory"},
		{Name: "B_clock_back", Label: "Day on which they are put back", Kind: units.Count, Formula: fx.ClockChange(func(s job.SummerTime) int { _, b := money.Changes(s); return b }), Value: back},
	}
}
