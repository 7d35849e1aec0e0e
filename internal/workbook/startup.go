package workbook

import (
	"fmt"
	"time"

	"github.com/evapbook/evapbook/internal/look"
	"github.com/evapbook/evapbook/internal/reading"
	"github.com/evapbook/evapbook/internal/startup"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/xlsx"
)

// startupCols is the width of the Startup and Closedown pages in columns.
const startupCols = 10

var (
	styleCheck = xlsx.Style{Size: look.Small, Color: look.Ink, Wrap: true, VAlign: xlsx.Middle, Border: xlsx.Under(xlsx.Hair, look.Rule)}
	styleFill  = xlsx.Style{Size: look.Small, Color: look.Ink, Border: xlsx.Box(xlsx.Thin, look.Rule), HAlign: xlsx.Centre, VAlign: xlsx.Middle, Unlocked: true}
	styleOf    = xlsx.Style{Size: look.Small, Color: look.Quiet, VAlign: xlsx.Middle, Indent: 1, HAlign: xlsx.Left}
	styleDay   = xlsx.Style{Size: look.Small, Color: look.Ink, NumFmt: "d mmm", HAlign: xlsx.Right, Border: xlsx.Under(xlsx.Hair, look.Rule), VAlign: xlsx.Middle}
)

// small is a number on these pages.
func small(format string) xlsx.Style {
	return xlsx.Style{Size: look.Small, Color: look.Ink, NumFmt: format, HAlign: xlsx.Centre, VAlign: xlsx.Middle, Border: xlsx.Under(xlsx.Hair, look.Rule)}
}

// typed is a number on these pages that can be changed.
func typed(format string) xlsx.Style {
	s := small(format)
	s.Fill, s.Unlocked = look.InputFill, true
	return s
}

// span puts a cell across columns of a row.
func (p *page) span(row, first, last int, c xlsx.Cell) {
	p.Set(row, first, c)
	for col := first + 1; col <= last; col++ {
		p.Set(row, col, xlsx.Cell{Style: c.Style})
	}
	if last > first {
		p.Merges = append(p.Merges, xlsx.RangeRef(row, first, row, last))
	}
}

func (p *page) startupPage() {
	p.Cols = []float64{15}
	for len(p.Cols) < startupCols {
		p.Cols = append(p.Cols, 11)
	}
	p.Print.FitHeight, p.Print.CentreAcross = 1, true
}

// layStartup is what a technician takes along in spring: what the air should
// be, the weeks, the water, the openings, and a list to fill in.
func (c *Case) layStartup(p *page) error {
	p.startupPage()
	words, formula := c.coolerLine().done()
	p.text(words, formula, startupCols, 1, styleQuiet)
	if err := c.laySupplyGrid(p); err != nil {
		return err
	}
	top := p.row
	c.layStartupDays(p)
	below := p.row
	p.row = top
	c.layWaterLine(p)
	p.row = max(p.row, below)
	c.layRelief(p)
	p.checklist("Start-up", startupSteps)
	return nil
}

// laySupplyGrid shows the supply to expect, from the SupplyTable sheet.
func (c *Case) laySupplyGrid(p *page) error {
	rows, err := c.supplyRows()
	if err != nil {
		return err
	}
	u := units.Temperature.Unit(c.Units)
	p.section("Supply to expect, "+u.Symbol+", at this altitude: outdoor temperature down, relative humidity across", startupCols)
	p.Set(p.row, supplyCornerCol, xlsx.Cell{Value: "outdoors", Style: styleHead})
	if p.row != supplyCornerRow {
		return fmt.Errorf("the supply table stands in row %d, not %d", p.row, supplyCornerRow)
	}
	n := len(supplyOutdoor[c.Units])
	for i, rh := range supplyRelHum {
		p.Set(p.row, supplyCornerCol+1+i, xlsx.Cell{Value: rh, Style: typed("0%")})
	}
	format := "0.0"
	if c.Units == units.IP {
		format = "0"
	}
	for k, t := range supplyOutdoor[c.Units] {
		p.row++
		p.Set(p.row, supplyCornerCol, xlsx.Cell{Value: t, Style: typed("0")})
		for i := range supplyRelHum {
			r := i*n + k
			p.Set(p.row, supplyCornerCol+1+i, xlsx.Cell{Value: u.FromSI(rows[r].supply.T), Formula: displayFormula(u, fmt.Sprintf("[SupplyTable.ts#%d]", r)), Style: small(format)})
		}
	}
	first := supplyCornerRow + 1
	damp := units.TemperatureDifference.Unit(c.Units)
	p.Conditional = append(p.Conditional, xlsx.CondFormat{
		Range: xlsx.RangeRef(first, 2, p.row, 1+len(supplyRelHum)),
		When:  fmt.Sprintf("$A%d-B%d<%s", first, first, num(damp.FromSI(dampDrop))), Style: xlsx.Style{Color: look.Faint, Italic: true},
	})
	p.row++
	fault := fixed(damp.FromSI(reading.FaultGap), 1) + " " + damp.Symbol
	p.text("Read in the shade where the air goes in and at the pads, fan at full speed, pads wet for 15 minutes. "+fault+" or more above the table means fault (published: service-trade cooler index note). Grey: cooled by less than "+
		fixed(damp.FromSI(dampDrop), 1)+" "+damp.Symbol+", too damp to judge by (our own mark). The program's reading command does this with the error of the instruments.", "", startupCols, 2, styleSmall)
	return nil
}

