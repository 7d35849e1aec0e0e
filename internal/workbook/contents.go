package workbook

import (
	"github.com/evapbook/evapbook/internal/look"
	"github.com/evapbook/evapbook/internal/xlsx"
)

// layContents lists the sheets with links.
func (c *Case) layContents(p *page) {
	p.Cols = []float64{16, 78}
	p.heads("Sheet", "What it shows")
	for _, s := range c.sheets() {
		if s.name == p.Name {
			continue
		}
		p.SetRow(p.row, 1,
			xlsx.Cell{Value: s.name, Style: xlsx.Style{Size: look.Text, Color: look.Link, Underline: true, Border: xlsx.Under(xlsx.Hair, look.Rule), VAlign: xlsx.Middle}, Link: s.name + "!A1"},
			xlsx.Cell{Value: s.what, Style: styleLabel})
		p.Height(p.row, 20)
		p.row++
	}
	p.row++
	about := "Yellow cells are for typing; those on Inputs move the whole workbook. Everything else follows from them by formulas that can be read in the cells; sheets that were computed at writing say so."
	if c.ValuesOnly {
		about = "This workbook holds values only: nothing in it follows when a cell is changed. The workbook with formulas is the one evapbook writes without --values."
	}
	p.text(about, "", 2, 2, styleText)
}
