package steps

import (
	"regexp"
	"strings"

	"github.com/evapbook/evapbook/internal/climate"
	"github.com/evapbook/evapbook/internal/season"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/workbook/figures"
	"github.com/evapbook/evapbook/internal/workbook/fx"
	"github.com/evapbook/evapbook/internal/workbook/sheet"
)

// daysColumns are the columns of the Days sheet, in SI. A formula sums or
// searches the day's own rows of Working, written as {key}.
func daysColumns(c *figures.Case) []sheet.Column {
	s, passed, circle := c.Season, passedHours(c.Season), c.Season.Climate.Circle()
	day := func(i int) *climate.Day { return &s.Climate.Days[i] }
	sum := func(i int) *season.Day { return &s.Days[i] }
	hot := func(i int) bool { return day(i).Mean >= day(s.Climate.Calendar.Hottest).Mean-climate.EqualMeans }
	count := func(o season.Outcome) sheet.Column {
		return sheet.Column{
			Key: o.String(), Title: sheet.OutcomeTitle(o), Kind: units.Count,
			Formula: `COUNTIF({outcome},"` + o.String() + `")`,
			Value:   func(i int) any { return sum(i).Hours[o] },
		}
	}
	cols := []sheet.Column{
		{Key: "date", Band: "Day", Title: "Date", Kind: units.Date, Always: true, Value: func(i int) any { return day(i).Date }},
		{
			Key: "season", Title: "Days from midsummer", Kind: units.Count, Always: true, Note: "the middle of the warmest 91 days; the year taken as a circle",
			Value: func(i int) any { return day(i).Season },
		},
		{
			Key: "tmin", Band: "Weather", Title: "Lowest dry bulb", Kind: units.Temperature,
			Formula: "MIN({t})",
			Value:   func(i int) any { return day(i).Min },
		},
		{Key: "tmax", Title: "Highest dry bulb", Kind: units.Temperature, Formula: "MAX({t})", Value: func(i int) any { return day(i).Max }},
		{Key: "tmean", Title: "Mean dry bulb", Kind: units.Temperature, Formula: "AVERAGE({t})", Value: func(i int) any { return day(i).Mean }},
		{
			Key: "cdd", Title: "Cooling degree-days", Kind: units.DegreeDays,
			Formula: "MAX(0,[tmean]-" + fx.DegreeDayBase + ")",
			Value:   func(i int) any { return day(i).Cooling() },
		},
		{
			Key: "hdd", Title: "Heating degree-days", Kind: units.DegreeDays,
			Formula: "MAX(0," + fx.DegreeDayBase + "-[tmean])",
			Value:   func(i int) any { return day(i).Heating() },
		},
		{
			Key: "supply", Title: "Warmest supply", Kind: units.Temperature,
			Formula: "MAX({ts})",
			Value:   func(i int) any { return sum(i).MaxSupply },
		},
		sheet.Banded(count(season.Vent), "Hours"), count(season.Evap), count(season.Damp), count(season.Warm),
		{
			Key: "uncovered", Title: "Not covered", Kind: units.Count,
			Formula: "[damp]+[warm]",
			Value:   func(i int) any { return sum(i).Hours.Uncovered() },
		},
		{
			Key: "week", Title: "Not covered, this day and the next six", Kind: units.Count,
			RowFormula: func(i int) string { return weekFormula(c, i) },
			Value:      func(i int) any { return sum(i).Week },
		},
		{
			Key: "over", Title: "Above the setpoint", Kind: units.DegreeHours,
			Formula: "SUM({over})",
			Value:   func(i int) any { return sum(i).Over },
		},
		{
			Key: "evaporated", Band: "Water", Title: "Evaporated", Kind: units.Volume,
			Formula: "SUM({evaporated})",
			Value:   func(i int) any { return sum(i).Water.Evaporated },
		},
		{
			Key: "pump", Title: "Pump hours", Kind: units.Duration,
			Formula: "SUM({pump})",
			Value:   func(i int) any { return sum(i).Water.PumpHours },
		},
		{
			Key: "used", Title: "Pump ran", Kind: units.Count,
			Formula: "IF([pump]>0,1,0)",
			Value:   func(i int) any { return sum(i).Water.DaysOfUse },
		},
		{
			Key: "water", Title: "In all", Kind: units.Volume,
			Formula: "[evaporated]+" + fx.Drained("[evaporated]", "[pump]", "[used]"),
			Value:   func(i int) any { return s.WaterTotal(sum(i).Water) },
		},
		{
			Key: "cooler_kwh", Band: "Energy", Title: "Cooler", Kind: units.Energy,
			Formula: "SUM({cooler_kwh})",
			Value:   func(i int) any { return sum(i).CoolerKWh },
		},
		{Key: "ref_kwh", Title: "Refrigeration", Kind: units.Energy, Formula: "SUM({ref_kwh})", Value: func(i int) any { return sum(i).RefKWh }},
		{
			Key: "unseen", Band: "Calendar", Title: "Lowest observed hour above the lowest", Kind: units.TemperatureDifference, Always: true,
			Note:  "hours that the publisher filled in set no freeze date",
			Value: func(i int) any { return day(i).Unseen },
		},
		{
			Key: "hottest", Title: "Hottest day", Kind: units.Count, Show: dayOrNone, Note: "highest daily mean",
			Formula: "IF([tmean]>=MAX([Days.tmean:])-" + fx.Num(climate.EqualMeans) + ",[season]," + fx.Never + ")",
			Value:   func(i int) any { return position(hot(i), day(i).Season, 9999) },
		},
		{
			Key: "freeze_before", Title: "Freezing, to midsummer", Kind: units.Count, Show: dayOrNone, Note: "all round the year",
			Formula: "IF([tmin]+[unseen]<=0," + fx.BeforeMidsummer("[season]", circle) + ",-" + fx.Never + ")",
			Value: func(i int) any {
				return position(day(i).Freezes() && s.Climate.UntilMidsummer(i) > 0, -s.Climate.UntilMidsummer(i), -9999)
			},
		},
		{Key: "freeze_after", Title: "Freezing, from midsummer", Kind: units.Count, Show: dayOrNone, Note: "all round the year",
			Formula: "IF([tmin]+[unseen]<=0," + fx.AfterMidsummer("[season]", circle) + "," + fx.Never + ")",
			Value: func(i int) any {
				return position(day(i).Freezes() && s.Climate.SinceMidsummer(i) > 0, s.Climate.SinceMidsummer(i), 9999)
			}},
		{Key: "evap_first", Title: "Water needed, for the first", Kind: units.Count, Show: dayOrNone, Formula: "IF([evap]>0,[season]," + fx.Never + ")",
			Value: func(i int) any { return position(sum(i).Hours[season.Evap] > 0, day(i).Season, 9999) }},
		{Key: "evap_last", Title: "Water needed, for the last", Kind: units.Count, Show: dayOrNone, Formula: "IF([evap]>0,[season],-" + fx.Never + ")",
			Value: func(i int) any { return position(sum(i).Hours[season.Evap] > 0, day(i).Season, -9999) }},
		{
			Key: "passed", Title: "Evap hours passed", Kind: units.Count,
			Formula: `SUMIFS([Days.evap:],[Days.season:],"<="&[season])`,
			Value:   func(i int) any { return passed[i] },
		},
		{
			Key: "opens", Title: fx.Num(100*season.OpensAfter) + " % passed", Kind: units.Count, Show: dayOrNone,
			Formula: fx.Quantile(fx.Num(season.OpensAfter)),
			Value:   func(i int) any { return position(i == s.Totals.EvapOpens, day(i).Season, 9999) },
		},
		{
			Key: "closes", Title: fx.Num(100*season.ClosesAfter) + " % passed", Kind: units.Count, Show: dayOrNone,
			Formula: fx.Quantile(fx.Num(season.ClosesAfter)),
			Value:   func(i int) any { return position(i == s.Totals.EvapCloses, day(i).Season, 9999) },
		},
	}
	for k := range cols {
		OfHours(&cols[k], func(i int) string { return sheet.Rows(day(i).First, day(i).Last) })
	}
	return cols
}

