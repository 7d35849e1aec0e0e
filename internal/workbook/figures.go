package workbook

import (
	"math"
	"strings"

	"github.com/evapbook/evapbook/internal/climate"
	"github.com/evapbook/evapbook/internal/money"
	"github.com/evapbook/evapbook/internal/season"
	"github.com/evapbook/evapbook/internal/units"
)

// Figure is a headline figure in SI. Its path is its place in the JSON output
// and, with Out_ before it and dots as underscores, its defined name in the
// workbook.
type Figure struct {
	Path    string
	Label   string
	Kind    units.Kind
	Value   any // float64, int or string; NaN where there is none
	formula string
	note    string
}

// Name is the figure's defined name.
func (f Figure) Name() string { return "Out_" + strings.ReplaceAll(f.Path, ".", "_") }

// None is what a figure shows that does not exist, such as the coverage of a
// site where no hour needs cooling.
const None = "none"

// Figures lists the headline figures in the order of the Totals sheet.
func (c *Case) Figures() []Figure {
	var all []Figure
	for _, part := range [][]Figure{
		c.siteFigures(), c.hourFigures(), c.coverageFigures(), c.waterFigures(), c.energyFigures(),
		c.designFigures(), c.moneyFigures(), c.calendarFigures(),
	} {
		all = append(all, part...)
	}
	return all
}

func (c *Case) siteFigures() []Figure {
	s := c.Season
	return []Figure{
		{Path: "site.name", Label: "Site", Kind: units.Text, Value: s.Job.Site.Name, formula: "In_site_name"},
		{Path: "site.altitude_m", Label: "Altitude", Kind: units.Altitude, Value: s.Job.Site.Altitude, formula: "Si_site_altitude"},
		{Path: "site.pressure_pa", Label: "Standard pressure at the site", Kind: units.Pressure, Value: s.Climate.Pressure, formula: "B_site_pressure"},
		{Path: "site.station_elevation_m", Label: "Station elevation", Kind: units.Altitude, Value: s.Climate.StationElevation, formula: "B_station_elevation"},
	}
}

func (c *Case) hourFigures() []Figure {
	t := &c.Season.Totals
	var figs []Figure
	for _, o := range []season.Outcome{season.Idle, season.Vent, season.Evap, season.Damp, season.Warm} {
		figs = append(figs, Figure{Path: "hours." + o.String(), Label: "Hours " + o.String(), Kind: units.Count, Value: t.Hours[o],
			formula: `COUNTIF([Working.outcome:],"` + o.String() + `")`, note: outcomeMeaning[o]})
	}
	return append(figs,
		Figure{Path: "hours.need", Label: "Hours that need cooling", Kind: units.Count, Value: t.Hours.Need(), formula: "Out_hours_vent+Out_hours_evap+Out_hours_damp+Out_hours_warm"},
		Figure{Path: "hours.held", Label: "Hours held", Kind: units.Count, Value: t.Hours.Held(), formula: "Out_hours_vent+Out_hours_evap"},
		Figure{Path: "hours.uncovered", Label: "Hours not covered", Kind: units.Count, Value: t.Hours.Uncovered(), formula: "Out_hours_damp+Out_hours_warm"},
		Figure{Path: "hours.missing", Label: "Hours without weather", Kind: units.Count, Value: t.Hours[season.Missing], formula: `COUNTIF([Working.outcome:],"missing")`},
	)
}

// outcomeMeaning says in plain words what each outcome means.
var outcomeMeaning = map[season.Outcome]string{
	season.Idle: "no cooling needed",
	season.Vent: "held by outdoor air alone, pump off",
	season.Evap: "held with water",
	season.Damp: "cool enough but too humid indoors",
	season.Warm: "warmer than the setpoint although the cooler runs flat out",
}

