package workbook

import (
	"regexp"
	"strings"
	"time"

	"github.com/evapbook/evapbook/internal/climate"
	"github.com/evapbook/evapbook/internal/season"
	"github.com/evapbook/evapbook/internal/units"
)

// monthRows finds the runs of days that belong to each month, in file order. A
// month may come in more than one run.
func monthRows(days []climate.Day) (runs [12][][2]int) {
	for i, d := range days {
		m := int(d.Date.Month()) - 1
		n := len(runs[m])
		if n > 0 && runs[m][n-1][1] == i {
			runs[m][n-1][1] = i + 1
		} else {
			runs[m] = append(runs[m], [2]int{i, i + 1})
		}
	}
	return runs
}

// monthsColumns are the columns of the Months sheet. {key} in a formula stands
// for the month's rows of Days, {{key}} for its rows of Working; both hold SI.
func (c *Case) monthsColumns() []column {
	s := c.Season
	month := func(i int) *season.Month { return &s.Months[i] }
	hours := func(o season.Outcome, title string) column {
		return column{key: o.String(), title: title, kind: units.Count, formula: "SUM({" + o.String() + "})", value: func(i int) any { return month(i).Hours[o] }}
	}
	cols := []column{
		{key: "month", band: "Month", title: "Month", kind: units.Text, always: true, value: func(i int) any { return monthName(i) }},
		withBand(hours(season.Vent, "Vent"), "Hours"), hours(season.Evap, "Evap"), hours(season.Damp, "Damp"), hours(season.Warm, "Warm"),
		{key: "need", title: "Need cooling", kind: units.Count, formula: "[vent]+[evap]+[damp]+[warm]", value: func(i int) any { return month(i).Hours.Need() }},
		{key: "uncovered", title: "Not covered", kind: units.Count, formula: "[damp]+[warm]", value: func(i int) any { return month(i).Hours.Uncovered() }},
		{key: "tmax", band: "Temperature", title: "Highest outdoors", kind: units.Temperature, formula: "MAX({tmax})", value: func(i int) any { return c.monthMax(i, func(d int) float64 { return s.Climate.Days[d].Max }) }},
		{key: "supply", title: "Warmest supply", kind: units.Temperature, formula: "MAX({supply})", value: func(i int) any { return c.monthMax(i, func(d int) float64 { return s.Days[d].MaxSupply }) }},
		{key: "over", title: "Above the setpoint", kind: units.DegreeHours, formula: "SUM({over})", value: func(i int) any { return month(i).Over }},
		{key: "evaporated", band: "Water", title: "Evaporated", kind: units.Volume, formula: "SUM({evaporated})", value: func(i int) any { return month(i).Water.Evaporated }},
		{key: "water", title: "In all", kind: units.Volume, formula: "SUM({water})", value: func(i int) any { return s.WaterTotal(month(i).Water) }},
		{key: "cooler_kwh", band: "Energy", title: "Cooler", kind: units.Energy, formula: "SUM({cooler_kwh})", value: func(i int) any { return month(i).CoolerKWh }},
		{key: "ref_kwh", title: "Refrigeration", kind: units.Energy, formula: "SUM({ref_kwh})", value: func(i int) any { return month(i).RefKWh }},
		{key: "both_kwh", title: "Both together", kind: units.Energy, formula: "SUM({{both_kwh}})", value: func(i int) any { return month(i).BothKWh }},
		{key: "cooler_kw", band: "Peak hour", title: "Cooler", kind: units.PowerKW, formula: "MAX({{cooler_kwh}})", value: func(i int) any { return month(i).PeakCooler }},
		{key: "ref_kw", title: "Refrigeration", kind: units.PowerKW, formula: "MAX({{ref_kwh}})", value: func(i int) any { return month(i).PeakRef }},
		{key: "cdd", band: "Degree-days", title: "Cooling", kind: units.DegreeDays, formula: "SUM({cdd})", value: func(i int) any { return month(i).Cooling }},
		{key: "hdd", title: "Heating", kind: units.DegreeDays, formula: "SUM({hdd})", value: func(i int) any { return month(i).Heating }},
	}
	runs := monthRows(s.Climate.Days)
	for k := range cols {
		cols[k].ofMonth(runs, s.Climate.Days)
	}
	return cols
}

// monthName is the short name of a month counted from 0.
func monthName(i int) string { return time.Month(i + 1).String()[:3] }

func (c *Case) monthMax(month int, value func(day int) float64) any {
	found := false
	best := 0.0
	for _, run := range monthRows(c.Season.Climate.Days)[month] {
		for d := run[0]; d < run[1]; d++ {
			if v := value(d); v == v && (!found || v > best) {
				best, found = v, true
			}
		}
	}
	return best
}

var (
	hourKey = regexp.MustCompile(`\{\{(\w+)\}\}`)
	dayKey  = regexp.MustCompile(`\{(\w+)\}`)
)

// ofMonth turns {key} and {{key}} into the rows of Days and Working that
// belong to the month; a month the file does not have is 0.
func (c *column) ofMonth(runs [12][][2]int, days []climate.Day) {
	if !strings.Contains(c.formula, "{") {
		return
	}
	formula := c.formula
	c.rowFormula = func(i int) string {
		if len(runs[i]) == 0 {
			return "0"
		}
		f := hourKey.ReplaceAllStringFunc(formula, func(m string) string {
			return references("Working."+strings.Trim(m, "{}"), runs[i], func(r [2]int) string { return span(days[r[0]].First, days[r[1]-1].Last) })
		})
		return dayKey.ReplaceAllStringFunc(f, func(m string) string {
			return references("Days."+strings.Trim(m, "{}"), runs[i], func(r [2]int) string { return span(r[0], r[1]) })
		})
	}
}

func references(key string, runs [][2]int, span func([2]int) string) string {
	var out []string
	for _, r := range runs {
		out = append(out, "["+key+span(r)+"]")
	}
	return strings.Join(out, ",")
}
