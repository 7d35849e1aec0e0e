// Package customer lays out what the cooler does, for the customer: the answer on
// one page, the year by months, and water.
package customer

import (
	"cmp"
	"fmt"
	"strings"

	"github.com/evapbook/evapbook/internal/look"
	"github.com/evapbook/evapbook/internal/season"
	"github.com/evapbook/evapbook/internal/workbook/figures"
	"github.com/evapbook/evapbook/internal/workbook/given"
	"github.com/evapbook/evapbook/internal/workbook/methods"
	"github.com/evapbook/evapbook/internal/workbook/sheet"
	"github.com/evapbook/evapbook/internal/xlsx"
)

const (
	answerCols = 8 // the width of the page in columns

	// How many characters surely fit across it, in prose.
	textChars  = 122
	smallChars = 148
)

// Answer lays out the page that is handed over.
func Answer(c *figures.Case, p *sheet.Page) error {
	for range answerCols {
		p.Cols = append(p.Cols, 15.5)
	}
	p.Print.FitHeight = 1
	answerHead(c, p)
	banner := answerVerdict(c, p)
	answerTiles(c, p)
	answerDays(c, p)
	answerMoney(c, p, banner+`="`+figures.VerdictTitle[season.PoorFit]+`"`)
	answerCharts(c, p)
	if err := answerAdvice(c, p); err != nil {
		return err
	}
	answerCautions(c, p)
	p.Print.Area = xlsx.RangeRef(sheet.TitleRow, 1, p.Row-1, answerCols)
	p.Set(sheet.TitleRow-1, 1, xlsx.Cell{Value: "to the contents", Style: sheet.Link, Link: "Contents!A1"})
	return nil
}

// prose writes a sentence across the page in as many lines as it surely needs.
func prose(p *sheet.Page, s *sheet.Sentence, style xlsx.Style, least int) {
	words, formula := s.Done()
	perLine := textChars
	if style.Size == look.Small {
		perLine = smallChars
	}
	p.Text(words, formula, answerCols, max(least, 1+len([]rune(words))/perLine), style)
}

// answerHead is the letterhead: the site, for whom and by whom, a note, what
// is looked at. All of it follows the cells on Inputs.
func answerHead(c *figures.Case, p *sheet.Page) {
	titled := answerCols
	if len(c.Logo) > 0 {
		titled -= 2
		p.Images = append(p.Images, xlsx.Image{Row: sheet.TitleRow, Col: answerCols - 1, Height: 56, Data: c.Logo, Alt: "Logo of " + cmp.Or(c.Season.Job.Proposal.PreparedBy, "the maker of this proposal")})
	}
	title := sheet.Title
	title.Wrap, title.VAlign = true, xlsx.Middle
	p.Across(sheet.TitleRow, 1, titled, xlsx.Cell{Value: c.Season.Job.Site.Name, Formula: `In_site_name&""`, Style: title})
	height := float64(look.TitleHeight) * float64(given.TitleLines(c))
	if len(c.Logo) > 0 {
		height = max(height, 46)
	}
	p.Height(sheet.TitleRow, height)
	p.Set(sheet.TitleRow+1, 1, xlsx.Cell{Value: "What an evaporative cooler will do here", Style: sheet.Quiet})
	p.Row = sheet.TitleRow + 2
	prose(p, given.CoolerLine(c).Say("; ").Chain(given.PlaceLine(c)).Say("."), sheet.Small, 2)
	words, formula := given.WhoLine(c).Done()
	p.Text(words, formula, answerCols, given.WhoLines(c), sheet.Text)
	words, formula = given.Note(c).Done()
	p.Text(words, formula, answerCols, given.NoteLines(c), sheet.Text)
}

// answerVerdict is the verdict, the rule behind it, and the hours as people
// say them. It returns the cell of the verdict.
func answerVerdict(c *figures.Case, p *sheet.Page) (cell string) {
	v, f := c.Verdict()
	gap(p)
	p.Text(v, f, answerCols, 2, xlsx.Style{Bold: true, Size: look.Big, Color: look.Paper, Fill: look.Leaf, Indent: 1, VAlign: xlsx.Middle, HAlign: xlsx.Left})
	banner := xlsx.RangeRef(p.Row-1, 1, p.Row-1, answerCols)
	cell = fmt.Sprintf("$A$%d", p.Row-1)
	for _, grade := range [][2]string{{figures.VerdictTitle[season.PoorFit], look.Warm}, {figures.VerdictTitle[season.FitInPart], look.Amber}} {
		p.Conditional = append(p.Conditional, xlsx.CondFormat{Range: banner, When: cell + `="` + grade[0] + `"`, Style: xlsx.Style{Color: look.Paper, Fill: grade[1], Bold: true}})
	}
	gap(p)
	if doubt := given.Doubt(c); doubt != "" {
		prose(p, say().Say(doubt), sheet.Warn, 2)
		gap(p)
	}
	prose(p, verdictLine(c), sheet.Text, 3)
	hours := sheet.Warn
	hours.VAlign = xlsx.Middle
	none := xlsx.Style{Color: look.Ink, Fill: look.Sand} // nothing to warn of
	if c.ValuesOnly && c.Season.Totals.Hours.Uncovered() == 0 {
		hours.Fill = none.Fill
	}
	prose(p, hoursLine(c), hours, 3)
	if !c.ValuesOnly {
		p.Conditional = append(p.Conditional, xlsx.CondFormat{Range: xlsx.RangeRef(p.Row-1, 1, p.Row-1, answerCols), When: "Out_hours_uncovered=0", Style: none})
	}
	gap(p)
	return cell
}

// gap leaves a little room between two parts.
func gap(p *sheet.Page) {
	p.Height(p.Row, 6)
	p.Row++
}

// answerCautions are those that hold whatever the inputs are, and what was
// done to the weather.
func answerCautions(c *figures.Case, p *sheet.Page) {
	p.Section("Before you decide, and before anyone climbs a roof", answerCols)
	cautions := methods.Cautions
	if strings.Contains(strings.ToLower(c.Season.Job.Site.Name+c.Series.Station.Name), "invented") {
		cautions = append([]string{"Invented weather for an invented place: an example, not a place you can visit."}, cautions...)
	}
	style := sheet.Small
	style.Color = look.Ink
	for _, text := range append(cautions, methods.LimitTypicalYear+" "+methods.LimitHabits) {
		p.Text(text, "", answerCols, 1+len(text)/smallChars, style)
		p.Height(p.Row-1, 12.5*float64(1+len(text)/smallChars))
	}
	prose(p, given.WeatherNote(c), style, 2)
	prose(p, given.CareNote(c), style, 1)
}
