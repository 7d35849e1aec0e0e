// Package technician lays out the pages one takes up on the roof: start-up and
// close-down, with the air, days, water and openings to expect.
package technician

import (
	"fmt"
	"time"

	"github.com/evapbook/evapbook/internal/look"
	"github.com/evapbook/evapbook/internal/reading"
	"github.com/evapbook/evapbook/internal/startup"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/workbook/figures"
	"github.com/evapbook/evapbook/internal/workbook/fx"
	"github.com/evapbook/evapbook/internal/workbook/given"
	"github.com/evapbook/evapbook/internal/workbook/sheet"
	"github.com/evapbook/evapbook/internal/workbook/steps"
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

func startupPage(p *sheet.Page) {
	p.Cols = []float64{15}
	for len(p.Cols) < startupCols {
		p.Cols = append(p.Cols, 11)
	}
	p.Print.FitHeight = 1
}

// Startup is what a technician takes along in spring: what the air should
// be, the weeks, the water, the openings, and a list to fill in.
func Startup(c *figures.Case, p *sheet.Page) error {
	startupPage(p)
	words, formula := given.CoolerLine(c).Done()
	p.Text(words, formula, startupCols, 1, sheet.Quiet)
	if err := laySupplyGrid(c, p); err != nil {
		return err
	}
	top := p.Row
	layStartupDays(c, p)
	below := p.Row
	p.Row = top
	layWaterLine(c, p)
	p.Row = max(p.Row, below)
	layRelief(c, p)
	checklist(p, "Start-up", startupSteps)
	return nil
}

// laySupplyGrid shows the supply to expect, from the SupplyTable sheet.
func laySupplyGrid(c *figures.Case, p *sheet.Page) error {
	rows, err := steps.SupplyRows(c)
	if err != nil {
		return err
	}
	u := units.Temperature.Unit(c.Units)
	p.Section("Supply to expect, "+u.Symbol+", at this altitude: outdoor temperature down, relative humidity across", startupCols)
	p.Set(p.Row, steps.SupplyCornerCol, xlsx.Cell{Value: "outdoors", Style: sheet.Head})
	if p.Row != steps.SupplyCornerRow {
		return fmt.Errorf("the supply table stands in row %d, not %d", p.Row, steps.SupplyCornerRow)
	}
	n := len(steps.SupplyOutdoor[c.Units])
	for i, rh := range steps.SupplyRelHum {
		p.Set(p.Row, steps.SupplyCornerCol+1+i, xlsx.Cell{Value: rh, Style: typed("0%")})
	}
	format := "0.0"
	if c.Units == units.IP {
		format = "0"
	}
	for k, t := range steps.SupplyOutdoor[c.Units] {
		p.Row++
		p.Set(p.Row, steps.SupplyCornerCol, xlsx.Cell{Value: t, Style: typed("0")})
		for i := range steps.SupplyRelHum {
			r := i*n + k
			p.Set(p.Row, steps.SupplyCornerCol+1+i, xlsx.Cell{Value: u.FromSI(rows[r].Supply.T), Formula: sheet.DisplayFormula(u, fmt.Sprintf("[SupplyTable.ts#%d]", r)), Style: small(format)})
		}
	}
	first := steps.SupplyCornerRow + 1
	damp := units.TemperatureDifference.Unit(c.Units)
	p.Conditional = append(p.Conditional, xlsx.CondFormat{
		Range: xlsx.RangeRef(first, 2, p.Row, 1+len(steps.SupplyRelHum)),
		When:  fmt.Sprintf("$A%d-B%d<%s", first, first, fx.Num(damp.FromSI(dampDrop))), Style: xlsx.Style{Color: look.Faint, Italic: true},
	})
	p.Row++
	fault := sheet.Fixed(damp.FromSI(reading.FaultGap), 1) + " " + sheet.Spoken(damp)
	p.Text("Read in the shade where the air goes in and at the pads, fan at full speed, pads wet for 15 minutes. "+fault+" or more above the table means fault (published: service-trade cooler index note). Grey: cooled by less than "+
		sheet.Fixed(damp.FromSI(dampDrop), 1)+" "+sheet.Spoken(damp)+", too damp to judge by (our own mark). The program's reading command does this with the error of the instruments.", "", startupCols, 2, sheet.Small)
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

func days(p *sheet.Page, title string, lines []dayLine) {
	p.Across(p.Row, 1, 4, xlsx.Cell{Value: title, Style: sheet.Section})
	p.Height(p.Row, 20)
	p.Row++
	for _, l := range lines {
		p.Across(p.Row, 1, 3, xlsx.Cell{Value: l.label, Style: styleCheck})
		p.Set(p.Row, 4, xlsx.Cell{Value: l.value, Formula: l.formula, Style: styleDay})
		p.Row++
	}
}

func layStartupDays(c *figures.Case, p *sheet.Page) {
	cal, t := c.Season.Climate.Calendar, &c.Season.Totals
	from := dayLine{fmt.Sprintf("Start up from: last freeze + %d days", startup.FreezeMargin), shiftedFormula("Out_calendar_last_freeze", startup.FreezeMargin+1), shifted(c, cal.LastFreeze, startup.FreezeMargin+1)}
	if safe, _, ok := safeDays(c); ok {
		from = dayLine{safeLabel(c, "Start up from"), "", safe}
	}
	days(p, "The days here", []dayLine{
		{"Last freeze before the hot season", "Out_calendar_last_freeze", c.Date(cal.LastFreeze)},
		from,
		{"Start up by: before the season is on", shiftedFormula("Out_calendar_evap_opens", -1), shifted(c, t.EvapOpens, -1)},
		{"First day that needs water", "Out_calendar_first_evap", c.Date(t.FirstEvap)},
		{"Season on (5 % of the hours passed)", "Out_calendar_evap_opens", c.Date(t.EvapOpens)},
		{"Season over (95 % passed)", "Out_calendar_evap_closes", c.Date(t.EvapCloses)},
		{"First freeze after the hot season", "Out_calendar_first_freeze", c.Date(cal.FirstFreeze)},
	})
	warnTight(c, p, beforeSeason(c), "The season is on before frosts end: drain on cold nights.")
}

// safeDays are the days between which it does not freeze in nine years of ten,
// where the weather has years enough. They are values: what the other years
// come to is computed at writing.
func safeDays(c *figures.Case) (from, until any, ok bool) {
	if !severalYears(c) {
		return nil, nil, false
	}
	var last, first []time.Time
	for _, r := range c.Years.Rows[:c.Years.Counts] {
		last, first = append(last, r.LastFreeze), append(first, r.FirstFreeze)
	}
	date := func(day int) any {
		if day == startup.None {
			return figures.None
		}
		return startup.Date(day, c.Season.Climate.Days[0].Date.Year(), c.Years.South)
	}
	a, b := startup.Safe(last, first, c.Years.South)
	return date(a), date(b), true
}

// safeLabel says where such a day comes from.
func safeLabel(c *figures.Case, what string) string {
	return fmt.Sprintf("%s: safe in 9 of 10 of %d years", what, c.Years.Counts)
}

// shifted is the date some days after (before: negative) a day of the file.
func shifted(c *figures.Case, day, by int) any {
	if day < 0 {
		return figures.None
	}
	return c.Season.Climate.Days[day].Date.AddDate(0, 0, by)
}

func shiftedFormula(date string, by int) string {
	return fx.Fill(`IF(ISNUMBER({D}),{D}+{N},"none")`, "{D}", date, "+{N}", fmt.Sprintf("%+d", by))
}

// between is what lies between a freeze and the season: two dates, and the
// days from one to the other by their place in the season, since a typical year
// joins months of different years.
type between struct {
	freeze, season string // dates by name
	formula        string // days
	days           int
	there          bool // neither is missing
}

// beforeSeason is the time from the last freeze to the season.
func beforeSeason(c *figures.Case) between {
	b := between{freeze: "Out_calendar_last_freeze", season: "Out_calendar_evap_opens"}
	b.formula = placeOf(b.season) + "-MAX([Days.freeze_before:])"
	if last, opens := c.Season.Climate.Calendar.LastFreeze, c.Season.Totals.EvapOpens; last >= 0 && opens >= 0 {
		b.there, b.days = true, c.Season.Climate.Days[opens].Season+c.Season.Climate.UntilMidsummer(last)
	}
	return b
}

// afterSeason is the time from the season to the first freeze.
func afterSeason(c *figures.Case) between {
	b := between{freeze: "Out_calendar_first_freeze", season: "Out_calendar_evap_closes"}
	b.formula = "MIN([Days.freeze_after:])-" + placeOf(b.season)
	if first, closes := c.Season.Climate.Calendar.FirstFreeze, c.Season.Totals.EvapCloses; first >= 0 && closes >= 0 {
		b.there, b.days = true, c.Season.Climate.SinceMidsummer(first)-c.Season.Climate.Days[closes].Season
	}
	return b
}

func placeOf(date string) string { return "INDEX([Days.season:],MATCH(" + date + ",[Days.date:],0))" }

// warnTight is a line that speaks only where a freeze lies too near the season:
// less than the margin and a week away.
func warnTight(c *figures.Case, p *sheet.Page, b between, words string) {
	formula := fmt.Sprintf(`IF(AND(ISNUMBER(%s),ISNUMBER(%s)),IF(%s<=%d,%s,%s),%s)`,
		b.freeze, b.season, b.formula, tightDays, fx.Quote(words), fx.Quote(farApart(c)), fx.Quote(noMeeting))
	p.Across(p.Row, 1, 4, xlsx.Cell{Value: b.words(c, words), Formula: formula, Style: sheet.Quiet})
	p.Row++
}

// words is the value of that line.
func (b between) words(c *figures.Case, tight string) string {
	switch {
	case !b.there:
		return noMeeting
	case b.days <= tightDays:
		return tight
	default:
		return farApart(c)
	}
}

// farApart is what the line says where all is well.
func farApart(c *figures.Case) string {
	if severalYears(c) {
		return ""
	}
	return oneYear
}

// tightDays between the last freeze and the season are too few for the margin
// and a week.
const tightDays = startup.FreezeMargin + startup.VisitDays

// What the line says where they are not.
const (
	oneYear   = "one year of weather; several years give percentiles"
	noMeeting = "never freezes in this weather, or needs no water"
)

func severalYears(c *figures.Case) bool { return c.Years != nil && c.Years.Counts >= startup.FewYears }
