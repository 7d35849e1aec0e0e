package manysites

import (
	"fmt"
	"strings"

	"github.com/evapbook/evapbook/internal/look"
	"github.com/evapbook/evapbook/internal/ranking"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/workbook/figures"
	"github.com/evapbook/evapbook/internal/workbook/fx"
	"github.com/evapbook/evapbook/internal/workbook/sheet"
	"github.com/evapbook/evapbook/internal/xlsx"
)

// kindKey is the kind of cooler k as part of a column key.
func kindKey(k int) string { return strings.ReplaceAll(string(ranking.Kinds[k]), "-", "") }

// rankingColumns are one line for each site and combination.
func (z *Book) rankingColumns() []sheet.Column {
	cols := z.placeColumns()
	for k := range ranking.Kinds {
		cols = append(cols, z.kindColumns(k)...)
	}
	return append(cols, z.refrigeratedColumns()...)
}

// column makes a column of the Ranking of what a site has once.
func (z *Book) column(key, title string, kind units.Kind, of func(r *ranking.Row) any) sheet.Column {
	return sheet.Column{Key: key, Title: title, Kind: kind, Value: func(i int) any { return of(z.lines[i][0]) }}
}

func (z *Book) placeColumns() []sheet.Column {
	cols := []sheet.Column{
		sheet.Banded(z.column("site", "Site", units.Text, func(r *ranking.Row) any { return r.Site }), "Place"),
		z.column("elevation", "Elevation", units.Altitude, func(r *ranking.Row) any { return r.Elevation }),
		{Key: "carrier", Title: "Carried by", Kind: units.Text, Value: func(i int) any { return z.lines[i].Carrier() }},
	}
	for n, a := range z.Table.Axes {
		cols = append(cols, z.axisColumn(n, a))
	}
	cols = append(cols,
		sheet.Banded(z.column("zone", "Computed thermal zone", units.Count, func(r *ranking.Row) any { return r.ThermalZone }), "Class"),
		z.column("dryness", "Dryness", units.Text, func(r *ranking.Row) any { return r.Dryness }),
		z.column("depression", "Depression of warm hours", units.TemperatureDifference, func(r *ranking.Row) any { return orBlank(r.WarmDepression) }),
		sheet.Banded(z.column("db", "1 % dry bulb", units.Temperature, func(r *ranking.Row) any { return r.DesignDryBulb }), "Design conditions"),
		z.column("mcwb", "Mean coincident wet bulb", units.Temperature, func(r *ranking.Row) any { return r.DesignCoincident }),
		sheet.Column{Key: "design_depression", Title: "Depression", Kind: units.TemperatureDifference, Formula: "[db]-[mcwb]", Raw: true,
			Value: func(i int) any {
				u := units.Temperature.Unit(z.Units)
				return u.FromSI(z.lines[i][0].DesignDryBulb) - u.FromSI(z.lines[i][0].DesignCoincident)
			}},
		z.column("wb", "1 % wet bulb", units.Temperature, func(r *ranking.Row) any { return r.DesignWetBulb }),
		z.column("mcdb", "Mean coincident dry bulb", units.Temperature, func(r *ranking.Row) any { return r.DesignWBDryBulb }),
		sheet.Banded(z.column("need", "Hours that need cooling", units.Count, func(r *ranking.Row) any { return r.NeedHours }), "Need"),
	)
	if len(z.Table.Axes) > 0 {
		cols = append(cols, z.column("combination", "Combin-ation", units.Count, func(r *ranking.Row) any { return r.Combination + 1 }))
	}
	return cols
}

// axisColumn shows a varied input in the units people see.
func (z *Book) axisColumn(n int, a ranking.Axis) sheet.Column {
	c := z.column(fmt.Sprintf("vary%d", n), a.Label(), a.Kind(), func(r *ranking.Row) any {
		if a.Numeric() {
			return r.Varied[n].SI
		}
		return r.Varied[n].Word
	})
	if n == 0 {
		c.Band = "Varied"
	}
	return c
}

