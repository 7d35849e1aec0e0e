package workbook

import (
	"cmp"
	"fmt"
	"os"
	"strings"

	"github.com/evapbook/evapbook/internal/climate"
	"github.com/evapbook/evapbook/internal/look"
	"github.com/evapbook/evapbook/internal/money"
	"github.com/evapbook/evapbook/internal/season"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/xlsx"
)

// The verdict: a good fit holds nearly all hours and blows cool even at the
// damp design condition; a poor fit fails one of the two clearly.
//
// Source of the temperatures: service-trade cooler index (supply below 70 °F
// comfortable, above 75 °F not). The shares are our own, shown beside it.
const (
	goodShare, poorShare = 0.95, 0.80
	coolSupplyF          = 70 // °F
	warmSupplyF          = 75
)

// verdict grades: the worse of coverage and supply temperature.
func (c *Case) verdict() (value, formula string) {
	text := fill(`IF(Out_hours_need=0,"No hour needs cooling here",IF(OR(Out_coverage_held<{poor},Out_design_supply_wb_1pct_c>({warm}-32)/1.8),"Poor fit",IF(AND(Out_coverage_held>={good},Out_design_supply_wb_1pct_c<=({cool}-32)/1.8),"Good fit","Fit with limits")))`,
		"{poor}", num(poorShare), "{good}", num(goodShare), "{warm}", num(warmSupplyF), "{cool}", num(coolSupplyF))
	t := &c.Season.Totals
	supply, held := c.Season.Design.WetBulb[climate.One].Supply.T, c.needShare(t.Hours.Held())
	switch {
	case t.Hours.Need() == 0:
		return "No hour needs cooling here", text
	case held < poorShare || supply > (warmSupplyF-32)/1.8:
		return "Poor fit", text
	case held >= goodShare && supply <= (coolSupplyF-32)/1.8:
		return "Good fit", text
	default:
		return "Fit with limits", text
	}
}

// needShare is a number of hours as a share of those that need cooling, 0
// where none does; sentences show it so, while figures say there is none.
func (c *Case) needShare(hours int) float64 {
	return float64(hours) / float64(max(1, c.Season.Totals.Hours.Need()))
}

// shareOfNeed is the live form of needShare for a coverage figure.
func shareOfNeed(figure string) string { return "IF(Out_hours_need=0,0," + figure + ")" }

// answerCols is the width of the page in columns.
const answerCols = 8

func (c *Case) layAnswer(p *page) error {
	for range answerCols {
		p.Cols = append(p.Cols, 11.7)
	}
	p.Print.FitHeight = 1
	p.Print.CentreAcross = true
	if err := c.answerHead(p); err != nil {
		return err
	}
	c.answerTiles(p)
	c.answerUncovered(p)
	c.answerCharts(p)
	p.section("Read this too", answerCols)
	for _, n := range c.answerNotes() {
		p.text(n, "", answerCols, 1+len(n)/125, styleSmall)
	}
	for _, live := range []*sentence{c.weatherNote(), c.careNote()} {
		words, formula := live.done()
		p.text(words, formula, answerCols, 1+len(words)/125, styleSmall)
	}
	return nil
}

// answerHead is the top of the page: for whom, where, and the verdict.
func (c *Case) answerHead(p *page) error {
	if err := c.layLogo(p); err != nil {
		return err
	}
	for _, line := range c.proposalLines() {
		p.text(line, "", answerCols, 1, styleLine)
	}
	value, formula := c.placeLine().done()
	p.text(value, formula, answerCols, 1, styleQuiet)
	value, formula = c.coolerLine().done()
	p.text(value, formula, answerCols, 1, styleQuiet)
	p.row++
	v, f := c.verdict()
	p.text(v, f, answerCols, 2, xlsx.Style{Bold: true, Size: look.Big, Color: look.Paper, Fill: look.Leaf, Indent: 1, VAlign: xlsx.Middle, HAlign: xlsx.Left})
	banner := xlsx.RangeRef(p.row-1, 1, p.row-1, answerCols)
	first := "$" + xlsx.CellRef(p.row-1, 1)
	for _, grade := range [][2]string{{"Poor fit", look.Warm}, {"Fit with limits", look.Amber}} {
		p.Conditional = append(p.Conditional, xlsx.CondFormat{Range: banner, When: first + `="` + grade[0] + `"`, Style: xlsx.Style{Color: look.Paper, Fill: grade[1], Bold: true}})
	}
	value, formula = c.verdictLine().done()
	p.text(value, formula, answerCols, 3, styleText)
	p.row++
	return nil
}