func (c *Case) coverageFigures() []Figure {
	t := &c.Season.Totals
	need := float64(t.Hours.Need())
	return []Figure{
		{Path: "coverage.held", Label: "Hours held, of hours that need cooling", Kind: units.Share, Value: ratio(float64(t.Hours.Held()), need), formula: ratioFormula("Out_hours_held", "Out_hours_need")},
		{Path: "coverage.temperature", Label: "Hours held in temperature alone", Kind: units.Share, Value: ratio(float64(t.Hours.Held()+t.Hours[season.Damp]), need), formula: ratioFormula("(Out_hours_held+Out_hours_damp)", "Out_hours_need")},
		{Path: "coverage.load", Label: "Share of the sensible load in held hours", Kind: units.Share, Value: ratio(t.HeldLoad, t.Load),
			formula: ratioFormula(`(SUMIFS([Working.q:],[Working.outcome:],"vent")+SUMIFS([Working.q:],[Working.outcome:],"evap"))`, `SUMIFS([Working.q:],[Working.q:],">0")`)},
		{Path: "degree_hours_over", Label: "Degree-hours above the setpoint", Kind: units.DegreeHours, Value: t.Over, formula: "SUM([Working.over:])"},
		{Path: "uncovered.longest_run_h", Label: "Longest uncovered run", Kind: units.Duration, Value: t.LongestRun, formula: "MAX([Working.run:])"},
		{Path: "uncovered.worst_week_h", Label: "Uncovered hours in the worst seven days", Kind: units.Count, Value: c.worstWeek(), formula: "MAX([Days.week:])"},
		{Path: "uncovered.worst_month", Label: "Month with most uncovered hours", Kind: units.Text, Value: c.worstMonth(), formula: `IF(Out_hours_uncovered=0,"none",INDEX([Months.month:],MATCH(MAX([Months.uncovered:]),[Months.uncovered:],0)))`},
		{Path: "uncovered.worst_week_supply_c", Label: "Warmest supply in the worst seven days", Kind: units.Temperature, Value: c.worstWeekSupply(),
			formula: "MAX(INDEX([Days.supply:]," + worstDay + "):INDEX([Days.supply:],MIN(" + worstDay + "+6,ROWS([Days.supply:]))))", note: "of the first week if none is uncovered"},
		{Path: "uncovered.hottest_indoor_c", Label: "Hottest indoors", Kind: units.Temperature, Value: t.HottestIndoor, formula: "Si_house_setpoint+MAX([Working.over:])"},
		{Path: "uncovered.dampest_indoor", Label: "Highest indoor humidity", Kind: units.Share, Value: min(1, t.DampestIndoor), formula: "MIN(1,MAX(0,MAX([Working.indoor_rh:])))", note: "saturated where the balance would go beyond"},
	}
}

func (c *Case) worstWeek() int {
	if i := c.Season.Totals.WorstWeek; i >= 0 {
		return c.Season.Days[i].Week
	}
	return 0
}

// worstDay is the place in Days of the first day of the worst seven.
const worstDay = "MATCH(Out_uncovered_worst_week_h,[Days.week:],0)"

func (c *Case) worstMonth() string {
	best, name := 0, None
	for m := range c.Season.Months {
		if n := c.Season.Months[m].Hours.Uncovered(); n > best {
			best, name = n, monthName(m)
		}
	}
	return name
}

func (c *Case) worstWeekSupply() float64 {
	first := max(0, c.Season.Totals.WorstWeek)
	warmest := math.Inf(-1)
	for d := first; d < min(first+season.WeekDays, len(c.Season.Days)); d++ {
		if s := c.Season.Days[d].MaxSupply; s > warmest { // days without weather are NaN
			warmest = s
		}
	}
	return warmest
}

