package alternatives

import (
	"github.com/evapbook/evapbook/internal/climate"
	"github.com/evapbook/evapbook/internal/look"
	"github.com/evapbook/evapbook/internal/money"
	"github.com/evapbook/evapbook/internal/season"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/workbook/costs"
	"github.com/evapbook/evapbook/internal/workbook/figures"
	"github.com/evapbook/evapbook/internal/workbook/fx"
	"github.com/evapbook/evapbook/internal/workbook/sheet"
	"github.com/evapbook/evapbook/internal/workbook/variants"
	"github.com/evapbook/evapbook/internal/xlsx"
	"github.com/evapbook/evapbook/internal/xlsx/chart"
)

// beside is a figure of refrigeration or of both together; both are always live.
type beside struct {
	formula string
	value   any
}

// optionRow is one figure of every option and, where there is such a thing, of
// refrigeration and both together. Formulas and values are in SI.
type optionRow struct {
	key, label string
	kind       units.Kind
	format     string // "" that of the kind
	live       string // of the option the workbook shows
	of         func(v *variants.Variant) any
	ref, both  beside
}

func optionRows(c *figures.Case) []optionRow {
	t := &c.Season.Totals
	need := float64(t.Hours.Need())
	hours := func(o season.Outcome) func(*variants.Variant) any {
		return func(v *variants.Variant) any { return v.Hours[o] }
	}
	_, verdict := c.Verdict()
	unmet := c.BothUnmet()
	rows := []optionRow{
		{"verdict", "Verdict", units.Text, "@", verdict, func(v *variants.Variant) any { return figures.VerdictTitle[v.Season.Totals.Verdict()] }, beside{}, beside{}},
		{"held", "Hours held, of hours that need cooling", units.Share, "0.0%", "Out_coverage_held", held,
			beside{fx.Ratio("(Out_hours_need-Out_ac_unmet_hours)", "Out_hours_need"), figures.Ratio(need-float64(t.UnmetHours), need)},
			beside{fx.Ratio("(Out_hours_need-"+figures.BothUnmetCells+")", "Out_hours_need"), figures.Ratio(need-float64(unmet), need)}},
		{"moving", "The same, or comfortable in moving air", units.Share, "0.0%", "Out_coverage_moving_air", movingAir, beside{}, beside{}},
		{"vent", "Hours held by open windows and a fan", units.Count, "", "Out_hours_vent", hours(season.Vent), beside{}, beside{}},
		{"evap", "Hours held by the cooler", units.Count, "", "Out_hours_evap", hours(season.Evap), beside{}, beside{}},
		{"damp", "Hours too damp", units.Count, "", "Out_hours_damp", hours(season.Damp), beside{}, beside{}},
		{"warm", "Hours too warm", units.Count, "", "Out_hours_warm", hours(season.Warm), beside{}, beside{}},
		{"left", "Hours not covered", units.Count, "", "Out_hours_uncovered", func(v *variants.Variant) any { return v.Hours.Uncovered() },
			beside{"Out_ac_unmet_hours", t.UnmetHours}, beside{figures.BothUnmetCells, unmet}},
		{"supply", "Supply air on the hot day (1 %)", units.Temperature, "0", "Out_design_supply_1pct_c", func(v *variants.Variant) any { return v.Season.Design.DryBulb[climate.One].Supply.T }, beside{}, beside{}},
		{"water", "Water in a season", units.Volume, "#,##0", "Out_water_total_l", func(v *variants.Variant) any { return v.Water },
			beside{}, beside{"Out_water_both_l", c.Season.WaterTotal(t.BothWater)}},
		{"day", "Water on the worst day", units.Volume, "#,##0", "Out_water_peak_day_l", func(v *variants.Variant) any { return v.Season.Totals.PeakDayWater }, beside{}, beside{}},
		{"kwh", "Electricity in a season", units.Energy, "#,##0", "Out_energy_cooler_kwh", func(v *variants.Variant) any { return v.Season.Totals.CoolerKWh },
			beside{"Out_energy_refrigerated_kwh", t.RefKWh}, beside{"Out_energy_both_kwh", t.BothKWh}},
	}
	return append(rows, optionMoney(c)...)
}

// optionMoney are the rows of what each costs.
func optionMoney(c *figures.Case) (rows []optionRow) {
	add := func(key, label, figure string, of func(*money.Option) float64) {
		at := func(w money.Way) beside {
			return beside{"Out_money_" + w.String() + "_" + figure, of(&c.Money.Options[w])}
		}
		rows = append(rows, optionRow{key, label, units.Money, "", at(money.Cooler).formula,
			func(v *variants.Variant) any { return of(&v.Money.Options[money.Cooler]) }, at(money.Refrigerated), at(money.Both)})
	}
	add("buy", "To buy, installed", "installed", func(o *money.Option) float64 { return o.Installed })
	add("energy", "Electricity a year", "energy", func(o *money.Option) float64 { return o.Energy })
	add("drink", "Water a year", "water", func(o *money.Option) float64 { return o.WaterCost })
	add("care", "Care a year", "care", func(o *money.Option) float64 { return o.Care })
	add("yearly", "To run, a year", "yearly", func(o *money.Option) float64 { return o.Total() })
	saving := func(m *money.Comparison, w money.Way) float64 {
		return m.Options[money.Refrigerated].Total() - m.Options[w].Total()
	}
	cells := func(w money.Way) string { return "(Out_money_refrigerated_yearly-Out_money_" + w.String() + "_yearly)" }
	rows = append(rows,
		optionRow{"saving", "Saves a year", units.Money, "", cells(money.Cooler), func(v *variants.Variant) any { return saving(&v.Money, money.Cooler) },
			beside{}, beside{cells(money.Both), saving(&c.Money, money.Both)}},
		optionRow{"payback", "A higher price comes back in", units.Text, "@", "IF(" + costs.PoorVerdict + "," + fx.Quote(noLike) + ",IF(" + costs.HardlyNeeded + "," + fx.Quote(tooFew) + "," + paidBackCells(money.Cooler) + "))", func(v *variants.Variant) any { return coolerPaidBack(v) },
			beside{}, beside{paidBackCells(money.Both), paidBack(&c.Money, money.Both)}})
	add("present", "Over the years of the study, in today's money", "present_value", func(o *money.Option) float64 { return o.Present })
	return rows
}

