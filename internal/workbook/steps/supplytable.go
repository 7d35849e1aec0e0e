package steps

import (
	"fmt"

	"github.com/evapbook/evapbook/internal/cooler"
	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/psychro"
	"github.com/evapbook/evapbook/internal/season"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/workbook/figures"
	"github.com/evapbook/evapbook/internal/workbook/fx"
	"github.com/evapbook/evapbook/internal/workbook/sheet"
	"github.com/evapbook/evapbook/internal/xlsx"
)

// The outdoor air of the table of supply temperatures on the Startup sheet, in
// the units people see. The cells can be changed there.
var (
	SupplyOutdoor = map[units.System][]float64{
		units.IP: {75, 80, 85, 90, 95, 100, 105, 110, 115},
		units.SI: {24, 27, 30, 33, 36, 38, 40, 43, 46},
	}
	SupplyRelHum = []float64{0.05, 0.10, 0.15, 0.20, 0.25, 0.30, 0.40, 0.50, 0.60}
)

// Where the table stands on the Startup sheet: its corner is the cell above the
// first outdoor temperature.
const (
	SupplyCornerRow = 6
	SupplyCornerCol = 1
)

// supplyRow is one outdoor air of the table with what the cooler makes of it.
type supplyRow struct {
	tCell, rhCell string // where Startup has the outdoor air
	air           psychro.Air
	cells         fx.Solved
	Supply        cooler.Supply
}

// SupplyRows are all outdoor temperatures at the first humidity, then at the
// next.
func SupplyRows(c *figures.Case) ([]supplyRow, error) {
	u := units.Temperature.Unit(c.Units)
	var rows []supplyRow
	for i, rh := range SupplyRelHum {
		for k, t := range SupplyOutdoor[c.Units] {
			a, err := psychro.FromRelHum(u.ToSI(t), rh, c.Season.Climate.Pressure)
			if err != nil {
				return nil, err
			}
			r := supplyRow{
				tCell:  "Startup!" + xlsx.CellRef(SupplyCornerRow+1+k, SupplyCornerCol),
				rhCell: "Startup!" + xlsx.CellRef(SupplyCornerRow, SupplyCornerCol+1+i),
				air:    a,
			}
			if err := supplyOf(c, &r, rh); err != nil {
				return nil, fmt.Errorf("supply at %.1f °C and %.0f %%: %w", a.T, 100*rh, err)
			}
			rows = append(rows, r)
		}
	}
	return rows, nil
}

// supplyOf carries one air through the cooler and through the cells' own wet
// bulbs.
func supplyOf(c *figures.Case, r *supplyRow, rh float64) error {
	x, a := &r.cells, r.air
	x.Rh = rh
	x.First = fx.Solve(a, fx.FirstGuessOf(a.T, rh))
	x.WetBulb = min(x.First.Last, a.T)
	var err error
	if r.Supply, err = c.Season.Cooler.Water(a, x.WetBulb); err != nil {
		return err
	}
	t1 := r.Supply.T1
	x.Second = fx.Solve(psychro.Air{T: t1, W: a.W, P: a.P}, fx.SecondGuessOf(x.WetBulb, a.T, t1))
	x.WetBulb1 = x.WetBulb
	if c.Season.Cooler.Kind != job.Direct {
		x.WetBulb1 = min(x.Second.Last, t1)
	}
	return nil
}

// supplyColumns carry each outdoor air of the table through the cooler at the
// site's standard pressure, with the same formulas as the hours.
func supplyColumns(c *figures.Case, rows []supplyRow) []sheet.Column {
	u := units.Temperature.Unit(c.Units)
	out := func(i int) *season.Hour { return &season.Hour{Supply: rows[i].Supply} }
	cols := []sheet.Column{
		{
			Key: "t", Band: "Outdoors", Title: "Dry bulb", Kind: units.Temperature,
			RowFormula: func(i int) string { return u.ToSICell(rows[i].tCell) },
			Value:      func(i int) any { return rows[i].air.T },
		},
		{
			Key: "rh", Title: "Relative humidity", Kind: units.Share,
			RowFormula: func(i int) string { return rows[i].rhCell },
			Value:      func(i int) any { return rows[i].cells.Rh },
		},
		{Key: "p", Title: "Pressure", Kind: units.Pressure, Eq: 1, Formula: "B_site_pressure", Value: func(i int) any { return rows[i].air.P }},
		{
			Key: "ps", Title: "Saturation pressure", Kind: units.Pressure, Eq: 2,
			Formula: fx.SaturationPressure(fx.Kelvin("[t]")),
			Value:   func(i int) any { return psychro.SaturationPressure(rows[i].air.T) },
		},
		{
			Key: "w", Title: "Humidity ratio", Kind: units.HumidityRatio, Eq: 3,
			Formula: fx.HumidityRatio("([rh]*[ps])", "[p]"),
			Value:   func(i int) any { return rows[i].air.W },
		},
	}
	cols = append(cols, newtonColumns("x", "[t]", fx.FirstGuess("[t]", "[rh]"), "Wet bulb outdoors", func(i int) *fx.Newton { return &rows[i].cells.First })...)
	cols = append(cols,
		sheet.Column{
			Key: "wb", Title: "Wet bulb", Kind: units.Temperature, Eq: 4,
			Formula: "MIN([x" + last + "]-" + fx.Zero + ",[t])",
			Value:   func(i int) any { return rows[i].cells.WetBulb },
		},
		sheet.Column{
			Key: "t1", Band: "Cooler", Title: "After the indirect stage", Kind: units.Temperature, Eq: 10,
			Formula: fx.AfterIndirect,
			Value:   func(i int) any { return rows[i].Supply.T1 },
		},
	)
	cols = append(cols, secondNewtonColumns(c, func(i int) *fx.Newton { return &rows[i].cells.Second })...)
	return append(cols, coolerColumns(func(i int) float64 { return rows[i].air.P }, func(i int) float64 { return rows[i].cells.WetBulb1 }, out)...)
}

// supplyTable lays out the steps behind the supply temperatures on Start-up.
func supplyTable(c *figures.Case, p *sheet.Page) error {
	rows, err := SupplyRows(c)
	if err != nil {
		return err
	}
	p.Section("The air of the table on Start-up", 6)
	p.Append(&sheet.Table{Name: "SupplyTable", Rows: len(rows), Columns: supplyColumns(c, rows)}, units.SI)
	return nil
}
