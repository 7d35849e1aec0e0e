// Package steps lays out the sheets that carry the calculation, in SI: every
// hour, every day, the design conditions, what follows from the inputs before
// any hour, and the headline figures.
package steps

import (
	"math"
	"strconv"

	"github.com/evapbook/evapbook/internal/climate"
	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/psychro"
	"github.com/evapbook/evapbook/internal/season"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/weather"
	"github.com/evapbook/evapbook/internal/workbook/figures"
	"github.com/evapbook/evapbook/internal/workbook/fx"
	"github.com/evapbook/evapbook/internal/workbook/sheet"
)

func Working(c *figures.Case, p *sheet.Page) {
	p.Place(&sheet.Table{Name: "Working", Rows: len(c.Season.Hours), Columns: workingColumns(c), Blank: c.Missing, Shared: true}, units.SI)
	p.FreezeCols = 1
	p.PrintRows("Working", 0, 24, 5)
}

// workingColumns are the columns of the Working sheet, in SI. Each carries the
// cell formula and the Go value cached beside it.
func workingColumns(c *figures.Case) []sheet.Column {
	s, x := c.Season, c.Solved()
	in := func(i int) *climate.Hour { return &s.Climate.Hours[i] }
	out := func(i int) *season.Hour { return &s.Hours[i] }
	var cols []sheet.Column
	add := func(more ...sheet.Column) { cols = append(cols, more...) }

	add(
		sheet.Column{Key: "time", Band: "Hour", Title: "Time", Kind: units.DateTime, Always: true, Value: func(i int) any { return in(i).Time }},
		sheet.Column{Key: "month", Title: "Month", Kind: units.Count, Always: true, Value: func(i int) any { return int(in(i).Start.Month()) }},
		sheet.Column{
			Key: "hour", Title: "Hour of day", Kind: units.Count, Always: true, Note: "0: the hour from midnight to 1",
			Value: func(i int) any { return in(i).Start.Hour() },
		},
	)
	add(stationColumns(c)...)
	add(
		sheet.Column{
			Key: "t", Band: "Air at the site", Title: "Dry bulb", Kind: units.Temperature, Eq: 7,
			Formula: "[st_t]-B_lapse",
			Value:   func(i int) any { return in(i).Air.T },
		},
		sheet.Column{
			Key: "p", Title: "Pressure", Kind: units.Pressure, Eq: 8,
			Formula: "[st_p]*B_pressure_ratio",
			Value:   func(i int) any { return in(i).Air.P },
		},
		sheet.Column{
			Key: "ps", Title: "Saturation pressure", Kind: units.Pressure, Eq: 2,
			Formula: fx.SaturationPressure("([t]+273.15)"),
			Value:   func(i int) any { return psychro.SaturationPressure(in(i).Air.T) },
		},
		sheet.Column{
			Key: "w", Title: "Humidity ratio", Kind: units.HumidityRatio, Eq: 6,
			Formula: "MIN([st_w]," + fx.HumidityRatio("[ps]", "[p]") + ")",
			Value:   func(i int) any { return in(i).Air.W },
		},
		sheet.Column{
			Key: "rh", Title: "Relative humidity", Kind: units.Share, Eq: 3,
			Formula: fx.RelHum("[w]", "[p]", "[ps]"),
			Value:   func(i int) any { return x[i].Rh },
		},
	)
	add(newtonColumns("x", "[t]", fx.FirstGuess("[t]", "[rh]"), "Wet bulb outdoors", func(i int) *fx.Newton { return &x[i].First })...)
	add(
		sheet.Column{
			Key: "wb", Title: "Wet bulb", Kind: units.Temperature, Eq: 4,
			Formula: "MIN([x" + last + "]-273.15,[t])",
			Value:   func(i int) any { return x[i].WetBulb },
		},
		sheet.Column{
			Key: "wb_engine", Title: "Wet bulb by the engine, as written", Kind: units.Temperature,
			Value: func(i int) any { return in(i).WetBulb },
		},
		sheet.Column{Key: "t1", Band: "Cooler with water", Title: "After the indirect stage", Kind: units.Temperature, Eq: 10,
			Formula: "[t]-B_indirect_stage*Si_cooler_indirect_effectiveness*([t]-[wb])", Value: func(i int) any { return out(i).Supply.T1 }},
	)
	add(secondNewtonColumns(c, func(i int) *fx.Newton { return &x[i].Second })...)
	add(coolerColumns(func(i int) float64 { return in(i).Air.P }, func(i int) float64 { return x[i].WetBulb1 }, out)...)
	add(trialColumns(c, in, out)...)
	add(outcomeColumns(c, out)...)
	add(refrigerationColumns(c, out)...)
	return cols
}

