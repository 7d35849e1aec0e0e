package workbook

import (
	"math"
	"strconv"

	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/psychro"
	"github.com/evapbook/evapbook/internal/season"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/weather"
)

// hfg is the latent heat in formulas, J/kg; cooler.EvaporationHeat.
const hfg = "2450000"

// cells holds what the Working cells of one hour show beyond the engine's own
// results: the engine finds wet bulbs its own way.
type cells struct {
	rh            float64 // outdoor relative humidity at the site
	first, second newton  // wet bulb outdoors, and after the indirect stage
	wetBulb       float64 // °C, as the cells find it
	wetBulb1      float64 // °C, entering the pads
}

// solveCells carries the cells' own wet-bulb chains through all hours.
func solveCells(s *season.Season) []cells {
	out := make([]cells, len(s.Hours))
	for i := range out {
		in := &s.Climate.Hours[i]
		if in.Missing {
			continue
		}
		c, a := &out[i], in.Air
		c.rh = a.RelHum()
		c.first = solve(a, start(a.T, c.rh))
		c.wetBulb = min(c.first.last, a.T)
		c.wetBulb1 = c.wetBulb
		if s.Cooler.Kind != job.Direct {
			t1 := s.Hours[i].Supply.T1
			c.second = solve(psychro.Air{T: t1, W: a.W, P: a.P}, secondStart(c.wetBulb, a.T, t1))
			c.wetBulb1 = min(c.second.last, t1)
		}
	}
	return out
}

// The wet bulb falls by about 0.27 K per kelvin of dry bulb taken away at
// constant humidity ratio; a first guess only.
const secondStartFormula = "[wb]+273.15-0.27*([t]-[t1])"

func secondStart(wb, t, t1 float64) float64 { return wb + kelvin - 0.27*(t-t1) }

// workingColumns are the columns of the Working sheet, in SI. Each carries the
// cell formula and the Go value cached beside it.
func (c *Case) workingColumns() []column {
	s, x := c.Season, c.cells
	in := func(i int) *hourIn { return &s.Climate.Hours[i] }
	out := func(i int) *season.Hour { return &s.Hours[i] }
	var cols []column
	add := func(more ...column) { cols = append(cols, more...) }

	add(
		column{key: "time", band: "Hour", title: "Time", kind: units.DateTime, always: true, value: func(i int) any { return in(i).Time }},
		column{key: "month", title: "Month", kind: units.Count, always: true, value: func(i int) any { return int(in(i).Start.Month()) }},
		column{key: "hour", title: "Hour of day", kind: units.Count, always: true, value: func(i int) any { return in(i).Start.Hour() }, note: "0: the hour from midnight to 1"},
	)
	add(c.stationColumns()...)
	add(
		column{key: "t", band: "Air at the site", title: "Dry bulb", kind: units.Temperature, eq: 7, formula: "[st_t]-B_lapse", value: func(i int) any { return in(i).Air.T }},
		column{key: "p", title: "Pressure", kind: units.Pressure, eq: 8, formula: "[st_p]*B_pressure_ratio", value: func(i int) any { return in(i).Air.P }},
		column{key: "ps", title: "Saturation pressure", kind: units.Pressure, eq: 2, formula: psatFormula("([t]+273.15)"), value: func(i int) any { return psychro.SaturationPressure(in(i).Air.T) }},
		column{key: "w", title: "Humidity ratio", kind: units.HumidityRatio, eq: 6, formula: "MIN([st_w]," + humidityRatioFormula("[ps]", "[p]") + ")", value: func(i int) any { return in(i).Air.W }},
		column{key: "rh", title: "Relative humidity", kind: units.Share, eq: 3, formula: relHumFormula("[w]", "[p]", "[ps]"), value: func(i int) any { return x[i].rh }},
	)
	add(newtonColumns("x", "[t]", startFormula("[t]", "[rh]"), "Wet bulb outdoors", func(i int) *newton { return &x[i].first })...)
	add(
		column{key: "wb", title: "Wet bulb", kind: units.Temperature, eq: 4, formula: "MIN([x" + last + "]-273.15,[t])", value: func(i int) any { return x[i].wetBulb }},
		column{key: "wb_engine", title: "Wet bulb by the engine, as written", kind: units.Temperature, value: func(i int) any { return in(i).WetBulb }},
		column{key: "t1", band: "Cooler with water", title: "After the indirect stage", kind: units.Temperature, eq: 10,
			formula: "[t]-B_indirect_stage*Si_cooler_indirect_effectiveness*([t]-[wb])", value: func(i int) any { return out(i).Supply.T1 }},
	)
	add(c.secondNewtonColumns(func(i int) *newton { return &x[i].second })...)
	add(coolerColumns(func(i int) float64 { return in(i).Air.P }, func(i int) float64 { return x[i].wetBulb1 }, out)...)
	add(c.trialColumns(in, out)...)
	add(c.outcomeColumns(out)...)
	add(c.refrigerationColumns(out)...)
	return cols
}

