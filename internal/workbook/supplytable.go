package workbook

import (
	"fmt"

	"github.com/evapbook/evapbook/internal/cooler"
	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/psychro"
	"github.com/evapbook/evapbook/internal/season"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/xlsx"
)

// The outdoor air of the table of supply temperatures on the Startup sheet, in
// the units people see. The cells can be changed there.
var (
	supplyOutdoor = map[units.System][]float64{
		units.IP: {75, 80, 85, 90, 95, 100, 105, 110, 115},
		units.SI: {24, 27, 30, 33, 36, 38, 40, 43, 46},
	}
	supplyRelHum = []float64{0.05, 0.10, 0.15, 0.20, 0.25, 0.30, 0.40, 0.50, 0.60}
)

// Where the table stands on the Startup sheet: its corner is the cell above the
// first outdoor temperature.
const (
	supplyCornerRow = 6
	supplyCornerCol = 1
)

// supplyRow is one outdoor air of the table with what the cooler makes of it.
type supplyRow struct {
	tCell, rhCell string // where Startup has the outdoor air
	air           psychro.Air
	cells         cells
	supply        cooler.Supply
}

// supplyRows are all outdoor temperatures at the first humidity, then at the
// next.
func (c *Case) supplyRows() ([]supplyRow, error) {
	u := units.Temperature.Unit(c.Units)
	var rows []supplyRow
	for i, rh := range supplyRelHum {
		for k, t := range supplyOutdoor[c.Units] {
			a, err := psychro.FromRelHum(u.ToSI(t), rh, c.Season.Climate.Pressure)
			if err != nil {
				return nil, err
			}
			r := supplyRow{
				tCell:  "Startup!" + xlsx.CellRef(supplyCornerRow+1+k, supplyCornerCol),
				rhCell: "Startup!" + xlsx.CellRef(supplyCornerRow, supplyCornerCol+1+i),
				air:    a,
			}
			if err := c.supplyOf(&r, rh); err != nil {
				return nil, fmt.Errorf("supply at %.1f °C and %.0f %%: %w", a.T, 100*rh, err)
			}
			rows = append(rows, r)
		}
	}
	return rows, nil
}

// supplyOf carries one air through the cooler and through the cells' own wet
// bulbs.
func (c *Case) supplyOf(r *supplyRow, rh float64) error {
	x, a := &r.cells, r.air
	x.rh = rh
	x.first = solve(a, start(a.T, rh))
	x.wetBulb = min(x.first.last, a.T)
	var err error
	if r.supply, err = c.Season.Cooler.Water(a, x.wetBulb); err != nil {
		return err
	}
	t1 := r.supply.T1
	x.second = solve(psychro.Air{T: t1, W: a.W, P: a.P}, secondStart(x.wetBulb, a.T, t1))
	x.wetBulb1 = x.wetBulb
	if c.Season.Cooler.Kind != job.Direct {
		x.wetBulb1 = min(x.second.last, t1)
	}
	return nil
}

// supplyColumns carry each outdoor air of the table through the cooler at the
// site's standard pressure, with the same formulas as the hours.
func (c *Case) supplyColumns(rows []supplyRow) []column {
	u := units.Temperature.Unit(c.Units)
	out := func(i int) *season.Hour { return &season.Hour{Supply: rows[i].supply} }
	cols := []column{
		{key: "t", band: "Outdoors", title: "Dry bulb", kind: units.Temperature, rowFormula: func(i int) string { return u.ToSICell(rows[i].tCell) }, value: func(i int) any { return rows[i].air.T }},
		{key: "rh", title: "Relative humidity", kind: units.Share, rowFormula: func(i int) string { return rows[i].rhCell }, value: func(i int) any { return rows[i].cells.rh }},
		{key: "p", title: "Pressure", kind: units.Pressure, eq: 1, formula: "B_site_pressure", value: func(i int) any { return rows[i].air.P }},
		{key: "ps", title: "Saturation pressure", kind: units.Pressure, eq: 2, formula: psatFormula("([t]+273.15)"), value: func(i int) any { return psychro.SaturationPressure(rows[i].air.T) }},
		{key: "w", title: "Humidity ratio", kind: units.HumidityRatio, eq: 3, formula: humidityRatioFormula("([rh]*[ps])", "[p]"), value: func(i int) any { return rows[i].air.W }},
	}
	cols = append(cols, newtonColumns("x", "[t]", startFormula("[t]", "[rh]"), "Wet bulb outdoors", func(i int) *newton { return &rows[i].cells.first })...)
	cols = append(cols,
		column{key: "wb", title: "Wet bulb", kind: units.Temperature, eq: 4, formula: "MIN([x" + last + "]-273.15,[t])", value: func(i int) any { return rows[i].cells.wetBulb }},
		column{key: "t1", band: "Cooler", title: "After the indirect stage", kind: units.Temperature, eq: 10, formula: "[t]-B_indirect_stage*Si_cooler_indirect_effectiveness*([t]-[wb])", value: func(i int) any { return rows[i].supply.T1 }},
	)
	cols = append(cols, c.secondNewtonColumns(func(i int) *newton { return &rows[i].cells.second })...)
	return append(cols, coolerColumns(func(i int) float64 { return rows[i].air.P }, func(i int) float64 { return rows[i].cells.wetBulb1 }, out)...)
}

func (c *Case) laySupplyTable(p *page) error {
	rows, err := c.supplyRows()
	if err != nil {
		return err
	}
	p.place(&table{name: "SupplyTable", rows: len(rows), columns: c.supplyColumns(rows)}, units.SI)
	p.printRows("SupplyTable", 0, len(supplyOutdoor[c.Units]), 4)
	p.FreezeCols = 2
	return nil
}
