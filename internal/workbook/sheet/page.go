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

// TitleRow is the row of the title. What stands above it is for the screen only
// and is not printed.
const TitleRow = 2

// Title begins a sheet: the way back, its title, and what it is in one line.
func (p *Page) Title(text, what string) {
	if p.Key != "Contents" {
		p.Set(TitleRow-1, 1, xlsx.Cell{Value: "to the contents", Style: Link, Link: "Contents!A1"})
	}
	p.Set(TitleRow, 1, xlsx.Cell{Value: text, Style: Title})
	p.Height(TitleRow, look.TitleHeight)
	p.Set(TitleRow+1, 1, xlsx.Cell{Value: what, Style: Quiet})
	p.Row = TitleRow + 2
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
