// Package costs lays out what each way of cooling costs: the sheet Money with
// its years and what moves the result, and the sentence and the chart that
// other pages take from it.
package costs

import (
	"github.com/evapbook/evapbook/internal/money"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/workbook/figures"
	"github.com/evapbook/evapbook/internal/workbook/fx"
	"github.com/evapbook/evapbook/internal/workbook/sheet"
	"github.com/evapbook/evapbook/internal/xlsx"
)

// StudyScalars are the named cells of the study period.
func StudyScalars(c *figures.Case) []sheet.Scalar {
	cooler, ac := c.Money.Options[money.Cooler].Machines[0], c.Money.Options[money.Refrigerated].Machines[0]
	formula := func(price, life string) string {
		return fx.Fill("{P}*MOD(-M_years,{L})/{L}", "{P}", price, "{L}", life)
	}
	return []sheet.Scalar{
		{Name: "M_cooler_life", Label: "Life of the cooler", Kind: units.Years, Formula: "ROUND(Si_price_cooler_life,0)", Value: cooler.Life},
		{Name: "M_ac_life", Label: "Life of the refrigerated unit", Kind: units.Years, Formula: "ROUND(Si_price_ac_life,0)", Value: ac.Life},
		{
			Name: "M_years", Label: "Years counted: those of the longer life", Kind: units.Years, Eq: 28,
			Formula: "MAX(M_cooler_life,M_ac_life)",
			Value:   c.Money.Years,
		},
		{
			Name: "M_cooler_left", Label: "Worth of the cooler at the end", Kind: units.Money, Eq: 28,
			Formula: formula("Si_price_cooler_installed", "M_cooler_life"),
			Value:   cooler.Left(c.Money.Years),
		},
		{
			Name: "M_ac_left", Label: "Worth of the refrigerated unit at the end", Kind: units.Money, Eq: 28,
			Formula: formula("Si_price_ac_installed", "M_ac_life"),
			Value:   ac.Left(c.Money.Years),
		},
	}
}

// Money lays out what each way of cooling costs.
func Money(c *figures.Case, p *sheet.Page) error {
	p.Cols = []float64{40, 17, 17, 17, 14, 9}
	layWays(c, p)
	for _, way := range []money.Way{money.Cooler, money.Both} {
		value, formula := Saving(c, way).Done()
		p.Text(value, formula, 6, 2, sheet.Text)
	}
	value, formula := coolerAlone(c).Done()
	p.Text(value, formula, 6, 2, sheet.Warn)
	p.Row++
	p.Section("Over the years", 6)
	p.Text("Present value: what all the years cost, in today's money. The study runs as long as the machine that lasts longer; one that wears out sooner is bought again, and what it is worth at the end is taken off: its price, less an equal share for each year used.", "", 6, 3, sheet.Small)
	for _, s := range StudyScalars(c) {
		u := c.Unit(s.Kind)
		p.SetRow(p.Row, 1,
			xlsx.Cell{Value: s.Label, Style: sheet.Label},
			xlsx.Cell{Value: s.Value, Formula: s.Formula, Style: sheet.Number(u.Format), Name: s.Name},
			xlsx.Cell{Value: u.Symbol, Style: sheet.Symbol})
		p.Row++
	}
	p.Row++
	moneyCharts(c, p)
	p.Print.FitHeight = 1
	return layTornado(c, p)
}

// layWays is the comparison of a year: a line for each amount, a column for each way.
func layWays(c *figures.Case, p *sheet.Page) {
	p.Mark("ways", p.Row, 2, p.Row, 1+int(money.Ways))
	p.Heads("A year at today's prices", figures.WayTitle[money.Cooler], figures.WayTitle[money.Refrigerated], figures.WayTitle[money.Both], "", "")
	for _, r := range c.MoneyRows() {
		u := c.Unit(r.Kind)
		p.Mark(r.Key, p.Row, 2, p.Row, 1+len(r.Formula))
		p.Set(p.Row, 1, xlsx.Cell{Value: r.Label, Style: sheet.Label})
		for w := range r.Formula {
			cell := xlsx.Cell{Value: u.FromSI(r.Value[w]), Formula: r.Formula[w], Style: sheet.Centred(u.Format), Name: r.Name(w)}
			if !r.IsMoney() { // named in SI on Basis
				cell.Formula, cell.Name = sheet.DisplayFormula(u, r.Name(w)), ""
			}
			p.Set(p.Row, 2+w, cell)
		}
		p.Set(p.Row, 5, xlsx.Cell{Value: u.Symbol, Style: sheet.Symbol})
		p.Set(p.Row, 6, xlsx.Cell{Style: sheet.Symbol})
		p.Row++
	}
}

// Cash lays out the cost of each way year by year, below the page of costs.
func Cash(c *figures.Case, p *sheet.Page) {
	p.Row++
	p.Section("Year by year", len(p.Cols))
	p.Append(&sheet.Table{Name: "Cash", Rows: money.MaxYears + 1, Columns: cashColumns(c)}, c.Units)
}

// coolerAlone reminds that the cheapest way leaves hours uncovered, where it does.
func coolerAlone(c *figures.Case) *sheet.Sentence {
	t := &c.Season.Totals
	more := t.Hours.Uncovered() > t.UnmetHours
	return say().Say("The cooler alone leaves ").Number("Out_hours_uncovered", float64(t.Hours.Uncovered()), 0).
		Say(" of ").Number("Out_hours_need", float64(t.Hours.Need()), 0).Say(" hours that need cooling uncovered").
		When(MoreLeft, more, say().Say("; the other two ways are sized to cover them. Compare prices with that in mind.")).
		When(NotMoreLeft, !more, say().Say(", no more than refrigeration does."))
}