var last = strconv.Itoa(newtonSteps)

// newtonColumns solve a wet bulb at dry bulb t: whether the wick is iced, a
// first guess, and newtonSteps pairs of saturated air and next guess.
func newtonColumns(x, t, first, band string, n func(i int) *newton) []column {
	wick := wickFormulas(t, "[w]", "[p]", "["+x+"_ice]")
	cols := []column{
		{key: x + "_ice", band: band, title: "Iced wick", kind: units.Count, eq: 4, formula: wick[0], value: func(i int) any { return n(i).ice }},
		{key: x + "0", title: "First guess", kind: units.Kelvin, formula: first, value: func(i int) any { return n(i).x[0] }},
	}
	for k := range newtonSteps {
		from, to := x+strconv.Itoa(k), x+strconv.Itoa(k+1)
		cols = append(cols,
			column{key: from + "_r", title: "Moles when saturated", kind: units.Plain, eq: 3, formula: molesFormula("[p]", psatFormula("["+from+"]")), value: func(i int) any { return n(i).r[k] }},
			column{key: to, title: "Step " + strconv.Itoa(k+1), kind: units.Kelvin, eq: 4,
				formula: stepFormula("["+from+"]", "["+from+"_r]", wick), value: func(i int) any { return n(i).x[k+1] }},
		)
	}
	return cols
}

// secondNewtonColumns solve the wet bulb after an indirect stage; they stay
// blank for a cooler without one.
func (c *Case) secondNewtonColumns(n func(i int) *newton) []column {
	cols := newtonColumns("y", "[t1]", secondStartFormula, "Wet bulb after the indirect stage", n)
	for k := range cols {
		cols[k].formula = "IF(B_indirect_stage=1," + cols[k].formula + `,"")`
		if c.Season.Cooler.Kind == job.Direct {
			cols[k].value = func(int) any { return "" }
		}
	}
	return cols
}

// stationColumns are the weather as the file gives it. Which columns there are
// depends on what the file has; nothing in them depends on a cooler.
func (c *Case) stationColumns() []column {
	s, hours := c.Series, c.Season.Climate.Hours
	cols := []column{
		{key: "st_t", band: "Station", title: "Dry bulb", kind: units.Temperature, value: func(i int) any { return s.Hours[i].DryBulb }},
	}
	recorded := column{key: "st_p", title: "Pressure", kind: units.Pressure, value: func(i int) any { return hours[i].StationP }}
	if c.Season.Climate.PressureEstimated > 0 {
		recorded.key, recorded.title = "st_p_recorded", "Pressure recorded"
		recorded.value = func(i int) any { return numberOr(s.Hours[i].Pressure, "none") }
		cols = append(cols, recorded)
		recorded = column{key: "st_p", title: "Pressure", kind: units.Pressure, eq: 5,
			formula: "IF(ISNUMBER([st_p_recorded]),[st_p_recorded],B_station_pressure)", value: func(i int) any { return hours[i].StationP }}
	}
	cols = append(cols, recorded)
	cols = append(cols, c.stationHumidity()...)
	cols = append(cols, column{key: "st_w", title: "Humidity ratio", kind: units.HumidityRatio, eq: 6, formula: c.stationRatio(), value: func(i int) any { return hours[i].StationW }})
	ghi := column{key: "ghi", title: "Irradiance", kind: units.Irradiance, value: func(i int) any { return hours[i].GHI }}
	if c.Season.Climate.GHIEstimated > 0 {
		cols = append(cols,
			column{key: "ghi_recorded", title: "Irradiance recorded", kind: units.Irradiance, value: func(i int) any { return numberOr(s.Hours[i].GHI, "none") }},
			column{key: "ghi_clear", title: "Irradiance, clear sky", kind: units.Irradiance, value: func(i int) any { return hours[i].Clear }})
		ghi.formula = "IF(ISNUMBER([ghi_recorded]),[ghi_recorded],[ghi_clear]*Si_site_clearness)"
	}
	return append(cols, ghi)
}

