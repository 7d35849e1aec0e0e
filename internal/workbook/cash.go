package workbook

import (
	"github.com/evapbook/evapbook/internal/money"
	"github.com/evapbook/evapbook/internal/units"
)

// cashColumns are the yearly cash flow of the three ways, at real prices, from
// today (year 0) to the longest study period.
func (c *Case) cashColumns() []column {
	m := &c.Money
	j := c.Season.Job
	machine := func(way money.Way, k int) func(int) any {
		return func(y int) any {
			if mc := m.Options[way].Machines[k]; mc.Due(y) {
				return mc.Installed
			}
			return 0.0
		}
	}
	cols := []column{
		{key: "year", band: "Year", title: "Year", kind: units.Count, always: true, value: func(y int) any { return y }},
		{key: "study", title: "In the study", kind: units.Count, formula: "IF([year]<=M_years,1,0)", value: func(y int) any { return flag(y <= m.Years) }},
		{key: "growth", title: "Price growth", kind: units.Plain, eq: 28, formula: "(1+Si_price_escalation)^[year]", value: func(y int) any { return pow(1+j.Price.Escalation, y) }},
		{key: "discount", title: "Discount", kind: units.Plain, eq: 28, formula: "(1+Si_price_discount)^-[year]", value: func(y int) any { return 1 / pow(1+j.Price.Discount, y) }},
		{key: "buy_cooler", band: "Bought", title: "Cooler", kind: units.Money, formula: "IF(MOD([year],M_cooler_life)=0,Si_price_cooler_installed,0)", value: machine(money.Cooler, 0)},
		{key: "buy_ac", title: "Refrigeration", kind: units.Money, formula: "IF(MOD([year],M_ac_life)=0,Si_price_ac_installed,0)", value: machine(money.Refrigerated, 0)},
	}
	buys := map[money.Way]string{money.Cooler: "[buy_cooler]", money.Refrigerated: "[buy_ac]", money.Both: "[buy_cooler]+[buy_ac]"}
	for w := money.Cooler; w < money.Ways; w++ {
		o := &m.Options[w]
		col := column{key: w.String(), title: wayTitle[w], kind: units.Money, eq: 28,
			formula: buys[w] + fill("+IF([year]=0,0,(M_{W}_energy+M_{W}_water)*[growth]+M_{W}_care)", "{W}", w.String()),
			value:   func(y int) any { return o.Cash[y] }}
		if w == money.Cooler {
			col.band = "Cost of the year"
		}
		cols = append(cols, col)
	}
	for w := money.Cooler; w < money.Ways; w++ {
		o := &m.Options[w]
		col := column{key: "sum_" + w.String(), title: wayTitle[w], kind: units.Money,
			formula: fill("[sum_{W}@-1]+[{W}]", "{W}", w.String()), first: "[" + w.String() + "]",
			value: func(y int) any { return o.Cumulative[y] }}
		if w == money.Cooler {
			col.band = "Cost up to and with the year"
		}
		cols = append(cols, col)
	}
	return cols
}

// moneyFirst is the row of the first line of the comparison on the Money
// sheet; charts point at the lines.
const moneyFirst = 5

// moneyRow is a line of the comparison, one value for each way.
type moneyRow struct {
	key, label string
	kind       units.Kind
	eq         int
	formula    [money.Ways]string
	value      [money.Ways]float64
}

// isMoney tells costs from amounts that have a unit.
func (r moneyRow) isMoney() bool { return r.kind == units.Money }

// name is the name of the cell of a way.
func (r moneyRow) name(way int) string { return "M_" + money.Way(way).String() + "_" + r.key }

// scalars are the row's cells, one below the other.
func (r moneyRow) scalars() (list []scalar) {
	for w := range r.formula {
		list = append(list, scalar{name: r.name(w), label: wayTitle[money.Way(w)] + ": " + r.label, kind: r.kind, eq: r.eq, formula: r.formula[w], value: r.value[w]})
	}
	return list
}

