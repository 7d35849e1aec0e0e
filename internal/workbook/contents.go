package workbook

import (
	"github.com/evapbook/evapbook/internal/look"
	"github.com/evapbook/evapbook/internal/workbook/figures"
	"github.com/evapbook/evapbook/internal/workbook/methods"
	"github.com/evapbook/evapbook/internal/workbook/sheet"
	"github.com/evapbook/evapbook/internal/xlsx"
)

// layContents lists the sheets by reader, with links, and explains the words.
func layContents(c *figures.Case, p *sheet.Page) {
	p.Cols = []float64{24, 86}
	p.Print.FitHeight = 1
	have := sheets(c)
	for room := everyone; room <= computed; room++ {
		layRoom(p, room, have, c.Light)
	}
	about := "Yellow cells are for typing; those on Inputs move the whole workbook. Everything else follows from them by formulas that can be read in the cells; sheets that were computed at writing say so."
	if c.ValuesOnly {
		about = "This workbook holds values only: nothing in it follows when a cell is changed. The workbook with formulas is the one evapbook writes without --values."
	}
	if c.Light {
		about = "These are the pages for the customer, as values: nothing follows when a cell is changed. The whole workbook has the engineer's and the technician's pages and every formula."
	}
	p.Text(about, "", 2, 2, sheet.Text)
	p.Row++
	p.Section("Words", 2)
	for _, w := range methods.Words {
		p.SetRow(p.Row, 1, xlsx.Cell{Value: w.Term, Style: term}, xlsx.Cell{Value: w.Meaning, Style: meaning})
		p.Height(p.Row, 14*float64(1+len(w.Meaning)/charsOfMeaning)+3)
		p.Row++
	}
}

// charsOfMeaning of small text fill a line of the wide column.
const charsOfMeaning = 108

var (
	term    = xlsx.Style{Size: look.Small, Bold: true, Color: look.Ink, VAlign: xlsx.Top, Border: xlsx.Under(xlsx.Hair, look.Rule)}
	meaning = xlsx.Style{Size: look.Small, Color: look.Ink, Wrap: true, VAlign: xlsx.Top, Border: xlsx.Under(xlsx.Hair, look.Rule)}
)

// layRoom lists one reader's sheets under a heading that says where to begin.
func layRoom(p *sheet.Page, room reader, have []listed, light bool) {
	headed := false
	for _, s := range have {
		if s.room != room || s.key == p.Key {
			continue
		}
		if !headed {
			title, begin := rooms[room].title, rooms[room].begin
			if light && room == engineers { // its other pages are not in this book
				title, begin = "Hour by hour", ""
			}
			p.Section(title, 2)
			headed = true
			if begin != "" {
				p.Set(p.Row, 2, xlsx.Cell{Value: begin, Style: sheet.Quiet})
				p.Row++
			}
		}
		p.SetRow(p.Row, 1,
			xlsx.Cell{Value: s.title(), Style: xlsx.Style{Size: look.Text, Color: look.Link, Underline: true, Border: xlsx.Under(xlsx.Hair, look.Rule), VAlign: xlsx.Middle}, Link: s.key + "!A1"},
			xlsx.Cell{Value: s.what, Style: sheet.Label})
		p.Height(p.Row, 18)
		p.Row++
	}
	if headed {
		p.Row++
	}
}
