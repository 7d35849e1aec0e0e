package engineer

import (
	"strconv"

	"github.com/evapbook/evapbook/internal/look"
	"github.com/evapbook/evapbook/internal/season"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/workbook/figures"
	"github.com/evapbook/evapbook/internal/workbook/fx"
	"github.com/evapbook/evapbook/internal/workbook/sheet"
	"github.com/evapbook/evapbook/internal/xlsx"
)

// A heat map shows one figure by month and hour of day.
type heatmap struct {
	key, title, what string
	kind             units.Kind
	formula          string // of a cell; {M} and {H} stand for the month and the hour
	value            func(hours []int) any
	stops            []xlsx.Stop
}

// maps of the Heatmap sheet. Colours run from light to dark with the value, so
// that a grey print reads the same.
func heatmaps(c *figures.Case) []heatmap {
	s := c.Season
	mean := func(hours []int, of func(*season.Hour) (float64, bool)) any {
		sum, n := 0.0, 0
		for _, i := range hours {
			if v, ok := of(&s.Hours[i]); ok {
				sum += v
				n++
			}
		}
		if n == 0 {
			return ""
		}
		return sum / float64(n)
	}
	where := "[Working.month:],{M},[Working.hour:],{H}"
	warm := func(scale []look.Colour) []xlsx.Stop {
		return []xlsx.Stop{{Kind: xlsx.AtMin, Color: scale[0]}, {Kind: xlsx.AtPercentile, Value: 50, Color: scale[1]}, {Kind: xlsx.AtMax, Color: scale[2]}}
	}
	return []heatmap{
		{key: "supply", title: "Supply temperature with water", what: "mean of the hours that need cooling; blank where none does", kind: units.Temperature,
			formula: `IFERROR(AVERAGEIFS([Working.ts:],` + where + `,[Working.outcome:],"<>idle"){V},"")`,
			value: func(h []int) any {
				return mean(h, func(o *season.Hour) (float64, bool) { return o.Supply.T, o.Outcome.Need() })
			},
			stops: warm(look.ScaleCool)},
		{key: "indoor", title: "Indoor temperature", what: "mean of the hours that need cooling; blank where none does", kind: units.Temperature,
			formula: `IFERROR(AVERAGEIFS([Working.indoor:],` + where + `,[Working.outcome:],"<>idle"){V},"")`,
			value: func(h []int) any {
				return mean(h, func(o *season.Hour) (float64, bool) { return o.Indoor, o.Outcome.Need() })
			},
			stops: warm(look.ScaleWarm)},
		{key: "uncovered", title: "Hours not covered", what: "share of all hours of that month and time of day", kind: units.Share,
			formula: `IFERROR(AVERAGEIFS([Working.uncovered:],` + where + `),"")`,
			value: func(h []int) any {
				return mean(h, func(o *season.Hour) (float64, bool) { return float64(fx.Flag(o.Outcome.Uncovered())), true })
			},
			stops: []xlsx.Stop{{Kind: xlsx.AtNumber, Value: 0, Color: look.ScaleBad[0]}, {Kind: xlsx.AtNumber, Value: 0.25, Color: look.ScaleBad[1]}, {Kind: xlsx.AtNumber, Value: 1, Color: look.ScaleBad[2]}}},
	}
}

// Heatmap lays out the year by month and time of day.
func Heatmap(c *figures.Case, p *sheet.Page) {
	p.Cols = []float64{8}
	for range 24 {
		p.Cols = append(p.Cols, 5.2)
	}
	p.Print.Landscape = true
	p.Print.FitHeight = 1
	hours := byMonthAndHour(c)
	for _, m := range heatmaps(c) {
		layMap(c, p, m, hours)
	}
	p.Text("Rows are months, columns the hour of the day from midnight in standard time (0: midnight to 1). The darker, the warmer or the worse.", "", 25, 1, sheet.Small)
}

func layMap(c *figures.Case, p *sheet.Page, m heatmap, hours [12][24][]int) {
	u := m.kind.Unit(c.Units)
	symbol := u.Symbol
	if symbol != "" {
		symbol = ", " + symbol
	}
	p.Section(m.title+symbol+" ("+m.what+")", 25)
	p.Set(p.Row, 1, xlsx.Cell{Value: "Hour", Style: sheet.Head})
	for h := range 24 {
		p.Set(p.Row, 2+h, xlsx.Cell{Value: h, Style: sheet.Head})
	}
	p.Row++
	first := p.Row
	format := "0"
	switch {
	case m.key == "indoor": // differs by tenths only
		format = "0.0"
	case m.kind == units.Share:
		format = "0%;;" // an hour that never fails stays blank
	}
	style := xlsx.Style{Size: look.Small, Color: look.Ink, NumFmt: format, HAlign: xlsx.Centre, Border: xlsx.Box(xlsx.Hair, look.Paper)}
	for month := range 12 {
		p.Set(p.Row, 1, xlsx.Cell{Value: figures.MonthName(month), Style: sheet.Head})
		for h := range 24 {
			p.Set(p.Row, 2+h, xlsx.Cell{
				Value:   sheet.Display(u, m.value(hours[month][h])),
				Formula: m.cell(u, month+1, h),
				Style:   style,
			})
		}
		p.Row++
	}
	area := xlsx.RangeRef(first, 2, p.Row-1, 25)
	p.Conditional = append(p.Conditional, xlsx.CondFormat{Range: area, Scale: m.stops})
	p.Row++
}

// cell is the formula of one month and hour, in the unit people see.
func (m heatmap) cell(u units.Unit, month, hour int) string {
	after := ""
	if u.Scale != 1 || u.Offset != 0 { // the conversion goes inside IFERROR
		after = "*" + fx.Num(u.Scale) + "+" + fx.Num(u.Offset)
	}
	return fx.Fill(m.formula, "{V}", after, "{M}", strconv.Itoa(month), "{H}", strconv.Itoa(hour))
}

// byMonthAndHour lists the hours with weather by month and hour of day.
func byMonthAndHour(c *figures.Case) (out [12][24][]int) {
	for i := range c.Season.Hours {
		if c.Missing(i) {
			continue
		}
		start := c.Season.Climate.Hours[i].Start
		m, h := start.Month()-1, start.Hour()
		out[m][h] = append(out[m][h], i)
	}
	return out
}