var last = strconv.Itoa(fx.NewtonSteps)

// newtonColumns solve a wet bulb at dry bulb t: whether the wick is iced, a
// first guess, and newtonSteps pairs of saturated air and next guess.
func newtonColumns(x, t, first, band string, n func(i int) *fx.Newton) []sheet.Column {
	wick := fx.Wick(t, "[w]", "[p]", "["+x+"_ice]")
	cols := []sheet.Column{
		{
			Key: x + "_ice", Band: band, Title: "Iced wick", Kind: units.Count, Eq: 4,
			Formula: wick[0],
			Value:   func(i int) any { return n(i).Ice },
		},
		{Key: x + "0", Title: "First guess", Kind: units.Kelvin, Formula: first, Value: func(i int) any { return n(i).X[0] }},
	}
	for k := range fx.NewtonSteps {
		from, to := x+strconv.Itoa(k), x+strconv.Itoa(k+1)
		cols = append(cols,
			sheet.Column{
				Key: from + "_r", Title: "Moles when saturated", Kind: units.Plain, Eq: 3,
				Formula: fx.Moles("[p]", fx.SaturationPressure("["+from+"]")),
				Value:   func(i int) any { return n(i).R[k] },
			},
			sheet.Column{Key: to, Title: "Step " + strconv.Itoa(k+1), Kind: units.Kelvin, Eq: 4,
				Formula: fx.Step("["+from+"]", "["+from+"_r]", wick), Value: func(i int) any { return n(i).X[k+1] }},
		)
	}
	return cols
}

// secondNewtonColumns solve the wet bulb after an indirect stage; they stay
// blank for a cooler without one.
func secondNewtonColumns(c *figures.Case, n func(i int) *fx.Newton) []sheet.Column {
	cols := newtonColumns("y", "[t1]", fx.SecondGuess, "Wet bulb after the indirect stage", n)
	for k := range cols {
		cols[k].Formula = "IF(B_indirect_stage=1," + cols[k].Formula + `,"")`
		if c.Season.Cooler.Kind == job.Direct {
			cols[k].Value = func(int) any { return "" }
		}
	}
	return cols
}

// stationColumns are the weather as the file gives it. Which columns there are
// depends on what the file has; nothing in them depends on a cooler.
func stationColumns(c *figures.Case) []sheet.Column {
	s, hours := c.Series, c.Season.Climate.Hours
	cols := []sheet.Column{
		{Key: "st_t", Band: "Station", Title: "Dry bulb", Kind: units.Temperature, Value: func(i int) any { return s.Hours[i].DryBulb }},
	}
	recorded := sheet.Column{Key: "st_p", Title: "Pressure", Kind: units.Pressure, Value: func(i int) any { return hours[i].StationP }}
	if c.Season.Climate.PressureEstimated > 0 {
		recorded.Key, recorded.Title = "st_p_recorded", "Pressure recorded"
		recorded.Value = func(i int) any { return numberOr(s.Hours[i].Pressure, "none") }
		cols = append(cols, recorded)
		recorded = sheet.Column{Key: "st_p", Title: "Pressure", Kind: units.Pressure, Eq: 5,
			Formula: "IF(ISNUMBER([st_p_recorded]),[st_p_recorded],B_station_pressure)", Value: func(i int) any { return hours[i].StationP }}
	}
	cols = append(cols, recorded)
	cols = append(cols, stationHumidity(c)...)
	cols = append(cols, sheet.Column{
		Key: "st_w", Title: "Humidity ratio", Kind: units.HumidityRatio, Eq: 6,
		Formula: stationRatio(c),
		Value:   func(i int) any { return hours[i].StationW },
	})
	ghi := sheet.Column{Key: "ghi", Title: "Irradiance", Kind: units.Irradiance, Value: func(i int) any { return hours[i].GHI }}
	if c.Season.Climate.GHIEstimated > 0 {
		cols = append(cols,
			sheet.Column{
				Key: "ghi_recorded", Title: "Irradiance recorded", Kind: units.Irradiance,
				Value: func(i int) any { return numberOr(s.Hours[i].GHI, "none") },
			},
			sheet.Column{
				Key: "ghi_clear", Title: "Irradiance, clear sky", Kind: units.Irradiance,
				Value: func(i int) any { return hours[i].Clear },
			})
		ghi.Formula = "IF(ISNUMBER([ghi_recorded]),[ghi_recorded],[ghi_clear]*Si_site_clearness)"
	}
	return append(cols, ghi)
}

