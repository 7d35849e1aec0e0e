package customer

import (
	"strings"

	"github.com/evapbook/evapbook/internal/climate"
	"github.com/evapbook/evapbook/internal/look"
	"github.com/evapbook/evapbook/internal/money"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/workbook/costs"
	"github.com/evapbook/evapbook/internal/workbook/figures"
	"github.com/evapbook/evapbook/internal/workbook/sheet"
	"github.com/evapbook/evapbook/internal/xlsx/chart"
)

// outcomeChart shows the hours that need cooling by month and outcome; the
// uncovered ones stand on top in the strongest colours.
func outcomeChart() *chart.Chart {
	ch := &chart.Chart{
		Title: "Hours that need cooling, by month", Kind: chart.Columns, Stack: chart.Stacked,
		X: chart.Axis{}, Y: chart.Axis{Title: "hours", NumFmt: "#,##0"},
		Alt: "Stacked columns: hours of each month that open windows hold, that the cooler holds, too damp and too warm",
	}
	for _, s := range sheet.OutcomeSeries {
		ch.Series = append(ch.Series, chart.Series{Name: s.Name, X: "[Months.month:]", Y: "[Months." + s.Outcome.String() + ":]", Color: sheet.OutcomeColour[s.Outcome]})
	}
	return ch
}

func answerCharts(c *figures.Case, p *sheet.Page) {
	outcomes, cost := outcomeChart(), costs.Chart(c)
	outcomes.Row, outcomes.Col, outcomes.Width, outcomes.Height = p.Row, 1, 535, 185
	cost.Row, cost.Col, cost.Width, cost.Height = p.Row, 6, 324, 185
	p.Charts = append(p.Charts, outcomes, cost)
	p.ChartSpace(10)
}

func monthCharts(c *figures.Case, p *sheet.Page) {
	energy := monthColumns(c, "Energy by month", "kWh", "cooler_kwh", "ref_kwh", "both_kwh")
	peak := monthColumns(c, "Peak hour by month", "kW", "cooler_kw", "ref_kw")
	water := &chart.Chart{Title: "Water by month", Kind: chart.Columns, Y: chart.Axis{Title: c.Symbol(units.Volume), NumFmt: "#,##0"}, Overlap: 100,
		Alt: "Columns: water evaporated by month, in front of evaporated and drained water together",
		Series: []chart.Series{
			{Name: "in all, with bleed or purge", X: "[Months.month:]", Y: "[Months.water:]", Color: look.WetBulb},
			{Name: "evaporated", X: "[Months.month:]", Y: "[Months.evaporated:]", Color: look.Supply},
		}}
	season := seasonRows(c)
	days := &chart.Chart{Title: "Hottest of each month, and the warmest supply", Kind: chart.Lines, Y: chart.Axis{Title: c.Symbol(units.Temperature), NumFmt: "0"},
		Alt: "Lines: highest outdoor dry bulb and warmest supply temperature of each month",
		Series: []chart.Series{
			{Name: "highest outdoors", X: "[Months.month" + season + "]", Y: "[Months.tmax" + season + "]", Color: look.Outdoor, Width: 2},
			{Name: "warmest supply with water", X: "[Months.month" + season + "]", Y: "[Months.supply" + season + "]", Color: look.Supply, Width: 2},
		}}
	degree := &chart.Chart{Title: "Degree-days to " + degreeDayBase(c), Kind: chart.Columns, Y: chart.Axis{Title: sheet.Spoken(c.Unit(units.DegreeDays)), NumFmt: "#,##0"},
		Alt: "Columns: cooling and heating degree-days of each month",
		Series: []chart.Series{
			{Name: "cooling", X: "[Months.month:]", Y: "[Months.cdd:]", Color: look.Warm},
			{Name: "heating", X: "[Months.month:]", Y: "[Months.hdd:]", Color: look.Grey},
		}}
	n := len(p.Grids[0].Columns)
	p.ChartsAcross(n, outcomeChart(), days, water)
	p.ChartsAcross(n, energy, peak, degree)
}

// degreeDayBase is the one base of degree-days, 65 °F, in the book's unit: tables
// in SI give it as 18.3 °C.
func degreeDayBase(c *figures.Case) string {
	u := units.Temperature.Unit(c.Units)
	return strings.TrimSuffix(sheet.Fixed(u.FromSI(climate.DegreeDayBase), 1), ".0") + " " + u.Symbol
}

// seasonRows are the months from the first to the last that needs cooling, all
// where none does or the season runs over the turn of the year.
func seasonRows(c *figures.Case) string {
	first, last := seasonMonths(c)
	return sheet.Rows(first, last+1)
}

func seasonMonths(c *figures.Case) (first, last int) {
	need := func(m int) bool { return c.Season.Months[m].Hours.Need() > 0 }
	for first < 11 && !need(first) {
		first++
	}
	for last = 11; last > first && !need(last); last-- {
	}
	if first == last {
		return 0, 11
	}
	return first, last
}

func monthColumns(c *figures.Case, title, unit string, keys ...string) *chart.Chart {
	ch := &chart.Chart{Title: title, Kind: chart.Columns, Y: chart.Axis{Title: unit, NumFmt: "#,##0"}, Alt: "Columns by month for the ways of cooling: " + title}
	for i, key := range keys {
		w := money.Way(i)
		ch.Series = append(ch.Series, chart.Series{Name: figures.WayTitle[w], X: "[Months.month:]", Y: "[Months." + key + ":]", Color: sheet.WayColour[w]})
	}
	return ch
}
