package figures

import (
	"math"
	"strings"
	"time"

	"github.com/evapbook/evapbook/internal/climate"
	"github.com/evapbook/evapbook/internal/money"
	"github.com/evapbook/evapbook/internal/season"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/workbook/fx"
)

// Figure is a headline figure in SI. Its path is its place in the JSON output
// and, with Out_ before it and dots as underscores, its defined name in the
// workbook.
type Figure struct {
	Path    string
	Label   string
	Kind    units.Kind
	Value   any // float64, int or string; NaN where there is none
	Formula string
	Note    string

	// AtWriting marks a figure of a second season that no cell carries: it is
	// there only while the inputs are those at writing.
	AtWriting bool
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
		c.designFigures(), c.moneyFigures(), c.calendarFigures(), c.verdictFigures(), c.lowFigures(),
	} {
		all = append(all, part...)
	}
	return all
}

func (c *Case) siteFigures() []Figure {
	s := c.Season
	return []Figure{
		{Path: "site.name", Label: "Site", Kind: units.Text, Value: s.Job.Site.Name, Formula: "In_site_name"},
		{Path: "site.altitude_m", Label: "Altitude", Kind: units.Altitude, Value: s.Job.Site.Altitude, Formula: "Si_site_altitude"},
		{
			Path: "site.pressure_pa", Label: "Standard pressure at the site", Kind: units.Pressure,
			Formula: "B_site_pressure",
			Value:   s.Climate.Pressure,
		},
		{
			Path: "site.station_elevation_m", Label: "Station elevation", Kind: units.Altitude,
			Formula: "B_station_elevation",
			Value:   s.Climate.StationElevation,
		},
	}
}

func (c *Case) hourFigures() []Figure {
	t := &c.Season.Totals
	var figs []Figure
	for _, o := range []season.Outcome{season.Idle, season.Vent, season.Evap, season.Damp, season.Warm} {
		figs = append(figs, Figure{Path: "hours." + o.String(), Label: "Hours " + o.String(), Kind: units.Count, Value: t.Hours[o],
			Formula: `COUNTIF([Working.outcome:],"` + o.String() + `")`, Note: outcomeMeaning[o]})
	}
	return append(figs,
		Figure{
			Path: "hours.need", Label: "Hours that need cooling", Kind: units.Count,
			Formula: "Out_hours_vent+Out_hours_evap+Out_hours_damp+Out_hours_warm",
			Value:   t.Hours.Need(),
		},
		Figure{
			Path: "hours.wet_need", Label: "Hours that outdoor air alone does not hold", Kind: units.Count,
			Formula: "Out_hours_evap+Out_hours_damp+Out_hours_warm",
			Value:   t.Hours.WetNeed(),
		},
		Figure{Path: "hours.held", Label: "Hours held", Kind: units.Count, Value: t.Hours.Held(), Formula: "Out_hours_vent+Out_hours_evap"},
		Figure{
			Path: "hours.uncovered", Label: "Hours not covered", Kind: units.Count,
			Formula: "Out_hours_damp+Out_hours_warm",
			Value:   t.Hours.Uncovered(),
		},
		Figure{
			Path: "hours.missing", Label: "Hours without weather", Kind: units.Count,
			Formula: `COUNTIF([Working.outcome:],"missing")`,
			Value:   t.Hours[season.Missing],
		},
	)
}

// OutcomeName is what pages call each outcome; data have the words of package
// season.
var OutcomeName = map[season.Outcome]string{
	season.Idle: "no cooling needed",
	season.Vent: "open windows hold",
	season.Evap: "the cooler holds",
	season.Damp: "too damp",
	season.Warm: "too warm",
}

// outcomeMeaning says what each outcome means.
var outcomeMeaning = map[season.Outcome]string{
	season.Idle: OutcomeName[season.Idle],
	season.Vent: OutcomeName[season.Vent] + ": outdoor air alone, pump off",
	season.Evap: OutcomeName[season.Evap] + ", with water",
	season.Damp: OutcomeName[season.Damp] + ": cool enough but too humid indoors",
	season.Warm: OutcomeName[season.Warm] + ": warmer than the setpoint although the cooler runs flat out",
}

