package xlsx

// seriesLook writes fill, line and marker.
func (w *chartWriter) seriesLook(s *Series, k Kind, color string) {
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

func (w *chartWriter) marker(s *Series, k Kind, color string) {
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
	if m.Shape == Cross || m.Shape == Plus || m.Shape == DashMark { // strokes only
		w.WriteString(`<a:noFill/>`)
		w.line(1, color, Solid)
	} else {
		w.fill(color, s.Transparency)
		w.line(0, "", Solid)
	}
	w.WriteString(`</c:spPr></c:marker>`)
}

// pointColours colours single points. The parts of a doughnut take the palette
// in turn.
func (w *chartWriter) pointColours(s *Series, k Kind, n int) {
	for i := range n {
		color := ""
		if i < len(s.PointColors) {
			color = s.PointColors[i]
		}
		if color == "" && k == Doughnut {
			color = w.plan.book.colour(i)
		}
		if color == "" {
			continue
		}
		w.f(`<c:dPt><c:idx val="%d"/>`, i)
		if k == Columns || k == Bars {
			w.WriteString(`<c:invertIfNegative val="0"/>`)
		}
		w.WriteString(`<c:bubble3D val="0"/><c:spPr>`)
		w.fill(color, s.Transparency)
		if k == Doughnut {
			w.line(1, "FFFFFF", Solid)
		}
		w.WriteString(`</c:spPr></c:dPt>`)
	}
}

func (w *chartWriter) labels(s *Series, k Kind) {
	l := s.Labels
	if l == nil {
		return
	}
	format := l.NumFmt
	if format == "" && k == Doughnut {
		format = "0%"
	}
	w.WriteString(`<c:dLbls>`)
	if format != "" {
		w.f(`<c:numFmt formatCode="%s" sourceLinked="0"/>`, escaped(format))
	}
	color := l.Color
	switch {
	case color != "":
	case k == Doughnut: // on the colours
		color = "FFFFFF"
	default:
		color = axisText
	}
	w.WriteString(`<c:spPr><a:noFill/><a:ln><a:noFill/></a:ln></c:spPr>`)
	w.text(9, false, color, "")
	if l.Place != "" {
		w.f(`<c:dLblPos val="%s"/>`, l.Place)
	}
	w.f(`<c:showLegendKey val="0"/><c:showVal val="%d"/><c:showCatName val="0"/><c:showSerName val="0"/><c:showPercent val="%d"/><c:showBubbleSize val="0"/></c:dLbls>`,
		bit(k != Doughnut), bit(k == Doughnut))
}

func (w *chartWriter) trend(s *Series, color string) {
	t := s.Trend
	if t == nil {
		return
	}
	if t.Color != "" {
		color = t.Color
	}
	w.WriteString(`<c:trendline>`)
	if t.Name != "" {
		w.f(`<c:name>%s</c:name>`, escaped(t.Name))
	}
	w.WriteString(`<c:spPr>`)
	w.line(1.5, color, Solid)
	w.WriteString(`</c:spPr>`)
	if t.Order > 1 {
		w.f(`<c:trendlineType val="poly"/><c:order val="%d"/>`, t.Order)
	} else {
		w.WriteString(`<c:trendlineType val="linear"/>`)
	}
	w.f(`<c:dispRSqr val="%d"/><c:dispEq val="%d"/></c:trendline>`, bit(t.Equation), bit(t.Equation))
}
