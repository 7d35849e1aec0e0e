package workbook

import (
	"fmt"
	"regexp"
	"strings"

	"github.com/evapbook/evapbook/internal/climate"
	"github.com/evapbook/evapbook/internal/season"
	"github.com/evapbook/evapbook/internal/units"
)

// daysColumns are the columns of the Days sheet, in SI. A formula sums or
// searches the day's own rows of Working, written as {key}.
func (c *Case) daysColumns() []column {
	s := c.Season
	day := func(i int) *climate.Day { return &s.Climate.Days[i] }
	sum := func(i int) *season.Day { return &s.Days[i] }
	count := func(o season.Outcome) column {
		return column{key: o.String(), title: "Hours " + o.String(), kind: units.Count, formula: `COUNTIF({outcome},"` + o.String() + `")`, value: func(i int) any { return sum(i).Hours[o] }}
	}
	cols := []column{
		{key: "date", band: "Day", title: "Date", kind: units.Date, always: true, value: func(i int) any { return day(i).Date }},
		{key: "season", title: "Days from the hottest", kind: units.Count, always: true, value: func(i int) any { return day(i).Season }, note: "the year taken as a circle"},
		{key: "tmin", band: "Weather", title: "Lowest dry bulb", kind: units.Temperature, formula: "MIN({t})", value: func(i int) any { return day(i).Min }},
		{key: "tmax", title: "Highest dry bulb", kind: units.Temperature, formula: "MAX({t})", value: func(i int) any { return day(i).Max }},
		{key: "tmean", title: "Mean dry bulb", kind: units.Temperature, formula: "AVERAGE({t})", value: func(i int) any { return day(i).Mean }},
		{key: "cdd", title: "Cooling degree-days", kind: units.DegreeDays, formula: "MAX(0,[tmean]-(65-32)/1.8)", value: func(i int) any { return day(i).Cooling() }},
		{key: "hdd", title: "Heating degree-days", kind: units.DegreeDays, formula: "MAX(0,(65-32)/1.8-[tmean])", value: func(i int) any { return day(i).Heating() }},
		{key: "supply", title: "Warmest supply", kind: units.Temperature, formula: "MAX({ts})", value: func(i int) any { return sum(i).MaxSupply }},
		withBand(count(season.Vent), "Hours"), count(season.Evap), count(season.Damp), count(season.Warm),
		{key: "uncovered", title: "Not covered", kind: units.Count, formula: "[damp]+[warm]", value: func(i int) any { return sum(i).Hours.Uncovered() }},
		{key: "week", title: "Not covered, this day and the next six", kind: units.Count, rowFormula: c.weekFormula, value: func(i int) any { return sum(i).Week }},
		{key: "over", title: "Above the setpoint", kind: units.DegreeHours, formula: "SUM({over})", value: func(i int) any { return sum(i).Over }},
		{key: "evaporated", band: "Water", title: "Evaporated", kind: units.Volume, formula: "SUM({evaporated})", value: func(i int) any { return sum(i).Water.Evaporated }},
		{key: "pump", title: "Pump hours", kind: units.Duration, formula: "SUM({pump})", value: func(i int) any { return sum(i).Water.PumpHours }},
		{key: "used", title: "Pump ran", kind: units.Count, formula: "IF([pump]>0,1,0)", value: func(i int) any { return sum(i).Water.DaysOfUse }},
		{key: "water", title: "In all", kind: units.Volume, formula: "[evaporated]+" + drainedFormula("[evaporated]", "[pump]", "[used]"), value: func(i int) any { return s.WaterTotal(sum(i).Water) }},
		{key: "cooler_kwh", band: "Energy", title: "Cooler", kind: units.Energy, formula: "SUM({cooler_kwh})", value: func(i int) any { return sum(i).CoolerKWh }},
		{key: "ref_kwh", title: "Refrigeration", kind: units.Energy, formula: "SUM({ref_kwh})", value: func(i int) any { return sum(i).RefKWh }},
		{key: "freeze_before", band: "Calendar", title: "Freezing before the hottest day", kind: units.Count, formula: "IF(AND([tmin]<=0,[season]<0),[season],-" + never + ")",
			value: func(i int) any { return position(day(i).Min <= 0 && day(i).Season < 0, day(i).Season, -9999) }},
		{key: "freeze_after", title: "Freezing after it", kind: units.Count, formula: "IF(AND([tmin]<=0,[season]>0),[season]," + never + ")",
			value: func(i int) any { return position(day(i).Min <= 0 && day(i).Season > 0, day(i).Season, 9999) }},
		{key: "evap_first", title: "Water needed, for the first", kind: units.Count, formula: "IF([evap]>0,[season]," + never + ")",
			value: func(i int) any { return position(sum(i).Hours[season.Evap] > 0, day(i).Season, 9999) }},
		{key: "evap_last", title: "Water needed, for the last", kind: units.Count, formula: "IF([evap]>0,[season],-" + never + ")",
			value: func(i int) any { return position(sum(i).Hours[season.Evap] > 0, day(i).Season, -9999) }},
		{key: "passed", title: "Evap hours passed", kind: units.Count, formula: `SUMIFS([Days.evap:],[Days.season:],"<="&[season])`, value: func(i int) any { return c.passed[i] }},
		{key: "opens", title: "5 % passed", kind: units.Count, formula: quantileFormula("0.05"), value: func(i int) any { return position(i == s.Totals.EvapOpens, day(i).Season, 9999) }},
		{key: "closes", title: "95 % passed", kind: units.Count, formula: quantileFormula("0.95"), value: func(i int) any { return position(i == s.Totals.EvapCloses, day(i).Season, 9999) }},
	}
	for k := range cols {
		cols[k].ofHours(func(i int) string { return span(day(i).First, day(i).Last) })
	}
	return cols
}

// ofHours turns {key} in the column's formula into the rows of Working that
// belong to row i.
func (c *column) ofHours(rows func(i int) string) {
	if !strings.Contains(c.formula, "{") {
		return
	}
	formula := c.formula
	c.rowFormula = func(i int) string { return workingKey.ReplaceAllString(formula, "[Working.$1"+rows(i)+"]") }
}

var workingKey = regexp.MustCompile(`\{(\w+)\}`)

// span is rows first to last (exclusive) of a grid in a reference.
func span(first, last int) string { return fmt.Sprintf("#%d:%d", first, last-1) }

// weekFormula adds up the uncovered hours of day i and the six after it.
func (c *Case) weekFormula(i int) string {
	return "SUM([Days.uncovered" + span(i, min(i+season.WeekDays, len(c.Season.Days))) + "])"
}

// quantileFormula gives the season position of the day by which a share of
// the evap hours has passed.
func quantileFormula(share string) string {
	return fill("IF(AND([evap]>0,[passed]>={S}*Out_hours_evap,[passed]-[evap]<{S}*Out_hours_evap),[season],"+never+")", "{S}", share)
}

func position(qualifies bool, season, otherwise int) int {
	if qualifies {
		return season
	}
	return otherwise
}

func withBand(c column, band string) column {
	c.band = band
	return c
}

// passedHours is the number of evap hours up to and with each day, counting
// through the season.
func passedHours(s *season.Season) []int {
	passed := make([]int, len(s.Days))
	for i := range s.Days {
		for k := range s.Days {
			if s.Climate.Days[k].Season <= s.Climate.Days[i].Season {
				passed[i] += s.Days[k].Hours[season.Evap]
			}
		}
	}
	return passed
}
