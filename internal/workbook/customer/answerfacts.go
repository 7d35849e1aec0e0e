package customer

import (
	"github.com/evapbook/evapbook/internal/climate"
	"github.com/evapbook/evapbook/internal/look"
	"github.com/evapbook/evapbook/internal/season"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/workbook/figures"
	"github.com/evapbook/evapbook/internal/workbook/fx"
	"github.com/evapbook/evapbook/internal/workbook/sheet"
	"github.com/evapbook/evapbook/internal/xlsx"
)

func say() *sheet.Sentence { return new(sheet.Sentence) }

// verdictLine names the rule and what it was applied to.
func verdictLine(c *figures.Case) *sheet.Sentence {
	t := &c.Season.Totals
	wet, evap := t.Hours.WetNeed(), t.Hours[season.Evap]
	share := func(n int) float64 { return float64(n) / float64(max(1, wet)) }
	return say().Say("Why: of ").Number("Out_hours_wet_need", float64(wet), 0).
		Say(" hours that open windows and a fan do not hold, the cooler holds ").Share(figures.WetShare("Out_coverage_with_water"), share(evap)).
		Say("; counting those that are comfortable for people who feel the air move (up to ").Quantity(c.Units, units.TemperatureDifference, "Si_house_moving_air", c.Season.Job.House.MovingAir, 0).
		Say(" warmer), ").Share(figures.WetShare("Out_coverage_moving_air_with_water"), share(evap+t.Moving)).
		Say(fx.Fill(". Our own marks: a good fit from {moving} % comfortable and {held} % held, a fit with limits from {part} % comfortable, below that a poor fit; hardly needed where there are fewer than {hours} such hours.",
			"{moving}", sheet.Fixed(100*season.GoodMoving, 0), "{held}", sheet.Fixed(100*season.GoodHeld, 0), "{part}", sheet.Fixed(100*season.PartMoving, 0), "{hours}", sheet.Fixed(season.HardlyNeededBelow, 0)))
}

// hoursLine is the season in hours, the uncovered ones as plainly as the others.
func hoursLine(c *figures.Case) *sheet.Sentence {
	t := &c.Season.Totals
	warm, damp, left := t.Hours[season.Warm], t.Hours[season.Damp], t.Hours.Uncovered()
	count := func(name string, n int) *sheet.Sentence { return say().Number("Out_hours_"+name, float64(n), 0) }
	return say().Say("Of ").Chain(count("need", t.Hours.Need())).
		Say(" hours a year that need cooling, open windows and a fan hold ").Chain(count("vent", t.Hours[season.Vent])).
		Say(" and the cooler ").Chain(count("evap", t.Hours[season.Evap])).Say(".").
		When("Out_hours_warm>0", warm > 0, say().Say(" In ").Chain(count("warm", warm)).Say(" the house stays too warm, by at most ").
			Quantity(c.Units, units.TemperatureDifference, "(Out_uncovered_hottest_indoor_c-Si_house_setpoint)", t.HottestIndoor-c.Season.Job.House.Setpoint, 1).Say(".")).
		When("Out_hours_damp>0", damp > 0, say().Say(" In ").Chain(count("damp", damp)).Say(" it is cool enough but too damp, over ").
			Percent("Si_house_humidity_limit", c.Season.Job.House.HumidityLimit).Say(" relative humidity and at most ").
			Percent("Out_uncovered_dampest_indoor", t.DampestIndoor).Say(".")).
		When("Out_hours_uncovered>0", left > 0, say().Say(" These ").Chain(count("uncovered", left)).Say(" hours come up to ").
			Number("Out_uncovered_longest_run_h", float64(t.LongestRun), 0).Say(" in a row; the month with most is ").
			Word("Out_uncovered_worst_month", c.WorstMonth()).Say(" with ").Number("MAX([Months.uncovered:])", float64(mostInAMonth(c)), 0).
			Say(", the worst seven days have ").Number("Out_uncovered_worst_week_h", float64(c.WorstWeek()), 0).
			Say(". In moving air ").Number("SUM([Working.moving:])", float64(t.Moving), 0).Say(" of them are comfortable.")).
		When("Out_hours_uncovered=0", left == 0, say().Say(" None of this year's is left uncovered."))
}

func mostInAMonth(c *figures.Case) (most int) {
	for m := range c.Season.Months {
		most = max(most, c.Season.Months[m].Hours.Uncovered())
	}
	return most
}

// lowEnd begins a range with its lower end, as long as that is there.
func lowEnd(c *figures.Case, figure string, kind units.Kind, v float64) *sheet.Sentence {
	u := kind.Unit(c.Units)
	return say().When("ISNUMBER("+figure+")", true, say().Number(sheet.DisplayFormula(u, figure), sheet.Display(u, v).(float64), 0).Say(" to "))
}

// tile is a headline figure with its caption above and a remark below.
type tile struct {
	caption    string
	big, small *sheet.Sentence
}

