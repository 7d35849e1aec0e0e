// Package steps lays out the sheets that carry the calculation, in SI: every
// hour, every day, the design conditions, what follows from the inputs before
// any hour, and the headline figures.
package steps

import (
	"github.com/evapbook/evapbook/internal/climate"
	"github.com/evapbook/evapbook/internal/psychro"
	"github.com/evapbook/evapbook/internal/season"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/workbook/figures"
	"github.com/evapbook/evapbook/internal/workbook/fx"
	"github.com/evapbook/evapbook/internal/workbook/sheet"
)

// Working lays out every step of every hour.
func Working(c *figures.Case, p *sheet.Page) {
	p.Place(&sheet.Table{Name: "Working", Rows: len(c.Season.Hours), Columns: workingColumns(c), Blank: c.Missing, Shared: true}, units.SI)
	p.FreezeCols = 1
	p.PrintRows("Working", 0, 24, 5)
}

// workingColumns are the columns of the Working sheet, in SI. Each carries the
// cell formula and the Go value cached beside it.
func workingColumns(c *figures.Case) []sheet.Column {
	s, x := c.Season, c.Solved()
	in := func(i int) *climate.Hour { return &s.Climate.Hours[i] }
	out := func(i int) *season.Hour { return &s.Hours[i] }
	var cols []sheet.Column
	add := func(more ...sheet.Column) { cols = append(cols, more...) }

	add(hourColumns(in)...)
	add(stationColumns(c)...)
	add(siteColumns(in, x)...)
	add(newtonColumns("x", "[t]", fx.FirstGuess("[t]", "[rh]"), "Wet bulb outdoors", func(i int) *fx.Newton { return &x[i].First })...)
	add(wetBulbColumns(in, out, x)...)
	add(secondNewtonColumns(c, func(i int) *fx.Newton { return &x[i].Second })...)
	add(coolerColumns(func(i int) float64 { return in(i).Air.P }, func(i int) float64 { return x[i].WetBulb1 }, out)...)
	add(loadColumns(c, out)...)
	add(trialColumns(c, out)...)
	add(outcomeColumns(c, out)...)
	add(refrigerationColumns(c, out)...)
	add(tariffColumns(c, in)...)
	return cols
}

func hourColumns(in func(int) *climate.Hour) []sheet.Column {
	return []sheet.Column{
		{Key: "time", Band: "Hour", Title: "Time", Kind: units.DateTime, Always: true, Value: func(i int) any { return in(i).Time }},
		{Key: "month", Title: "Month", Kind: units.Count, Always: true, Value: func(i int) any { return int(in(i).Start.Month()) }},
		{
			Key: "hour", Title: "Hour of day", Kind: units.Count, Always: true, Note: "0: the hour from midnight to 1",
			Value: func(i int) any { return in(i).Start.Hour() },
		},
	}
}

// siteColumns bring the station's air to the site.
func siteColumns(in func(int) *climate.Hour, x []fx.Solved) []sheet.Column {
	return []sheet.Column{
		{
			Key: "t", Band: "Air at the site", Title: "Dry bulb", Kind: units.Temperature, Eq: 7,
			Formula: "[st_t]+Si_site_warmer-B_lapse",
			Value:   func(i int) any { return in(i).Air.T },
		},
		{
			Key: "p", Title: "Pressure", Kind: units.Pressure, Eq: 8,
			Formula: "[st_p]*B_pressure_ratio",
			Value:   func(i int) any { return in(i).Air.P },
		},
		{
			Key: "ps", Title: "Saturation pressure", Kind: units.Pressure, Eq: 2,
			Formula: fx.SaturationPressure(fx.Kelvin("[t]")),
			Value:   func(i int) any { return psychro.SaturationPressure(in(i).Air.T) },
		},
		{
			Key: "w", Title: "Humidity ratio", Kind: units.HumidityRatio, Eq: 6,
			Formula: "MIN([st_w]," + fx.HumidityRatio("[ps]", "[p]") + ")",
			Value:   func(i int) any { return in(i).Air.W },
		},
		{
			Key: "rh", Title: "Relative humidity", Kind: units.Share, Eq: 3,
			Formula: fx.RelHum("[w]", "[p]", "[ps]"),
			Value:   func(i int) any { return x[i].Rh },
		},
	}
}

// wetBulbColumns are the wet bulb found, beside the engine's own, and what the
// indirect stage makes of it.
func wetBulbColumns(in func(int) *climate.Hour, out func(int) *season.Hour, x []fx.Solved) []sheet.Column {
	return []sheet.Column{
		{
			Key: "wb", Title: "Wet bulb", Kind: units.Temperature, Eq: 4,
			Formula: "MIN([x" + last + "]-" + fx.Zero + ",[t])",
			Value:   func(i int) any { return x[i].WetBulb },
		},
		{
			Key: "wb_engine", Title: "Wet bulb by the engine, as written", Kind: units.Temperature,
			Value: func(i int) any { return in(i).WetBulb },
		},
		{
			Key: "t1", Band: "Cooler with water", Title: "After the indirect stage", Kind: units.Temperature, Eq: 10,
			Formula: fx.AfterIndirect,
			Value:   func(i int) any { return out(i).Supply.T1 },
		},
	}
}
