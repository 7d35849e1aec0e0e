package chart

import (
	"fmt"
	"strconv"
	"strings"
)

// group is the series drawn the same way.
type group struct {
	kind   Kind
	series []int
}

// groups writes the chart elements of the plot area. Areas come first, lines
// last, so that nothing covers a line.
func (w *writer) groups() error {
	for _, k := range []Kind{Areas, Columns, Bars, Lines, Scatter} {
		g := group{kind: k}
		for i := range w.chart.Series {
			if w.chart.SeriesKind(&w.chart.Series[i]) == k {
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
	return nil
}

func (w *writer) group(g *group) error {
	element := map[Kind]string{Areas: "areaChart", Columns: "barChart", Bars: "barChart", Lines: "lineChart", Scatter: "scatterChart"}[g.kind]
	w.f(`<c:%s>`, element)
	grouping := map[Stack]string{Clustered: "standard", Stacked: "stacked"}[w.chart.Stack]
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
	w.WriteString(`<c:varyColors val="0"/>`)
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
func (w *writer) closeGroup(g *group) {
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
	}
	w.f(`<c:axId val="%d"/><c:axId val="%d"/>`, axisX, axisY)
}

// series writes one series.
func (w *writer) series(i int, k Kind) error {
	s := &w.chart.Series[i]
	color := s.Color
	if color == "" {
		color = w.colour(i)
	}
	y, err := w.points(s.Y)
	if err != nil {
		return err
	}
	w.format(axisY, y)
	w.f(`<c:ser><c:idx val="%d"/><c:order val="%d"/>`, i, i)
	if s.Name != "" {
		w.f(`<c:tx><c:v>%s</c:v></c:tx>`, escaped(s.Name))
	}
	w.seriesLook(s, k, color)
	w.beside(s)
	if s.X != "" {
		x, err := w.points(s.X)
		if err != nil {
			return err
		}
		w.format(axisX, x)
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
		w.WriteString(`<c:smooth val="0"/>`)
	}
	w.WriteString(`</c:ser>`)
	return nil
}

// format notes the number format of an axis, which the first series on it decides.
func (w *writer) format(axis int, p *Points) {
	if w.formats[axis] == "" {
		w.formats[axis] = p.Format
	}
}

// data writes a reference with its cached points.
func (w *writer) data(p *Points, asNumbers bool) {
	if !asNumbers {
		w.f(`<c:strRef><c:f>%s</c:f><c:strCache><c:ptCount val="%d"/>`, escaped(p.Ref), len(p.Values))
		w.cache(p, func(v Value) string { return escaped(v.Shown) })
		w.WriteString(`</c:strCache></c:strRef>`)
		return
	}
	format := p.Format
	if format == "" {
		format = "General"
	}
	w.f(`<c:numRef><c:f>%s</c:f><c:numCache><c:formatCode>%s</c:formatCode><c:ptCount val="%d"/>`, escaped(p.Ref), escaped(format), len(p.Values))
	w.cache(p, func(v Value) string {
		if v.Kind == Text { // as a program reads it: no number
			return ""
		}
		return v.Shown
	})
	w.WriteString(`</c:numCache></c:numRef>`)
}

func (w *writer) cache(p *Points, show func(Value) string) {
	for i, v := range p.Values {
		if v.Kind == Blank {
			continue
		}
		if s := show(v); strings.TrimSpace(s) != "" {
			w.WriteString(`<c:pt idx="` + strconv.Itoa(i) + `"><c:v>` + s + `</c:v></c:pt>`)
		}
	}
}