func (c *Case) coverageFigures() []Figure {
	t := &c.Season.Totals
	need, wet, evap := float64(t.Hours.Need()), float64(t.Hours.WetNeed()), float64(t.Hours[season.Evap])
	return []Figure{
		{
			Path: "coverage.held", Label: "Hours held, of hours that need cooling", Kind: units.Share,
			Formula: fx.Ratio("Out_hours_held", "Out_hours_need"),
			Value:   Ratio(float64(t.Hours.Held()), need),
		},
		{
			Path: "coverage.temperature", Label: "Hours held in temperature alone", Kind: units.Share,
			Formula: fx.Ratio("(Out_hours_held+Out_hours_damp)", "Out_hours_need"),
			Value:   Ratio(float64(t.Hours.Held()+t.Hours[season.Damp]), need),
		},
		{
			Path: "coverage.with_water", Label: "Held with water, of hours that outdoor air alone does not hold", Kind: units.Share,
			Formula: fx.Ratio("Out_hours_evap", "Out_hours_wet_need"),
			Value:   Ratio(evap, wet),
		},
		{
			Path: "coverage.moving_air", Label: "Held or comfortable in moving air, of hours that need cooling", Kind: units.Share,
			Formula: fx.Ratio("(Out_hours_held+SUM([Working.moving:]))", "Out_hours_need"),
			Value:   Ratio(float64(t.Hours.Held()+t.Moving), need),
		},
		{
			Path: "coverage.moving_air_with_water", Label: "The same, of hours that outdoor air alone does not hold", Kind: units.Share,
			Formula: fx.Ratio("(Out_hours_evap+SUM([Working.moving:]))", "Out_hours_wet_need"),
			Value:   Ratio(evap+float64(t.Moving), wet),
		},
		{
			Path: "coverage.load", Label: "Share of the sensible load in held hours", Kind: units.Share, Note: "heat stored in the house left out",
			Formula: fx.Ratio(`(SUMIFS([Working.steady:],[Working.outcome:],"vent")+SUMIFS([Working.steady:],[Working.outcome:],"evap"))`, `SUMIFS([Working.steady:],[Working.need:],1)`),
			Value:   Ratio(t.HeldLoad, t.Load),
		},
		{
			Path: "degree_hours_over", Label: "Degree-hours above the setpoint", Kind: units.DegreeHours,
			Formula: "SUM([Working.over:])",
			Value:   t.Over,
		},
		{
			Path: "uncovered.longest_run_h", Label: "Longest uncovered run", Kind: units.Duration,
			Formula: "MAX([Working.run:])",
			Value:   t.LongestRun,
		},
		{
			Path: "uncovered.worst_week_h", Label: "Uncovered hours in the worst seven days", Kind: units.Count,
			Formula: "MAX([Days.week:])",
			Value:   c.WorstWeek(),
		},
		{
			Path: "uncovered.worst_month", Label: "Month with most uncovered hours", Kind: units.Text,
			Formula: `IF(Out_hours_uncovered=0,"none",INDEX([Months.month:],MATCH(MAX([Months.uncovered:]),[Months.uncovered:],0)))`,
			Value:   c.WorstMonth(),
		},
		{
			Path: "uncovered.worst_week_supply_c", Label: "Warmest supply in the worst seven days", Kind: units.Temperature, Note: "of the first week if none is uncovered",
			Formula: "MAX(INDEX([Days.supply:]," + worstDay + "):INDEX([Days.supply:],MIN(" + worstDay + "+6,ROWS([Days.supply:]))))",
			Value:   c.WorstWeekSupply(),
		},
		{
			Path: "uncovered.hottest_indoor_c", Label: "Hottest indoors", Kind: units.Temperature,
			Formula: "Si_house_setpoint+MAX([Working.over:])",
			Value:   t.HottestIndoor,
		},
		{
			Path: "uncovered.dampest_indoor", Label: "Highest indoor humidity", Kind: units.Share,
			Formula: "MAX(0,MAX([Working.indoor_rh:]))",
			Value:   t.DampestIndoor,
		},
	}
}

// WorstWeek is the number of uncovered hours in the worst seven days.
func (c *Case) WorstWeek() int {
	if i := c.Season.Totals.WorstWeek; i >= 0 {
		return c.Season.Days[i].Week
	}
	return 0
}

