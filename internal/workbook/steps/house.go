package steps

import (
	"github.com/evapbook/evapbook/internal/season"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/workbook/figures"
	"github.com/evapbook/evapbook/internal/workbook/fx"
	"github.com/evapbook/evapbook/internal/workbook/sheet"
)

// trialColumns are the load, and what outdoor air alone and air with water would
// do about it.
func trialColumns(out func(int) *season.Hour) []sheet.Column {
	return []sheet.Column{
		{
			Key: "q", Band: "Load", Title: "Sensible load at the setpoint", Kind: units.Power, Eq: 17,
			Formula: fx.Load,
			Value:   func(i int) any { return out(i).Load },
		},
		{
			Key: "vm", Band: "Outdoor air alone", Title: "Dry air flow", Kind: units.MassFlow, Eq: 12,
			Formula: fx.MassFlow("[t]", "[w]", "[p]"),
			Value:   func(i int) any { return out(i).Vented.MassFlow },
		},
		{
			Key: "vcp", Title: "Specific heat", Kind: units.SpecificHeat, Eq: 12,
			Formula: fx.SpecificHeat("[w]"),
			Value:   func(i int) any { return out(i).Vented.SpecificHeat },
		},
		{
			Key: "vfan", Title: "Fan at full speed", Kind: units.Power, Eq: 13,
			Formula: fx.FanPower("[w]", "[vm]"),
			Value:   func(i int) any { return out(i).Vented.FanPower },
		},
		{
			Key: "vts", Title: "Air blown in", Kind: units.Temperature, Eq: 13,
			Formula: fx.AfterFan("[t]", "[vfan]", "[vm]", "[vcp]"),
			Value:   func(i int) any { return out(i).Vented.T },
		},
		{
			Key: "vfull", Title: "Indoors at full flow", Kind: units.Temperature, Eq: 18,
			Formula: fx.AtFullFlow("[vm]", "[vcp]", "[vts]"),
			Value:   func(i int) any { return out(i).Vent.Full },
		},
		{
			Key: "vshare", Title: "Share of full flow", Kind: units.Share, Eq: 19,
			Formula: fx.ShareOfFlow("[vfull]", "[vm]", "[vcp]", "[vts]"),
			Value:   func(i int) any { return out(i).Vent.Share },
		},
		{
			Key: "vrh", Title: "Indoor humidity", Kind: units.Share, Eq: 20,
			Formula: fx.IndoorHumidity("[w]", "[vm]*[vshare]", "B_set_psat"),
			Value:   func(i int) any { return out(i).Vent.RelHum },
		},
		{
			Key: "efull", Band: "With water", Title: "Indoors at full flow", Kind: units.Temperature, Eq: 18,
			Formula: fx.AtFullFlow("[m]", "[cp]", "[ts]"),
			Value:   func(i int) any { return out(i).Evap.Full },
		},
		{
			Key: "eshare", Title: "Share of full flow", Kind: units.Share, Eq: 19,
			Formula: fx.ShareOfFlow("[efull]", "[m]", "[cp]", "[ts]"),
			Value:   func(i int) any { return out(i).Evap.Share },
		},
		{
			Key: "erh", Title: "Indoor humidity", Kind: units.Share, Eq: 20,
			Formula: fx.IndoorHumidity("[w2]", "[m]*[eshare]", "B_set_psat"),
			Value:   func(i int) any { return out(i).Evap.RelHum },
		},
	}
}

// outcomeColumns are what becomes of the hour and what it takes.
func outcomeColumns(c *figures.Case, out func(int) *season.Hour) []sheet.Column {
	runs := runLengths(c.Season.Hours)
	return []sheet.Column{
		{
			Key: "outcome", Band: "Outcome", Title: "Outcome", Kind: units.Text, Eq: 18, Always: true,
			Formula: fx.Outcome,
			Value:   func(i int) any { return out(i).Outcome.String() },
		},
		{
			Key: "share", Title: "Share of full flow", Kind: units.Share, Eq: 19,
			Formula: `IF([outcome]="idle",0,IF([outcome]="vent",[vshare],[eshare]))`,
			Value:   func(i int) any { return out(i).Share },
		},
		{
			Key: "fraction", Title: "Part of the hour running", Kind: units.Share, Eq: 19,
			Formula: "[share]/MAX([share],Si_cooler_lowest_speed)",
			Value:   func(i int) any { return out(i).Running.Fraction },
		},
		{
			Key: "pump", Title: "Pump hours", Kind: units.Share, Eq: 19,
			Formula: `IF(OR([outcome]="evap",[outcome]="damp",[outcome]="warm"),[fraction],0)`,
			Value: func(i int) any {
				if out(i).Outcome.Wet() {
					return out(i).Running.Fraction
				}
				return 0.0
			},
		},
		{
			Key: "cooler_kwh", Fine: true, Title: "Cooler energy", Kind: units.Energy, Eq: 19,
			Formula: `(IF([outcome]="vent",[vfan],[fan])*MAX([share],Si_cooler_lowest_speed)^3*[fraction]+Si_cooler_pump_power*[pump])/1000`,
			Value:   func(i int) any { return out(i).CoolerKWh },
		},
		{
			Key: "indoor", Title: "Indoor temperature", Kind: units.Temperature, Eq: 18,
			Formula: `IF([outcome]="idle","",IF([outcome]="warm",[efull],Si_house_setpoint))`,
			Value:   func(i int) any { return figures.UnlessIdle(out(i), out(i).Indoor) },
		},
		{
			Key: "indoor_rh", Title: "Indoor humidity", Kind: units.Share, Eq: 20,
			Formula: `IF([outcome]="idle","",IF([outcome]="vent",[vrh],IF([outcome]="warm",` + fx.IndoorHumidity("[w2]", "[m]", fx.SaturationPressureOverWater("([efull]+273.15)")) + `,[erh])))`,
			Value:   func(i int) any { return figures.UnlessIdle(out(i), out(i).IndoorRH) },
		},
		{
			Key: "over", Title: "Above the setpoint", Kind: units.TemperatureDifference, Eq: 18,
			Formula: `IF([outcome]="warm",[efull]-Si_house_setpoint,0)`,
			Value:   func(i int) any { return out(i).Over },
		},
		{
			Key: "evaporated", Fine: true, Title: "Water evaporated", Kind: units.Volume, Eq: 21,
			Formula: `IF([pump]>0,3600*[m]*[share]*[dw],0)`,
			Value:   func(i int) any { return out(i).Evaporated },
		},
		{
			Key: "uncovered", Title: "Uncovered", Kind: units.Count,
			Formula: `IF(OR([outcome]="damp",[outcome]="warm"),1,0)`,
			Value:   func(i int) any { return fx.Flag(out(i).Outcome.Uncovered()) },
		},
		{
			Key: "run", Title: "Uncovered hours in a row", Kind: units.Count,
			Formula: `IF([uncovered]=1,1+IF(ISNUMBER([run@-1]),[run@-1],0),0)`,
			First:   `IF([uncovered]=1,1,0)`,
			Value:   func(i int) any { return runs[i] },
		},
	}
}

// runLengths counts, at each hour, the uncovered hours in a row up to it.
func runLengths(hours []season.Hour) []int {
	runs := make([]int, len(hours))
	for i := range hours {
		if hours[i].Outcome.Uncovered() {
			runs[i] = 1
			if i > 0 {
				runs[i] += runs[i-1]
			}
		}
	}
	return runs
}
