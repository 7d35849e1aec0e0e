package xlsx

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/xuri/excelize/v2"

	"github.com/evapbook/evapbook/internal/xlsx/chart"
)

// addCharts lets the library make frame and relations, and puts our chart in the
// place of the stub.
func (b *builder) addCharts(s *sheetPlan) error {
	for _, c := range s.Charts {
		width, height := c.Size()
		b.sized(s, size{width, height})
		stub := &excelize.Chart{
			Type:   excelize.Col,
			Series: []excelize.ChartSeries{{Values: s.quoted() + "!$A$1"}},
			Format: excelize.GraphicOptions{AltText: c.Alt, Positioning: "absolute"},
		}
		if err := b.file.AddChart(s.Name, cellRef(c.Row, c.Col), stub); err != nil {
			return err
		}
		part, err := c.Part(b.points, b.book.colour)
		if err != nil {
			return fmt.Errorf("chart %q: %w", c.Title, err)
		}
		b.charts++
		b.file.Pkg.Store("xl/charts/chart"+strconv.Itoa(b.charts)+".xml", part)
	}
	return nil
}

// place of a reference: a sheet and a box.
func (p *plan) locate(src string) (string, *sheetPlan, box, error) {
	ref, err := p.translate(src, scope{outside: true})
	if err != nil {
		return "", nil, box{}, fmt.Errorf("%q %w", src, err)
	}
	sheet, cells, _ := strings.Cut(ref, "!")
	s := p.byName[strings.ToLower(strings.Trim(sheet, "'"))]
	b, ok := parseBox(cells)
	switch {
	case s == nil || !ok:
		return "", nil, box{}, fmt.Errorf("%q is not a range of cells with a sheet", src)
	case b.row1 != b.row2 && b.col1 != b.col2:
		return "", nil, box{}, fmt.Errorf("%q is neither one row nor one column", src)
	}
	return s.quoted() + "!" + b.fixed(), s, b, nil
}

// points reads the cells of a reference.
func (p *plan) points(src string) (*chart.Points, error) {
	ref, s, b, err := p.locate(src)
	if err != nil {
		return nil, err
	}
	out := &chart.Points{Ref: ref}
	for row := b.row1; row <= b.row2; row++ {
		for col := b.col1; col <= b.col2; col++ {
			v, style, err := s.show(row, col)
			if err != nil {
				return nil, fmt.Errorf("%s!%s: %w", s.Name, cellRef(row, col), err)
			}
			if out.Format == "" && style >= 0 {
				out.Format = p.styles[style].NumFmt
			}
			out.Values = append(out.Values, v.shown())
		}
	}
	return out, nil
}

// show is the value a cell shows and its style, -1 for a cell that is not there.
func (s *sheetPlan) show(row, col int) (value, int, error) {
	if i, ok := s.find[at{row, col}]; ok {
		return s.cells[i].value, s.cells[i].style, nil
	}
	for _, g := range s.grids {
		if row >= g.Row && row <= g.last() && col >= g.Col && col <= g.lastCol() {
			c := &g.columns[col-g.Col]
			v, err := toValue(c.value(row - g.Row))
			return v, c.style, err
		}
	}
	return value{}, -1, nil
}

// shown is the value as charts keep it.
func (v *value) shown() chart.Value {
	switch v.kind {
	case blank:
		return chart.Value{}
	case text:
		return chart.Value{Kind: chart.Text, Shown: v.str}
	case truth:
		return chart.Value{Kind: chart.Truth, Shown: string(v.appendNumber(nil, true))}
	}
	return chart.Value{Kind: chart.Number, Shown: string(v.appendNumber(nil, true))}
}
