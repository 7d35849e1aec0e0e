package chart

import (
	"fmt"
	"strconv"
	"strings"
)

// Colours of what is not data.
const (
	axisText  = "404040"
	titleText = "262626"
	gridLine  = "E3E3E3"
	axisLine  = "A6A6A6"
)

// Part is the chart's part of a file. Points tells what a reference of a series
// points to, colour the n-th colour of the book's palette.
//
// Errors are those of points.
func (c *Chart) Part(points func(reference string) (*Points, error), colour func(n int) string) ([]byte, error) {
	w := &writer{chart: c, points: points, colour: colour, formats: map[int]string{}}
	w.WriteString(`<?xml version="1.0" encoding="UTF-8" standalone="yes"?>` + "\n" +
		`<c:chartSpace xmlns:c="http://schemas.openxmlformats.org/drawingml/2006/chart" ` +
		`xmlns:a="http://schemas.openxmlformats.org/drawingml/2006/main" ` +
		`xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships"><c:date1904 val="0"/><c:roundedCorners val="0"/><c:chart>`)
	if c.Title != "" {
		w.title(c.Title, 12, true, titleText, false)
	}
	w.f(`<c:autoTitleDeleted val="%d"/><c:plotArea><c:layout/>`, bit(c.Title == ""))
	if err := w.groups(); err != nil {
		return nil, err
	}
	w.axes()
	w.WriteString(`<c:spPr><a:noFill/><a:ln><a:noFill/></a:ln></c:spPr></c:plotArea>`)
	w.legend()
	w.WriteString(`<c:plotVisOnly val="0"/><c:dispBlanksAs val="gap"/></c:chart>` +
		`<c:spPr><a:solidFill><a:srgbClr val="FFFFFF"/></a:solidFill><a:ln w="6350"><a:solidFill><a:srgbClr val="D9D9D9"/></a:solidFill></a:ln></c:spPr>`)
	w.text()
	w.WriteString(`</c:chartSpace>`)
	return []byte(w.String()), nil
}

// writer builds one chart part.
type writer struct {
	strings.Builder
	chart   *Chart
	points  func(reference string) (*Points, error)
	colour  func(n int) string
	formats map[int]string // number format of each axis, from the first cells on it
}

func (w *writer) f(format string, args ...any) { fmt.Fprintf(w, format, args...) }

func bit(b bool) int {
	if b {
		return 1
	}
	return 0
}

// title is the title of a chart or axis.
func (w *writer) title(s string, size int, bold bool, color string, upright bool) {
	turn := ""
	if upright {
		turn = ` rot="-5400000" vert="horz"`
	}
	props := fmt.Sprintf(`sz="%d" b="%d"><a:solidFill><a:srgbClr val="%s"/></a:solidFill>`, size*100, bit(bold), color)
	w.f(`<c:title><c:tx><c:rich><a:bodyPr%s/><a:lstStyle/>`, turn)
	for _, line := range strings.Split(s, "\n") {
		w.f(`<a:p><a:pPr><a:defRPr %s</a:defRPr></a:pPr><a:r><a:rPr lang="en-GB" %s</a:rPr><a:t>%s</a:t></a:r></a:p>`, props, props, escaped(line))
	}
	w.WriteString(`</c:rich></c:tx><c:overlay val="0"/></c:title>`)
}

// text is the look of text beside the titles.
func (w *writer) text() {
	w.f(`<c:txPr><a:bodyPr/><a:lstStyle/><a:p><a:pPr><a:defRPr sz="900" b="0"><a:solidFill><a:srgbClr val="%s"/></a:solidFill></a:defRPr></a:pPr><a:endParaRPr lang="en-GB"/></a:p></c:txPr>`, axisText)
}

func (w *writer) legend() {
	c := w.chart
	if c.NoLegend {
		return
	}
	w.WriteString(`<c:legend><c:legendPos val="b"/>`)
	for i := range c.Series {
		if c.Series[i].NoLegend {
			w.f(`<c:legendEntry><c:idx val="%d"/><c:delete val="1"/></c:legendEntry>`, i)
		}
	}
	w.WriteString(`<c:overlay val="0"/>`)
	w.text()
	w.WriteString(`</c:legend>`)
}

// line is the outline or line of a shape in points; 0 draws none.
func (w *writer) line(width float64, color string, dash Dash) {
	if width == 0 {
		w.WriteString(`<a:ln><a:noFill/></a:ln>`)
		return
	}
	w.f(`<a:ln w="%d" cap="rnd"><a:solidFill><a:srgbClr val="%s"/></a:solidFill>`, int(width*12700+0.5), color)
	if dash != Solid {
		w.f(`<a:prstDash val="%s"/>`, dash)
	}
	w.WriteString(`<a:round/></a:ln>`)
}

func (w *writer) fill(color string, transparency int) {
	if transparency == 0 {
		w.f(`<a:solidFill><a:srgbClr val="%s"/></a:solidFill>`, color)
		return
	}
	w.f(`<a:solidFill><a:srgbClr val="%s"><a:alpha val="%d"/></a:srgbClr></a:solidFill>`, color, (100-transparency)*1000)
}

func decimal(v float64) string { return strconv.FormatFloat(v, 'g', -1, 64) }

// escaped is s for use between tags or in a quoted attribute.
var escaped = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;", `"`, "&quot;").Replace