func (z *Book) kindColumns(k int) []sheet.Column {
	key := kindKey(k)
	col := func(name, title string, kind units.Kind, of func(r *ranking.Row) any) sheet.Column {
		return sheet.Column{Key: key + "_" + name, Title: title, Kind: kind, Value: func(i int) any { return of(z.lines[i][k]) }}
	}
	held := col("held", "Held", units.Share, func(r *ranking.Row) any { return orBlank(r.Held) })
	held.Formula = fx.Fill(`IF([need]=0,"",[{K}_hours]/[need])`, "{K}", key)
	return []sheet.Column{
		sheet.Banded(col("hours", "Hours held", units.Count, func(r *ranking.Row) any { return r.VentHours + r.EvapHours }), upperFirst(string(ranking.Kinds[k]))+" cooler"),
		held,
		col("moving", "Held or in moving air", units.Share, func(r *ranking.Row) any { return orBlank(r.MovingAir) }),
		col("temperature", "Temper-ature held", units.Share, func(r *ranking.Row) any { return orBlank(r.TemperatureHeld) }),
		col("load", "Load held", units.Share, func(r *ranking.Row) any { return orBlank(r.LoadHeld) }),
		col("over", "Over the setpoint", units.DegreeHours, func(r *ranking.Row) any { return r.Over }),
		col("run", "Longest not covered", units.Duration, func(r *ranking.Row) any { return float64(r.LongestUncovered) }),
		col("month", "Worst month", units.Text, func(r *ranking.Row) any { return shortMonth(r.WorstMonth) }),
		col("month_held", "Held in that month", units.Share, func(r *ranking.Row) any { return orBlank(r.WorstMonthHeld) }),
		col("evaporated", "Water evaporated", units.Volume, func(r *ranking.Row) any { return r.Evaporated }),
		col("water", "Water in all", units.Volume, func(r *ranking.Row) any { return r.Evaporated + r.Drained }),
		col("kwh", "Energy", units.Energy, func(r *ranking.Row) any { return r.CoolerKWh }),
		col("cost", "Cost a year", units.Money, func(r *ranking.Row) any { return r.CoolerCost }),
		col("both_kwh", "Energy of both", units.Energy, func(r *ranking.Row) any { return r.BothKWh }),
		col("both_cost", "Cost of both", units.Money, func(r *ranking.Row) any { return r.BothCost }),
	}
}

func (z *Book) refrigeratedColumns() []sheet.Column {
	return []sheet.Column{
		sheet.Banded(z.column("capacity", "Capacity", units.Capacity, func(r *ranking.Row) any { return r.ACCapacity }), "Refrigeration"),
		z.column("ref_kwh", "Energy", units.Energy, func(r *ranking.Row) any { return r.RefKWh }),
		z.column("ref_cost", "Cost a year", units.Money, func(r *ranking.Row) any { return r.RefCost }),
		sheet.Banded(z.column("last_freeze", "Last freeze", units.Text, func(r *ranking.Row) any { return r.LastFreeze }), "Frost, month-day"),
		z.column("first_freeze", "First freeze", units.Text, func(r *ranking.Row) any { return r.FirstFreeze }),
		z.column("frost_free", "Days between", units.Count, func(r *ranking.Row) any { return orBlank(r.FrostFreeDays) }),
		sheet.Banded(z.column("latitude", "Latitude", units.Plain, func(r *ranking.Row) any { return orBlank(r.Latitude) }), "Source"),
		z.column("longitude", "Longitude", units.Plain, func(r *ranking.Row) any { return orBlank(r.Longitude) }),
		z.column("hours", "Hours with weather", units.Count, func(r *ranking.Row) any { return r.ValidHours }),
		z.column("file", "File", units.Text, func(r *ranking.Row) any { return r.File }),
	}
}

// orBlank is a value, or the empty text where there is none.
func orBlank[T any](v *T) any {
	if v == nil {
		return ""
	}
	return *v
}

func shortMonth(m int64) string {
	if m == 0 {
		return ""
	}
	return figures.MonthName(int(m) - 1)
}

func upperFirst(s string) string { return strings.ToUpper(s[:1]) + s[1:] }

// heldStops colour shares from poor to full.
var heldStops = []xlsx.Stop{
	{Kind: xlsx.AtNumber, Value: 0.5, Color: look.ScaleHeld[0]}, {Kind: xlsx.AtNumber, Value: 0.8, Color: look.ScaleHeld[1]}, {Kind: xlsx.AtNumber, Value: 1, Color: look.ScaleHeld[2]},
}

// pagesAcross is how many pages the Ranking takes side by side, to be readable.
const pagesAcross = 4

func (z *Book) layRanking(p *sheet.Page) {
	p.Place(&sheet.Table{Name: "Ranking", Rows: len(z.lines), Columns: z.rankingColumns(), Filter: true}, z.Units)
	p.FreezeCols = 1
	p.Print.TitleCols = [2]int{1, 1}
	p.Print.FitWidth = pagesAcross
	widen(p.Grids[0], map[string]float64{"site": 32, "file": 28, "carrier": 11})
	g := p.Grids[0]
	for i, c := range g.Columns {
		if c.Style.NumFmt == units.Share.Unit(z.Units).Format && !strings.HasPrefix(c.Key, "vary") {
			p.Conditional = append(p.Conditional, xlsx.CondFormat{Range: xlsx.RangeRef(g.Row, g.Col+i, g.Row+g.Rows-1, g.Col+i), Scale: heldStops})
		}
	}
}

// widen sets widths of columns by key; wide text begins at the left.
func widen(g *xlsx.Grid, widths map[string]float64) {
	const wide = 20
	for i := range g.Columns {
		c := &g.Columns[i]
		if w, ok := widths[c.Key]; ok {
			c.Width = w
			if w >= wide {
				c.Style.HAlign = xlsx.Left
			}
		}
	}
}
