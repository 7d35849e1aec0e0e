package steps

import (
	"fmt"

	"github.com/evapbook/evapbook/internal/season"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/workbook/figures"
	"github.com/evapbook/evapbook/internal/workbook/fx"
	"github.com/evapbook/evapbook/internal/workbook/sheet"
)

// The columns of Working from the load of an hour to the state in which it
// leaves the house.

// loadColumns are what the hour meets and asks for.
func loadColumns(c *figures.Case, out func(int) *season.Hour) []sheet.Column {
	return []sheet.Column{
		before(c, "before", "house", "House", func(i int) float64 { return out(i).Before }),
		{
			Key: "q", Title: "Sensible load at the setpoint", Kind: units.Power, Eq: 17,
			Formula: fx.Load("[before]"),
			Value:   func(i int) any { return out(i).Load.Sensible },
		},
		{
			Key: "steady", Title: "Load without storage", Kind: units.Power, Eq: 17,
			Formula: "MAX(0," + fx.Steady + ")",
			Value:   func(i int) any { return out(i).Load.Steady },
		},
		{
			Key: "leak", Title: "Heat that leaks in when shut", Kind: units.Power, Eq: 17,
			Formula: fx.Leak,
			Value:   func(i int) any { return out(i).Load.Leak },
		},
		{
			Key: "need", Title: "Needs cooling", Kind: units.Count, Eq: 17,
			Formula: "IF(AND([q]>0,[q]+[leak]>0),1,0)",
			Value:   func(i int) any { return fx.Flag(out(i).Outcome.Need()) },
		},
		{
			Key: "shut", Title: "House if left shut", Kind: units.Temperature, Eq: 17,
			Formula: fx.Shut("[before]"),
			Value:   func(i int) any { return out(i).Shut },
		},
	}
}

// before is the temperature of a house at the end of the hour before, in the
// first hour the setpoint. Through hours without weather the house keeps its
// temperature, so behind them it is that of the last hour with weather.
func before(c *figures.Case, key, house, title string, value func(i int) float64) sheet.Column {
	last := make([]int, len(c.Season.Hours)) // the last hour with weather before each
	at := -1
	for i := range last {
		last[i] = at
		if !c.Missing(i) {
			at = i
		}
	}
	return sheet.Column{
		Key: key, Band: title, Title: "Before the hour", Kind: units.Temperature, Eq: 17,
		First: "Si_house_setpoint",
		RowFormula: func(i int) string {
			switch last[i] {
			case -1:
				return "Si_house_setpoint"
			case i - 1:
				return "[" + house + "@-1]"
			default:
				return fmt.Sprintf("[%s#%d]", house, last[i])
			}
		},
		Value: func(i int) any { return value(i) },
	}
}

// trialColumns try outdoor air alone, then water.
func trialColumns(c *figures.Case, out func(int) *season.Hour) []sheet.Column {
	cols := []sheet.Column{
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
	}
	cols = append(cols, trial("v", "[w]", "[vts]", func(i int) (*season.Trial, float64) {
		s := &out(i).Vented
		return &out(i).Vent, s.MassFlow * s.SpecificHeat * (c.Season.House.Setpoint - s.T)
	})...)
	with := trial("", "[w2]", "[ts]", func(i int) (*season.Trial, float64) {
		s := &out(i).Supply
		return &out(i).Evap, s.MassFlow * s.SpecificHeat * (c.Season.House.Setpoint - s.T)
	})
	return append(cols, withBandFirst(with, "With water")...)
}

func withBandFirst(cols []sheet.Column, band string) []sheet.Column {
	cols[0].Band = band
	return cols
}

// trial carries the load with one stream: flow [{x}m], specific heat [{x}cp],
// humidity ratio w and temperature ta. The keys of its columns begin with v for
// outdoor air, with e for water. Eqs. 18 to 20.
func trial(x, w, ta string, of func(i int) (*season.Trial, float64)) []sheet.Column {
	key := x
	if x == "" {
		key = "e"
	}
	f := func(formula string) string {
		return fx.Fill(formula, "{X}", x, "{K}", key)
	}
	trial := func(i int) *season.Trial { t, _ := of(i); return t }
	return []sheet.Column{
		{
			Key: key + "full", Title: "Indoors at full flow", Kind: units.Temperature, Eq: 18,
			Formula: fx.AtFullFlow(f("[{X}m]"), f("[{X}cp]"), ta),
			Value:   func(i int) any { return trial(i).Full },
		},
		{Key: key + "b", Title: "Heat carried away at full flow", Kind: units.Power, Eq: 19, Formula: fx.CarriedAtFullFlow(f("[{X}m]"), f("[{X}cp]"), ta), Value: func(i int) any { _, b := of(i); return b }},
		{
			Key: key + "share", Title: "Share of full flow", Kind: units.Share, Eq: 19,
			Formula: fx.ShareOfFlow(f("[{K}full]"), f("[{K}b]")),
			Value:   func(i int) any { return trial(i).Share },
		},
		{
			Key: key + "run", Title: "Part of the hour running", Kind: units.Share, Eq: 19,
			Formula: fx.Running(f("[{K}share]")),
			Value:   func(i int) any { return trial(i).Fraction },
		},
		{
			Key: key + "w", Title: "Indoor humidity ratio", Kind: units.HumidityRatio, Eq: 20,
			Formula: fx.Moisture(f("[{X}m]"), f("[{K}share]"), f("[{K}run]"), w),
			Value:   func(i int) any { return trial(i).W },
		},
		{
			Key: key + "rh", Title: "Indoor humidity", Kind: units.Share, Eq: 20,
			Formula: fx.IndoorHumidity(f("[{K}w]"), "B_set_psat"),
			Value:   func(i int) any { return trial(i).RelHum },
		},
	}
}

