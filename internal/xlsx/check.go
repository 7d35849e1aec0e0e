package xlsx

import "strings"

// checkBook looks at what belongs to no sheet.
func (p *plan) checkBook() {
	b := p.book
	if len(b.Sheets) == 0 {
		p.fault("a book needs at least one sheet")
	}
	if len(b.Palette) > 6 {
		p.fault("the palette has %d colours; a theme has 6", len(b.Palette))
	}
	for _, c := range b.Palette {
		if badColour(c) {
			p.fault("palette: colour %q is not of the form RRGGBB", c)
		}
	}
}

// checkSheet looks at what lies over the cells of a sheet.
func (p *plan) checkSheet(s *sheetPlan) {
	if badColour(s.Tab) {
		p.fault("sheet %s: colour %q is not of the form RRGGBB", s.Name, s.Tab)
	}
	for _, w := range s.Cols {
		p.checkWidth(s, w)
	}
	for _, g := range s.grids {
		for _, c := range g.Columns {
			p.checkWidth(s, c.Width)
		}
	}
	p.checkMerges(s)
	p.checkFilters(s)
	p.checkPrint(s)
	for i := range s.Validations {
		if err := p.checkValidation(s, &s.Validations[i]); err != nil {
			p.fault("sheet %s: validation of %q: %w", s.Name, s.Validations[i].Range, err)
		}
	}
	for i := range s.Conditional {
		if err := p.checkCondFormat(s, &s.Conditional[i]); err != nil {
			p.fault("sheet %s: conditional format of %q: %w", s.Name, s.Conditional[i].Range, err)
		}
	}
	for i, m := range s.Images {
		if m.Row < 1 || m.Col < 1 || m.Alt == "" || imageKind(m.Data) == "" {
			p.fault("sheet %s: image %d needs a cell, an alternative text and PNG or JPEG data", s.Name, i+1)
		}
	}
	for _, c := range s.Charts {
		p.checkChart(s, c)
	}
}

func (p *plan) checkWidth(s *sheetPlan, w float64) {
	if !(w >= 0 && w <= 255) {
		p.fault("sheet %s: column width %g is outside 0 to 255 characters", s.Name, w)
	}
}

func (p *plan) checkMerges(s *sheetPlan) {
	var seen []box
	for _, ref := range s.Merges {
		m, ok := parseBox(ref)
		if !ok || m.row1 == m.row2 && m.col1 == m.col2 {
			p.fault("sheet %s: merge %q is not a range of cells", s.Name, ref)
			continue
		}
		for _, o := range seen {
			if o.overlaps(m) {
				p.fault("sheet %s: merges %s and %s overlap", s.Name, o, m)
			}
		}
		for _, g := range s.grids {
			if g.box().overlaps(m) {
				p.fault("sheet %s: merge %s lies over grid %s", s.Name, m, p.gridName(g.Grid))
			}
		}
		for _, c := range s.cells {
			if m.contains(c.row, c.col) && (c.row != m.row1 || c.col != m.col1) && (c.value.kind != blank || c.formula != nil) {
				p.fault("sheet %s: merge %s hides the content of %s", s.Name, m, cellRef(c.row, c.col))
			}
		}
		seen = append(seen, m)
	}
}

// checkFilters: a sheet can have one range with filter buttons.
func (p *plan) checkFilters(s *sheetPlan) {
	filters := 0
	for _, g := range s.grids {
		if g.Filter {
			filters++
		}
	}
	if filters > 1 {
		p.fault("sheet %s has %d filters; a sheet can have one", s.Name, filters)
	}
}

func (p *plan) checkPrint(s *sheetPlan) {
	pr := &s.Print
	if _, ok := parseBox(pr.Area); pr.Area != "" && !ok {
		p.fault("sheet %s: print area %q is not a range", s.Name, pr.Area)
	}
	for _, t := range [][2]int{pr.TitleRows, pr.TitleCols} {
		if t != [2]int{} && (t[0] < 1 || t[1] < t[0]) {
			p.fault("sheet %s: print titles from %d to %d", s.Name, t[0], t[1])
		}
	}
	if utf16Len(pr.Header) > 255 || utf16Len(pr.Footer) > 255 {
		p.fault("sheet %s: header or footer is longer than 255 characters", s.Name)
	}
	m := pr.Margins
	for _, v := range []float64{m.Left, m.Right, m.Top, m.Bottom, m.Header, m.Footer} {
		if !(v >= 0 && v < 49) {
			p.fault("sheet %s: margin %g inch", s.Name, v)
		}
	}
	if pr.FitWidth < 0 || pr.FitHeight < 0 {
		p.fault("sheet %s: cannot fit on a negative number of pages", s.Name)
	}
}

func (p *plan) checkLink(where, link string) {
	if link == "" || strings.HasPrefix(link, "https://") || strings.HasPrefix(link, "http://") || strings.HasPrefix(link, "mailto:") {
		if len(link) > 2079 {
			p.fault("%s: link is longer than 2079 characters", where)
		}
		return
	}
	sheet, ref, ok := strings.Cut(link, "!")
	_, cell := parseBox(ref)
	if !ok || !cell || p.byKey[strings.ToLower(sheet)] == nil {
		p.fault("%s: link %q is neither an address nor a place such as Sheet!A1", where, link)
	}
}
