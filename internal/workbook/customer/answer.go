// Package customer lays out the sheets a customer reads: the answer on one page,
// the year by months, money, water, and what other coolers would do.
package customer

import (
	"cmp"
	"strings"

	"github.com/evapbook/evapbook/internal/climate"
	"github.com/evapbook/evapbook/internal/look"
	"github.com/evapbook/evapbook/internal/money"
	"github.com/evapbook/evapbook/internal/season"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/workbook/figures"
	"github.com/evapbook/evapbook/internal/workbook/fx"
	"github.com/evapbook/evapbook/internal/workbook/given"
	"github.com/evapbook/evapbook/internal/workbook/methods"
	"github.com/evapbook/evapbook/internal/workbook/sheet"
	"github.com/evapbook/evapbook/internal/xlsx"
)

// answerCols is the width of the page in columns.
const answerCols = 8

// Answer lays out the page that is handed over.
func Answer(c *figures.Case, p *sheet.Page) error {
	for range answerCols {
		p.Cols = append(p.Cols, 11.7)
	}
	p.Print.FitHeight = 1
	p.Print.CentreAcross = true
	if err := answerHead(c, p); err != nil {
		return err
	}
	answerTiles(c, p)
	answerUncovered(c, p)
	answerCharts(c, p)
	p.Section("Read this too", answerCols)
	for _, n := range answerNotes(c) {
		p.Text(n, "", answerCols, 1+len(n)/125, sheet.Small)
	}
	for _, live := range []*sheet.Sentence{given.WeatherNote(c), given.CareNote(c)} {
		words, formula := live.Done()
		p.Text(words, formula, answerCols, 1+len(words)/125, sheet.Small)
	}
	return nil
}

// answerHead is the top of the page: for whom, where, and the verdict.
func answerHead(c *figures.Case, p *sheet.Page) error {
	layLogo(c, p)
	for _, line := range proposalLines(c) {
		p.Text(line, "", answerCols, 1, sheet.Line)
	}
	value, formula := given.PlaceLine(c).Done()
	p.Text(value, formula, answerCols, 1, sheet.Quiet)
	value, formula = given.CoolerLine(c).Done()
	p.Text(value, formula, answerCols, 1, sheet.Quiet)
	p.Row++
	v, f := c.Verdict()
	p.Text(v, f, answerCols, 2, xlsx.Style{Bold: true, Size: look.Big, Color: look.Paper, Fill: look.Leaf, Indent: 1, VAlign: xlsx.Middle, HAlign: xlsx.Left})
	banner := xlsx.RangeRef(p.Row-1, 1, p.Row-1, answerCols)
	first := "$" + xlsx.CellRef(p.Row-1, 1)
	for _, grade := range [][2]string{{figures.VerdictTitle[season.PoorFit], look.Warm}, {figures.VerdictTitle[season.FitInPart], look.Amber}} {
		p.Conditional = append(p.Conditional, xlsx.CondFormat{Range: banner, When: first + `="` + grade[0] + `"`, Style: xlsx.Style{Color: look.Paper, Fill: grade[1], Bold: true}})
	}
	value, formula = verdictLine(c).Done()
	p.Text(value, formula, answerCols, 3, sheet.Text)
	p.Row++
	return nil
}

// proposalLines say who the page is for, as far as that was stated.
func proposalLines(c *figures.Case) []string {
	pr := c.Season.Job.Proposal
	var lines []string
	who := ""
	if pr.PreparedFor != "" {
		who = "Prepared for " + pr.PreparedFor
	}
	if pr.PreparedBy != "" {
		who = strings.TrimSpace(who + " by " + pr.PreparedBy)
	}
	if pr.Date != "" {
		who = strings.TrimPrefix(who+", "+pr.Date, ", ")
	}
	if who != "" {
		lines = append(lines, strings.ToUpper(who[:1])+who[1:])
	}
	if pr.Note != "" {
		lines = append(lines, pr.Note)
	}
	return lines
}

// layLogo puts the proposal's logo at the top right of the page.
func layLogo(c *figures.Case, p *sheet.Page) {
	if len(c.Logo) == 0 {
		return
	}
	p.Images = append(p.Images, xlsx.Image{Row: sheet.TitleRow, Col: answerCols - 1, Height: 56, Data: c.Logo, Alt: "Logo of " + cmp.Or(c.Season.Job.Proposal.PreparedBy, "the maker of this proposal")})
}