// stationHumidity is the file's humidity quantity and the saturation pressure
// that turns it into a humidity ratio.
func stationHumidity(c *figures.Case) []sheet.Column {
	h := c.Series.Hours
	value := func(i int) any { return h[i].Humidity }
	at := func(i int) float64 { return h[i].DryBulb }
	cols := []sheet.Column{{Key: "st_hum", Title: "Relative humidity", Kind: units.Share, Value: value}}
	ps := "([st_t]+273.15)"
	if c.Series.Humidity != weather.RelHum {
		cols[0].Kind, cols[0].Title = units.Temperature, "Dew point"
		if c.Series.Humidity == weather.WetBulb {
			cols[0].Title = "Wet bulb"
		}
		ps = "(MIN([st_hum],[st_t])+273.15)"
		at = func(i int) float64 { return min(h[i].Humidity, h[i].DryBulb) }
	}
	return append(cols, sheet.Column{Key: "st_ps", Title: "Saturation pressure", Kind: units.Pressure, Eq: 2,
		Formula: fx.SaturationPressure(ps), Value: func(i int) any { return psychro.SaturationPressure(at(i)) }})
}

// stationRatio is the formula of the humidity ratio at the station.
func stationRatio(c *figures.Case) string {
	switch c.Series.Humidity {
	case weather.DewPoint:
		return fx.HumidityRatio("[st_ps]", "[st_p]")
	case weather.WetBulb:
		return "MAX(0," + fx.HumidityRatioAtWetBulb("[st_t]", "MIN([st_hum],[st_t])", "("+fx.Moles("[st_p]", "[st_ps]")+")") + ")"
	default:
		return fx.HumidityRatio("(MIN([st_hum],1)*[st_ps])", "[st_p]")
	}
}

// coolerColumns carry air [t], [wb], [w], [p] with indirect stage leaving at
// [t1] through the pads and the fan; pressure and wetBulb1 are the values cached
// in [p] and [tb].
func coolerColumns(pressure, wetBulb1 func(int) float64, out func(int) *season.Hour) []sheet.Column {
	return []sheet.Column{
		{
			Key: "tb", Title: "Wet bulb entering the pads", Kind: units.Temperature, Eq: 11,
			Formula: "IF(B_indirect_stage=1,MIN([y" + last + "]-273.15,[t1]),[wb])",
			Value:   func(i int) any { return wetBulb1(i) },
		},
		{
			Key: "tb_r", Title: "Moles when saturated there", Kind: units.Plain, Eq: 3,
			Formula: fx.Moles("[p]", fx.SaturationPressure("([tb]+273.15)")),
			Value:   func(i int) any { return fx.MolesOf(pressure(i), psychro.SaturationPressure(wetBulb1(i))) },
		},
		{
			Key: "t2", Title: "Leaving the pads", Kind: units.Temperature, Eq: 9,
			Formula: "[t1]-B_direct_stage*B_pad_effectiveness*([t1]-[tb])",
			Value:   func(i int) any { return out(i).Supply.Leaving.T },
		},
		{
			Key: "w2", Title: "Supply humidity ratio", Kind: units.HumidityRatio, Eq: 9,
			Formula: "IF(B_direct_stage=1," + fx.HumidityRatioAtWetBulb("[t2]", "[tb]", "[tb_r]") + ",[w])",
			Value:   func(i int) any { return out(i).Supply.W },
		},
		{
			Key: "m", Title: "Dry air flow", Kind: units.MassFlow, Eq: 12,
			Formula: "Si_cooler_airflow/(" + fx.Volume("[t2]", "[w2]", "[p]") + ")",
			Value:   func(i int) any { return out(i).Supply.MassFlow },
		},
		{
			Key: "cp", Title: "Specific heat", Kind: units.SpecificHeat, Eq: 12,
			Formula: "1006+1860*[w2]",
			Value:   func(i int) any { return out(i).Supply.SpecificHeat },
		},
		{
			Key: "fan", Title: "Fan at full speed", Kind: units.Power, Eq: 13,
			Formula: "Si_cooler_fan_power*(1+[w2])*[m]/Si_cooler_airflow/1.2",
			Value:   func(i int) any { return out(i).Supply.FanPower },
		},
		{
			Key: "ts", Title: "Supply temperature", Kind: units.Temperature, Eq: 13,
			Formula: "[t2]+[fan]/([m]*[cp])",
			Value:   func(i int) any { return out(i).Supply.T },
		},
		{
			Key: "dw", Title: "Water per kg of air", Kind: units.HumidityRatio, Eq: 21,
			Formula: "MAX(0,[w2]-[w])+(1006+1860*[w])*([t]-[t1])/" + fx.LatentHeat,
			Value:   func(i int) any { return out(i).Supply.Evaporating },
		},
	}
}

