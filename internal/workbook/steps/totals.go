package steps

import (
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/workbook/figures"
	"github.com/evapbook/evapbook/internal/workbook/sheet"
	"github.com/evapbook/evapbook/internal/xlsx"
)

// Totals lays out the headline figures, each a named cell.
func Totals(c *figures.Case, p *sheet.Page) {
	p.Cols = []float64{58, 14, 10, 34, 40}
	p.Print.TitleRows = [2]int{p.Row, p.Row}
	p.Heads("Figure", "Value", "Unit", "Name", "")
	for _, f := range c.Figures() {
		u := f.Kind.Unit(units.SI)
		value := sheet.Number(u.Format)
		value.Shrink = f.Kind == units.Text // names are longer than numbers
		p.SetRow(p.Row, 1,
			xlsx.Cell{Value: f.Label, Style: sheet.Label},
			xlsx.Cell{Value: f.Value, Formula: f.Formula, Style: value, Name: f.Name()},
			xlsx.Cell{Value: u.Symbol, Style: sheet.Symbol},
			xlsx.Cell{Value: f.Name(), Style: sheet.Quiet},
			xlsx.Cell{Value: f.Note, Style: sheet.Small},
		)
		p.Row++
	}
}