// verdictLine says what the verdict rests on.
func verdictLine(c *figures.Case) *sheet.Sentence {
	t, j := &c.Season.Totals, c.Season.Job
	wet, evap := t.Hours.WetNeed(), t.Hours[season.Evap]
	share := func(n int) float64 { return float64(n) / float64(max(1, wet)) }
	return new(sheet.Sentence).Say("Of ").Number("Out_hours_wet_need", float64(wet), 0).
		Say(" hours that open windows and a fan do not hold, water holds ").Percent(figures.WetShare("Out_coverage_with_water"), share(evap)).
		Say("; with people who feel the air move, up to ").Quantity(c.Units, units.TemperatureDifference, "Si_house_moving_air", j.House.MovingAir, 1).
		Say(" warmer, ").Percent(figures.WetShare("Out_coverage_moving_air_with_water"), share(evap+t.Moving)).
		Say(fx.Fill(" are comfortable. Our own marks, on these hours only: good fit from {moving} % and {held} % of them held, limits from {part} %, poor fit below; hardly needed under {hours} hours.",
			"{moving}", sheet.Fixed(100*season.GoodMoving, 0), "{held}", sheet.Fixed(100*season.GoodHeld, 0), "{part}", sheet.Fixed(100*season.PartMoving, 0), "{hours}", sheet.Fixed(season.HardlyNeededBelow, 0)))
}

// lowEnd begins a range with its lower end, as long as that is there.
func lowEnd(c *figures.Case, figure string, kind units.Kind, v float64) *sheet.Sentence {
	u := kind.Unit(c.Units)
	return new(sheet.Sentence).When("ISNUMBER("+figure+")", true, new(sheet.Sentence).Number(sheet.DisplayFormula(u, figure), sheet.Display(u, v).(float64), 0).Say(" to "))
}

// tile is a headline figure with its caption.
type tile struct {
	caption, value, formula, below, belowFormula string
}

func tiles(c *figures.Case) []tile {
	s, t, m := c.Season, &c.Season.Totals, &c.Money
	make := func(caption string, big, small *sheet.Sentence) tile {
		v, f := big.Done()
		b, bf := small.Done()
		return tile{caption, v, f, b, bf}
	}
	say := func() *sheet.Sentence { return new(sheet.Sentence) }
	cool, ref := &m.Options[money.Cooler], &m.Options[money.Refrigerated]
	return []tile{
		make("Hours held", say().Percent(figures.ShareOfNeed("Out_coverage_held"), c.NeedShare(t.Hours.Held())),
			say().Number("Out_hours_held", float64(t.Hours.Held()), 0).Say(" of ").Number("Out_hours_need", float64(t.Hours.Need()), 0)),
		make("Hours not covered", say().Number("Out_hours_uncovered", float64(t.Hours.Uncovered()), 0),
			say().Number("Out_hours_damp", float64(t.Hours[season.Damp]), 0).Say(" too damp, ").Number("Out_hours_warm", float64(t.Hours[season.Warm]), 0).Say(" too warm")),
		make("Supply air, hot design day", say().Quantity(c.Units, units.Temperature, "Out_design_supply_1pct_c", s.Design.DryBulb[climate.One].Supply.T, 0),
			say().Say("outdoors ").Quantity(c.Units, units.Temperature, "Out_design_db_1pct_c", s.Climate.Design.DryBulb[climate.One].Value, 0).Say(" (1 %)")),
		make("Water in a season", lowEnd(c, "Out_water_low_total_l", units.Volume, s.WaterTotal(c.Low.Water)).Quantity(c.Units, units.Volume, "Out_water_total_l", s.WaterTotal(t.Water), 0),
			say().Say("peak day ").Quantity(c.Units, units.Volume, "Out_water_peak_day_l", t.PeakDayWater, 0)),
		make("Electricity in a season", lowEnd(c, "Out_energy_low_cooler_kwh", units.Energy, c.Low.CoolerKWh).Number("Out_energy_cooler_kwh", t.CoolerKWh, 0).Say(" kWh"),
			say().Say("refrigeration ").Number("Out_energy_refrigerated_kwh", t.RefKWh, 0).Say(" kWh")),
		make("Running cost a year", say().Number("Out_money_cooler_yearly", cool.Total(), 0),
			say().Say("refrigeration ").Number("Out_money_refrigerated_yearly", ref.Total(), 0)),
	}
}