// worstDay is the place in Days of the first day of the worst seven.
const worstDay = "MATCH(Out_uncovered_worst_week_h,[Days.week:],0)"

// WorstMonth is the month with most uncovered hours, None if all are covered.
func (c *Case) WorstMonth() string {
	best, name := 0, None
	for m := range c.Season.Months {
		if n := c.Season.Months[m].Hours.Uncovered(); n > best {
			best, name = n, MonthName(m)
		}
	}
	return name
}

// WorstWeekSupply is the warmest supply in the worst seven days, °C.
func (c *Case) WorstWeekSupply() float64 {
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
		{
			Path: "water.evaporated_l", Label: "Water evaporated", Kind: units.Volume,
			Formula: "SUM([Working.evaporated:])",
			Value:   t.Water.Evaporated,
		},
		{
			Path: "water.bleed_l", Label: "Water bled or purged", Kind: units.Volume,
			Formula: fx.Drained("Out_water_evaporated_l", "Out_water_pump_h", "Out_water_days_of_use"),
			Value:   t.Water.Drained(s.Job.Cooler),
		},
		{
			Path: "water.total_l", Label: "Water in all", Kind: units.Volume,
			Formula: "Out_water_evaporated_l+Out_water_bleed_l",
			Value:   s.WaterTotal(t.Water),
		},
		{Path: "water.peak_day_l", Label: "Water on the peak day", Kind: units.Volume, Value: t.PeakDayWater, Formula: "MAX([Days.water:])"},
		{
			Path: "water.peak_hour_l", Label: "Evaporated in the peak hour", Kind: units.Volume,
			Formula: "MAX([Working.evaporated:])",
			Value:   t.PeakHourWater,
		},
		{Path: "water.pump_h", Label: "Pump hours", Kind: units.Duration, Value: t.Water.PumpHours, Formula: "SUM([Working.pump:])"},
		{Path: "water.days_of_use", Label: "Days the pump runs", Kind: units.Count, Value: t.Water.DaysOfUse, Formula: "SUM([Days.used:])"},
		{
			Path: "water.both_l", Label: "Water, both together", Kind: units.Volume,
			Formula: "Out_water_both_evaporated_l+" + fx.Drained("Out_water_both_evaporated_l", "Out_water_both_pump_h", "Out_water_both_days_of_use"),
			Value:   s.WaterTotal(t.BothWater),
		},
		{
			Path: "water.both_evaporated_l", Label: "Evaporated, both together", Kind: units.Volume,
			Formula: `SUMIFS([Working.evaporated:],[Working.outcome:],"evap")`,
			Value:   t.BothWater.Evaporated,
		},
		{
			Path: "water.both_pump_h", Label: "Pump hours, both together", Kind: units.Duration,
			Formula: `SUMIFS([Working.pump:],[Working.outcome:],"evap")`,
			Value:   t.BothWater.PumpHours,
		},
		{
			Path: "water.both_days_of_use", Label: "Days the pump runs, both together", Kind: units.Count,
			Formula: `COUNTIF([Days.evap:],">0")`,
			Value:   t.BothWater.DaysOfUse,
		},
	}
}

// lowFigures are the lower ends of what the cooler takes, of people who feel the
// air move and set it higher: a second season, which no cell carries.
func (c *Case) lowFigures() []Figure {
	low := func(path, label string, kind units.Kind, v float64) Figure {
		return Figure{
			Path: path, Label: label, Kind: kind, Note: "with the setpoint raised by house.moving_air, computed at writing", AtWriting: true,
			Formula: "IF(B_inputs_changed=0," + fx.Num(v) + `,"none")`,
			Value:   v,
		}
	}
	return []Figure{
		low("water.low_total_l", "Water in all, lower end", units.Volume, c.Season.WaterTotal(c.Low.Water)),
		low("energy.low_cooler_kwh", "Cooler, energy, lower end", units.Energy, c.Low.CoolerKWh),
	}
}

