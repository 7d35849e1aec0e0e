package customer

import (
	"regexp"
	"strings"

	"github.com/evapbook/evapbook/internal/climate"
	"github.com/evapbook/evapbook/internal/season"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/workbook/figures"
	"github.com/evapbook/evapbook/internal/workbook/sheet"
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
func monthsColumns(c *figures.Case) []sheet.Column {
	s := c.Season
	month := func(i int) *season.Month { return &s.Months[i] }
	hours := func(o season.Outcome) sheet.Column {
		return sheet.Column{
			Key: o.String(), Title: sheet.OutcomeTitle(o), Kind: units.Count,
			Formula: "SUM({" + o.String() + "})",
			Value:   func(i int) any { return month(i).Hours[o] },
		}
	}
	cols := []sheet.Column{
		{Key: "month", Band: "Month", Title: "Month", Kind: units.Text, Always: true, Value: func(i int) any { return figures.MonthName(i) }},
		sheet.Banded(hours(season.Vent), "Hours"), hours(season.Evap), hours(season.Damp), hours(season.Warm),
		{
			Key: "need", Title: "Need cooling", Kind: units.Count,
			Formula: "[vent]+[evap]+[damp]+[warm]",
			Value:   func(i int) any { return month(i).Hours.Need() },
		},
		{
			Key: "uncovered", Title: "Not covered", Kind: units.Count,
			Formula: "[damp]+[warm]",
			Value:   func(i int) any { return month(i).Hours.Uncovered() },
		},
		{
			Key: "tmax", Band: "Temperature", Title: "Highest outdoors", Kind: units.Temperature,
			Formula: "MAX({tmax})",
			Value:   func(i int) any { return monthMax(c, i, func(d int) float64 { return s.Climate.Days[d].Max }) },
		},
		{
			Key: "supply", Title: "Warmest supply", Kind: units.Temperature,
			Formula: "MAX({supply})",
			Value:   func(i int) any { return monthMax(c, i, func(d int) float64 { return s.Days[d].MaxSupply }) },
		},
		{
			Key: "over", Title: "Above the setpoint", Kind: units.DegreeHours,
			Formula: "SUM({over})",
			Value:   func(i int) any { return month(i).Over },
		},
		{
			Key: "evaporated", Band: "Water", Title: "Evaporated", Kind: units.Volume,
			Formula: "SUM({evaporated})",
			Value:   func(i int) any { return month(i).Water.Evaporated },
		},
		{
			Key: "water", Title: "In all", Kind: units.Volume,
			Formula: "SUM({water})",
			Value:   func(i int) any { return s.WaterTotal(month(i).Water) },
		},
		{
			Key: "cooler_kwh", Band: "Energy", Title: "Cooler", Kind: units.Energy,
			Formula: "SUM({cooler_kwh})",
			Value:   func(i int) any { return month(i).CoolerKWh },
		},
		{
			Key: "ref_kwh", Title: "Refrigeration", Kind: units.Energy,
			Formula: "SUM({ref_kwh})",
			Value:   func(i int) any { return month(i).RefKWh },
		},
		{
			Key: "both_kwh", Title: "Both together", Kind: units.Energy,
			Formula: "SUM({{both_kwh}})",
			Value:   func(i int) any { return month(i).BothKWh },
		},
		{
			Key: "cooler_kw", Band: "Peak hour", Title: "Cooler", Kind: units.PowerKW,
			Formula: "MAX({{cooler_kwh}})",
			Value:   func(i int) any { return month(i).PeakCooler },
		},
		{
			Key: "ref_kw", Title: "Refrigeration", Kind: units.PowerKW,
			Formula: "MAX({{ref_kwh}})",
			Value:   func(i int) any { return month(i).PeakRef },
		},
		{
			Key: "cdd", Band: "Degree-days", Title: "Cooling, to " + degreeDayBase(c), Kind: units.DegreeDays,
			Formula: "SUM({cdd})",
			Value:   func(i int) any { return month(i).Cooling },
		},
		{Key: "hdd", Title: "Heating, to " + degreeDayBase(c), Kind: units.DegreeDays, Formula: "SUM({hdd})", Value: func(i int) any { return month(i).Heating }},
	}
	runs := monthRows(s.Climate.Days)
	for k := range cols {
		OfMonth(&cols[k], runs, s.Climate.Days)
	}
	return cols
}

func monthMax(c *figures.Case, month int, value func(day int) float64) any {
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

// OfMonth turns {key} and {{key}} into the rows of Days and Working that
// belong to the month; a month the file does not have is 0.
func OfMonth(c *sheet.Column, runs [12][][2]int, days []climate.Day) {
	if !strings.Contains(c.Formula, "{") {
		return
	}
	formula := c.Formula
	c.RowFormula = func(i int) string {
		if len(runs[i]) == 0 {
			return "0"
		}
		f := hourKey.ReplaceAllStringFunc(formula, func(m string) string {
			return references("Working."+strings.Trim(m, "{}"), runs[i], func(r [2]int) string { return sheet.Rows(days[r[0]].First, days[r[1]-1].Last) })
		})
		return dayKey.ReplaceAllStringFunc(f, func(m string) string {
			return references("Days."+strings.Trim(m, "{}"), runs[i], func(r [2]int) string { return sheet.Rows(r[0], r[1]) })
		})
	}
}

func references(key string, runs [][2]int, rows func([2]int) string) string {
	var out []string
	for _, r := range runs {
		out = append(out, "["+key+rows(r)+"]")
	}
	return strings.Join(out, ",")
}

// Months lays out the year by months, and by days as a chart.
func Months(c *figures.Case, p *sheet.Page) {
	p.Place(&sheet.Table{Name: "Months", Rows: 12, Columns: monthsColumns(c), Spoken: true}, c.Units)
	p.Row++
	monthCharts(c, p)
	p.Print.FitHeight = 1
	layDaily(c, p)
}
