package customer

import (
	"github.com/evapbook/evapbook/internal/money"
	"github.com/evapbook/evapbook/internal/season"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/workbook/costs"
	"github.com/evapbook/evapbook/internal/workbook/figures"
	"github.com/evapbook/evapbook/internal/workbook/sheet"
	"github.com/evapbook/evapbook/internal/xlsx"
)

// answerMoney says what it costs to buy and to run, the saving and the payback;
// poorFit is true where the verdict says that it is no cooling for less money.
func answerMoney(c *figures.Case, p *sheet.Page, poorFit string) {
	p.Section("What it costs, beside refrigeration", answerCols)
	at := [][2]int{{1, 2}, {3, 4}, {5, 6}, {7, 8}}
	for i, h := range []string{"", figures.WayTitle[money.Cooler], figures.WayTitle[money.Refrigerated], figures.WayTitle[money.Both]} {
		p.Across(p.Row, at[i][0], at[i][1], xlsx.Cell{Value: h, Style: sheet.Head})
	}
	p.Row++
	for _, r := range []struct {
		label, row string
		of         func(*money.Option) float64
	}{
		{"To buy, installed", "installed", func(o *money.Option) float64 { return o.Installed }},
		{"To run, a year", "yearly", func(o *money.Option) float64 { return o.Total() }},
	} {
		p.Across(p.Row, 1, 2, xlsx.Cell{Value: r.label, Style: sheet.Label})
		for w := money.Cooler; w < money.Ways; w++ {
			p.Across(p.Row, at[1+w][0], at[1+w][1], xlsx.Cell{Value: r.of(&c.Money.Options[w]), Formula: "Out_money_" + w.String() + "_" + r.row, Style: sheet.Centred(c.Unit(units.Money).Format)})
		}
		p.Row++
	}
	gap(p)
	prose(p, paybackLine(c), sheet.Text, 2)
	poor := c.Season.Totals.Verdict() == season.PoorFit
	t := &c.Season.Totals
	hardly := t.Verdict() == season.HardlyNeeded
	left := say().When(costs.PoorVerdict, poor, say().Say("A POOR FIT IS NOT CHEAP COOLING. ")).
		Say("The cooler alone leaves ").Number("Out_hours_uncovered", float64(t.Hours.Uncovered()), 0).Say(" of ").Number("Out_hours_need", float64(t.Hours.Need()), 0).Say(" hours uncovered").
		When(costs.Needed, !hardly, capacity(c, say().Say("; refrigeration of ")).Say(" leaves ").Number("Out_ac_unmet_hours", float64(t.UnmetHours), 0).Say(".")).
		When(costs.HardlyNeeded, hardly, capacity(c, say().Say(". Beside it stands refrigeration of ")).Say("; for so few hours one room unit would do.")).
		When(costs.MoreLeft, t.Hours.Uncovered() > t.UnmetHours, say().Say(" It is not the same service for less money."))
	prose(p, left, sheet.Text, 2)
	warn := sheet.Warn
	p.Conditional = append(p.Conditional, xlsx.CondFormat{Range: xlsx.RangeRef(p.Row-1, 1, p.Row-1, answerCols), When: poorFit, Style: xlsx.Style{Bold: true, Color: warn.Color, Fill: warn.Fill}})
	gap(p)
}

// paybackLine is the saving against refrigeration and in how many years a higher
// price comes back, or plainly that it does not; and the energy behind it.
func paybackLine(c *figures.Case) *sheet.Sentence {
	return costs.Saving(c, money.Cooler).
		Say(" Energy a season: cooler ").With(lowEnd(c, "Out_energy_low_cooler_kwh", units.Energy, c.Low.CoolerKWh)).Number("Out_energy_cooler_kwh", c.Season.Totals.CoolerKWh, 0).
		Say(" kWh, refrigeration ").Number("Out_energy_refrigerated_kwh", c.Season.Totals.RefKWh, 0).
		Say(" kWh. At the stated prices; the lower ends are for people who feel the air move and set it higher.")
}

// capacity adds the rated capacity of refrigeration in the unit of the trade.
func capacity(c *figures.Case, s *sheet.Sentence) *sheet.Sentence {
	if c.Units == units.IP {
		return s.Quantity(c.Units, units.Capacity, "Out_ac_capacity_w", c.Season.AC.Capacity, 1)
	}
	return s.Quantity(c.Units, units.PowerKW, "Out_ac_capacity_w/1000", c.Season.AC.Capacity/1000, 1)
}