func (c *Case) energyFigures() []Figure {
	s, t := c.Season, &c.Season.Totals
	return []Figure{
		{Path: "energy.cooler_kwh", Label: "Cooler, energy", Kind: units.Energy, Value: t.CoolerKWh, Formula: "SUM([Working.cooler_kwh:])"},
		{
			Path: "energy.refrigerated_closed_kwh", Label: "Refrigeration, windows never open", Kind: units.Energy,
			Formula: "SUM([Working.closed_kwh:])",
			Value:   t.ClosedKWh,
		},
		{
			Path: "energy.refrigerated_kwh", Label: "Refrigeration, energy", Kind: units.Energy,
			Formula: "SUM([Working.ref_kwh:])",
			Value:   t.RefKWh,
		},
		{Path: "energy.both_kwh", Label: "Both together, energy", Kind: units.Energy, Value: t.BothKWh, Formula: "SUM([Working.both_kwh:])"},
		{
			Path: "energy.cooler_peak_kw", Label: "Cooler, peak hour", Kind: units.PowerKW,
			Formula: "MAX([Working.cooler_kwh:])",
			Value:   t.PeakCooler,
		},
		{
			Path: "energy.refrigerated_peak_kw", Label: "Refrigeration, peak hour", Kind: units.PowerKW,
			Formula: "MAX([Working.ref_kwh:])",
			Value:   t.PeakRef,
		},
		{Path: "ac.capacity_w", Label: "Refrigeration, rated capacity", Kind: units.Capacity, Value: s.AC.Capacity, Formula: "Si_ac_capacity"},
		{
			Path: "ac.unmet_hours", Label: "Hours refrigeration cannot carry", Kind: units.Count,
			Formula: "SUM([Working.unmet:])",
			Value:   t.UnmetHours,
		},
	}
}

// DesignTags name the design shares in paths.
var DesignTags = [3]string{"0_4pct", "1pct", "2pct"}

func (c *Case) designFigures() []Figure {
	d, sup := &c.Season.Climate.Design, &c.Season.Design
	var figs []Figure
	for i, tag := range DesignTags {
		pct := fx.Num(climate.DesignShares[i]*100) + " %"
		db, wb := d.DryBulb[i], d.WetBulb[i]
		figs = append(figs,
			Figure{
				Path: "design.db_" + tag + "_c", Label: pct + " dry bulb", Kind: units.Temperature,
				Formula: fx.Exceeded("t", climate.DesignShares[i]),
				Value:   db.Value,
			},
			Figure{
				Path: "design.mcwb_" + tag + "_c", Label: "mean coincident wet bulb", Kind: units.Temperature,
				Formula: fx.Coincident("t", "wb", "Out_design_db_"+tag+"_c"),
				Value:   db.Coincident,
			},
			Figure{
				Path: "design.supply_" + tag + "_c", Label: "supply there", Kind: units.Temperature,
				Formula: "[Design.ts#" + fx.Num(float64(i)) + "]",
				Value:   sup.DryBulb[i].Supply.T,
			},
			Figure{
				Path: "design.wb_" + tag + "_c", Label: pct + " wet bulb", Kind: units.Temperature,
				Formula: fx.Exceeded("wb", climate.DesignShares[i]),
				Value:   wb.Value,
			},
			Figure{
				Path: "design.mcdb_" + tag + "_c", Label: "mean coincident dry bulb", Kind: units.Temperature,
				Formula: fx.Coincident("wb", "t", "Out_design_wb_"+tag+"_c"),
				Value:   wb.Coincident,
			},
			Figure{
				Path: "design.supply_wb_" + tag + "_c", Label: "supply there", Kind: units.Temperature,
				Formula: "[Design.ts#" + fx.Num(float64(i+3)) + "]",
				Value:   sup.WetBulb[i].Supply.T,
			},
		)
	}
	return figs
}