func trialColumns(c *figures.Case, in func(int) *climate.Hour, out func(int) *season.Hour) []sheet.Column {
	full := func(m, cp, ta string) string {
		return fx.Fill("(B_ua*[t]+B_aperture*[ghi]+B_sensible+{M}*{C}*{A})/(B_ua+{M}*{C})", "{M}", m, "{C}", cp, "{A}", ta)
	}
	share := func(full, m, cp, ta string) string {
		return fx.Fill("IF(AND([q]>0,{F}<=Si_house_setpoint),[q]/({M}*{C}*(Si_house_setpoint-{A})),1)", "{F}", full, "{M}", m, "{C}", cp, "{A}", ta)
	}
	rh := func(w, m, share string) string {
		return fx.RelHum(fx.Fill("({W}+B_latent/("+fx.LatentHeat+"*{M}*{S}))", "{W}", w, "{M}", m, "{S}", share), "[p]", "B_set_psat")
	}
	return []sheet.Column{
		{
			Key: "q", Band: "Load", Title: "Sensible load at the setpoint", Kind: units.Power, Eq: 17,
			Formula: "B_ua*([t]-Si_house_setpoint)+B_aperture*[ghi]+B_sensible",
			Value:   func(i int) any { return out(i).Load },
		},
		{
			Key: "vm", Band: "Outdoor air alone", Title: "Dry air flow", Kind: units.MassFlow, Eq: 12,
			Formula: "Si_cooler_airflow/(" + fx.Volume("[t]", "[w]", "[p]") + ")",
			Value:   func(i int) any { return out(i).Vented.MassFlow },
		},
		{
			Key: "vcp", Title: "Specific heat", Kind: units.SpecificHeat, Eq: 12,
			Formula: "1006+1860*[w]",
			Value:   func(i int) any { return out(i).Vented.SpecificHeat },
		},
		{
			Key: "vfan", Title: "Fan at full speed", Kind: units.Power, Eq: 13,
			Formula: "Si_cooler_fan_power*(1+[w])*[vm]/Si_cooler_airflow/1.2",
			Value:   func(i int) any { return out(i).Vented.FanPower },
		},
		{
			Key: "vts", Title: "Air blown in", Kind: units.Temperature, Eq: 13,
			Formula: "[t]+[vfan]/([vm]*[vcp])",
			Value:   func(i int) any { return out(i).Vented.T },
		},
		{
			Key: "vfull", Title: "Indoors at full flow", Kind: units.Temperature, Eq: 18,
			Formula: full("[vm]", "[vcp]", "[vts]"),
			Value:   func(i int) any { return out(i).Vent.Full },
		},
		{
			Key: "vshare", Title: "Share of full flow", Kind: units.Share, Eq: 19,
			Formula: share("[vfull]", "[vm]", "[vcp]", "[vts]"),
			Value:   func(i int) any { return out(i).Vent.Share },
		},
		{
			Key: "vrh", Title: "Indoor humidity", Kind: units.Share, Eq: 20,
			Formula: rh("[w]", "[vm]", "[vshare]"),
			Value:   func(i int) any { return out(i).Vent.RelHum },
		},
		{
			Key: "efull", Band: "With water", Title: "Indoors at full flow", Kind: units.Temperature, Eq: 18,
			Formula: full("[m]", "[cp]", "[ts]"),
			Value:   func(i int) any { return out(i).Evap.Full },
		},
		{
			Key: "eshare", Title: "Share of full flow", Kind: units.Share, Eq: 19,
			Formula: share("[efull]", "[m]", "[cp]", "[ts]"),
			Value:   func(i int) any { return out(i).Evap.Share },
		},
		{
			Key: "erh", Title: "Indoor humidity", Kind: units.Share, Eq: 20,
			Formula: rh("[w2]", "[m]", "[eshare]"),
			Value:   func(i int) any { return out(i).Evap.RelHum },
		},
	}
}

