package workbook

import (
	"strconv"

	"github.com/evapbook/evapbook/internal/look"
	"github.com/evapbook/evapbook/internal/money"
	"github.com/evapbook/evapbook/internal/season"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/xlsx"
)

// unit is the symbol of a kind as people see it, for axis titles.
func (c *Case) unit(k units.Kind) string { return k.Unit(c.Units).Symbol }

// outcomeChart shows the hours that need cooling by month and outcome; the
// uncovered ones stand on top in the strongest colours.
func outcomeChart() *xlsx.Chart {
	ch := &xlsx.Chart{
		Title: "Hours that need cooling, by month", Kind: xlsx.Columns, Stack: xlsx.Stacked,
		X: xlsx.Axis{}, Y: xlsx.Axis{Title: "hours", NumFmt: "#,##0"},
		Alt: "Stacked columns: hours of each month held by outdoor air, held with water, too damp and too warm",
	}
	for _, s := range outcomeSeries {
		ch.Series = append(ch.Series, xlsx.Series{Name: s.name, X: "[Months.month:]", Y: "[Months." + s.outcome.String() + ":]", Color: outcomeColour[s.outcome]})
	}
	return ch
}

// outcomeSeries are the hours that need cooling, stacked from the good upwards.
var outcomeSeries = []struct {
	outcome season.Outcome
	name    string
}{
	{season.Vent, "held by outdoor air"}, {season.Evap, "held with water"},
	{season.Damp, "not covered: too damp"}, {season.Warm, "not covered: too warm"},
}

// costChart stacks the running cost of the three ways by kind.
func (c *Case) costChart() *xlsx.Chart {
	ch := &xlsx.Chart{
		Title: "Running cost a year", Kind: xlsx.Columns, Stack: xlsx.Stacked, Y: xlsx.Axis{NumFmt: "#,##0"},
		Alt: "Stacked columns: yearly cost of energy, water and care for the cooler, refrigeration and both",
	}
	for _, s := range []struct{ key, name, color string }{{"energy", "energy", look.Energy}, {"water", "water", look.Water}, {"care", "care", look.Care}} {
		ch.Series = append(ch.Series, xlsx.Series{Name: s.name, X: moneyHeads, Y: c.moneyRange(s.key), Color: s.color})
	}
	return ch
}

// moneyHeads are the names of the three ways above the comparison.
const moneyHeads = "Money!$B$4:$D$4"

// moneyRange is the row of the comparison on the Money sheet.
func (c *Case) moneyRange(key string) string {
	for i, r := range c.moneyRows() {
		if r.key == key {
			row := strconv.Itoa(moneyFirst + i)
			return "Money!$B$" + row + ":$D$" + row
		}
	}
	panic("workbook: no money row " + key)
}

func (c *Case) answerCharts(p *page) {
	outcomes, cost := outcomeChart(), c.costChart()
	outcomes.Row, outcomes.Col, outcomes.Width, outcomes.Height = p.row, 1, 405, 250
	cost.Row, cost.Col, cost.Width, cost.Height = p.row, 6, 255, 250
	p.Charts = append(p.Charts, outcomes, cost)
	p.row += 13
}

// wayColour keeps a way the same colour in all charts.
var wayColour = map[money.Way]string{money.Cooler: look.Cooler, money.Refrigerated: look.Refrigerated, money.Both: look.Both}

func (c *Case) moneyCharts(p *page) {
	cost := c.costChart()
	lines := &xlsx.Chart{
		Title: "Cost up to and with each year", Kind: xlsx.Lines, X: xlsx.Axis{Title: "years from today", LabelEvery: 5}, Y: xlsx.Axis{NumFmt: "#,##0"},
		Alt: "Lines: running sum of what the cooler, refrigeration and both have cost, replacements included",
	}
	for w := money.Cooler; w < money.Ways; w++ {
		lines.Series = append(lines.Series, xlsx.Series{Name: wayTitle[w], X: "[Cash.year:]", Y: "[Cash.sum_" + w.String() + ":]", Color: wayColour[w], Width: 2})
	}
	p.chartRow(360, cost, lines)
}