// OfHours turns {key} in the column's formula into the rows of Working that
// belong to row i.
func OfHours(c *sheet.Column, rows func(i int) string) {
	if !strings.Contains(c.Formula, "{") {
		return
	}
	formula := c.Formula
	c.RowFormula = func(i int) string { return workingKey.ReplaceAllString(formula, "[Working.$1"+rows(i)+"]") }
}

var workingKey = regexp.MustCompile(`\{(\w+)\}`)

// weekFormula adds up the uncovered hours of day i and the six after it.
func weekFormula(c *figures.Case, i int) string {
	return "SUM([Days.uncovered" + sheet.Rows(i, min(i+season.WeekDays, len(c.Season.Days))) + "])"
}

// dayOrNone leaves a day that does not qualify blank: the number beyond all
// days that stands for it is for the formulas.
const dayOrNone = `[>=9999]"";[<=-9999]"";0`

func position(qualifies bool, season, otherwise int) int {
	if qualifies {
		return season
	}
	return otherwise
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

// Days lays out the year by days.
func Days(c *figures.Case, p *sheet.Page) {
	blank := func(i int) bool { return c.Season.Climate.Days[i].Valid == 0 }
	p.Place(&sheet.Table{Name: "Days", Rows: len(c.Season.Days), Columns: daysColumns(c), Blank: blank}, units.SI)
	p.FreezeCols = 1
	from := hottestDays(c.Season)
	p.PrintRows("Days", from, min(from+printedDays, len(c.Season.Days)), 2)
	p.Print.TitleCols = [2]int{1, 1}
}

// printedDays are what a page of Days holds.
const printedDays = 31

// hottestDays is the first of the printed days round the hottest one.
func hottestDays(s *season.Season) int {
	return max(0, min(s.Climate.Calendar.Hottest-printedDays/2, len(s.Days)-printedDays))
}
