package steps

import (
	"github.com/evapbook/evapbook/internal/psychro"
	"github.com/evapbook/evapbook/internal/season"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/workbook/fx"
	"github.com/evapbook/evapbook/internal/workbook/sheet"
)

// coolerColumns carry air [t], [wb], [w], [p] with indirect stage leaving at
// [t1] through the pads and the fan; pressure and wetBulb1 are the values cached
// in [p] and [tb].
func coolerColumns(pressure, wetBulb1 func(int) float64, out func(int) *season.Hour) []sheet.Column {
	return []sheet.Column{
		{
			Key: "tb", Title: "Wet bulb entering the pads", Kind: units.Temperature, Eq: 11,
			Formula: "IF(B_indirect_stage=1,MIN([y" + last + "]-" + fx.Zero + ",[t1]),[wb])",
			Value:   func(i int) any { return wetBulb1(i) },
		},
		{
			Key: "tb_r", Title: "Moles when saturated there", Kind: units.Plain, Eq: 3,
			Formula: fx.Moles("[p]", fx.SaturationPressure(fx.Kelvin("[tb]"))),
			Value:   func(i int) any { return fx.MolesOf(pressure(i), psychro.SaturationPressure(wetBulb1(i))) },
		},
		{
			Key: "t2", Title: "Leaving the pads", Kind: units.Temperature, Eq: 9,
			Formula: fx.AfterPads,
			Value:   func(i int) any { return out(i).Supply.Leaving.T },
		},
		{
			Key: "w2", Title: "Supply humidity ratio", Kind: units.HumidityRatio, Eq: 9,
			Formula: "IF(B_direct_stage=1," + fx.HumidityRatioAtWetBulb("[t2]", "[tb]", "[tb_r]") + ",[w])",
			Value:   func(i int) any { return out(i).Supply.W },
		},
		{
			Key: "m", Title: "Dry air flow", Kind: units.MassFlow, Eq: 12,
			Formula: fx.MassFlow("[t2]", "[w2]", "[p]"),
			Value:   func(i int) any { return out(i).Supply.MassFlow },
		},
		{
			Key: "cp", Title: "Specific heat", Kind: units.SpecificHeat, Eq: 12,
			Formula: fx.SpecificHeat("[w2]"),
			Value:   func(i int) any { return out(i).Supply.SpecificHeat },
		},
		{
			Key: "fan", Title: "Fan at full speed", Kind: units.Power, Eq: 13,
			Formula: fx.FanPower("[w2]", "[m]"),
			Value:   func(i int) any { return out(i).Supply.FanPower },
		},
		{
			Key: "ts", Title: "Supply temperature", Kind: units.Temperature, Eq: 13,
			Formula: fx.AfterFan("[t2]", "[fan]", "[m]", "[cp]"),
			Value:   func(i int) any { return out(i).Supply.T },
		},
		{
			Key: "dw", Title: "Water per kg of air", Kind: units.HumidityRatio, Eq: 21,
			Formula: fx.Evaporating,
			Value:   func(i int) any { return out(i).Supply.Evaporating },
		},
	}
}
