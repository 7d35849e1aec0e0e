package workbook

import (
	"fmt"
	"strconv"

	"github.com/evapbook/evapbook/internal/look"
	"github.com/evapbook/evapbook/internal/psychro"
	"github.com/evapbook/evapbook/internal/season"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/xlsx"
)

// The psychrometric chart: its range in °C and what lines it draws.
const (
	chartLow, chartHigh = 0, 50
	pointsAtMost        = 1500 // of the need hours; more only blacken the paper
	off                 = "-1" // below the chart: a point that is not shown
)

var (
	humidityLines = []float64{0.2, 0.4, 0.6, 0.8, 1}
	wetBulbLines  = []float64{5, 10, 15, 20, 25} // °C
)

// comfort is the outline of the comfort zone at 0.5 clo as °C and kg/kg: the
// graphic method of ANSI/ASHRAE Standard 55 up to its humidity ratio limit of
// 0.012 (corner temperatures from memory).
var comfort = [][2]float64{{24.6, 0.0005}, {28.2, 0.0005}, {26.8, 0.012}, {23.4, 0.012}, {24.6, 0.0005}}

// moisture is how humidity ratio is shown on the chart.
func (c *Case) moisture() (factor float64, symbol string) {
	if c.Units == units.IP {
		return 7000, "grains/lb"
	}
	return 1000, "g/kg"
}

// moist shows a humidity ratio in the chart's unit.
func (c *Case) moist(formula string) string {
	f, _ := c.moisture()
	return "(" + formula + ")*" + num(f)
}

// lineColumns are the saturation curve and the lines of equal relative
// humidity at the site's pressure, one row per kelvin.
func (c *Case) lineColumns() []column {
	factor, symbol := c.moisture()
	p := c.Season.Climate.Pressure
	t := func(i int) float64 { return chartLow + float64(i) }
	u := units.Temperature.Unit(c.Units)
	back := u.ToSICell("[t]")
	cols := []column{{key: "t", band: "Lines of equal relative humidity, " + symbol, title: "Dry bulb", kind: units.Temperature, value: func(i int) any { return t(i) }}}
	for _, rh := range humidityLines {
		e := num(rh) + "*" + psatFormula("("+back+"+273.15)")
		cols = append(cols, column{key: "rh" + num(rh*100), title: num(rh*100) + " %", kind: units.Plain,
			formula: c.moist(humidityRatioFormula("("+e+")", "B_site_pressure")),
			value: func(i int) any {
				e := rh * psychro.SaturationPressure(t(i))
				return 0.621945 * e / (p - e) * factor
			}})
	}
	return cols
}

// wetBulbRows is the number of points of a wet-bulb line.
const wetBulbRows = 6

// wetBulbColumns are the lines of equal wet bulb, each from saturation to the
// dry edge of the chart, as pairs of columns.
func (c *Case) wetBulbColumns() []column {
	factor, symbol := c.moisture()
	u := units.Temperature.Unit(c.Units)
	p := c.Season.Climate.Pressure
	var cols []column
	for _, tw := range wetBulbLines {
		name := num(tw)
		x := func(i int) float64 { return tw + (chartHigh-tw)*float64(i)/(wetBulbRows-1) }
		r := "(" + molesFormula("B_site_pressure", psatFormula("("+name+"+273.15)")) + ")"
		w := wetHumidityRatioFormula("("+u.ToSICell("[t"+name+"]")+")", name, r)
		cols = append(cols,
			column{key: "t" + name, title: fmt.Sprintf("Wet bulb %.0f %s", u.FromSI(tw), u.Symbol), kind: units.Temperature, value: func(i int) any { return x(i) }},
			column{key: "w" + name, title: symbol, kind: units.Plain, formula: c.moist(w), value: func(i int) any {
				ws := 0.621945 * moles(p, psychro.SaturationPressure(tw))
				return ((2501-2.326*tw)*ws - 1.006*(x(i)-tw)) / (2501 + 1.86*x(i) - 4.186*tw) * factor
			}})
	}
	cols[0].band = "Lines of equal wet bulb"
	return cols
}

func (c *Case) comfortColumns() []column {
	factor, symbol := c.moisture()
	return []column{
		{key: "t", band: "Comfort zone", title: "Dry bulb", kind: units.Temperature, value: func(i int) any { return comfort[i][0] }},
		{key: "w", title: symbol, kind: units.Plain, value: func(i int) any { return comfort[i][1] * factor }},
	}
}

// pointHours are the need hours to draw: all of them, or an even selection.
func (c *Case) pointHours() (picked []int, every int) {
	need := c.Season.Totals.Hours.Need()
	every = max(1, (need+pointsAtMost-1)/pointsAtMost)
	n := 0
	for i := range c.Season.Hours {
		if !c.Season.Hours[i].Outcome.Need() {
			continue
		}
		if n%every == 0 {
			picked = append(picked, i)
		}
		n++
	}
	if len(picked) == 0 {
		picked = []int{0}
	}
	return picked, every
}

