package sheet

import (
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

// ChartRow places charts side by side and moves the page below them.
func (p *Page) ChartRow(width int, charts ...*chart.Chart) {
	const height, rows = 280, 15
	col := 1
	for _, ch := range charts {
		ch.Row, ch.Col, ch.Width, ch.Height = p.Row, col, width, height
		p.Charts = append(p.Charts, ch)
		col += p.ColumnsOf(col, width+15)
	}
	p.Row += rows
}

// ColumnsOf is how many columns from col on cover a width in pixels.
func (p *Page) ColumnsOf(col, width int) int {
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

// OutcomeColour keeps an outcome the same colour everywhere.
var OutcomeColour = map[season.Outcome]string{
	season.Idle: look.Idle, season.Vent: look.Vent, season.Evap: look.Evap, season.Damp: look.Damp, season.Warm: look.Warm,
}
