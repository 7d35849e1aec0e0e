package steps

import (
	"github.com/evapbook/evapbook/internal/climate"
	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/psychro"
	"github.com/evapbook/evapbook/internal/season"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/workbook/figures"
	"github.com/evapbook/evapbook/internal/workbook/fx"
	"github.com/evapbook/evapbook/internal/workbook/sheet"
)

// designRow is one design condition on the Design sheet.
type designRow struct {
	label  string
	air    *season.DesignAir
	solved fx.Newton // the cells' wet bulb after the indirect stage
	t, wb  string    // names of the figures it starts from
}

// designRows are the dry-bulb conditions, then the wet-bulb conditions.
func designRows(c *figures.Case) []designRow {
	var rows []designRow
	add := func(label string, a *season.DesignAir, t, wb string) {
		r := designRow{label: label, air: a, t: t, wb: wb}
		r.solved = fx.Solve(psychro.Air{T: a.Supply.T1, W: a.Outdoor.W, P: a.Outdoor.P}, fx.SecondGuessOf(a.WetBulb, a.Outdoor.T, a.Supply.T1))
		rows = append(rows, r)
	}
	for i, tag := range figures.DesignTags {
		add(fx.Num(climate.DesignShares[i]*100)+" % dry bulb", &c.Season.Design.DryBulb[i], "Out_design_db_"+tag+"_c", "Out_design_mcwb_"+tag+"_c")
	}
	for i, tag := range figures.DesignTags {
		add(fx.Num(climate.DesignShares[i]*100)+" % wet bulb", &c.Season.Design.WetBulb[i], "Out_design_mcdb_"+tag+"_c", "Out_design_wb_"+tag+"_c")
	}
	return rows
}

// designColumns carry each design condition through the cooler at the site's
// standard pressure, with the same formulas as the hours.
func designColumns(c *figures.Case, rows []designRow) []sheet.Column {
	out := func(i int) *season.Hour { return &season.Hour{Supply: rows[i].air.Supply} }
	cols := []sheet.Column{
		{
			Key: "condition", Band: "Outdoors", Title: "Condition", Kind: units.Text, Always: true,
			Value: func(i int) any { return rows[i].label },
		},
		{
			Key: "t", Title: "Dry bulb", Kind: units.Temperature, Eq: 29,
			RowFormula: func(i int) string { return rows[i].t },
			Value:      func(i int) any { return rows[i].air.Outdoor.T },
		},
		{
			Key: "wb", Title: "Wet bulb", Kind: units.Temperature, Eq: 29,
			RowFormula: func(i int) string { return "MIN([t]," + rows[i].wb + ")" },
			Value:      func(i int) any { return rows[i].air.WetBulb },
		},
		{
			Key: "p", Title: "Pressure", Kind: units.Pressure, Eq: 1,
			Formula: "B_site_pressure",
			Value:   func(i int) any { return rows[i].air.Outdoor.P },
		},
		{
			Key: "ps", Title: "Saturation pressure at the wet bulb", Kind: units.Pressure, Eq: 2,
			Formula: fx.SaturationPressure(fx.Kelvin("[wb]")),
			Value:   func(i int) any { return psychro.SaturationPressure(rows[i].air.WetBulb) },
		},
		{
			Key: "w", Title: "Humidity ratio", Kind: units.HumidityRatio, Eq: 4,
			Formula: "MAX(0," + fx.HumidityRatioAtWetBulb("[t]", "[wb]", "("+fx.Moles("[p]", "[ps]")+")") + ")",
			Value:   func(i int) any { return rows[i].air.Outdoor.W },
		},
		{
			Key: "t1", Band: "Cooler", Title: "After the indirect stage", Kind: units.Temperature, Eq: 10,
			Formula: fx.AfterIndirect,
			Value:   func(i int) any { return rows[i].air.Supply.T1 },
		},
	}
	cols = append(cols, secondNewtonColumns(c, func(i int) *fx.Newton { return &rows[i].solved })...)
	return append(cols, coolerColumns(func(i int) float64 { return rows[i].air.Outdoor.P }, func(i int) float64 { return enteringPads(c, &rows[i]) }, out)...)
}

// enteringPads is the wet bulb the cells of [tb] find. The engine leaves it
// alone where there are no pads; the cells work it out all the same.
func enteringPads(c *figures.Case, r *designRow) float64 {
	if c.Season.Cooler.Kind == job.Direct {
		return r.air.WetBulb
	}
	return min(r.solved.Last, r.air.Supply.T1)
}

// Design lays out the cooler at the design conditions and, in a book with
// formulas, the steps behind the supply temperatures on Start-up.
func Design(c *figures.Case, p *sheet.Page) error {
	p.Cols = []float64{16}
	p.Print.Landscape, p.Print.FitWidth = true, 2
	p.FreezeCols = 1
	rows := designRows(c)
	p.Append(&sheet.Table{Name: "Design", Rows: len(rows), Columns: designColumns(c, rows)}, units.SI)
	p.SetArea()
	if c.ValuesOnly {
		return nil
	}
	return supplyTable(c, p)
}