// moneyRows are the lines of the yearly comparison. The cell of a row and a
// way is named M_way_row.
func (c *Case) moneyRows() []moneyRow {
	take := func(f func(*money.Option) float64) (v [money.Ways]float64) {
		for w := range v {
			v[w] = f(&c.Money.Options[w])
		}
		return v
	}
	same := func(formula string) (f [money.Ways]string) {
		for w := range f {
			f[w] = fill(formula, "{W}", money.Way(w).String())
		}
		return f
	}
	return []moneyRow{
		{"kwh", "Energy", units.Energy, 27, [...]string{"Out_energy_cooler_kwh", "Out_energy_refrigerated_kwh", "Out_energy_both_kwh"}, take(func(o *money.Option) float64 { return o.KWh })},
		{"water_l", "Water on site", units.Volume, 22, [...]string{"Out_water_total_l", "0", "Out_water_both_l"}, take(func(o *money.Option) float64 { return o.Yearly.Water })},
		{"plant_water", "Water at the power plant", units.Volume, 24, same("M_{W}_kwh*Si_plant_water"), take(func(o *money.Option) float64 { return o.PlantWater })},
		{"co2", "Carbon dioxide", units.Mass, 28, same("M_{W}_kwh*Si_plant_co2"), take(func(o *money.Option) float64 { return o.CO2 })},
		{"energy", "Cost of energy", units.Money, 28, same("M_{W}_kwh*Si_price_electricity"), take(func(o *money.Option) float64 { return o.Energy })},
		{"water", "Cost of water", units.Money, 28, same("M_{W}_water_l/1000*(Si_price_water+Si_price_sewer)"), take(func(o *money.Option) float64 { return o.WaterCost })},
		{"care", "Yearly care", units.Money, 28, [...]string{"Si_price_cooler_care", "Si_price_ac_care", "Si_price_cooler_care+Si_price_ac_care"}, take(func(o *money.Option) float64 { return o.Care })},
		{"yearly", "Running cost a year", units.Money, 28, same("M_{W}_energy+M_{W}_water+M_{W}_care"), take(func(o *money.Option) float64 { return o.Total() })},
		{"installed", "Installed", units.Money, 28, [...]string{"Si_price_cooler_installed", "Si_price_ac_installed", "Si_price_cooler_installed+Si_price_ac_installed"}, take(func(o *money.Option) float64 { return o.Installed })},
		{"present", "Present value over the study", units.Money, 28, [...]string{presentFormula("cooler", "M_cooler_left"), presentFormula("refrigerated", "M_ac_left"), presentFormula("both", "(M_cooler_left+M_ac_left)")}, take(func(o *money.Option) float64 { return o.Present })},
	}
}

// presentFormula is the present value of a way's cash flow within the study,
// less what is left of its machines at the end.
func presentFormula(way, left string) string {
	return fill("SUMPRODUCT([Cash.study:],[Cash.discount:],[Cash.{W}:])-{L}*(1+Si_price_discount)^-M_years", "{W}", way, "{L}", left)
}

// studyScalars are the named cells of the study period.
func (c *Case) studyScalars() []scalar {
	cooler, ac := c.Money.Options[money.Cooler].Machines[0], c.Money.Options[money.Refrigerated].Machines[0]
	formula := func(price, life string) string {
		return fill("{P}*({L}-MOD(M_years,{L}))/{L}", "{P}", price, "{L}", life)
	}
	return []scalar{
		{name: "M_cooler_life", label: "Life of the cooler", kind: units.Years, formula: "ROUND(Si_price_cooler_life,0)", value: cooler.Life},
		{name: "M_ac_life", label: "Life of the refrigerated unit", kind: units.Years, formula: "ROUND(Si_price_ac_life,0)", value: ac.Life},
		{name: "M_years", label: "Study period: the longer life", kind: units.Years, eq: 28, formula: "MAX(M_cooler_life,M_ac_life)", value: c.Money.Years},
		{name: "M_cooler_left", label: "Left of the cooler at its end", kind: units.Money, eq: 28, formula: formula("Si_price_cooler_installed", "M_cooler_life"), value: cooler.Left(c.Money.Years), note: "straight line; a purchase in the last year counts as unspent"},
		{name: "M_ac_left", label: "Left of the refrigerated unit at its end", kind: units.Money, eq: 28, formula: formula("Si_price_ac_installed", "M_ac_life"), value: ac.Left(c.Money.Years)},
	}
}
