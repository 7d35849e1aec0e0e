package xlsx

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/xuri/excelize/v2"
)

// The charts' XML is our own: the library leaves out the cached points, date
// axes and the X axis of scatter charts, and its defaults are hard
// to read. Order of elements: ECMA-376 part 1, 21.2.

// Colours of what is not data.
const (
	axisText  = "404040"
	titleText = "262626"
	gridLine  = "E3E3E3"
	axisLine  = "A6A6A6"
)

// addCharts lets the library make frame and relations, and puts our chart in the
// place of the stub.
func (b *builder) addCharts(s *sheetPlan) error {
	for _, c := range s.Charts {
		b.sized(s, c.size())
		stub := &excelize.Chart{
			Type:   excelize.Col,
			Series: []excelize.ChartSeries{{Values: s.quoted() + "!$A$1"}},
			Format: excelize.GraphicOptions{AltText: c.Alt, Positioning: "absolute"},
		}
		if err := b.file.AddChart(s.Name, cellRef(c.Row, c.Col), stub); err != nil {
			return err
		}
		x, err := b.chart(c)
		if err != nil {
			return fmt.Errorf("chart %q: %w", c.Title, err)
		}
		b.charts++
		b.file.Pkg.Store("xl/charts/chart"+strconv.Itoa(b.charts)+".xml", x)
	}
	return nil
}

func (c *Chart) size() size {
	s := size{c.Width, c.Height}
	if s.width == 0 {
		s.width = 640
	}
	if s.height == 0 {
		s.height = 320
	}
	return s
}

// chartWriter builds one chart part.
type chartWriter struct {
	strings.Builder
	plan    *plan
	chart   *Chart
	formats map[int]string // number format of each axis, from the first cells on it
}

func (w *chartWriter) f(format string, args ...any) { fmt.Fprintf(w, format, args...) }

func (p *plan) chart(c *Chart) ([]byte, error) {
	w := &chartWriter{plan: p, chart: c, formats: map[int]string{}}
	w.WriteString(xmlHead + `<c:chartSpace xmlns:c="http://schemas.openxmlformats.org/drawingml/2006/chart" ` +
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

func bit(b bool) int {
	if b {
		return 1
	}
	return 0
}

// title is the title of a chart or axis.
func (w *chartWriter) title(s string, size int, bold bool, color string, upright bool) {
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
func (w *chartWriter) text() {
	w.f(`<c:txPr><a:bodyPr/><a:lstStyle/><a:p><a:pPr><a:defRPr sz="900" b="0"><a:solidFill><a:srgbClr val="%s"/></a:solidFill></a:defRPr></a:pPr><a:endParaRPr lang="en-GB"/></a:p></c:txPr>`, axisText)
}

func (w *chartWriter) legend() {
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
func (w *chartWriter) line(width float64, color string, dash Dash) {
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

func (w *chartWriter) fill(color string, transparency int) {
	if transparency == 0 {
		w.f(`<a:solidFill><a:srgbClr val="%s"/></a:solidFill>`, color)
		return
	}
	w.f(`<a:solidFill><a:srgbClr val="%s"><a:alpha val="%d"/></a:srgbClr></a:solidFill>`, color, (100-transparency)*1000)
}
