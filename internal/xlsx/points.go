package xlsx

import (
	"fmt"
	"strings"
)

// points are the cells of a chart's reference and what they show.
type points struct {
	ref    string
	format string
	values []value
}

// numbers says whether all that is there is numbers.
func (p *points) numbers() bool {
	for _, v := range p.values {
		if v.kind != number && v.kind != blank {
			return false
		}
	}
	return true
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
func (p *plan) points(src string) (*points, error) {
	ref, s, b, err := p.locate(src)
	if err != nil {
		return nil, err
	}
	out := &points{ref: ref}
	for row := b.row1; row <= b.row2; row++ {
		for col := b.col1; col <= b.col2; col++ {
			v, style, err := s.show(row, col)
			if err != nil {
				return nil, fmt.Errorf("%s!%s: %w", s.Name, cellRef(row, col), err)
			}
			if out.format == "" && style >= 0 {
				out.format = p.styles[style].NumFmt
			}
			out.values = append(out.values, v)
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