// proposalLines say who the page is for, as far as that was stated.
func (c *Case) proposalLines() []string {
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
func (c *Case) layLogo(p *page) error {
	path := c.Season.Job.Proposal.Logo
	if path == "" {
		return nil
	}
	data, err := os.ReadFile(path)
	if err != nil {
		return fmt.Errorf("proposal.logo: %w", err)
	}
	p.Images = append(p.Images, xlsx.Image{Row: 1, Col: answerCols - 1, Height: 56, Data: data, Alt: "Logo of " + cmp.Or(c.Season.Job.Proposal.PreparedBy, "the maker of this proposal")})
	return nil
}

func (c *Case) placeLine() *sentence {
	s := c.Season
	return new(sentence).quantity(c.Units, units.Altitude, "Out_site_altitude_m", s.Job.Site.Altitude, 0).
		say(" above sea level, standard pressure ").quantity(c.Units, units.Pressure, "Out_site_pressure_pa", s.Climate.Pressure, c.pressureDigits()).
		say(". Weather: " + c.Series.Place() + ", " + c.Series.Source.Format + ", " + c.Series.Source.Name)
}

func (c *Case) pressureDigits() int {
	if c.Units == units.IP {
		return 2
	}
	return 0
}

func (c *Case) coolerLine() *sentence {
	j := c.Season.Job
	return new(sentence).say("A ").word("In_cooler_kind", string(j.Cooler.Kind)).say(" cooler of ").quantity(c.Units, units.Airflow, "Si_cooler_airflow", j.Cooler.Airflow, c.airflowDigits()).
		say(" in a house of ").quantity(c.Units, units.Area, "Si_house_floor_area", j.House.FloorArea, 0).
		say(" kept at ").quantity(c.Units, units.Temperature, "Si_house_setpoint", j.House.Setpoint, 1).
		say(" and at most ").percent("Si_house_humidity_limit", j.House.HumidityLimit).say(" relative humidity")
}

func (c *Case) airflowDigits() int {
	if c.Units == units.IP {
		return 0
	}
	return 2
}

func (c *Case) verdictLine() *sentence {
	s, t := c.Season, &c.Season.Totals
	deg := func(f float64) string { // the rule's temperatures as people see them
		u := units.Temperature.Unit(c.Units)
		return fixed(u.FromSI((f-32)/1.8), 0) + " " + u.Symbol
	}
	return new(sentence).say("The cooler holds ").percent(shareOfNeed("Out_coverage_held"), c.needShare(t.Hours.Held())).
		say(" of the hours that need cooling, and on the damp design day (1 % wet bulb) it blows in air of ").
		quantity(c.Units, units.Temperature, "Out_design_supply_wb_1pct_c", s.Design.WetBulb[climate.One].Supply.T, 0).
		say(fill(". Rule: good fit from {good} % held (our own mark) with that air at or below {cool}, poor fit below {poor} % held or above {warm} (service-trade index: below {cool} comfortable, above {warm} not).",
			"{good}", fixed(goodShare*100, 0), "{poor}", fixed(poorShare*100, 0), "{cool}", deg(coolSupplyF), "{warm}", deg(warmSupplyF)))
}

// tile is a headline figure with its caption.
type tile struct {
	caption, value, formula, below, belowFormula string
}

func (c *Case) tiles() []tile {
	s, t, m := c.Season, &c.Season.Totals, &c.Money
	make := func(caption string, big, small *sentence) tile {
		v, f := big.done()
		b, bf := small.done()
		return tile{caption, v, f, b, bf}
	}
	say := func() *sentence { return new(sentence) }
	cool, ref := &m.Options[money.Cooler], &m.Options[money.Refrigerated]
	return []tile{
		make("Hours held", say().percent(shareOfNeed("Out_coverage_held"), c.needShare(t.Hours.Held())),
			say().number("Out_hours_held", float64(t.Hours.Held()), 0).say(" of ").number("Out_hours_need", float64(t.Hours.Need()), 0)),
		make("Hours not covered", say().number("Out_hours_uncovered", float64(t.Hours.Uncovered()), 0),
			say().number("Out_hours_damp", float64(t.Hours[season.Damp]), 0).say(" too damp, ").number("Out_hours_warm", float64(t.Hours[season.Warm]), 0).say(" too warm")),
		make("Supply air, hot design day", say().quantity(c.Units, units.Temperature, "Out_design_supply_1pct_c", s.Design.DryBulb[climate.One].Supply.T, 0),
			say().say("outdoors ").quantity(c.Units, units.Temperature, "Out_design_db_1pct_c", s.Climate.Design.DryBulb[climate.One].Value, 0).say(" (1 %)")),
		make("Water in a season", say().quantity(c.Units, units.Volume, "Out_water_total_l", s.WaterTotal(t.Water), 0),
			say().say("peak day ").quantity(c.Units, units.Volume, "Out_water_peak_day_l", t.PeakDayWater, 0)),
		make("Electricity in a season", say().number("Out_energy_cooler_kwh", t.CoolerKWh, 0).say(" kWh"),
			say().say("refrigeration ").number("Out_energy_refrigerated_kwh", t.RefKWh, 0).say(" kWh")),
		make("Running cost a year", say().number("Out_money_cooler_yearly", cool.Total(), 0),
			say().say("refrigeration ").number("Out_money_refrigerated_yearly", ref.Total(), 0)),
	}
}

func (c *Case) answerTiles(p *page) {
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
	for i, t := range c.tiles() {
		row, cols := p.row+4*(i/3), at[i%3]
		for k, cell := range []xlsx.Cell{{Value: t.caption}, {Value: t.value, Formula: t.formula}, {Value: t.below, Formula: t.belowFormula}} {
			cell.Style = styles[k]
			p.Set(row+k, cols[0], cell)
			p.Set(row+k, cols[1], xlsx.Cell{Style: styles[k]})
			p.Merges = append(p.Merges, xlsx.RangeRef(row+k, cols[0], row+k, cols[1]))
		}
		p.Height(row+1, 28)
	}
	p.row += 8
}

func (c *Case) answerUncovered(p *page) {
	t := &c.Season.Totals
	p.section("What it does not cover", answerCols)
	line := new(sentence).number("Out_hours_uncovered", float64(t.Hours.Uncovered()), 0).say(" hours a year, most of them in ").
		word("Out_uncovered_worst_month", c.worstMonth()).say("; up to ").
		number("Out_uncovered_longest_run_h", float64(t.LongestRun), 0).say(" in a row and ").
		number("Out_uncovered_worst_week_h", float64(c.worstWeek()), 0).say(" in the worst seven days. The house then reaches ").
		quantity(c.Units, units.Temperature, "Out_uncovered_hottest_indoor_c", t.HottestIndoor, 1).say(" at the hottest and ").
		percent("Out_uncovered_dampest_indoor", min(1, t.DampestIndoor)).say(" relative humidity at the dampest; supply air in that week gets as warm as ").
		quantity(c.Units, units.Temperature, "Out_uncovered_worst_week_supply_c", c.worstWeekSupply(), 0).say(".")
	value, formula := line.done()
	p.text(value, formula, answerCols, 3, styleWarn)
	line = new(sentence).say("Counting temperature alone it holds ").
		percent(shareOfNeed("Out_coverage_temperature"), c.needShare(t.Hours.Held()+t.Hours[season.Damp])).
		say(" of the hours; counted by load, ").percent(shareOfNeed("Out_coverage_load"), t.HeldLoad/max(1e-9, t.Load)).
		say("; above the setpoint remain ").quantity(c.Units, units.DegreeHours, "Out_degree_hours_over", t.Over, 0).
		say(". Refrigeration of ")
	c.capacity(line).say(" would fall short in ").number("Out_ac_unmet_hours", float64(t.UnmetHours), 0).say(" hours.")
	value, formula = line.done()
	p.text(value, formula, answerCols, 2, styleText)
	p.row++
}

// capacity adds the rated capacity of refrigeration in the unit of the trade.
func (c *Case) capacity(s *sentence) *sentence {
	if c.Units == units.IP {
		return s.quantity(c.Units, units.Capacity, "Out_ac_capacity_w", c.Season.AC.Capacity, 1)
	}
	return s.quantity(c.Units, units.PowerKW, "Out_ac_capacity_w/1000", c.Season.AC.Capacity/1000, 1)
}

// answerNotes are the notes and cautions of the first page that hold whatever
// the inputs are.
func (c *Case) answerNotes() []string {
	notes := []string{cautions[0], cautions[1], limits[4] + " " + limits[6]}
	if strings.Contains(strings.ToLower(c.Season.Job.Site.Name+c.Series.Station.Name), "invented") {
		notes = append([]string{"Invented weather for an invented place: an example, not a place you can visit."}, notes...)
	}
	return notes
}