// stationHumidity is the file's humidity quantity and the saturation pressure
// that turns it into a humidity ratio.
func (c *Case) stationHumidity() []column {
	h := c.Series.Hours
	value := func(i int) any { return h[i].Humidity }
	at := func(i int) float64 { return h[i].DryBulb }
	cols := []column{{key: "st_hum", title: "Relative humidity", kind: units.Share, value: value}}
	ps := "([st_t]+273.15)"
	if c.Series.Humidity != weather.RelHum {
		cols[0].kind, cols[0].title = units.Temperature, "Dew point"
		if c.Series.Humidity == weather.WetBulb {
			cols[0].title = "Wet bulb"
		}
		ps = "(MIN([st_hum],[st_t])+273.15)"
		at = func(i int) float64 { return min(h[i].Humidity, h[i].DryBulb) }
	}
	return append(cols, column{key: "st_ps", title: "Saturation pressure", kind: units.Pressure, eq: 2,
		formula: psatFormula(ps), value: func(i int) any { return psychro.SaturationPressure(at(i)) }})
}

// stationRatio is the formula of the humidity ratio at the station.
func (c *Case) stationRatio() string {
	switch c.Series.Humidity {
	case weather.DewPoint:
		return humidityRatioFormula("[st_ps]", "[st_p]")
	case weather.WetBulb:
		return "MAX(0," + wetHumidityRatioFormula("[st_t]", "MIN([st_hum],[st_t])", "("+molesFormula("[st_p]", "[st_ps]")+")") + ")"
	default:
		return humidityRatioFormula("(MIN([st_hum],1)*[st_ps])", "[st_p]")
	}
}

// coolerColumns carry air [t], [wb], [w], [p] with indirect stage leaving at
// [t1] through the pads and the fan; pressure and wetBulb1 are the values cached
// in [p] and [tb].
func coolerColumns(pressure, wetBulb1 func(int) float64, out func(int) *season.Hour) []column {
	return []column{
		{key: "tb", title: "Wet bulb entering the pads", kind: units.Temperature, eq: 11, formula: "IF(B_indirect_stage=1,MIN([y" + last + "]-273.15,[t1]),[wb])", value: func(i int) any { return wetBulb1(i) }},
		{key: "tb_r", title: "Moles when saturated there", kind: units.Plain, eq: 3, formula: molesFormula("[p]", psatFormula("([tb]+273.15)")), value: func(i int) any { return moles(pressure(i), psychro.SaturationPressure(wetBulb1(i))) }},
		{key: "t2", title: "Leaving the pads", kind: units.Temperature, eq: 9, formula: "[t1]-B_direct_stage*B_pad_effectiveness*([t1]-[tb])", value: func(i int) any { return out(i).Supply.Leaving.T }},
		{key: "w2", title: "Supply humidity ratio", kind: units.HumidityRatio, eq: 9,
			formula: "IF(B_direct_stage=1," + wetHumidityRatioFormula("[t2]", "[tb]", "[tb_r]") + ",[w])", value: func(i int) any { return out(i).Supply.W }},
		{key: "m", title: "Dry air flow", kind: units.MassFlow, eq: 12, formula: "Si_cooler_airflow/(" + volumeFormula("[t2]", "[w2]", "[p]") + ")", value: func(i int) any { return out(i).Supply.MassFlow }},
		{key: "cp", title: "Specific heat", kind: units.SpecificHeat, eq: 12, formula: "1006+1860*[w2]", value: func(i int) any { return out(i).Supply.SpecificHeat }},
		{key: "fan", title: "Fan at full speed", kind: units.Power, eq: 13, formula: "Si_cooler_fan_power*(1+[w2])*[m]/Si_cooler_airflow/1.2", value: func(i int) any { return out(i).Supply.FanPower }},
		{key: "ts", title: "Supply temperature", kind: units.Temperature, eq: 13, formula: "[t2]+[fan]/([m]*[cp])", value: func(i int) any { return out(i).Supply.T }},
		{key: "dw", title: "Water per kg of air", kind: units.HumidityRatio, eq: 21, formula: "MAX(0,[w2]-[w])+(1006+1860*[w])*([t]-[t1])/" + hfg, value: func(i int) any { return out(i).Supply.Evaporating }},
	}
}