func outcomeColumns(c *figures.Case, out func(int) *season.Hour) []sheet.Column {
	runs := runLengths(c.Season.Hours)
	return []sheet.Column{
		{
			Key: "outcome", Band: "Outcome", Title: "Outcome", Kind: units.Text, Eq: 18, Always: true,
			Formula: `IF([q]<=0,"idle",IF(AND([vfull]<=Si_house_setpoint,[vrh]<=Si_house_humidity_limit),"vent",IF([efull]>Si_house_setpoint,"warm",IF([erh]<=Si_house_humidity_limit,"evap","damp"))))`,
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
			Formula: `IF([outcome]="idle","",IF([outcome]="vent",[vrh],IF([outcome]="warm",` + fx.RelHum("([w2]+B_latent/("+fx.LatentHeat+"*[m]))", "[p]", fx.SaturationPressureOverWater("([efull]+273.15)")) + `,[erh])))`,
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

func refrigerationColumns(c *figures.Case, out func(int) *season.Hour) []sheet.Column {
	capacity := c.Season.AC.Capacity
	return []sheet.Column{
		{
			Key: "closed_w", Band: "Refrigerated air conditioner", Title: "Load, house closed", Kind: units.Power, Eq: 25,
			Formula: "IF([q]>0,MAX(0,[q]+B_infiltration*1006*([t]-Si_house_setpoint))+B_latent+B_infiltration*" + fx.LatentHeat + "*MAX(0,[w]-B_room_w),0)",
			Value:   func(i int) any { return out(i).ClosedLoad },
		},
		{
			Key: "capacity", Title: "Capacity over rating", Kind: units.Share, Eq: 26,
			Formula: "(B_capacity_0+B_capacity_1*([t]*1.8+32)+B_capacity_2*([t]*1.8+32)^2)*B_altitude_factor",
			Value:   func(i int) any { return out(i).CapacityShare },
		},
		{
			Key: "eir", Title: "Input ratio over rating", Kind: units.Share, Eq: 26,
			Formula: "(B_eir_0+B_eir_1*([t]*1.8+32)+B_eir_2*([t]*1.8+32)^2)/B_altitude_factor",
			Value:   func(i int) any { return out(i).EIRShare },
		},
		{
			Key: "rating", Title: "Rating that carries it", Kind: units.Power, Eq: 26,
			Formula: "[closed_w]/[capacity]",
			Value:   func(i int) any { return out(i).NeededRating },
		},
		{
			Key: "plr", Title: "Part load", Kind: units.Share, Eq: 27,
			Formula: "MIN(1,[rating]/Si_ac_capacity)",
			Value:   func(i int) any { return min(1, out(i).NeededRating/capacity) },
		},
		{
			Key: "closed_kwh", Fine: true, Title: "Energy, windows closed", Kind: units.Energy, Eq: 27,
			Formula: "[plr]*Si_ac_capacity*[capacity]*[eir]/((1-Si_ac_cycling*(1-[plr]))*B_cop)/1000",
			Value:   func(i int) any { return out(i).ClosedKWh },
		},
		{
			Key: "ref_kwh", Fine: true, Title: "Energy", Kind: units.Energy, Eq: 27,
			Formula: `IF(AND(In_ac_windows_open="yes",[outcome]="vent"),0,[closed_kwh])`,
			Value:   func(i int) any { return out(i).RefKWh },
		},
		{
			Key: "both_kwh", Fine: true, Title: "Energy, both together", Kind: units.Energy,
			Formula: "IF([uncovered]=1,[closed_kwh],[cooler_kwh])",
			Value:   func(i int) any { return out(i).BothKWh },
		},
		{
			Key: "unmet", Title: "Refrigeration falls short", Kind: units.Count,
			Formula: "IF([rating]>Si_ac_capacity,1,0)",
			Value:   func(i int) any { return fx.Flag(out(i).Unmet) },
		},
	}
}

func numberOr(v float64, text string) any {
	if math.IsNaN(v) {
		return text
	}
	return v
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