func (c *Case) monthCharts(p *page) {
	energy := c.monthColumns("Energy by month", "kWh", "cooler_kwh", "ref_kwh", "both_kwh")
	peak := c.monthColumns("Peak hour by month", "kW", "cooler_kw", "ref_kw")
	water := &xlsx.Chart{Title: "Water by month", Kind: xlsx.Columns, Y: xlsx.Axis{Title: c.unit(units.Volume), NumFmt: "#,##0"}, Overlap: 100,
		Alt: "Columns: water evaporated by month, in front of evaporated and drained water together",
		Series: []xlsx.Series{
			{Name: "in all, with bleed or purge", X: "[Months.month:]", Y: "[Months.water:]", Color: look.WetBulb},
			{Name: "evaporated", X: "[Months.month:]", Y: "[Months.evaporated:]", Color: look.Supply},
		}}
	days := &xlsx.Chart{Title: "Hottest of each month, and the warmest supply", Kind: xlsx.Lines, Y: xlsx.Axis{Title: c.unit(units.Temperature), NumFmt: "0"},
		Alt: "Lines: highest outdoor dry bulb and warmest supply temperature of each month",
		Series: []xlsx.Series{
			{Name: "highest outdoors", X: "[Months.month:]", Y: "[Months.tmax:]", Color: look.Outdoor, Width: 2},
			{Name: "warmest supply with water", X: "[Months.month:]", Y: "[Months.supply:]", Color: look.Supply, Width: 2},
		}}
	degree := &xlsx.Chart{Title: "Degree-days to 65 °F", Kind: xlsx.Columns, Y: xlsx.Axis{Title: c.unit(units.DegreeDays), NumFmt: "#,##0"},
		Alt: "Columns: cooling and heating degree-days of each month",
		Series: []xlsx.Series{
			{Name: "cooling", X: "[Months.month:]", Y: "[Months.cdd:]", Color: look.Warm},
			{Name: "heating", X: "[Months.month:]", Y: "[Months.hdd:]", Color: look.Grey},
		}}
	p.chartRow(480, outcomeChart(), days, water)
	p.chartRow(480, energy, peak, degree)
}

func (c *Case) monthColumns(title, unit string, keys ...string) *xlsx.Chart {
	ch := &xlsx.Chart{Title: title, Kind: xlsx.Columns, Y: xlsx.Axis{Title: unit, NumFmt: "#,##0"}, Alt: "Columns by month for the ways of cooling: " + title}
	for i, key := range keys {
		w := money.Way(i)
		ch.Series = append(ch.Series, xlsx.Series{Name: wayTitle[w], X: "[Months.month:]", Y: "[Months." + key + ":]", Color: wayColour[w]})
	}
	return ch
}

// chartRow places charts side by side and moves the page below them.
func (p *page) chartRow(width int, charts ...*xlsx.Chart) {
	const height, rows = 280, 15
	col := 1
	for _, ch := range charts {
		ch.Row, ch.Col, ch.Width, ch.Height = p.row, col, width, height
		p.Charts = append(p.Charts, ch)
		col += p.columnsOf(col, width+15)
	}
	p.row += rows
}

// columnsOf is how many columns from col on cover a width in pixels.
func (p *page) columnsOf(col, width int) int {
	const pixelsPerCharacter, padding, usual = 7, 5, 9
	covered, n := 0.0, 0
	for covered < float64(width) {
		characters := 0.0
		k := col - 1 + n
		if len(p.Grids) > 0 && k < len(p.Grids[0].Columns) {
			characters = p.Grids[0].Columns[k].Width
		}
		if characters == 0 && k < len(p.Cols) {
			characters = p.Cols[k]
		}
		if characters == 0 {
			characters = usual
		}
		covered += characters*pixelsPerCharacter + padding
		n++
	}
	return n
}