// dampDrop is the cooling in K below which a cell of the table is no test: the
// least depression for a reading at an effectiveness of 0.8.
const dampDrop = 0.8 * reading.LeastDrop

// dayLine is a date on the left half of the page.
type dayLine struct {
	label, formula string
	value          any
}

func (p *page) days(title string, lines []dayLine) {
	p.span(p.row, 1, 4, xlsx.Cell{Value: title, Style: styleSection})
	p.Height(p.row, 20)
	p.row++
	for _, l := range lines {
		p.span(p.row, 1, 3, xlsx.Cell{Value: l.label, Style: styleCheck})
		p.Set(p.row, 4, xlsx.Cell{Value: l.value, Formula: l.formula, Style: styleDay})
		p.row++
	}
}

func (c *Case) layStartupDays(p *page) {
	cal, t := c.Season.Climate.Calendar, &c.Season.Totals
	from := dayLine{fmt.Sprintf("Start up from: last freeze + %d days", startup.FreezeMargin), shiftedFormula("Out_calendar_last_freeze", startup.FreezeMargin+1), c.shifted(cal.LastFreeze, startup.FreezeMargin+1)}
	if safe, _, ok := c.safeDays(); ok {
		from = dayLine{c.safeLabel("Start up from"), "", safe}
	}
	p.days("The days here", []dayLine{
		{"Last freeze before the hot season", "Out_calendar_last_freeze", c.date(cal.LastFreeze)},
		from,
		{"Start up by: before the season is on", shiftedFormula("Out_calendar_evap_opens", -1), c.shifted(t.EvapOpens, -1)},
		{"First day that needs water", "Out_calendar_first_evap", c.date(t.FirstEvap)},
		{"Season on (5 % of the hours passed)", "Out_calendar_evap_opens", c.date(t.EvapOpens)},
		{"Season over (95 % passed)", "Out_calendar_evap_closes", c.date(t.EvapCloses)},
		{"First freeze after the hot season", "Out_calendar_first_freeze", c.date(cal.FirstFreeze)},
	})
	c.warnTight(p, "Out_calendar_last_freeze", "Out_calendar_evap_opens", cal.LastFreeze, t.EvapOpens, "The season is on before frosts end: drain on cold nights.")
}

// safeDays are the days between which it does not freeze in nine years of ten,
// where the weather has years enough. They are values: what the other years
// come to is computed at writing.
func (c *Case) safeDays() (from, until any, ok bool) {
	if !c.severalYears() {
		return nil, nil, false
	}
	var last, first []time.Time
	for _, r := range c.Years.Rows[:c.Years.Counts] {
		last, first = append(last, r.LastFreeze), append(first, r.FirstFreeze)
	}
	date := func(day int) any {
		if day == startup.None {
			return None
		}
		return startup.Date(day, c.Season.Climate.Days[0].Date.Year(), c.Years.South)
	}
	a, b := startup.Safe(last, first, c.Years.South)
	return date(a), date(b), true
}

// safeLabel says where such a day comes from.
func (c *Case) safeLabel(what string) string {
	return fmt.Sprintf("%s: safe in 9 of 10 of %d years", what, c.Years.Counts)
}

// shifted is the date some days after (before: negative) a day of the file.
func (c *Case) shifted(day, by int) any {
	if day < 0 {
		return None
	}
	return c.Season.Climate.Days[day].Date.AddDate(0, 0, by)
}

func shiftedFormula(date string, by int) string {
	return fill(`IF(ISNUMBER({D}),{D}+{N},"none")`, "{D}", date, "+{N}", fmt.Sprintf("%+d", by))
}

// warnTight is a line that speaks only where a freeze lies too near the season:
// less than the margin and a week between two days. Days are compared by their
// place in the season, since a typical year joins months of different years.
func (c *Case) warnTight(p *page, before, after string, first, second int, words string) {
	otherwise := oneYear
	if c.severalYears() {
		otherwise = ""
	}
	place := func(name string) string { return "INDEX([Days.season:],MATCH(" + name + ",[Days.date:],0))" }
	formula := fmt.Sprintf(`IF(AND(ISNUMBER(%s),ISNUMBER(%s)),IF(%s-%s<=%d,%s,%s),%s)`,
		before, after, place(after), place(before), tightDays, quote(words), quote(otherwise), quote(noMeeting))
	p.span(p.row, 1, 4, xlsx.Cell{Value: c.tight(first, second, words), Formula: formula, Style: styleQuiet})
	p.row++
}

// tightDays between the last freeze and the season are too few for the margin
// and a week.
const tightDays = startup.FreezeMargin + startup.VisitDays

// What the line says where they are not.
const (
	oneYear   = "one year of weather; several years give percentiles"
	noMeeting = "never freezes in this weather, or needs no water"
)

func (c *Case) severalYears() bool { return c.Years != nil && c.Years.Counts >= startup.FewYears }

// tight is the value of that line.
func (c *Case) tight(first, second int, words string) string {
	days := c.Season.Climate.Days
	switch {
	case first < 0 || second < 0:
		return noMeeting
	case days[second].Season-days[first].Season <= tightDays:
		return words
	case c.severalYears():
		return ""
	default:
		return oneYear
	}
}