func (c *Case) trialColumns(in func(int) *hourIn, out func(int) *season.Hour) []column {
	full := func(m, cp, ta string) string {
		return fill("(B_ua*[t]+B_aperture*[ghi]+B_sensible+{M}*{C}*{A})/(B_ua+{M}*{C})", "{M}", m, "{C}", cp, "{A}", ta)
	}
	share := func(full, m, cp, ta string) string {
		return fill("IF(AND([q]>0,{F}<=Si_house_setpoint),[q]/({M}*{C}*(Si_house_setpoint-{A})),1)", "{F}", full, "{M}", m, "{C}", cp, "{A}", ta)
	}
	rh := func(w, m, share string) string {
		return relHumFormula(fill("({W}+B_latent/("+hfg+"*{M}*{S}))", "{W}", w, "{M}", m, "{S}", share), "[p]", "B_set_psat")
	}
	return []column{
		{key: "q", band: "Load", title: "Sensible load at the setpoint", kind: units.Power, eq: 17, formula: "B_ua*([t]-Si_house_setpoint)+B_aperture*[ghi]+B_sensible", value: func(i int) any { return out(i).Load }},
		{key: "vm", band: "Outdoor air alone", title: "Dry air flow", kind: units.MassFlow, eq: 12, formula: "Si_cooler_airflow/(" + volumeFormula("[t]", "[w]", "[p]") + ")", value: func(i int) any { return out(i).Vented.MassFlow }},
		{key: "vcp", title: "Specific heat", kind: units.SpecificHeat, eq: 12, formula: "1006+1860*[w]", value: func(i int) any { return out(i).Vented.SpecificHeat }},
		{key: "vfan", title: "Fan at full speed", kind: units.Power, eq: 13, formula: "Si_cooler_fan_power*(1+[w])*[vm]/Si_cooler_airflow/1.2", value: func(i int) any { return out(i).Vented.FanPower }},
		{key: "vts", title: "Air blown in", kind: units.Temperature, eq: 13, formula: "[t]+[vfan]/([vm]*[vcp])", value: func(i int) any { return out(i).Vented.T }},
		{key: "vfull", title: "Indoors at full flow", kind: units.Temperature, eq: 18, formula: full("[vm]", "[vcp]", "[vts]"), value: func(i int) any { return out(i).Vent.Full }},
		{key: "vshare", title: "Share of full flow", kind: units.Share, eq: 19, formula: share("[vfull]", "[vm]", "[vcp]", "[vts]"), value: func(i int) any { return out(i).Vent.Share }},
		{key: "vrh", title: "Indoor humidity", kind: units.Share, eq: 20, formula: rh("[w]", "[vm]", "[vshare]"), value: func(i int) any { return out(i).Vent.RelHum }},
		{key: "efull", band: "With water", title: "Indoors at full flow", kind: units.Temperature, eq: 18, formula: full("[m]", "[cp]", "[ts]"), value: func(i int) any { return out(i).Evap.Full }},
		{key: "eshare", title: "Share of full flow", kind: units.Share, eq: 19, formula: share("[efull]", "[m]", "[cp]", "[ts]"), value: func(i int) any { return out(i).Evap.Share }},
		{key: "erh", title: "Indoor humidity", kind: units.Share, eq: 20, formula: rh("[w2]", "[m]", "[eshare]"), value: func(i int) any { return out(i).Evap.RelHum }},
	}
}

func (c *Case) outcomeColumns(out func(int) *season.Hour) []column {
	runs := runLengths(c.Season.Hours)
	return []column{
		{key: "outcome", band: "Outcome", title: "Outcome", kind: units.Text, eq: 18, always: true,
			formula: `IF([q]<=0,"idle",IF(AND([vfull]<=Si_house_setpoint,[vrh]<=Si_house_humidity_limit),"vent",IF([efull]>Si_house_setpoint,"warm",IF([erh]<=Si_house_humidity_limit,"evap","damp"))))`,
			value:   func(i int) any { return out(i).Outcome.String() }},
		{key: "share", title: "Share of full flow", kind: units.Share, eq: 19, formula: `IF([outcome]="idle",0,IF([outcome]="vent",[vshare],[eshare]))`, value: func(i int) any { return out(i).Share }},
		{key: "fraction", title: "Part of the hour running", kind: units.Share, eq: 19, formula: "[share]/MAX([share],Si_cooler_lowest_speed)", value: func(i int) any { return out(i).Running.Fraction }},
		{key: "pump", title: "Pump hours", kind: units.Share, eq: 19, formula: `IF(OR([outcome]="evap",[outcome]="damp",[outcome]="warm"),[fraction],0)`, value: func(i int) any {
			if out(i).Outcome.Wet() {
				return out(i).Running.Fraction
			}
			return 0.0
		}},
		{key: "cooler_kwh", fine: true, title: "Cooler energy", kind: units.Energy, eq: 19,
			formula: `(IF([outcome]="vent",[vfan],[fan])*MAX([share],Si_cooler_lowest_speed)^3*[fraction]+Si_cooler_pump_power*[pump])/1000`, value: func(i int) any { return out(i).CoolerKWh }},
		{key: "indoor", title: "Indoor temperature", kind: units.Temperature, eq: 18, formula: `IF([outcome]="idle","",IF([outcome]="warm",[efull],Si_house_setpoint))`, value: func(i int) any { return unlessIdle(out(i), out(i).Indoor) }},
		{key: "indoor_rh", title: "Indoor humidity", kind: units.Share, eq: 20,
			formula: `IF([outcome]="idle","",IF([outcome]="vent",[vrh],IF([outcome]="warm",` + relHumFormula("([w2]+B_latent/("+hfg+"*[m]))", "[p]", psatWaterFormula("([efull]+273.15)")) + `,[erh])))`,
			value:   func(i int) any { return unlessIdle(out(i), out(i).IndoorRH) }},
		{key: "over", title: "Above the setpoint", kind: units.TemperatureDifference, eq: 18, formula: `IF([outcome]="warm",[efull]-Si_house_setpoint,0)`, value: func(i int) any { return out(i).Over }},
		{key: "evaporated", fine: true, title: "Water evaporated", kind: units.Volume, eq: 21, formula: `IF([pump]>0,3600*[m]*[share]*[dw],0)`, value: func(i int) any { return out(i).Evaporated }},
		{key: "uncovered", title: "Uncovered", kind: units.Count, formula: `IF(OR([outcome]="damp",[outcome]="warm"),1,0)`, value: func(i int) any { return flag(out(i).Outcome.Uncovered()) }},
		{key: "run", title: "Uncovered hours in a row", kind: units.Count, formula: `IF([uncovered]=1,1+IF(ISNUMBER([run@-1]),[run@-1],0),0)`, first: `IF([uncovered]=1,1,0)`, value: func(i int) any { return runs[i] }},
	}
}

