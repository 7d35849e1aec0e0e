package costs

import (
	"math"

	"github.com/evapbook/evapbook/internal/money"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/workbook/figures"
	"github.com/evapbook/evapbook/internal/workbook/fx"
	"github.com/evapbook/evapbook/internal/workbook/sheet"
)

// cashColumns are the yearly cash flow of the three ways, at real prices, from
// today (year 0) to the longest study period.
func cashColumns(c *figures.Case) []sheet.Column {
	m := &c.Money
	j := c.Season.Job
	machine := func(way money.Way, k int) func(int) any {
		return func(y int) any {
			if mc := m.Options[way].Machines[k]; mc.Due(y, m.Years) {
				return mc.Installed
			}
			return 0.0
		}
	}
	cols := []sheet.Column{
		{Key: "year", Band: "Year", Title: "Year", Kind: units.Count, Always: true, Value: func(y int) any { return y }},
		{
			Key: "study", Title: "In the study", Kind: units.Count,
			Formula: "IF([year]<=M_years,1,0)",
			Value:   func(y int) any { return fx.Flag(y <= m.Years) },
		},
		{
			Key: "growth", Title: "Price growth", Kind: units.Plain, Eq: 28,
			Formula: "(1+Si_price_escalation)^[year]",
			Value:   func(y int) any { return math.Pow(1+j.Price.Escalation, float64(y)) },
		},
		{
			Key: "discount", Title: "Discount", Kind: units.Plain, Eq: 28,
			Formula: "(1+Si_price_discount)^-[year]",
			Value:   func(y int) any { return 1 / math.Pow(1+j.Price.Discount, float64(y)) },
		},
		{
			Key: "buy_cooler", Band: "Bought", Title: "Cooler", Kind: units.Money,
			Formula: "IF(AND(MOD([year],M_cooler_life)=0,[year]<>M_years),Si_price_cooler_installed,0)",
			Value:   machine(money.Cooler, 0),
		},
		{
			Key: "buy_ac", Title: "Refrigeration", Kind: units.Money,
			Formula: "IF(AND(MOD([year],M_ac_life)=0,[year]<>M_years),Si_price_ac_installed,0)",
			Value:   machine(money.Refrigerated, 0),
		},
	}
	buys := map[money.Way]string{money.Cooler: "[buy_cooler]", money.Refrigerated: "[buy_ac]", money.Both: "[buy_cooler]+[buy_ac]"}
	for w := money.Cooler; w < money.Ways; w++ {
		o := &m.Options[w]
		col := sheet.Column{Key: w.String(), Title: figures.WayTitle[w], Kind: units.Money, Eq: 28,
			Formula: buys[w] + fx.Fill("+IF([year]=0,0,(M_{W}_energy+M_{W}_water)*[growth]+M_{W}_care)", "{W}", w.String()),
			Value:   func(y int) any { return o.Cash[y] }}
		if w == money.Cooler {
			col.Band = "Cost of the year"
		}
		cols = append(cols, col)
	}
	for w := money.Cooler; w < money.Ways; w++ {
		o := &m.Options[w]
		col := sheet.Column{Key: "sum_" + w.String(), Title: figures.WayTitle[w], Kind: units.Money,
			Formula: fx.Fill("[sum_{W}@-1]+[{W}]", "{W}", w.String()), First: "[" + w.String() + "]",
			Value: func(y int) any { return o.Cumulative[y] }}
		if w == money.Cooler {
			col.Band = "Cost up to and with the year"
		}
		cols = append(cols, col)
	}
	return append(cols, drawnColumns(c)...)
}

// drawnColumns are what the chart of the years draws. After the last year of the
// study they stay at its point, so that the chart ends with the study, however
// long the input cells make it, without errors or names in place of ranges, which
// some programs do not draw.
func drawnColumns(c *figures.Case) []sheet.Column {
	m := &c.Money
	cols := []sheet.Column{{
		Key: "drawn_year", Band: "Drawn: up to the end of the study", Title: "Year", Kind: units.Count,
		Formula: "MIN([year],M_years)",
		Value:   func(y int) any { return min(y, m.Years) },
	}}
	for w := money.Cooler; w < money.Ways; w++ {
		o, sum := &m.Options[w], "[sum_"+w.String()+"]"
		cols = append(cols, sheet.Column{Key: "drawn_" + w.String(), Title: figures.WayTitle[w], Kind: units.Money,
			Formula: "IF([study]=1," + sum + ",[drawn_" + w.String() + "@-1])", First: sum,
			Value: func(y int) any { return o.Cumulative[min(y, m.Years)] }})
	}
	return cols
}
