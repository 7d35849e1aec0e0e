package engineer

import (
	"fmt"
	"strconv"

	"github.com/evapbook/evapbook/internal/climate"
	"github.com/evapbook/evapbook/internal/look"
	"github.com/evapbook/evapbook/internal/psychro"
	"github.com/evapbook/evapbook/internal/season"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/workbook/figures"
	"github.com/evapbook/evapbook/internal/workbook/fx"
	"github.com/evapbook/evapbook/internal/workbook/sheet"
	"github.com/evapbook/evapbook/internal/xlsx/chart"
)

// The psychrometric chart: its range in °C and what lines it draws.
const (
	chartLow, chartHigh = 0, 50
	pointsAtMost        = 1500 // of the need hours; more only blacken the paper
	off                 = "-1" // below the chart: a point that is not shown
)

var (
	humidityLines = []float64{0.2, 0.4, 0.6, 0.8, 1}
	// wetBulbLines are round in the unit people see.
	wetBulbLines = map[units.System][]float64{units.SI: {5, 10, 15, 20, 25}, units.IP: {40, 50, 60, 70, 80}}
)

// comfort is the outline of the comfort zone at 0.5 clo as °C and kg/kg: the
// graphic method of ANSI/ASHRAE Standard 55 up to its humidity ratio limit of
// 0.012 (corner temperatures from memory).
var comfort = [][2]float64{{24.6, 0.0005}, {28.2, 0.0005}, {26.8, 0.012}, {23.4, 0.012}, {24.6, 0.0005}}

// moisture is how humidity ratio is shown on the chart.
func moisture(c *figures.Case) (factor float64, symbol string) {
	if c.Units == units.IP {
		return 7000, "grains/lb"
	}
	return 1000, "g/kg"
}

// moist shows a humidity ratio in the chart's unit.
func moist(c *figures.Case, formula string) string {
	f, _ := moisture(c)
	return "(" + formula + ")*" + fx.Num(f)
}

// lineColumns are the saturation curve and the lines of equal relative
// humidity at the site's pressure, one row per kelvin.
func lineColumns(c *figures.Case) []sheet.Column {
	factor, symbol := moisture(c)
	p := c.Season.Climate.Pressure
	t := func(i int) float64 { return chartLow + float64(i) }
	u := units.Temperature.Unit(c.Units)
	back := u.ToSICell("[t]")
	cols := []sheet.Column{{
		Key: "t", Band: "Lines of equal relative humidity, " + symbol, Title: "Dry bulb", Kind: units.Temperature,
		Value: func(i int) any { return t(i) },
	}}
	for _, rh := range humidityLines {
		e := fx.Num(rh) + "*" + fx.SaturationPressure(fx.Kelvin(back))
		cols = append(cols, sheet.Column{Key: "rh" + fx.Num(rh*100), Title: fx.Num(rh*100) + " %", Kind: units.Plain,
			Formula: moist(c, fx.HumidityRatio("("+e+")", "B_site_pressure")),
			Value: func(i int) any {
				a, _ := psychro.FromRelHum(t(i), rh, p) // at no site does water boil within the chart
				return a.W * factor
			}})
	}
	return cols
}

// wetBulbRows is the number of points of a wet-bulb line.
const wetBulbRows = 6

// wetBulbColumns are the lines of equal wet bulb, each from saturation to the
// dry edge of the chart, as pairs of columns.
func wetBulbColumns(c *figures.Case) []sheet.Column {
	factor, symbol := moisture(c)
	u := units.Temperature.Unit(c.Units)
	p := c.Season.Climate.Pressure
	var cols []sheet.Column
	for k, shown := range wetBulbLines[c.Units] {
		name, tw := fmt.Sprint(k), u.ToSI(shown)
		cell := "(" + u.ToSICell(fx.Num(shown)) + ")"
		x := func(i int) float64 { return tw + (chartHigh-tw)*float64(i)/(wetBulbRows-1) }
		r := "(" + fx.Moles("B_site_pressure", fx.SaturationPressure(fx.Kelvin(cell))) + ")"
		w := fx.HumidityRatioAtWetBulb("("+u.ToSICell("[t"+name+"]")+")", cell, r)
		cols = append(cols,
			sheet.Column{
				Key: "t" + name, Title: fmt.Sprintf("Wet bulb %.0f %s", shown, u.Symbol), Kind: units.Temperature,
				Value: func(i int) any { return x(i) },
			},
			sheet.Column{Key: "w" + name, Title: symbol, Kind: units.Plain, Formula: moist(c, w), Value: func(i int) any {
				ws, _ := psychro.SaturationHumidityRatio(tw, p)
				return psychro.WaterWick.HumidityRatio(x(i), tw, ws) * factor
			}})
	}
	cols[0].Band = "Lines of equal wet bulb"
	return cols
}

