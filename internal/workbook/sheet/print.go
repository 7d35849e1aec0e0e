package sheet

import (
	"fmt"

	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/workbook/fx"
	"github.com/evapbook/evapbook/internal/xlsx"
)

// SetArea gives the sheet a print area that holds everything on it from the
// title on. Programs differ in what they print of a book where only some sheets
// have one.
func (p *Page) SetArea() {
	if p.Print.Area != "" {
		return
	}
	wide, high := max(1, len(p.Cols)), max(1, p.Row-1)
	for _, g := range p.Grids {
		wide, high = max(wide, g.Col+len(g.Columns)-1), max(high, g.Row+g.Rows-1)
	}
	for _, ch := range p.Charts {
		wide = max(wide, ch.Col-1+p.ColumnsOf(ch.Col, ch.Width))
	}
	p.PrintTo(high, wide)
}

// PrintTo prints the sheet from its title to a row and a column.
func (p *Page) PrintTo(row, col int) { p.Print.Area = xlsx.RangeRef(TitleRow, 1, row, col) }

// longestSubject is how much of a site's name stands in the header, in
// characters. Excel allows a header 255; longer ones run into the page number.
const longestSubject = 64

// cut shortens a text to n characters, an ellipsis the last.
func cut(text string, n int) string {
	if r := []rune(text); len(r) > n {
		return string(r[:n-1]) + "…"
	}
	return text
}

// Handed is the paper set-up of a page that is handed to a customer: it names
// the subject, the sheet and the page, and no program.
func Handed(sys units.System, subject string) xlsx.Print {
	pr := Paper(sys, "", subject)
	pr.Header, pr.Footer = "", "&L"+escapeFooter(cut(subject, longestSubject))+"&R&A, page &P"
	return pr
}

// Paper is the paper set-up of all other sheets; subject stands in the header.
func Paper(sys units.System, version, subject string) xlsx.Print {
	pr := xlsx.Print{
		Paper: xlsx.A4, FitWidth: 1, CentreAcross: true, Footer: "&L" + "evapbook " + escapeFooter(version) + "&C&A&RPage &P of &N",
		Margins: xlsx.Margins{Left: 0.5, Right: 0.5, Top: 0.6, Bottom: 0.6, Header: 0.3, Footer: 0.3},
		Header:  "&R" + escapeFooter(cut(subject, longestSubject)),
	}
	if sys == units.IP {
		pr.Paper = xlsx.Letter
	}
	return pr
}

// PrintRows prints some rows of a long table only, so many pages across; the
// sheet still holds them all.
func (p *Page) PrintRows(name string, first, last, across int) {
	g := p.Grids[0]
	for _, each := range p.Grids {
		if each.Name == name {
			g = each
		}
	}
	p.Print.Area = xlsx.RangeRef(g.Row+first, 1, g.Row+last-1, len(g.Columns))
	p.Print.FitWidth = across
	p.Set(p.Row, 1, xlsx.Cell{Value: fmt.Sprintf("Prints rows %d to %d only; set another print area for more.", g.Row+first, g.Row+last-1), Style: Quiet})
	p.Row++
}

func escapeFooter(s string) string { return fx.Fill(s, "&", "&&") }