func (c *Case) refrigerationColumns(out func(int) *season.Hour) []column {
	capacity := c.Season.AC.Capacity
	return []column{
		{key: "closed_w", band: "Refrigerated air conditioner", title: "Load, house closed", kind: units.Power, eq: 25,
			formula: "IF([q]>0,MAX(0,[q]+B_infiltration*1006*([t]-Si_house_setpoint))+B_latent+B_infiltration*" + hfg + "*MAX(0,[w]-B_room_w),0)", value: func(i int) any { return out(i).ClosedLoad }},
		{key: "capacity", title: "Capacity over rating", kind: units.Share, eq: 26, formula: "(B_capacity_0+B_capacity_1*([t]*1.8+32)+B_capacity_2*([t]*1.8+32)^2)*B_altitude_factor", value: func(i int) any { return out(i).CapacityShare }},
		{key: "eir", title: "Input ratio over rating", kind: units.Share, eq: 26, formula: "(B_eir_0+B_eir_1*([t]*1.8+32)+B_eir_2*([t]*1.8+32)^2)/B_altitude_factor", value: func(i int) any { return out(i).EIRShare }},
		{key: "rating", title: "Rating that carries it", kind: units.Power, eq: 26, formula: "[closed_w]/[capacity]", value: func(i int) any { return out(i).NeededRating }},
		{key: "plr", title: "Part load", kind: units.Share, eq: 27, formula: "MIN(1,[rating]/Si_ac_capacity)", value: func(i int) any { return min(1, out(i).NeededRating/capacity) }},
		{key: "closed_kwh", fine: true, title: "Energy, windows closed", kind: units.Energy, eq: 27,
			formula: "[plr]*Si_ac_capacity*[capacity]*[eir]/((1-Si_ac_cycling*(1-[plr]))*B_cop)/1000", value: func(i int) any { return out(i).ClosedKWh }},
		{key: "ref_kwh", fine: true, title: "Energy", kind: units.Energy, eq: 27, formula: `IF(AND(In_ac_windows_open="yes",[outcome]="vent"),0,[closed_kwh])`, value: func(i int) any { return out(i).RefKWh }},
		{key: "both_kwh", fine: true, title: "Energy, both together", kind: units.Energy, formula: "IF([uncovered]=1,[closed_kwh],[cooler_kwh])", value: func(i int) any { return out(i).BothKWh }},
		{key: "unmet", title: "Refrigeration falls short", kind: units.Count, formula: "IF([rating]>Si_ac_capacity,1,0)", value: func(i int) any { return flag(out(i).Unmet) }},
	}
}

func unlessIdle(h *season.Hour, v float64) any {
	if h.Outcome == season.Idle {
		return ""
	}
	return v
}

func numberOr(v float64, text string) any {
	if math.IsNaN(v) {
		return text
	}
	return v
}

func flag(b bool) int {
	if b {
		return 1
	}
	return 0
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