func outcomeColumns(c *figures.Case, out func(int) *season.Hour) []sheet.Column {
	return append([]sheet.Column{
		{
			Key: "outcome", Band: "Outcome", Title: "Outcome", Kind: units.Text, Eq: 18, Always: true,
			Formula: fx.Outcome,
			Value:   func(i int) any { return out(i).Outcome.String() },
		},
		{
			Key: "share", Title: "Share of full flow", Kind: units.Share, Eq: 19,
			Formula: `IF([outcome]="idle",0,IF([outcome]="vent",[vshare],IF(AND([outcome]="warm",[efull]>=[shut]),0,[eshare])))`,
			Value:   func(i int) any { return out(i).Share },
		},
		{
			Key: "fraction", Title: "Part of the hour running", Kind: units.Share, Eq: 19,
			Formula: fx.Running("[share]"),
			Value:   func(i int) any { return out(i).Running.Fraction },
		},
		{Key: "pump", Title: "Pump hours", Kind: units.Share, Eq: 19, Formula: `IF(OR([outcome]="evap",[outcome]="damp",[outcome]="warm"),[fraction],0)`, Value: func(i int) any {
			if out(i).Outcome.Wet() {
				return out(i).Running.Fraction
			}
			return 0.0
		}},
		{
			Key: "level", Title: "Fan power while it runs, of that at full speed", Kind: units.Share, Eq: 19,
			Formula: fx.FanLevel,
			Value:   func(i int) any { return c.Season.Cooler.PowerShare(out(i).Share) },
		},
		{
			Key: "cooler_kwh", Fine: true, Title: "Cooler energy", Kind: units.Energy, Eq: 19,
			Formula: `(IF([outcome]="vent",[vfan],[fan])*[level]*[fraction]+Si_cooler_pump_power*[pump])/1000`,
			Value:   func(i int) any { return out(i).CoolerKWh },
		},
		{
			Key: "evaporated", Fine: true, Title: "Water evaporated", Kind: units.Volume, Eq: 21,
			Formula: `IF([pump]>0,3600*[m]*[share]*[dw],0)`,
			Value:   func(i int) any { return out(i).Evaporated },
		},
	}, indoorColumns(c, out)...)
}

// indoorColumns are the state of the house in the hour and at its end.
func indoorColumns(c *figures.Case, out func(int) *season.Hour) []sheet.Column {
	runs := runLengths(c.Season.Hours)
	return []sheet.Column{
		{
			Key: "indoor", Title: "Indoor temperature", Kind: units.Temperature, Eq: 18,
			Formula: `IF([outcome]="idle","",IF([outcome]="warm",MIN([efull],[shut]),Si_house_setpoint))`,
			Value:   func(i int) any { return figures.UnlessIdle(out(i), out(i).Indoor) },
		},
		{
			Key: "indoor_w", Title: "Indoor humidity ratio", Kind: units.HumidityRatio, Eq: 20,
			Formula: `IF([outcome]="idle","",IF([outcome]="vent",[vw],IF([outcome]="warm",` + fx.Moisture("[m]", "[share]", "[fraction]", "[w2]") + `,[ew])))`,
			Value:   func(i int) any { return figures.UnlessIdle(out(i), out(i).IndoorW) },
		},
		{
			Key: "indoor_rh", Title: "Indoor humidity", Kind: units.Share, Eq: 20,
			Formula: `IF([outcome]="idle","",IF([outcome]="vent",[vrh],IF([outcome]="warm",` + fx.IndoorHumidity("[indoor_w]", fx.SaturationPressureOverWater(fx.Kelvin("[indoor]"))) + `,[erh])))`,
			Value:   func(i int) any { return figures.UnlessIdle(out(i), out(i).IndoorRH) },
		},
		{
			Key: "over", Title: "Above the setpoint", Kind: units.TemperatureDifference, Eq: 18,
			Formula: `IF([outcome]="warm",[indoor]-Si_house_setpoint,0)`,
			Value:   func(i int) any { return out(i).Over },
		},
		{
			Key: "house", Title: "House at the end of the hour", Kind: units.Temperature, Eq: 17,
			Formula: `IF([outcome]="idle",` + fx.Drift("[shut]") + `,[indoor])`,
			Value:   func(i int) any { return out(i).House },
		},
		{
			Key: "uncovered", Title: "Uncovered", Kind: units.Count,
			Formula: `IF(OR([outcome]="damp",[outcome]="warm"),1,0)`,
			Value:   func(i int) any { return fx.Flag(out(i).Outcome.Uncovered()) },
		},
		{
			Key: "moving", Title: "Comfortable in moving air", Kind: units.Count,
			Formula: `IF([uncovered]=1,IF([indoor]<=Si_house_setpoint+Si_house_moving_air,IF([indoor_rh]*` + fx.SaturationPressureOverWater(fx.Kelvin("[indoor]")) + `/B_moving_psat<=Si_house_humidity_limit,1,0),0),0)`,
			Value:   func(i int) any { return fx.Flag(out(i).Moving) },
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