// optionTable writes a line for each figure and a column for each option.
func optionTable(c *figures.Case, p *sheet.Page, all []offered) {
	n := len(all)
	p.Set(p.Row, 1, xlsx.Cell{Value: "", Style: sheet.Head})
	for k, o := range all {
		shown := xlsx.Style{Bold: true, Color: look.Paper, Fill: look.Leaf}
		head := sheet.Head
		if c.ValuesOnly {
			if o.now {
				head.Color, head.Fill = shown.Color, shown.Fill
			}
			p.Set(p.Row, 2+k, xlsx.Cell{Value: o.name, Style: head})
			continue
		}
		p.Set(p.Row, 2+k, xlsx.Cell{Value: o.name, Style: head})
		p.Conditional = append(p.Conditional, xlsx.CondFormat{Range: xlsx.CellRef(p.Row, 2+k), When: o.live, Style: shown})
	}
	p.Set(p.Row, 2+n, xlsx.Cell{Value: figures.WayTitle[money.Refrigerated], Style: sheet.Head})
	p.Set(p.Row, 3+n, xlsx.Cell{Value: figures.WayTitle[money.Both], Style: sheet.Head})
	p.Set(p.Row, 4+n, xlsx.Cell{Style: sheet.Head})
	p.Mark("names", p.Row, 2, p.Row, 1+n)
	p.Mark("ways", p.Row, 2, p.Row, 3+n)
	p.Height(p.Row, look.TitleHeight)
	p.Row++
	for _, r := range optionRows(c) {
		u := c.Unit(r.kind)
		style := sheet.Number(u.Format)
		if r.format != "" {
			style.NumFmt = r.format
		}
		style.HAlign = xlsx.Centre
		p.Set(p.Row, 1, xlsx.Cell{Value: r.label, Style: sheet.Label})
		for k, o := range all {
			value := sheet.Display(u, r.of(o.Variant))
			p.Set(p.Row, 2+k, xlsx.Cell{Value: value, Style: style,
				Formula: "IF(" + o.live + "," + sheet.DisplayFormula(u, r.live) + "," + constant(value) + ")"})
		}
		for i, b := range []beside{r.ref, r.both} {
			cell := xlsx.Cell{Style: style}
			if b.formula != "" {
				cell.Value, cell.Formula = sheet.Display(u, b.value), sheet.DisplayFormula(u, b.formula)
			}
			p.Set(p.Row, 2+n+i, cell)
		}
		p.Set(p.Row, 4+n, xlsx.Cell{Value: u.Symbol, Style: sheet.Symbol})
		p.Mark(r.key, p.Row, 2, p.Row, 1+n)
		p.Mark(r.key+"_ways", p.Row, 2, p.Row, 3+n)
		p.Row++
	}
}

// constant is a figure computed at writing as a formula holds it.
func constant(v any) string {
	switch v := v.(type) {
	case float64:
		return fx.Num(v)
	case int:
		return fx.Num(float64(v))
	default:
		return fx.Quote(v.(string))
	}
}

// optionCharts show the hours of the options and what each way costs to run.
func optionCharts(c *figures.Case, p *sheet.Page) {
	hours := &chart.Chart{Title: "Hours that need cooling, by option", Kind: chart.Columns, Stack: chart.Stacked, Y: chart.Axis{Title: "hours", NumFmt: "#,##0"},
		Alt: "Stacked columns: hours of each option held by outdoor air, held with water, too damp and too warm"}
	for _, s := range sheet.OutcomeSeries {
		hours.Series = append(hours.Series, chart.Series{Name: s.Name, X: "[Options.names:]", Y: "[Options." + s.Outcome.String() + ":]", Color: sheet.OutcomeColour[s.Outcome]})
	}
	cost := &chart.Chart{Title: "Running cost a year, by option", Kind: chart.Columns, Stack: chart.Stacked, Y: chart.Axis{Title: costs.AxisTitle(c, "cost a year"), NumFmt: "#,##0"},
		Alt: "Stacked columns: yearly cost of energy, water and care of each option, refrigeration and both"}
	for _, s := range []struct{ key, name, color string }{{"energy", "energy", look.Energy}, {"drink", "water", look.Water}, {"care", "care", look.Care}} {
		cost.Series = append(cost.Series, chart.Series{Name: s.name, X: "[Options.ways:]", Y: "[Options." + s.key + "_ways:]", Color: s.color})
	}
	p.ChartsAcross(len(p.Cols), hours) // across the page, so that long names stand upright
	p.ChartsAcross(len(p.Cols), cost)
}
