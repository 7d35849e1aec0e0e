package workbook

import (
	"github.com/evapbook/evapbook/internal/look"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/xlsx"
)

// page writes a sheet from the top down.
type page struct {
	*xlsx.Sheet
	row int // next free row
}

// title begins a sheet: its title, what it is in one line, and the way back.
func (p *page) title(text, what string) {
	p.Set(1, 1, xlsx.Cell{Value: text, Style: styleTitle})
	p.Height(1, look.TitleHeight)
	p.Set(2, 1, xlsx.Cell{Value: what, Style: styleQuiet})
	if p.Name != "Contents" {
		p.Set(3, 1, xlsx.Cell{Value: "to the contents", Style: styleLink, Link: "Contents!A1"})
	}
	p.row = 4
}

// section begins a part of the sheet with a ruled heading over n columns.
func (p *page) section(text string, n int) {
	p.Set(p.row, 1, xlsx.Cell{Value: text, Style: styleSection})
	for col := 2; col <= n; col++ {
		p.Set(p.row, col, xlsx.Cell{Style: styleSection})
	}
	p.Height(p.row, 20)
	p.row++
}

// text writes a paragraph across columns 1 to n, of the given height in lines.
func (p *page) text(value, formula string, n, lines int, style xlsx.Style) {
	p.Set(p.row, 1, xlsx.Cell{Value: value, Formula: formula, Style: style})
	for col := 2; col <= n; col++ {
		p.Set(p.row, col, xlsx.Cell{Style: style})
	}
	p.Merges = append(p.Merges, xlsx.RangeRef(p.row, 1, p.row, n))
	p.Height(p.row, float64(lines)*15)
	p.row++
}

// scalars writes named cells as lines of label, value, unit, equation, note.
func (p *page) scalars(list []scalar) {
	for _, s := range list {
		u := s.kind.Unit(units.SI)
		p.SetRow(p.row, 1,
			xlsx.Cell{Value: s.label, Style: styleLabel},
			xlsx.Cell{Value: s.value, Formula: s.formula, Style: numberStyle(u.Format), Name: s.name},
			xlsx.Cell{Value: u.Symbol, Style: styleSymbol},
			xlsx.Cell{Value: equation(s.eq), Style: styleQuiet},
			xlsx.Cell{Value: s.name, Style: styleQuiet},
			xlsx.Cell{Value: s.note, Style: styleQuiet},
		)
		p.row++
	}
}

// heads writes a row of column headings.
func (p *page) heads(titles ...string) {
	for i, t := range titles {
		p.Set(p.row, 1+i, xlsx.Cell{Value: t, Style: styleHead})
	}
	p.row++
}
