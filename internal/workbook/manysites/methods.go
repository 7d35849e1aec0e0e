package manysites

import (
	"github.com/evapbook/evapbook/internal/look"
	"github.com/evapbook/evapbook/internal/workbook/methods"
	"github.com/evapbook/evapbook/internal/workbook/sheet"
	"github.com/evapbook/evapbook/internal/xlsx"
)

// layLeftOut lists the files without rows.
func (z *Book) layLeftOut(p *sheet.Page) {
	p.Cols = []float64{36, 110}
	if len(z.Table.Left) == 0 {
		p.Text("None: all files could be used.", "", 2, 1, sheet.Text)
		return
	}
	p.Heads("File", "Why it was left out")
	cell := xlsx.Style{Size: look.Text, Color: look.Ink, Wrap: true, VAlign: xlsx.Top, Border: xlsx.Under(xlsx.Hair, look.Rule)}
	for _, l := range z.Table.Left {
		p.SetRow(p.Row, 1, xlsx.Cell{Value: l.File, Style: cell}, xlsx.Cell{Value: l.Reason, Style: cell})
		p.Height(p.Row, 15*float64(1+len(l.Reason)/105))
		p.Row++
	}
}

// columnsSay explains the columns that need it.
var columnsSay = []string{
	"Hours that need cooling: hours with a cooling load at the setpoint in a house without thermal mass.",
	"Held: share of those hours in which the cooler, or outdoor air alone, keeps both the setpoint and the humidity limit. Temperature held: the same, humidity aside. Load held: the share of the sensible load that falls in held hours.",
	"Over the setpoint: degrees above it, summed over the hours in which the cooler runs at full flow and does not keep it.",
	"Longest not covered: most hours in a row that need cooling and are not held.",
	"Worst month: the month with the least share held, of those with at least 5 % of the year's need.",
	"Water in all: evaporated, and bled or purged to keep the sump clean. Energy and cost of both: the cooler in held hours, refrigeration in the others.",
	"Refrigeration is sized at each site to meet all but 0.4 % of the hours, in half tons, unless its capacity is stated.",
	"1 % dry bulb and wet bulb: values exceeded in 1 % of the hours of the file, with the mean of the other one in those hours. Depression: dry bulb less wet bulb.",
	"Last and first freeze: the nearest days with an hour at or below freezing before and after the middle of the warmest 91 days. A typical year does not tell the risk of late frost.",
	"The same house stands everywhere. A real house in a cold place is better insulated, one in the desert more shaded; the comparison is of climates, not of houses.",
}

func (z *Book) layMethods(p *sheet.Page) {
	p.Cols = []float64{7, 28, 70, 70}
	p.Print.Landscape = true
	methods.LayParagraphs(p, []methods.Paragraphs{{Title: "Columns", Lines: columnsSay}, {Title: "Classes", Lines: classesSay}})
	methods.LayModel(p)
}
