package sheet

import (
	"math"
	"strings"

	"github.com/evapbook/evapbook/internal/look"
	"github.com/evapbook/evapbook/internal/money"
	"github.com/evapbook/evapbook/internal/season"
	"github.com/evapbook/evapbook/internal/workbook/figures"
	"github.com/evapbook/evapbook/internal/xlsx/chart"
)

// OutcomeSeries are the hours that need cooling, stacked from the good upwards.
var OutcomeSeries = []struct {
	Outcome season.Outcome
	Name    string
}{
	{season.Vent, figures.OutcomeName[season.Vent]}, {season.Evap, figures.OutcomeName[season.Evap]},
	{season.Damp, figures.OutcomeName[season.Damp]}, {season.Warm, figures.OutcomeName[season.Warm]},
}

// OutcomeTitle is the name of an outcome as the heading of its column.
func OutcomeTitle(o season.Outcome) string {
	name := figures.OutcomeName[o]
	return strings.ToUpper(name[:1]) + name[1:]
}

// WayColour keeps a way the same colour in all charts.
var WayColour = map[money.Way]string{money.Cooler: look.Cooler, money.Refrigerated: look.Refrigerated, money.Both: look.Both}

// The size of a row of charts: pixels high, in rows of the sheet, pixels apart.
const chartHeight, chartRows, chartGap = 280, 15, 15

// ChartRow places charts of one width side by side, each at the next column that
// is free, and moves the page below them.
func (p *Page) ChartRow(width int, charts ...*chart.Chart) {
	col := 1
	for _, ch := range charts {
		ch.Row, ch.Col, ch.Width, ch.Height = p.Row, col, width, chartHeight
		p.Charts = append(p.Charts, ch)
		col += p.ColumnsOf(col, width+chartGap)
	}
	p.ChartSpace(chartRows)
}

// ChartsAcross shares columns 1 to n among charts side by side: each begins at
// the column nearest to its share, and the last ends with column n.
func (p *Page) ChartsAcross(n int, charts ...*chart.Chart) {
	edges := make([]float64, n+1)
	for col := 1; col <= n; col++ {
		edges[col] = edges[col-1] + p.pixels(col)
	}
	nearest := func(x float64) (best int) {
		for k := range edges {
			if math.Abs(edges[k]-x) < math.Abs(edges[best]-x) {
				best = k
			}
		}
		return best
	}
	for i, ch := range charts {
		from, to := nearest(edges[n]*float64(i)/float64(len(charts))), nearest(edges[n]*float64(i+1)/float64(len(charts)))
		gap := float64(chartGap)
		if to == n {
			gap = 2 // the frame stays on the paper
		}
		ch.Row, ch.Col, ch.Width, ch.Height = p.Row, from+1, int(edges[to]-edges[from]-gap), chartHeight
		p.Charts = append(p.Charts, ch)
	}
	p.ChartSpace(chartRows)
}

// ChartSpace moves the page below rows that charts cover. Their height is stated:
// programs differ in how high a row is of which nothing is said.
func (p *Page) ChartSpace(rows int) {
	for range rows {
		p.Height(p.Row, 15)
		p.Row++
	}
}

// ColumnsOf is how many columns from col on cover a width in pixels.
func (p *Page) ColumnsOf(col, width int) int {
	covered, n := 0.0, 0
	for covered < float64(width) {
		covered += p.pixels(col + n)
		n++
	}
	return n
}

// pixels is the width of a column, as a grid or the page states it.
func (p *Page) pixels(col int) float64 {
	const perCharacter, usual = 7, 9
	characters := 0.0
	if k := col - 1; len(p.Grids) > 0 && k < len(p.Grids[0].Columns) {
		characters = p.Grids[0].Columns[k].Width
	}
	if characters == 0 && col <= len(p.Cols) {
		characters = p.Cols[col-1]
	}
	if characters == 0 {
		characters = usual
	}
	return characters * perCharacter
}

// OutcomeColour keeps an outcome the same colour everywhere.
var OutcomeColour = map[season.Outcome]string{
	season.Idle: look.Idle, season.Vent: look.Vent, season.Evap: look.Evap, season.Damp: look.Damp, season.Warm: look.Warm,
}