func (c *Case) waterFigures() []Figure {
	s, t := c.Season, &c.Season.Totals
	return []Figure{
		{Path: "water.evaporated_l", Label: "Water evaporated", Kind: units.Volume, Value: t.Water.Evaporated, formula: "SUM([Working.evaporated:])"},
		{Path: "water.bleed_l", Label: "Water bled or purged", Kind: units.Volume, Value: t.Water.Drained(s.Job.Cooler), formula: drainedFormula("Out_water_evaporated_l", "Out_water_pump_h", "Out_water_days_of_use")},
		{Path: "water.total_l", Label: "Water in all", Kind: units.Volume, Value: s.WaterTotal(t.Water), formula: "Out_water_evaporated_l+Out_water_bleed_l"},
		{Path: "water.peak_day_l", Label: "Water on the peak day", Kind: units.Volume, Value: t.PeakDayWater, formula: "MAX([Days.water:])"},
		{Path: "water.peak_hour_l", Label: "Evaporated in the peak hour", Kind: units.Volume, Value: t.PeakHourWater, formula: "MAX([Working.evaporated:])"},
		{Path: "water.pump_h", Label: "Pump hours", Kind: units.Duration, Value: t.Water.PumpHours, formula: "SUM([Working.pump:])"},
		{Path: "water.days_of_use", Label: "Days the pump runs", Kind: units.Count, Value: t.Water.DaysOfUse, formula: "SUM([Days.used:])"},
		{Path: "water.both_l", Label: "Water, both together", Kind: units.Volume, Value: s.WaterTotal(t.BothWater), formula: "Out_water_both_evaporated_l+" + drainedFormula("Out_water_both_evaporated_l", "Out_water_both_pump_h", "Out_water_both_days_of_use")},
		{Path: "water.both_evaporated_l", Label: "Evaporated, both together", Kind: units.Volume, Value: t.BothWater.Evaporated, formula: `SUMIFS([Working.evaporated:],[Working.outcome:],"evap")`},
		{Path: "water.both_pump_h", Label: "Pump hours, both together", Kind: units.Duration, Value: t.BothWater.PumpHours, formula: `SUMIFS([Working.pump:],[Working.outcome:],"evap")`},
		{Path: "water.both_days_of_use", Label: "Days the pump runs, both together", Kind: units.Count, Value: t.BothWater.DaysOfUse, formula: `COUNTIF([Days.evap:],">0")`},
	}
}

// drainedFormula mirrors season.Water.Drained: eqs. 22 and 23.
func drainedFormula(evaporated, pumpHours, days string) string {
	return fill(`IF(In_cooler_water_care="bleed",{E}/(Si_cooler_cycles-1),IF(In_cooler_water_care="purge",Si_cooler_sump*({H}/Si_cooler_purge_interval+{D}),0))`,
		"{E}", evaporated, "{H}", pumpHours, "{D}", days)
}

func (c *Case) energyFigures() []Figure {
	s, t := c.Season, &c.Season.Totals
	return []Figure{
		{Path: "energy.cooler_kwh", Label: "Cooler, energy", Kind: units.Energy, Value: t.CoolerKWh, formula: "SUM([Working.cooler_kwh:])"},
		{Path: "energy.refrigerated_closed_kwh", Label: "Refrigeration, windows never open", Kind: units.Energy, Value: t.ClosedKWh, formula: "SUM([Working.closed_kwh:])"},
		{Path: "energy.refrigerated_kwh", Label: "Refrigeration, energy", Kind: units.Energy, Value: t.RefKWh, formula: "SUM([Working.ref_kwh:])"},
		{Path: "energy.both_kwh", Label: "Both together, energy", Kind: units.Energy, Value: t.BothKWh, formula: "SUM([Working.both_kwh:])"},
		{Path: "energy.cooler_peak_kw", Label: "Cooler, peak hour", Kind: units.PowerKW, Value: t.PeakCooler, formula: "MAX([Working.cooler_kwh:])"},
		{Path: "energy.refrigerated_peak_kw", Label: "Refrigeration, peak hour", Kind: units.PowerKW, Value: t.PeakRef, formula: "MAX([Working.ref_kwh:])"},
		{Path: "ac.capacity_w", Label: "Refrigeration, rated capacity", Kind: units.Capacity, Value: s.AC.Capacity, formula: "Si_ac_capacity"},
		{Path: "ac.unmet_hours", Label: "Hours refrigeration cannot carry", Kind: units.Count, Value: t.UnmetHours, formula: `SUMIFS([Working.unmet:],[Working.q:],">0")`},
	}
}