func tiles(c *figures.Case) []tile {
	s, t := c.Season, &c.Season.Totals
	return []tile{
		{"Hours held", say().Share(figures.ShareOfNeed("Out_coverage_held"), c.NeedShare(t.Hours.Held())),
			say().Number("Out_hours_held", float64(t.Hours.Held()), 0).Say(" of ").Number("Out_hours_need", float64(t.Hours.Need()), 0)},
		{"Hours not covered", say().Number("Out_hours_uncovered", float64(t.Hours.Uncovered()), 0),
			say().Number("Out_hours_warm", float64(t.Hours[season.Warm]), 0).Say(" too warm, ").Number("Out_hours_damp", float64(t.Hours[season.Damp]), 0).Say(" too damp")},
		{"Supply air on the hot day", say().Quantity(c.Units, units.Temperature, "Out_design_supply_1pct_c", s.Design.DryBulb[climate.One].Supply.T, 0),
			say().Say("outdoors ").Quantity(c.Units, units.Temperature, "Out_design_db_1pct_c", s.Climate.Design.DryBulb[climate.One].Value, 0)},
		{"Water in a season", lowEnd(c, "Out_water_low_total_l", units.Volume, s.WaterTotal(c.Low.Water)).Number(sheet.DisplayFormula(units.Volume.Unit(c.Units), "Out_water_total_l"), units.Volume.Unit(c.Units).FromSI(s.WaterTotal(t.Water)), 0),
			say().Say(c.Symbol(units.Volume)+"; worst day ").Number(sheet.DisplayFormula(units.Volume.Unit(c.Units), "Out_water_peak_day_l"), units.Volume.Unit(c.Units).FromSI(t.PeakDayWater), 0)},
	}
}

// answerTiles sets four headline figures in a row.
func answerTiles(c *figures.Case, p *sheet.Page) {
	fill := func(extra xlsx.Style) xlsx.Style {
		extra.Fill, extra.HAlign, extra.VAlign = look.Sand, xlsx.Centre, xlsx.Middle
		return extra
	}
	styles := []xlsx.Style{
		fill(xlsx.Style{Size: look.Small, Color: look.Quiet}),
		fill(xlsx.Style{Size: 15, Bold: true, Color: look.Ink}),
		fill(xlsx.Style{Size: look.Small, Color: look.Quiet}),
	}
	for i, t := range tiles(c) {
		big, bigFormula := t.big.Done()
		small, smallFormula := t.small.Done()
		for k, cell := range []xlsx.Cell{{Value: t.caption}, {Value: big, Formula: bigFormula}, {Value: small, Formula: smallFormula}} {
			cell.Style = styles[k]
			p.Across(p.Row+k, 1+2*i, 2+2*i, cell)
		}
	}
	p.Height(p.Row+1, 24)
	p.Row += 3
	gap(p)
}

// answerDays is the table of the hot and the damp day.
func answerDays(c *figures.Case, p *sheet.Page) {
	p.Section("The hot day and the damp day", answerCols)
	heads := []string{"", "Outdoors", "Wet bulb", "Supply air", "Cooler by"}
	at := [][2]int{{1, 4}, {5, 5}, {6, 6}, {7, 7}, {8, 8}}
	u := units.Temperature.Unit(c.Units)
	for i, h := range heads {
		if i > 0 {
			h += ", " + u.Symbol
		}
		if i == 0 {
			h = "Outdoor air at this altitude, and what the cooler makes of it"
		}
		p.Across(p.Row, at[i][0], at[i][1], xlsx.Cell{Value: h, Style: sheet.Head})
	}
	p.Row++
	d, sup := &c.Season.Climate.Design, &c.Season.Design
	for _, day := range []struct {
		label, t, wb, ts string
		vT, vWB, vTS     float64
	}{
		{"Hot day: hotter in 1 % of the year's hours", "Out_design_db_1pct_c", "Out_design_mcwb_1pct_c", "Out_design_supply_1pct_c",
			d.DryBulb[climate.One].Value, d.DryBulb[climate.One].Coincident, sup.DryBulb[climate.One].Supply.T},
		{"Damp day: wet bulb higher in 1 % of the hours", "Out_design_mcdb_1pct_c", "Out_design_wb_1pct_c", "Out_design_supply_wb_1pct_c",
			d.WetBulb[climate.One].Coincident, d.WetBulb[climate.One].Value, sup.WetBulb[climate.One].Supply.T},
	} {
		p.Across(p.Row, 1, 4, xlsx.Cell{Value: day.label, Style: sheet.Label})
		for i, v := range []struct {
			v float64
			f string
			k units.Kind
		}{{day.vT, day.t, units.Temperature}, {day.vWB, day.wb, units.Temperature}, {day.vTS, day.ts, units.Temperature}, {day.vT - day.vTS, "(" + day.t + "-" + day.ts + ")", units.TemperatureDifference}} {
			u := v.k.Unit(c.Units)
			p.Set(p.Row, 5+i, xlsx.Cell{Value: u.FromSI(v.v), Formula: sheet.DisplayFormula(u, v.f), Style: sheet.Centred("0.0")})
		}
		p.Row++
	}
	gap(p)
}