func answerTiles(c *figures.Case, p *sheet.Page) {
	fill := func(extra xlsx.Style) xlsx.Style {
		extra.Fill, extra.HAlign, extra.VAlign = look.Sand, xlsx.Centre, xlsx.Middle
		return extra
	}
	styles := []xlsx.Style{
		fill(xlsx.Style{Size: look.Small, Color: look.Quiet}),
		fill(xlsx.Style{Size: look.Big, Bold: true, Color: look.Ink}),
		fill(xlsx.Style{Size: look.Small, Color: look.Quiet}),
	}
	at := [3][2]int{{1, 2}, {4, 5}, {7, 8}} // columns of the three tiles in a row
	for i, t := range tiles(c) {
		row, cols := p.Row+4*(i/3), at[i%3]
		for k, cell := range []xlsx.Cell{{Value: t.caption}, {Value: t.value, Formula: t.formula}, {Value: t.below, Formula: t.belowFormula}} {
			cell.Style = styles[k]
			p.Set(row+k, cols[0], cell)
			p.Set(row+k, cols[1], xlsx.Cell{Style: styles[k]})
			p.Merges = append(p.Merges, xlsx.RangeRef(row+k, cols[0], row+k, cols[1]))
		}
		p.Height(row+1, 28)
	}
	p.Row += 8
}

func answerUncovered(c *figures.Case, p *sheet.Page) {
	t := &c.Season.Totals
	p.Section("What it does not cover", answerCols)
	line := new(sheet.Sentence).Number("Out_hours_uncovered", float64(t.Hours.Uncovered()), 0).Say(" hours a year, most of them in ").
		Word("Out_uncovered_worst_month", c.WorstMonth()).Say("; up to ").
		Number("Out_uncovered_longest_run_h", float64(t.LongestRun), 0).Say(" in a row and ").
		Number("Out_uncovered_worst_week_h", float64(c.WorstWeek()), 0).Say(" in the worst seven days. The house then reaches ").
		Quantity(c.Units, units.Temperature, "Out_uncovered_hottest_indoor_c", t.HottestIndoor, 1).Say(" at the hottest and ").
		Percent("Out_uncovered_dampest_indoor", t.DampestIndoor).Say(" relative humidity at the dampest; supply air in that week gets as warm as ").
		Quantity(c.Units, units.Temperature, "Out_uncovered_worst_week_supply_c", c.WorstWeekSupply(), 0).Say(".")
	value, formula := line.Done()
	p.Text(value, formula, answerCols, 3, sheet.Warn)
	line = new(sheet.Sentence).Say("With people who feel the air move it keeps ").
		Percent(figures.ShareOfNeed("Out_coverage_moving_air"), c.NeedShare(t.Hours.Held()+t.Moving)).Say(" of the hours comfortable. Counting temperature alone it holds ").
		Percent(figures.ShareOfNeed("Out_coverage_temperature"), c.NeedShare(t.Hours.Held()+t.Hours[season.Damp])).
		Say(" of the hours; counted by load, ").Percent(figures.ShareOfNeed("Out_coverage_load"), t.HeldLoad/max(1e-9, t.Load)).
		Say("; above the setpoint remain ").Quantity(c.Units, units.DegreeHours, "Out_degree_hours_over", t.Over, 0).
		Say(". Refrigeration of ")
	capacity(c, line).Say(" would fall short in ").Number("Out_ac_unmet_hours", float64(t.UnmetHours), 0).Say(" hours.")
	value, formula = line.Done()
	p.Text(value, formula, answerCols, 3, sheet.Text)
	p.Row++
}

// capacity adds the rated capacity of refrigeration in the unit of the trade.
func capacity(c *figures.Case, s *sheet.Sentence) *sheet.Sentence {
	if c.Units == units.IP {
		return s.Quantity(c.Units, units.Capacity, "Out_ac_capacity_w", c.Season.AC.Capacity, 1)
	}
	return s.Quantity(c.Units, units.PowerKW, "Out_ac_capacity_w/1000", c.Season.AC.Capacity/1000, 1)
}

// answerNotes are the notes and cautions of the first page that hold whatever
// the inputs are.
func answerNotes(c *figures.Case) []string {
	notes := []string{methods.Cautions[0], methods.Cautions[1], methods.LimitTypicalYear + " " + methods.LimitHabits}
	if strings.Contains(strings.ToLower(c.Season.Job.Site.Name+c.Series.Station.Name), "invented") {
		notes = append([]string{"Invented weather for an invented place: an example, not a place you can visit."}, notes...)
	}
	return notes
}