// designTags name the design shares in paths.
var designTags = [3]string{"0_4pct", "1pct", "2pct"}

func (c *Case) designFigures() []Figure {
	d, sup := &c.Season.Climate.Design, &c.Season.Design
	var figs []Figure
	for i, tag := range designTags {
		pct := num(climate.DesignShares[i]*100) + " %"
		db, wb := d.DryBulb[i], d.WetBulb[i]
		figs = append(figs,
			Figure{Path: "design.db_" + tag + "_c", Label: pct + " dry bulb", Kind: units.Temperature, Value: db.Value, formula: exceededFormula("t", climate.DesignShares[i])},
			Figure{Path: "design.mcwb_" + tag + "_c", Label: "mean coincident wet bulb", Kind: units.Temperature, Value: db.Coincident, formula: coincidentFormula("t", "wb", "Out_design_db_"+tag+"_c")},
			Figure{Path: "design.supply_" + tag + "_c", Label: "supply there", Kind: units.Temperature, Value: sup.DryBulb[i].Supply.T, formula: "[Design.ts#" + num(float64(i)) + "]"},
			Figure{Path: "design.wb_" + tag + "_c", Label: pct + " wet bulb", Kind: units.Temperature, Value: wb.Value, formula: exceededFormula("wb", climate.DesignShares[i])},
			Figure{Path: "design.mcdb_" + tag + "_c", Label: "mean coincident dry bulb", Kind: units.Temperature, Value: wb.Coincident, formula: coincidentFormula("wb", "t", "Out_design_wb_"+tag+"_c")},
			Figure{Path: "design.supply_wb_" + tag + "_c", Label: "supply there", Kind: units.Temperature, Value: sup.WetBulb[i].Supply.T, formula: "[Design.ts#" + num(float64(i+3)) + "]"},
		)
	}
	return figs
}

// exceededFormula is the value of a Working column exceeded in a share of the
// hours; eq. 29.
func exceededFormula(key string, share float64) string {
	return fill("LARGE([Working.{K}:],MIN(ROUND({S}*COUNT([Working.{K}:]),0)+1,COUNT([Working.{K}:])))", "{K}", key, "{S}", num(share))
}

// coincidentFormula is the mean of another column over the hours within 0.5 K.
func coincidentFormula(key, other, at string) string {
	const within = "([Working.{K}:]-{A}<=0.500000001)*([Working.{K}:]-{A}>=-0.500000001)*([Working.p:]>0)"
	return fill("SUMPRODUCT("+within+"*[Working.{O}:])/SUMPRODUCT("+within+")", "{K}", key, "{O}", other, "{A}", at)
}

func (c *Case) moneyFigures() []Figure {
	m := &c.Money
	var figs []Figure
	for w := money.Cooler; w < money.Ways; w++ {
		o, p := &m.Options[w], "money."+w.String()+"."
		ref := func(row string) string { return "M_" + w.String() + "_" + row }
		figs = append(figs,
			Figure{Path: p + "installed", Label: wayTitle[w] + ", installed", Kind: units.Money, Value: o.Installed, formula: ref("installed")},
			Figure{Path: p + "energy", Label: "energy a year", Kind: units.Money, Value: o.Energy, formula: ref("energy")},
			Figure{Path: p + "water", Label: "water a year", Kind: units.Money, Value: o.WaterCost, formula: ref("water")},
			Figure{Path: p + "care", Label: "care a year", Kind: units.Money, Value: o.Care, formula: ref("care")},
			Figure{Path: p + "yearly", Label: "running cost a year", Kind: units.Money, Value: o.Total(), formula: ref("yearly")},
			Figure{Path: p + "present_value", Label: "present value over the study", Kind: units.Money, Value: o.Present, formula: ref("present")},
			Figure{Path: p + "plant_water_l", Label: "water at the power plant", Kind: units.Volume, Value: o.PlantWater, formula: ref("plant_water")},
			Figure{Path: p + "co2_kg", Label: "carbon dioxide", Kind: units.Mass, Value: o.CO2, formula: ref("co2")},
		)
	}
	return append(figs,
		Figure{Path: "money.years", Label: "Study period", Kind: units.Years, Value: m.Years, formula: "M_years"},
		Figure{Path: "money.cooler.payback_years", Label: "Cooler against refrigeration, simple payback", Kind: units.Years, Value: orNone(m.Payback(money.Cooler, money.Refrigerated)), formula: paybackFormula("cooler")},
		Figure{Path: "money.both.payback_years", Label: "Cooler added to refrigeration, simple payback", Kind: units.Years, Value: orNone(m.Payback(money.Both, money.Refrigerated)), formula: paybackFormula("both")},
	)
}

