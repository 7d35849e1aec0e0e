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
	visible := false
	active := b.Active == ""
	for _, s := range b.Sheets {
		visible = visible || !s.Hidden
		active = active || strings.EqualFold(s.Name, b.Active) && !s.Hidden
	}
	if len(b.Sheets) > 0 && !visible {
		p.fault("all sheets are hidden")
	}
	if !active {
		p.fault("active sheet %q does not exist or is hidden", b.Active)
	}
}

// checkSheet looks at what lies over the cells of a sheet.
func (p *plan) checkSheet(s *sheetPlan) {
	if badColour(s.Tab) {
		p.fault("sheet %s: colour %q is not of the form RRGGBB", s.Name, s.Tab)
	}
	if s.Zoom != 0 && (s.Zoom < 10 || s.Zoom > 400) {
		p.fault("sheet %s: zoom %d is outside 10 to 400 percent", s.Name, s.Zoom)
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
	p.checkTables(s)
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

// filters are the ranges with filter buttons: of the sheet and of its grids.
func (s *sheetPlan) filters() []string {
	var all []string
	if s.Filter != "" {
		all = append(all, s.Filter)
	}
	for _, g := range s.grids {
		if g.Filter {
			b := g.box()
			b.row1 = g.Row - 1
			all = append(all, b.String())
		}
	}
	return all
}

func (p *plan) checkTables(s *sheetPlan) {
	filters := s.filters()
	if len(filters) > 1 {
		p.fault("sheet %s has %d filters; a sheet can have one", s.Name, len(filters))
	}
	var taken []box
	for _, f := range filters {
		b, ok := parseBox(f)
		if !ok {
			p.fault("sheet %s: filter %q is not a range", s.Name, f)
		}
		taken = append(taken, b)
	}
	for _, ref := range s.Merges {
		if m, ok := parseBox(ref); ok {
			taken = append(taken, m)
		}
	}
	for _, t := range s.Tables {
		b, ok := parseBox(t.Range)
		if !ok || b.row2 == b.row1 {
			p.fault("sheet %s: table %s: %q is not a range with a header row and data", s.Name, t.Name, t.Range)
			continue
		}
		for _, o := range taken {
			if o.overlaps(b) {
				p.fault("sheet %s: table %s overlaps the table, filter or merge at %s", s.Name, t.Name, o)
			}
		}
		taken = append(taken, b)
		p.checkHeaders(s, t.Name, b)
	}
}

// checkHeaders makes sure a table's header cells are what the table part will
// say: text, there, and different from each other.
func (p *plan) checkHeaders(s *sheetPlan, table string, b box) {
	seen := map[string]bool{}
	for col := b.col1; col <= b.col2; col++ {
		where := cellRef(b.row1, col)
		i, ok := s.find[at{b.row1, col}]
		if !ok || s.cells[i].value.kind != text || s.cells[i].formula != nil || s.cells[i].value.str == "" {
			p.fault("sheet %s: table %s: header %s has to be plain text", s.Name, table, where)
			continue
		}
		h := strings.ToLower(s.cells[i].value.str)
		if seen[h] || strings.ContainsAny(h, "\n\t") || len(h) > 255 {
			p.fault("sheet %s: table %s: header %s %q is there twice, too long or has a line break", s.Name, table, where, h)
		}
		seen[h] = true
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
	for _, r := range pr.RowBreaks {
		if r < 2 || r > maxRows {
			p.fault("sheet %s: no page can begin anew at row %d", s.Name, r)
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
