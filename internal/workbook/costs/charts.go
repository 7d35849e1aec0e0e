package costs

import (
	"github.com/evapbook/evapbook/internal/look"
	"github.com/evapbook/evapbook/internal/money"
	"github.com/evapbook/evapbook/internal/workbook/figures"
	"github.com/evapbook/evapbook/internal/workbook/sheet"
	"github.com/evapbook/evapbook/internal/xlsx/chart"
)

// Chart stacks the running cost of the three ways by kind, from the rows
// marked on Money.
func Chart(c *figures.Case) *chart.Chart {
	ch := &chart.Chart{
		Title: "Running cost a year", Kind: chart.Columns, Stack: chart.Stacked, Y: chart.Axis{Title: AxisTitle(c, "cost a year"), NumFmt: "#,##0"},
		Alt: "Stacked columns: yearly cost of energy, water and care for the cooler, refrigeration and both",
	}
	for _, s := range []struct{ key, name, color string }{{"energy", "energy", look.Energy}, {"water", "water", look.Water}, {"care", "care", look.Care}} {
		ch.Series = append(ch.Series, chart.Series{Name: s.name, X: "[Money.ways:]", Y: "[Money." + s.key + ":]", Color: s.color})
	}
	return ch
}

// AxisTitle names an axis of money with the sign of the currency, if stated.
func AxisTitle(c *figures.Case, what string) string {
	if sign := c.Season.Job.Price.Currency; sign != "" {
		return what + ", " + sign
	}
	return what
}

func moneyCharts(c *figures.Case, p *sheet.Page) {
	cost := Chart(c)
	lines := &chart.Chart{
		Title: "Cost up to and with each year", Kind: chart.Scatter, X: chart.Axis{Title: "years from today", Min: new(0.0), NumFmt: "0", NoGrid: true}, Y: chart.Axis{Title: AxisTitle(c, "cost in all"), NumFmt: "#,##0"},
		Alt: "Lines: running sum of what the cooler, refrigeration and both have cost, replacements included, to the end of the study",
	}
	for w := money.Cooler; w < money.Ways; w++ {
		lines.Series = append(lines.Series, chart.Series{Name: figures.WayTitle[w], X: "[Cash.drawn_year:]", Y: "[Cash.drawn_" + w.String() + ":]", Color: sheet.WayColour[w], Width: 2})
	}
	p.ChartsAcross(len(p.Cols), cost, lines)
}
