package chart

// seriesLook writes fill, line and marker.
func (w *writer) seriesLook(s *Series, k Kind, color string) {
	w.WriteString(`<c:spPr>`)
	switch {
	case k == Lines || k == Scatter:
		width := s.Width
		if k == Lines && width == 0 && !s.NoFill {
			width = 1.5
		}
		w.line(width, color, s.Dash)
	case s.NoFill:
		w.WriteString(`<a:noFill/>`)
		w.line(0, "", Solid)
	default:
		w.fill(color, s.Transparency)
		w.line(s.Width, color, s.Dash)
	}
	w.WriteString(`</c:spPr>`)
	switch k {
	case Columns, Bars:
		w.WriteString(`<c:invertIfNegative val="0"/>`)
	case Lines, Scatter:
		w.marker(s, k, color)
	}
}

func (w *writer) marker(s *Series, k Kind, color string) {
	m := s.Marker
	if k == Scatter && m.Shape == "" && s.Width == 0 {
		m = Marker{Circle, 3}
	}
	if m.Shape == "" {
		w.WriteString(`<c:marker><c:symbol val="none"/></c:marker>`)
		return
	}
	if m.Size == 0 {
		m.Size = 5
	}
	w.f(`<c:marker><c:symbol val="%s"/><c:size val="%d"/><c:spPr>`, m.Shape, m.Size)
	w.fill(color, s.Transparency)
	w.line(0, "", Solid)
	w.WriteString(`</c:spPr></c:marker>`)
}

// beside writes the name of a series at its points.
func (w *writer) beside(s *Series) {
	if s.Beside == "" {
		return
	}
	w.WriteString(`<c:dLbls><c:spPr><a:noFill/><a:ln><a:noFill/></a:ln></c:spPr>`)
	w.text()
	w.f(`<c:dLblPos val="%s"/><c:showLegendKey val="0"/><c:showVal val="0"/><c:showCatName val="0"/><c:showSerName val="1"/><c:showPercent val="0"/><c:showBubbleSize val="0"/></c:dLbls>`, s.Beside)
}
