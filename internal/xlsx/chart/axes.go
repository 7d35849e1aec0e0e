package chart

import "fmt"

// Numbers of the axes within a chart; any will do that differ.
const (
	axisX = 111111101
	axisY = 111111102
)

// axisPlace is what an axis element needs beside the declared [Axis].
type axisPlace struct {
	id, crosses int
	pos         string // b, l
	at          string // where it crosses the other axis
	values      bool   // an axis of numbers
	grid        bool
	between     string // crossBetween of a value axis
}

func (w *writer) axes() {
	c := w.chart
	low, left := "b", "l"
	if c.Kind == Bars {
		low, left = "l", "b"
	}
	if c.Kind == Scatter {
		w.axis(&c.X, axisPlace{id: axisX, crosses: axisY, pos: low, at: "min", values: true, grid: true, between: "midCat"})
		w.axis(&c.Y, axisPlace{id: axisY, crosses: axisX, pos: left, at: "min", values: true, grid: true, between: "midCat"})
		return
	}
	between := "between"
	if w.onlyLinesAndAreas() {
		between = "midCat"
	}
	w.axis(&c.X, axisPlace{id: axisX, crosses: axisY, pos: low, at: "autoZero"})
	// The value axis keeps its edge when the categories run backwards.
	start := "autoZero"
	if c.X.Reverse {
		start = "max"
	}
	w.axis(&c.Y, axisPlace{id: axisY, crosses: axisX, pos: left, at: start, values: true, grid: true, between: between})
}

func (w *writer) onlyLinesAndAreas() bool {
	for i := range w.chart.Series {
		if k := w.chart.SeriesKind(&w.chart.Series[i]); k != Lines && k != Areas {
			return false
		}
	}
	return true
}

func (w *writer) axis(a *Axis, p axisPlace) {
	element := "catAx"
	switch {
	case p.values:
		element = "valAx"
	case a.Date:
		element = "dateAx"
	}
	w.f(`<c:%s><c:axId val="%d"/>`, element, p.id)
	w.scaling(a)
	w.f(`<c:delete val="0"/><c:axPos val="%s"/>`, p.pos)
	if p.grid && !a.NoGrid {
		w.WriteString(`<c:majorGridlines><c:spPr>`)
		w.line(0.5, gridLine, Solid)
		w.WriteString(`</c:spPr></c:majorGridlines>`)
	}
	if a.Title != "" {
		w.title(a.Title, 9, false, axisText, p.pos == "l")
	}
	format := a.NumFmt
	if format == "" {
		format = w.formats[p.id]
	}
	if format == "" {
		format = "General"
	}
	tick := "none"
	if element == "dateAx" && a.Major > 0 {
		tick = "out"
	}
	w.f(`<c:numFmt formatCode="%s" sourceLinked="0"/><c:majorTickMark val="%s"/><c:minorTickMark val="none"/><c:tickLblPos val="%s"/>`,
		escaped(format), tick, labelPlace(p))
	w.WriteString(`<c:spPr><a:noFill/>`)
	w.line(0.75, axisLine, Solid)
	w.WriteString(`</c:spPr>`)
	w.text()
	w.f(`<c:crossAx val="%d"/><c:crosses val="%s"/>`, p.crosses, p.at)
	w.closeAxis(a, p, element)
	w.f(`</c:%s>`, element)
}

// labelPlace keeps the labels at the edge when values are negative. An axis on
// the far side has its labels beside it.
func labelPlace(p axisPlace) string {
	if p.at == "max" {
		return "nextTo"
	}
	return "low"
}

func (w *writer) scaling(a *Axis) {
	w.WriteString(`<c:scaling>`)
	direction := "minMax"
	if a.Reverse {
		direction = "maxMin"
	}
	w.f(`<c:orientation val="%s"/>`, direction)
	if a.Max != nil {
		w.f(`<c:max val="%s"/>`, decimal(*a.Max))
	}
	if a.Min != nil {
		w.f(`<c:min val="%s"/>`, decimal(*a.Min))
	}
	w.WriteString(`</c:scaling>`)
}

// closeAxis writes what follows the crossing of an axis.
func (w *writer) closeAxis(a *Axis, p axisPlace, element string) {
	major := ""
	if a.Major > 0 {
		major = fmt.Sprintf(`<c:majorUnit val="%s"/>`, decimal(a.Major))
	}
	switch element {
	case "valAx":
		w.f(`<c:crossBetween val="%s"/>%s`, p.between, major)
	case "dateAx":
		w.f(`<c:auto val="0"/><c:lblOffset val="100"/><c:baseTimeUnit val="days"/>%s`, major)
		if major != "" {
			unit := a.Unit
			if unit == "" {
				unit = Days
			}
			w.f(`<c:majorTimeUnit val="%s"/>`, unit)
		}
	default:
		w.WriteString(`<c:auto val="0"/><c:lblAlgn val="ctr"/><c:lblOffset val="100"/>`)
		if a.LabelEvery > 0 {
			w.f(`<c:tickLblSkip val="%d"/><c:tickMarkSkip val="%d"/>`, a.LabelEvery, a.LabelEvery)
		}
		w.WriteString(`<c:noMultiLvlLbl val="1"/>`)
	}
}