func comfortColumns(c *figures.Case) []sheet.Column {
	factor, symbol := moisture(c)
	return []sheet.Column{
		{Key: "t", Band: "Comfort zone", Title: "Dry bulb", Kind: units.Temperature, Value: func(i int) any { return comfort[i][0] }},
		{Key: "w", Title: symbol, Kind: units.Plain, Value: func(i int) any { return comfort[i][1] * factor }},
	}
}

// pointHours are the need hours to draw: all of them, or an even selection.
func pointHours(c *figures.Case) (picked []int, every int) {
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
func pointColumns(c *figures.Case, hours []int) []sheet.Column {
	factor, symbol := moisture(c)
	at := func(key string, i int) string { return "[Working." + key + "#" + strconv.Itoa(hours[i]) + "]" }
	out := func(i int) *season.Hour { return &c.Season.Hours[hours[i]] }
	in := func(i int) *climate.Hour { return &c.Season.Climate.Hours[hours[i]] }
	cols := []sheet.Column{{Key: "t", Band: "Hours that needed cooling at writing", Title: "Dry bulb", Kind: units.Temperature,
		RowFormula: func(i int) string { return at("t", i) }, Value: func(i int) any { return in(i).Air.T }}}
	for _, s := range sheet.OutcomeSeries {
		cols = append(cols, sheet.Column{Key: s.Outcome.String(), Title: sheet.OutcomeTitle(s.Outcome) + ", " + symbol, Kind: units.Plain,
			RowFormula: func(i int) string {
				return "IF(" + at("outcome", i) + `="` + s.Outcome.String() + `",` + moist(c, at("w", i)) + "," + off + ")"
			},
			Value: func(i int) any {
				if out(i).Outcome != s.Outcome {
					return -1.0
				}
				return in(i).Air.W * factor
			}})
	}
	return append(cols,
		sheet.Column{
			Key: "ts", Title: "Supply", Kind: units.Temperature,
			RowFormula: func(i int) string { return at("ts", i) },
			Value:      func(i int) any { return out(i).Supply.T },
		},
		sheet.Column{Key: "ws", Title: "Supply, " + symbol, Kind: units.Plain,
			RowFormula: func(i int) string {
				return "IF(" + at("pump", i) + ">0," + moist(c, at("w2", i)) + "," + off + ")"
			},
			Value: func(i int) any {
				if !out(i).Outcome.Wet() || out(i).Running.Fraction == 0 { // off where it would not help
					return -1.0
				}
				return out(i).Supply.W * factor
			}})
}

// Airchart lays out the psychrometric chart with the hours that need cooling.
func Airchart(c *figures.Case, p *sheet.Page) {
	hours, every := pointHours(c)
	which := "every hour"
	if every > 1 {
		which = fmt.Sprintf("one in %d of the hours", every)
	}
	p.Print.Landscape = true
	ch := airChart(c)
	ch.Row, ch.Col, ch.Width, ch.Height = p.Row+2, 1, 960, 560
	p.PickedAtWriting("Outdoor air of "+which+" that needed cooling when the workbook was written, coloured by what becomes of it, and the air the cooler supplies then. Grey lines: relative humidity; dashed: wet bulb. Outline: comfort zone at 0.5 clo, graphic method of ANSI/ASHRAE Standard 55 (corner temperatures from memory). At the site's standard pressure.", 12, 3)
	p.Charts = append(p.Charts, ch)
	p.ChartSpace(31)
	chartEnd := p.Row - 1
	for _, t := range []*sheet.Table{
		{Name: "Lines", Rows: chartHigh - chartLow + 1, Columns: lineColumns(c)},
		{Name: "Wetlines", Rows: wetBulbRows, Columns: wetBulbColumns(c)},
		{Name: "Comfort", Rows: len(comfort), Columns: comfortColumns(c)},
		{Name: "Points", Rows: len(hours), Columns: pointColumns(c, hours)},
	} {
		p.Append(t, c.Units)
	}
	p.PrintTo(chartEnd, max(12, p.ColumnsOf(1, ch.Width)))
	p.Print.FitHeight = 1
}

func airChart(c *figures.Case) *chart.Chart {
	u := units.Temperature.Unit(c.Units)
	factor, symbol := moisture(c)
	low, high, top, bottom := 0.0, 50.0, 0.030*factor, 0.0
	if c.Units == units.IP {
		low, high = 30, 120
	}
	ch := &chart.Chart{
		Title: "Outdoor and supply air on the psychrometric chart", Kind: chart.Scatter,
		X:   chart.Axis{Title: "dry bulb, " + u.Symbol, Min: &low, Max: &high, NumFmt: "0", Major: 10, NoGrid: true},
		Y:   chart.Axis{Title: "humidity ratio, " + symbol, Min: &bottom, Max: &top, NumFmt: "0", NoGrid: true},
		Alt: "Psychrometric chart: outdoor air of the hours that need cooling by outcome, supply air, comfort zone, saturation, humidity and wet-bulb lines",
	}
	ch.Series = append(ch.Series, chartLines(c, u.ToSI(high), 0.030)...)
	for _, s := range sheet.OutcomeSeries {
		ch.Series = append(ch.Series, chart.Series{Name: s.Name, X: "[Points.t:]", Y: "[Points." + s.Outcome.String() + ":]", Color: sheet.OutcomeColour[s.Outcome], Marker: chart.Marker{Shape: chart.Circle, Size: 4}})
	}
	ch.Series = append(ch.Series,
		chart.Series{Name: "supply air", X: "[Points.ts:]", Y: "[Points.ws:]", Color: look.Supply, Marker: chart.Marker{Shape: chart.Diamond, Size: 3}},
		chart.Series{Name: "comfort zone", X: "[Comfort.t:]", Y: "[Comfort.w:]", Color: look.Leaf, Width: 2},
	)
	return ch
}

// chartLines are the lines of equal relative humidity and of equal wet bulb,
// each with its name at one point of it; right is the edge of the chart in °C and
// top in kg/kg.
func chartLines(c *figures.Case, right, top float64) (all []chart.Series) {
	u := units.Temperature.Unit(c.Units)
	label := func(name, x, y, place, color string) chart.Series {
		return chart.Series{Name: name, X: x, Y: y, Color: color, Marker: chart.Marker{Shape: chart.Circle, Size: 2}, NoLegend: true,
			Beside: place}
	}
	for _, rh := range humidityLines {
		key, name := "rh"+fx.Num(rh*100), fx.Num(rh*100)+" %"
		s := chart.Series{Name: name + " relative humidity", X: "[Lines.t:]", Y: "[Lines." + key + ":]", Color: look.HumidityLine, Width: 0.75, NoLegend: true}
		if rh == 1 {
			s.Color, s.Width = look.SaturationLine, 1.75
		}
		at := "#" + strconv.Itoa(lastWithin(rh, c.Season.Climate.Pressure, right, top)) + "]"
		all = append(all, s, label(name, "[Lines.t"+at, "[Lines."+key+at, "r", s.Color))
	}
	for k, shown := range wetBulbLines[c.Units] {
		x, y := "[Wetlines.t"+fmt.Sprint(k), "[Wetlines.w"+fmt.Sprint(k)
		name := fmt.Sprintf("%.0f %s", shown, u.Symbol)
		all = append(all, chart.Series{Name: "wet bulb " + name, X: x + ":]", Y: y + ":]", Color: look.WetBulb, Width: 0.75, Dash: chart.Dashes, NoLegend: true},
			label(name, x+"#0]", y+"#0]", "l", look.WetBulb))
	}
	return all
}

// lastWithin is the last row of a line of equal relative humidity that lies on
// the chart, with room for a label.
func lastWithin(rh, p, right, top float64) int {
	row := 0
	for t := float64(chartLow); t <= min(chartHigh, right-1); t++ {
		if a, _ := psychro.FromRelHum(t, rh, p); a.W <= 0.96*top { // at no site does water boil within the chart
			row = int(t - chartLow)
		}
	}
	return row
}
