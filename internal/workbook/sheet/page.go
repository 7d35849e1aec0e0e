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

// longestTitle and longestLine are how many characters surely fit across a page.
const longestTitle, longestLine = 48, 110

// Title begins a sheet: the way back, its title with its subject, and what it is
// in one line. A long subject stands in that line, where there is room for it.
// live is the formula of the subject, empty where it cannot change.
func (p *Page) Title(title, subject, live, what string) {
	if p.Key != "Contents" {
		p.Set(TitleRow-1, 1, xlsx.Cell{Value: "to the contents", Style: Link, Link: "Contents!A1"})
	}
	head, line := xlsx.Cell{Value: title, Style: Title}, xlsx.Cell{Value: what, Style: Quiet}
	if len([]rune(title+": "+subject)) <= longestTitle {
		head.Value, head.Formula = new(Sentence).Say(title+": ").Word(live, subject).Done()
	} else {
		about := ". " + what
		if len([]rune(subject+about)) > longestLine {
			about = ""
		}
		line.Value, line.Formula = new(Sentence).Word(live, subject).Say(about).Done()
	}
	if live == "" {
		head.Formula, line.Formula = "", ""
	}
	p.Set(TitleRow, 1, head)
	p.Set(TitleRow+1, 1, line)
	p.Height(TitleRow, look.TitleHeight)
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
