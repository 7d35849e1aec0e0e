package workbook

import (
	"github.com/evapbook/evapbook/internal/climate"
	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/psychro"
	"github.com/evapbook/evapbook/internal/season"
	"github.com/evapbook/evapbook/internal/units"
)

// designRow is one design condition on the Design sheet.
type designRow struct {
	label  string
	air    *season.DesignAir
	solved newton // the cells' wet bulb after the indirect stage
	t, wb  string // names of the figures it starts from
}

// designRows are the dry-bulb conditions, then the wet-bulb conditions.
func (c *Case) designRows() []designRow {
	var rows []designRow
	add := func(label string, a *season.DesignAir, t, wb string) {
		r := designRow{label: label, air: a, t: t, wb: wb}
		r.solved = solve(psychro.Air{T: a.Supply.T1, W: a.Outdoor.W, P: a.Outdoor.P}, secondStart(a.WetBulb, a.Outdoor.T, a.Supply.T1))
		rows = append(rows, r)
	}
	for i, tag := range designTags {
		add(num(climate.DesignShares[i]*100)+" % dry bulb", &c.Season.Design.DryBulb[i], "Out_design_db_"+tag+"_c", "Out_design_mcwb_"+tag+"_c")
	}
	for i, tag := range designTags {
		add(num(climate.DesignShares[i]*100)+" % wet bulb", &c.Season.Design.WetBulb[i], "Out_design_mcdb_"+tag+"_c", "Out_design_wb_"+tag+"_c")
	}
	return rows
}

// designColumns carry each design condition through the cooler at the site's
// standard pressure, with the same formulas as the hours.
func (c *Case) designColumns(rows []designRow) []column {
	out := func(i int) *season.Hour { return &season.Hour{Supply: rows[i].air.Supply} }
	cols := []column{
		{key: "condition", band: "Outdoors", title: "Condition", kind: units.Text, always: true, value: func(i int) any { return rows[i].label }},
		{key: "t", title: "Dry bulb", kind: units.Temperature, eq: 29, rowFormula: func(i int) string { return rows[i].t }, value: func(i int) any { return rows[i].air.Outdoor.T }},
		{key: "wb", title: "Wet bulb", kind: units.Temperature, eq: 29, rowFormula: func(i int) string { return "MIN([t]," + rows[i].wb + ")" }, value: func(i int) any { return rows[i].air.WetBulb }},
		{key: "p", title: "Pressure", kind: units.Pressure, eq: 1, formula: "B_site_pressure", value: func(i int) any { return rows[i].air.Outdoor.P }},
		{key: "ps", title: "Saturation pressure at the wet bulb", kind: units.Pressure, eq: 2, formula: psatFormula("([wb]+273.15)"), value: func(i int) any { return psychro.SaturationPressure(rows[i].air.WetBulb) }},
		{key: "w", title: "Humidity ratio", kind: units.HumidityRatio, eq: 4, formula: "MAX(0," + wetHumidityRatioFormula("[t]", "[wb]", "("+molesFormula("[p]", "[ps]")+")") + ")", value: func(i int) any { return rows[i].air.Outdoor.W }},
		{key: "t1", band: "Cooler", title: "After the indirect stage", kind: units.Temperature, eq: 10, formula: "[t]-B_indirect_stage*Si_cooler_indirect_effectiveness*([t]-[wb])", value: func(i int) any { return rows[i].air.Supply.T1 }},
	}
	cols = append(cols, c.secondNewtonColumns(func(i int) *newton { return &rows[i].solved })...)
	return append(cols, coolerColumns(func(i int) float64 { return rows[i].air.Outdoor.P }, func(i int) float64 { return c.enteringPads(&rows[i]) }, out)...)
}

// enteringPads is the wet bulb the cells of [tb] find. The engine leaves it
// alone where there are no pads; the cells work it out all the same.
func (c *Case) enteringPads(r *designRow) float64 {
	if c.Season.Cooler.Kind == job.Direct {
		return r.air.WetBulb
	}
	return min(r.solved.last, r.air.Supply.T1)
}