var wayTitle = map[money.Way]string{money.Cooler: "Cooler", money.Refrigerated: "Refrigeration", money.Both: "Both together"}

// paybackFormula mirrors money.Comparison.Payback against refrigeration.
func paybackFormula(way string) string {
	return fill(`IF(AND({I}<=0,{S}>=0),0,IF(OR({I}<=0,{S}<=0),"none",{I}/{S}))`,
		"{I}", "(M_"+way+"_installed-M_refrigerated_installed)", "{S}", "(M_refrigerated_yearly-M_"+way+"_yearly)")
}

func ratio(a, b float64) any {
	if b == 0 {
		return None
	}
	return a / b
}

func ratioFormula(a, b string) string { return `IF(` + b + `=0,"none",` + a + "/" + b + ")" }

// orNone shows a figure that may not exist.
func orNone(v float64) any {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return None
	}
	return v
}

func (c *Case) calendarFigures() []Figure {
	cal, t := c.Season.Climate.Calendar, &c.Season.Totals
	return []Figure{
		{Path: "calendar.hottest_day", Label: "Hottest day", Kind: units.Date, Value: c.date(cal.Hottest), formula: "INDEX([Days.date:],MATCH(0,[Days.season:],0))", note: "highest daily mean"},
		{Path: "calendar.last_freeze", Label: "Last freezing day before it", Kind: units.Date, Value: c.date(cal.LastFreeze), formula: seasonDateFormula("MAX([Days.freeze_before:])")},
		{Path: "calendar.first_freeze", Label: "First freezing day after it", Kind: units.Date, Value: c.date(cal.FirstFreeze), formula: seasonDateFormula("MIN([Days.freeze_after:])")},
		{Path: "calendar.first_evap", Label: "First day that needs water", Kind: units.Date, Value: c.date(t.FirstEvap), formula: seasonDateFormula("MIN([Days.evap_first:])")},
		{Path: "calendar.last_evap", Label: "Last day that needs water", Kind: units.Date, Value: c.date(t.LastEvap), formula: seasonDateFormula("MAX([Days.evap_last:])")},
		{Path: "calendar.evap_opens", Label: "5 % of the evap hours have passed", Kind: units.Date, Value: c.date(t.EvapOpens), formula: seasonDateFormula("MIN([Days.opens:])")},
		{Path: "calendar.evap_closes", Label: "95 % of the evap hours have passed", Kind: units.Date, Value: c.date(t.EvapCloses), formula: seasonDateFormula("MIN([Days.closes:])")},
	}
}

// never stands in the Days columns for a day that does not qualify.
const never = "9999"

// seasonDateFormula is the date of the day at a place in the season.
func seasonDateFormula(position string) string {
	return `IF(ABS(` + position + `)=` + never + `,"none",INDEX([Days.date:],MATCH(` + position + `,[Days.season:],0)))`
}

// date is the date of a day, None if there is no such day.
func (c *Case) date(day int) any {
	if day < 0 {
		return None
	}
	return c.Season.Climate.Days[day].Date
}
