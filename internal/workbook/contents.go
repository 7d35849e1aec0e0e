package workbook

import (
	"github.com/evapbook/evapbook/internal/look"
	"github.com/evapbook/evapbook/internal/workbook/figures"
	"github.com/evapbook/evapbook/internal/workbook/sheet"
	"github.com/evapbook/evapbook/internal/xlsx"
)

// layContents lists the sheets with links.
func layContents(c *figures.Case, p *sheet.Page) {
	p.Cols = []float64{16, 78}
	p.Heads("Sheet", "What it shows")
	for _, s := range sheets(c) {
		if s.key == p.Key {
			continue
		}
		p.SetRow(p.Row, 1,
			xlsx.Cell{Value: s.title(), Style: xlsx.Style{Size: look.Text, Color: look.Link, Underline: true, Border: xlsx.Under(xlsx.Hair, look.Rule), VAlign: xlsx.Middle}, Link: s.key + "!A1"},
			xlsx.Cell{Value: s.what, Style: sheet.Label})
		p.Height(p.Row, 20)
		p.Row++
	}
	p.Row++
	about := "Yellow cells are for typing; those on Inputs move the whole workbook. Everything else follows from them by formulas that can be read in the cells; sheets that were computed at writing say so."
	if c.ValuesOnly {
		about = "This workbook holds values only: nothing in it follows when a cell is changed. The workbook with formulas is the one evapbook writes without --values."
	}
	p.Text(about, "", 2, 2, sheet.Text)
}
