// Package sheet has the building blocks of a sheet: a page written from the top
// down, tables of declared columns, named scalars, sentences with live numbers,
// charts in a row, and the styles all of them share.
package sheet

import (
	"github.com/evapbook/evapbook/internal/look"
	"github.com/evapbook/evapbook/internal/xlsx"
)

// Page writes a sheet from the top down.
type Page struct {
	*xlsx.Sheet
	Row int // next free row
}

// Title begins a sheet: its title, what it is in one line, and the way back.
func (p *Page) Title(text, what string) {
	p.Set(1, 1, xlsx.Cell{Value: text, Style: Title})
	p.Height(1, look.TitleHeight)
	p.Set(2, 1, xlsx.Cell{Value: what, Style: Quiet})
	if p.Key != "Contents" {
		p.Set(3, 1, xlsx.Cell{Value: "to the contents", Style: Link, Link: "Contents!A1"})
	}
	p.Row = 4
}

// Section begins a part of the sheet with a ruled heading over n columns.
func (p *Page) Section(text string, n int) {
	p.Set(p.Row, 1, xlsx.Cell{Value: text, Style: Section})
	for col := 2; col <= n; col++ {
		p.Set(p.Row, col, xlsx.Cell{Style: Section})
	}
	p.Height(p.Row, 20)
	p.Row++
}

// Text writes a paragraph across columns 1 to n, of the given height in lines.
func (p *Page) Text(value, formula string, n, lines int, style xlsx.Style) {
	p.Set(p.Row, 1, xlsx.Cell{Value: value, Formula: formula, Style: style})
	for col := 2; col <= n; col++ {
		p.Set(p.Row, col, xlsx.Cell{Style: style})
	}
	p.Merges = append(p.Merges, xlsx.RangeRef(p.Row, 1, p.Row, n))
	p.Height(p.Row, float64(lines)*15)
	p.Row++
}

// Heads writes a row of column headings.
func (p *Page) Heads(titles ...string) {
	for i, t := range titles {
		p.Set(p.Row, 1+i, xlsx.Cell{Value: t, Style: Head})
	}
	p.Row++
}

// span puts a cell across columns of a row.
func (p *Page) Across(row, first, last int, c xlsx.Cell) {
	p.Set(row, first, c)
	for col := first + 1; col <= last; col++ {
		p.Set(row, col, xlsx.Cell{Style: c.Style})
	}
	if last > first {
		p.Merges = append(p.Merges, xlsx.RangeRef(row, first, row, last))
	}
}
