package customer

import (
	"strconv"
	"time"

	"github.com/evapbook/evapbook/internal/look"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/workbook/figures"
	"github.com/evapbook/evapbook/internal/workbook/sheet"
	"github.com/evapbook/evapbook/internal/xlsx/chart"
)

// dailyColumns are what the chart of days draws, in the units people see. The
// dates are of one nominal year, because a typical year joins several.
func dailyColumns(c *figures.Case) []sheet.Column {
	days := c.Season.Climate.Days
	at := func(key string, i int) string { return "[Days." + key + "#" + strconv.Itoa(i) + "]" }
	return []sheet.Column{
		{
			Key: "date", Band: "Days of the chart", Title: "Date, in a nominal year", Kind: units.Date, Always: true,
			Value: func(i int) any { return nominal(days[i].Date) },
		},
		{
			Key: "low", Title: "Lowest outdoors", Kind: units.Temperature,
			RowFormula: func(i int) string { return at("tmin", i) },
			Value:      func(i int) any { return days[i].Min },
		},
		{
			Key: "range", Title: "Range outdoors", Kind: units.TemperatureDifference,
			RowFormula: func(i int) string { return at("tmax", i) + "-" + at("tmin", i) },
			Value:      func(i int) any { return days[i].Max - days[i].Min },
		},
		{
			Key: "supply", Title: "Warmest supply", Kind: units.Temperature,
			RowFormula: func(i int) string { return at("supply", i) },
			Value:      func(i int) any { return c.Season.Days[i].MaxSupply },
		},
	}
}

// nominal is the date in the year 2000, which has every date.
func nominal(d time.Time) time.Time {
	return time.Date(2000, d.Month(), d.Day(), 0, 0, 0, 0, time.UTC)
}

// dailyChart draws the daily range outdoors as a band, under the warmest
// supply of each day of the months that need cooling.
func dailyChart(c *figures.Case) *chart.Chart {
	season := seasonDays(c)
	return &chart.Chart{
		Title: "Every day of the season: range outdoors, and the warmest supply with water", Kind: chart.Areas, Stack: chart.Stacked,
		X:   chart.Axis{Date: true, NumFmt: "mmm", Unit: chart.Months, Major: 1},
		Y:   chart.Axis{Title: c.Symbol(units.Temperature), NumFmt: "0"},
		Alt: "A band of the daily lowest to highest outdoor dry bulb over the year, with a line of the warmest supply temperature of each day",
		Series: []chart.Series{
			{Name: "lowest", X: "[Daily.date" + season + "]", Y: "[Daily.low" + season + "]", NoFill: true, NoLegend: true},
			{Name: "range outdoors", X: "[Daily.date" + season + "]", Y: "[Daily.range" + season + "]", Color: look.Outdoor, Transparency: 65},
			{Kind: chart.Lines, Name: "warmest supply", X: "[Daily.date" + season + "]", Y: "[Daily.supply" + season + "]", Color: look.Supply, Width: 1.5},
		},
	}
}

// seasonDays are the days of the months from the first to the last that needs
// cooling, all where the file does not run from January to December.
func seasonDays(c *figures.Case) string {
	first, last := seasonMonths(c)
	days, from, to := c.Season.Climate.Days, 0, len(c.Season.Climate.Days)
	for i := 1; i < len(days); i++ {
		if days[i].Date.Month() < days[i-1].Date.Month() {
			return sheet.Rows(from, to)
		}
	}
	for from < to && int(days[from].Date.Month())-1 < first {
		from++
	}
	for to > from && int(days[to-1].Date.Month())-1 > last {
		to--
	}
	if from == to {
		return sheet.Rows(0, len(days))
	}
	return sheet.Rows(from, to)
}

// layDaily puts the chart of days on the page and its table below the part
// that prints. A file of several years has no one line a day.
func layDaily(c *figures.Case, p *sheet.Page) {
	days := c.Season.Climate.Days
	if len(days) > 366 {
		return
	}
	p.ChartsAcross(len(p.Grids[0].Columns), dailyChart(c))
	p.SetArea()
	blank := func(i int) bool { return days[i].Valid == 0 }
	p.Append(&sheet.Table{Name: "Daily", Rows: len(days), Columns: dailyColumns(c), Blank: blank}, c.Units)
}
