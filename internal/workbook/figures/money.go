package figures

import (
	"github.com/evapbook/evapbook/internal/money"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/workbook/fx"
)

// MoneyRow is a line of the comparison, one value for each way.
type MoneyRow struct {
	Key, Label string
	Kind       units.Kind
	Eq         int
	Formula    [money.Ways]string
	Value      [money.Ways]float64
}

// IsMoney tells costs from amounts that have a unit.
func (r MoneyRow) IsMoney() bool { return r.Kind == units.Money }

// Name is the name of the cell of a way.
func (r MoneyRow) Name(way int) string { return "M_" + money.Way(way).String() + "_" + r.Key }

// MoneyRows are the lines of the yearly comparison. The cell of a row and a
// way is named M_way_row.
func (c *Case) MoneyRows() []MoneyRow {
	take := func(f func(*money.Option) float64) (v [money.Ways]float64) {
		for w := range v {
			v[w] = f(&c.Money.Options[w])
		}
		return v
	}
	same := func(formula string) (f [money.Ways]string) {
		for w := range f {
			f[w] = fx.Fill(formula, "{W}", money.Way(w).String())
		}
		return f
	}
	return []MoneyRow{
		{"kwh", "Energy", units.Energy, 27, [...]string{"Out_energy_cooler_kwh", "Out_energy_refrigerated_kwh", "Out_energy_both_kwh"}, take(func(o *money.Option) float64 { return o.KWh })},
		{"water_l", "Water on site", units.Volume, 22, [...]string{"Out_water_total_l", "0", "Out_water_both_l"}, take(func(o *money.Option) float64 { return o.Yearly.Water })},
		{"plant_water", "Water at the power plant", units.Volume, 24, same("M_{W}_kwh*Si_plant_water"), take(func(o *money.Option) float64 { return o.PlantWater })},
		{"co2", "Carbon dioxide", units.Mass, 28, same("M_{W}_kwh*Si_plant_co2"), take(func(o *money.Option) float64 { return o.CO2 })},
		{"energy", "Cost of energy", units.Money, 28, [...]string{fx.EnergyBill("cooler_kwh"), fx.EnergyBill("ref_kwh"), fx.EnergyBill("both_kwh")}, take(func(o *money.Option) float64 { return o.Energy })},
		{"water", "Cost of water", units.Money, 28, same("M_{W}_water_l/1000*(Si_price_water+Si_price_sewer)"), take(func(o *money.Option) float64 { return o.WaterCost })},
		{"care", "Yearly care", units.Money, 28, [...]string{"Si_price_cooler_care", "Si_price_ac_care", "Si_price_cooler_care+Si_price_ac_care"}, take(func(o *money.Option) float64 { return o.Care })},
		{"yearly", "Running cost a year", units.Money, 28, same("M_{W}_energy+M_{W}_water+M_{W}_care"), take(func(o *money.Option) float64 { return o.Total() })},
		{"installed", "Installed", units.Money, 28, [...]string{"Si_price_cooler_installed", "Si_price_ac_installed", "Si_price_cooler_installed+Si_price_ac_installed"}, take(func(o *money.Option) float64 { return o.Installed })},
		{"present", "Present value over the study", units.Money, 28, [...]string{fx.Present("cooler", "M_cooler_left"), fx.Present("refrigerated", "M_ac_left"), fx.Present("both", "(M_cooler_left+M_ac_left)")}, take(func(o *money.Option) float64 { return o.Present })},
	}
}