func (c *Case) moneyFigures() []Figure {
	m := &c.Money
	var figs []Figure
	for w := money.Cooler; w < money.Ways; w++ {
		o, p := &m.Options[w], "money."+w.String()+"."
		ref := func(row string) string { return "M_" + w.String() + "_" + row }
		figs = append(figs,
			Figure{Path: p + "installed", Label: WayTitle[w] + ", installed", Kind: units.Money, Value: o.Installed, Formula: ref("installed")},
			Figure{Path: p + "energy", Label: "energy a year", Kind: units.Money, Value: o.Energy, Formula: ref("energy")},
			Figure{Path: p + "water", Label: "water a year", Kind: units.Money, Value: o.WaterCost, Formula: ref("water")},
			Figure{Path: p + "care", Label: "care a year", Kind: units.Money, Value: o.Care, Formula: ref("care")},
			Figure{Path: p + "yearly", Label: "running cost a year", Kind: units.Money, Value: o.Total(), Formula: ref("yearly")},
			Figure{Path: p + "present_value", Label: "present value over the study", Kind: units.Money, Value: o.Present, Formula: ref("present")},
			Figure{
				Path: p + "plant_water_l", Label: "water at the power plant", Kind: units.Volume,
				Formula: ref("plant_water"),
				Value:   o.PlantWater,
			},
			Figure{Path: p + "co2_kg", Label: "carbon dioxide", Kind: units.Mass, Value: o.CO2, Formula: ref("co2")},
		)
	}
	return append(figs,
		Figure{Path: "money.years", Label: "Study period", Kind: units.Years, Value: m.Years, Formula: "M_years"},
		Figure{
			Path: "money.cooler.payback_years", Label: "Cooler against refrigeration, simple payback", Kind: units.Years,
			Formula: fx.Payback("cooler"),
			Value:   OrNone(m.Payback(money.Cooler, money.Refrigerated)),
		},
		Figure{
			Path: "money.both.payback_years", Label: "Cooler added to refrigeration, simple payback", Kind: units.Years,
			Formula: fx.Payback("both"),
			Value:   OrNone(m.Payback(money.Both, money.Refrigerated)),
		},
	)
}

// WayTitle names the ways of cooling as people read them.
var WayTitle = map[money.Way]string{money.Cooler: "Cooler", money.Refrigerated: "Refrigeration", money.Both: "Both together"}

// Ratio is a over b, None where b is 0.
func Ratio(a, b float64) any {
	if b == 0 {
		return None
	}
	return a / b
}

// OrNone shows a figure that may not exist.
func OrNone(v float64) any {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return None
	}
	return v
}

func (c *Case) calendarFigures() []Figure {
	cal, t := c.Season.Climate.Calendar, &c.Season.Totals
	return []Figure{
		{
			Path: "calendar.hottest_day", Label: "Hottest day", Kind: units.Date, Note: "highest daily mean",
			Formula: fx.SeasonDate("MIN([Days.hottest:])"),
			Value:   c.Date(cal.Hottest),
		},
		{
			Path: "calendar.last_freeze", Label: "Last freezing day before midsummer", Kind: units.Date,
			Formula: fx.FreezeDate("MAX([Days.freeze_before:])", c.Season.Climate.Circle()),
			Value:   c.Date(cal.LastFreeze),
		},
		{
			Path: "calendar.first_freeze", Label: "First freezing day after midsummer", Kind: units.Date,
			Formula: fx.FreezeDate("MIN([Days.freeze_after:])", c.Season.Climate.Circle()),
			Value:   c.Date(cal.FirstFreeze),
		},
		{
			Path: "calendar.first_evap", Label: "First day that needs water", Kind: units.Date,
			Formula: fx.SeasonDate("MIN([Days.evap_first:])"),
			Value:   c.Date(t.FirstEvap),
		},
		{
			Path: "calendar.last_evap", Label: "Last day that needs water", Kind: units.Date,
			Formula: fx.SeasonDate("MAX([Days.evap_last:])"),
			Value:   c.Date(t.LastEvap),
		},
		{
			Path: "calendar.evap_opens", Label: "5 % of the evap hours have passed", Kind: units.Date,
			Formula: fx.SeasonDate("MIN([Days.opens:])"),
			Value:   c.Date(t.EvapOpens),
		},
		{
			Path: "calendar.evap_closes", Label: "95 % of the evap hours have passed", Kind: units.Date,
			Formula: fx.SeasonDate("MIN([Days.closes:])"),
			Value:   c.Date(t.EvapCloses),
		},
	}
}

// MonthName is the short name of a month counted from 0.
func MonthName(i int) string { return time.Month(i + 1).String()[:3] }

// UnlessIdle is a value of an hour, the empty text where the hour is idle.
func UnlessIdle(h *season.Hour, v float64) any {
	if h.Outcome == season.Idle {
		return ""
	}
	return v
}
