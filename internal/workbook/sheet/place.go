package sheet

import (
	"github.com/evapbook/evapbook/internal/units"
)

// Place puts a table on the page below what is there and freezes its headers.
func (p *Page) Place(t *Table, sys units.System) {
	t.Row = p.Row + HeaderRows
	p.Grids = append(p.Grids, t.Grid(sys))
	p.FreezeRows = t.Row - 1
	p.Print.Landscape = true
	p.Print.TitleRows = [2]int{p.Row, t.Row - 1}
	p.Height(p.Row+1, 42)
	p.Row = t.Row + t.Rows + 1
}

// Append adds a table below the others without freezing its headers.
func (p *Page) Append(t *Table, sys units.System) {
	t.Row = p.Row + HeaderRows
	g := t.Grid(sys)
	for i := range g.Columns {
		if i < len(p.Cols) {
			g.Columns[i].Width = 0 // the page has set it
		}
	}
	p.Grids = append(p.Grids, g)
	p.Height(p.Row+1, 32)
	p.Row = t.Row + t.Rows + 1
}