// pointColumns place each hour by its outdoor air, in the column of its
// outcome, and by the air the cooler supplies in it.
func (c *Case) pointColumns(hours []int) []column {
	factor, symbol := c.moisture()
	at := func(key string, i int) string { return "[Working." + key + "#" + strconv.Itoa(hours[i]) + "]" }
	out := func(i int) *season.Hour { return &c.Season.Hours[hours[i]] }
	in := func(i int) *hourIn { return &c.Season.Climate.Hours[hours[i]] }
	cols := []column{{key: "t", band: "Hours that needed cooling at writing", title: "Dry bulb", kind: units.Temperature,
		rowFormula: func(i int) string { return at("t", i) }, value: func(i int) any { return in(i).Air.T }}}
	for _, s := range outcomeSeries {
		cols = append(cols, column{key: s.outcome.String(), title: s.outcome.String() + ", " + symbol, kind: units.Plain,
			rowFormula: func(i int) string {
				return "IF(" + at("outcome", i) + `="` + s.outcome.String() + `",` + c.moist(at("w", i)) + "," + off + ")"
			},
			value: func(i int) any {
				if out(i).Outcome != s.outcome {
					return -1.0
				}
				return in(i).Air.W * factor
			}})
	}
	return append(cols,
		column{key: "ts", title: "Supply", kind: units.Temperature, rowFormula: func(i int) string { return at("ts", i) }, value: func(i int) any { return out(i).Supply.T }},
		column{key: "ws", title: "Supply, " + symbol, kind: units.Plain,
			rowFormula: func(i int) string {
				return "IF(" + at("pump", i) + ">0," + c.moist(at("w2", i)) + "," + off + ")"
			},
			value: func(i int) any {
				if !out(i).Outcome.Wet() {
					return -1.0
				}
				return out(i).Supply.W * factor
			}})
}

func (c *Case) layAirchart(p *page) {
	hours, every := c.pointHours()
	which := "every hour"
	if every > 1 {
		which = fmt.Sprintf("one in %d of the hours", every)
	}
	p.Print.Landscape = true
	ch := c.airChart()
	ch.Row, ch.Col, ch.Width, ch.Height = p.row+2, 1, 960, 560
	p.pickedAtWriting("Outdoor air of "+which+" that needed cooling when the workbook was written, coloured by what becomes of it, and the air the cooler supplies then. Grey: 20, 40, 60, 80 % relative humidity; dashed: wet bulb "+c.wetBulbNames()+
		". Outline: comfort zone at 0.5 clo, graphic method of ANSI/ASHRAE Standard 55 (corner temperatures from memory). At the site's standard pressure.", 12, 3)
	p.Charts = append(p.Charts, ch)
	p.row += 31
	chartEnd := p.row - 1
	for _, t := range []*table{
		{name: "Lines", rows: chartHigh - chartLow + 1, columns: c.lineColumns()},
		{name: "Wetlines", rows: wetBulbRows, columns: c.wetBulbColumns()},
		{name: "Comfort", rows: len(comfort), columns: c.comfortColumns()},
		{name: "Points", rows: len(hours), columns: c.pointColumns(hours)},
	} {
		c.appendTable(p, t)
	}
	p.Print.Area = xlsx.RangeRef(1, 1, chartEnd, max(12, p.columnsOf(1, ch.Width)))
	p.Print.FitHeight = 1
}

func (c *Case) wetBulbNames() string {
	u := units.Temperature.Unit(c.Units)
	text := ""
	for i, tw := range wetBulbLines {
		if i > 0 {
			text += ", "
		}
		text += fmt.Sprintf("%.0f", u.FromSI(tw))
	}
	return text + " " + u.Symbol
}

func (c *Case) airChart() *xlsx.Chart {
	u := units.Temperature.Unit(c.Units)
	factor, symbol := c.moisture()
	low, high, top, bottom := 0.0, 50.0, 0.030*factor, 0.0
	if c.Units == units.IP {
		low, high = 30, 120
	}
	ch := &xlsx.Chart{
		Title: "Outdoor and supply air on the psychrometric chart", Kind: xlsx.Scatter,
		X:   xlsx.Axis{Title: "dry bulb, " + u.Symbol, Min: &low, Max: &high, NumFmt: "0", Major: 10, NoGrid: true},
		Y:   xlsx.Axis{Title: "humidity ratio, " + symbol, Min: &bottom, Max: &top, NumFmt: "0", NoGrid: true},
		Alt: "Psychrometric chart: outdoor air of the hours that need cooling by outcome, supply air, comfort zone, saturation, humidity and wet-bulb lines",
	}
	for _, rh := range humidityLines {
		s := xlsx.Series{Name: num(rh*100) + " % relative humidity", X: "[Lines.t:]", Y: "[Lines.rh" + num(rh*100) + ":]", Color: look.HumidityLine, Width: 0.75, NoLegend: true}
		if rh == 1 {
			s.Color, s.Width = look.SaturationLine, 1.75
		}
		ch.Series = append(ch.Series, s)
	}
	for _, tw := range wetBulbLines {
		ch.Series = append(ch.Series, xlsx.Series{Name: "wet bulb " + num(tw) + " °C", X: "[Wetlines.t" + num(tw) + ":]", Y: "[Wetlines.w" + num(tw) + ":]", Color: look.WetBulb, Width: 0.75, Dash: xlsx.Dashes, NoLegend: true})
	}
	for _, s := range outcomeSeries {
		ch.Series = append(ch.Series, xlsx.Series{Name: s.name, X: "[Points.t:]", Y: "[Points." + s.outcome.String() + ":]", Color: outcomeColour[s.outcome], Marker: xlsx.Marker{Shape: xlsx.Circle, Size: 4}})
	}
	ch.Series = append(ch.Series,
		xlsx.Series{Name: "supply air", X: "[Points.ts:]", Y: "[Points.ws:]", Color: look.Supply, Marker: xlsx.Marker{Shape: xlsx.Diamond, Size: 3}},
		xlsx.Series{Name: "comfort zone", X: "[Comfort.t:]", Y: "[Comfort.w:]", Color: look.Leaf, Width: 2},
	)
	return ch
}
