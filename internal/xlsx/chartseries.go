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
