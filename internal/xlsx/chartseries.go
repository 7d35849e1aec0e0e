package xlsx

import (
	"fmt"
	"strconv"
	"strings"
)

// group is the series drawn the same way on the same axes.
type group struct {
	kind      Kind
	secondary bool
	series    []int
}

// groups writes the chart elements of the plot area. Areas come first, lines
// last, so that nothing covers a line.
func (w *chartWriter) groups() error {
	for _, secondary := range []bool{false, true} {
		for _, k := range []Kind{Areas, Columns, Bars, Lines, Scatter, Doughnut} {
			g := group{kind: k, secondary: secondary}
			for i := range w.chart.Series {
				if s := &w.chart.Series[i]; s.kind(w.chart) == k && s.Secondary == secondary {
					g.series = append(g.series, i)
				}
			}
			if g.series == nil {
				continue
			}
			if err := w.group(&g); err != nil {
				return err
			}
		}
	}
	return nil
}

func (w *chartWriter) group(g *group) error {
	element := map[Kind]string{Areas: "areaChart", Columns: "barChart", Bars: "barChart", Lines: "lineChart", Scatter: "scatterChart", Doughnut: "doughnutChart"}[g.kind]
	w.f(`<c:%s>`, element)
	grouping := map[Stack]string{Clustered: "standard", Stacked: "stacked", Percent: "percentStacked"}[w.chart.Stack]
	switch g.kind {
	case Columns, Bars:
		if w.chart.Stack == Clustered {
			grouping = "clustered"
		}
		w.f(`<c:barDir val="%s"/><c:grouping val="%s"/>`, map[Kind]string{Columns: "col", Bars: "bar"}[g.kind], grouping)
	case Areas:
		w.f(`<c:grouping val="%s"/>`, grouping)
	case Lines:
		w.WriteString(`<c:grouping val="standard"/>`)
	case Scatter:
		w.WriteString(`<c:scatterStyle val="lineMarker"/>`)
	}
	w.f(`<c:varyColors val="%d"/>`, bit(g.kind == Doughnut))
	for _, i := range g.series {
		if err := w.series(i, g.kind); err != nil {
			return fmt.Errorf("series %d: %w", i+1, err)
		}
	}
	w.closeGroup(g)
	w.f(`</c:%s>`, element)
	return nil
}

// closeGroup writes what follows the series of a chart element.
func (w *chartWriter) closeGroup(g *group) {
	c := w.chart
	switch g.kind {
	case Columns, Bars:
		gap, overlap := c.Gap, c.Overlap
		if gap == 0 {
			gap = 60
		}
		if c.Stack != Clustered {
			overlap = 100
		}
		w.f(`<c:gapWidth val="%d"/><c:overlap val="%d"/>`, gap, overlap)
	case Lines:
		w.WriteString(`<c:marker val="1"/>`)
	case Doughnut:
		hole := c.Hole
		if hole == 0 {
			hole = 60
		}
		w.f(`<c:firstSliceAng val="0"/><c:holeSize val="%d"/>`, hole)
		return
	}
	x, y := axisX, axisY
	if g.secondary {
		x, y = axisX2, axisY2
	}
	w.f(`<c:axId val="%d"/><c:axId val="%d"/>`, x, y)
}

// series writes one series.
func (w *chartWriter) series(i int, k Kind) error {
	s := &w.chart.Series[i]
	color := s.Color
	if color == "" {
		color = w.plan.book.colour(i)
	}
	y, err := w.plan.points(s.Y)
	if err != nil {
		return err
	}
	w.format(axisY, axisY2, s, y)
	w.f(`<c:ser><c:idx val="%d"/><c:order val="%d"/>`, i, i)
	if err := w.seriesName(s); err != nil {
		return err
	}
	w.seriesLook(s, k, color)
	if k != Scatter && k != Lines {
		w.pointColours(s, k, len(y.values))
	}
	w.labels(s, k)
	w.trend(s, color)
	if s.X != "" {
		x, err := w.plan.points(s.X)
		if err != nil {
			return err
		}
		w.format(axisX, axisX2, s, x)
		tag := "cat"
		if k == Scatter {
			tag = "xVal"
		}
		w.f(`<c:%s>`, tag)
		w.data(x, x.numbers())
		w.f(`</c:%s>`, tag)
	}
	tag := "val"
	if k == Scatter {
		tag = "yVal"
	}
	w.f(`<c:%s>`, tag)
	w.data(y, true)
	w.f(`</c:%s>`, tag)
	if k == Lines || k == Scatter {
		w.f(`<c:smooth val="%d"/>`, bit(s.Smooth))
	}
	w.WriteString(`</c:ser>`)
	return nil
}

// format notes the number format of an axis, which the first series on it decides.
func (w *chartWriter) format(primary, secondary int, s *Series, p *points) {
	id := primary
	if s.Secondary {
		id = secondary
	}
	if w.formats[id] == "" {
		w.formats[id] = p.format
	}
}

func (w *chartWriter) seriesName(s *Series) error {
	if s.NameRef != "" {
		p, err := w.plan.points(s.NameRef)
		if err != nil {
			return err
		}
		w.WriteString(`<c:tx>`)
		w.data(p, false)
		w.WriteString(`</c:tx>`)
	} else if s.Name != "" {
		w.f(`<c:tx><c:v>%s</c:v></c:tx>`, escaped(s.Name))
	}
	return nil
}

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

// data writes a reference with its cached points.
func (w *chartWriter) data(p *points, asNumbers bool) {
	if !asNumbers {
		w.f(`<c:strRef><c:f>%s</c:f><c:strCache><c:ptCount val="%d"/>`, escaped(p.ref), len(p.values))
		w.cache(p, func(v *value) string {
			if v.kind == text {
				return escaped(v.str)
			}
			return string(v.appendNumber(nil, true))
		})
		w.WriteString(`</c:strCache></c:strRef>`)
		return
	}
	format := p.format
	if format == "" {
		format = "General"
	}
	w.f(`<c:numRef><c:f>%s</c:f><c:numCache><c:formatCode>%s</c:formatCode><c:ptCount val="%d"/>`, escaped(p.ref), escaped(format), len(p.values))
	w.cache(p, func(v *value) string {
		if v.kind == text { // as a program reads it: no number
			return ""
		}
		return string(v.appendNumber(nil, true))
	})
	w.WriteString(`</c:numCache></c:numRef>`)
}

func (w *chartWriter) cache(p *points, show func(*value) string) {
	for i := range p.values {
		if p.values[i].kind == blank {
			continue
		}
		if s := show(&p.values[i]); strings.TrimSpace(s) != "" {
			w.WriteString(`<c:pt idx="` + strconv.Itoa(i) + `"><c:v>` + s + `</c:v></c:pt>`)
		}
	}
}
