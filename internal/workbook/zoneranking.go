package workbook

import (
	"fmt"
	"strings"

	"github.com/evapbook/evapbook/internal/look"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/xlsx"
	"github.com/evapbook/evapbook/internal/zone"
)

// kindKey is the kind of cooler k as part of a column key.
func kindKey(k int) string { return strings.ReplaceAll(string(zone.Kinds[k]), "-", "") }

// rankingColumns are one line for each site and combination.
func (z *Zone) rankingColumns() []column {
	cols := z.placeColumns()
	for k := range zone.Kinds {
		cols = append(cols, z.kindColumns(k)...)
	}
	return append(cols, z.refrigeratedColumns()...)
}

// column makes a column of the Ranking of what a site has once.
func (z *Zone) column(key, title string, kind units.Kind, of func(r *zone.Row) any) column {
	return column{key: key, title: title, kind: kind, value: func(i int) any { return of(z.lines[i][0]) }}
}

func (z *Zone) placeColumns() []column {
	cols := []column{
		withBand(z.column("site", "Site", units.Text, func(r *zone.Row) any { return r.Site }), "Place"),
		z.column("elevation", "Elevation", units.Altitude, func(r *zone.Row) any { return r.Elevation }),
		{key: "carrier", title: "Carried by", kind: units.Text, value: func(i int) any { return z.lines[i].Carrier() }},
	}
	for n, a := range z.Table.Axes {
		cols = append(cols, z.axisColumn(n, a))
	}
	cols = append(cols,
		withBand(z.column("zone", "Computed thermal zone", units.Count, func(r *zone.Row) any { return r.ThermalZone }), "Class"),
		z.column("dryness", "Dryness", units.Text, func(r *zone.Row) any { return r.Dryness }),
		z.column("depression", "Depression of warm hours", units.TemperatureDifference, func(r *zone.Row) any { return orBlank(r.WarmDepression) }),
		withBand(z.column("db", "1 % dry bulb", units.Temperature, func(r *zone.Row) any { return r.DesignDryBulb }), "Design conditions"),
		z.column("mcwb", "Mean coincident wet bulb", units.Temperature, func(r *zone.Row) any { return r.DesignCoincident }),
		column{key: "design_depression", title: "Depression", kind: units.TemperatureDifference, formula: "[db]-[mcwb]", raw: true,
			value: func(i int) any {
				u := units.Temperature.Unit(z.Units)
				return u.FromSI(z.lines[i][0].DesignDryBulb) - u.FromSI(z.lines[i][0].DesignCoincident)
			}},
		z.column("wb", "1 % wet bulb", units.Temperature, func(r *zone.Row) any { return r.DesignWetBulb }),
		z.column("mcdb", "Mean coincident dry bulb", units.Temperature, func(r *zone.Row) any { return r.DesignWBDryBulb }),
		withBand(z.column("need", "Hours that need cooling", units.Count, func(r *zone.Row) any { return r.NeedHours }), "Need"),
	)
	if len(z.Table.Axes) > 0 {
		cols = append(cols, z.column("combination", "Combin-ation", units.Count, func(r *zone.Row) any { return r.Combination + 1 }))
	}
	return cols
}

// axisColumn shows a varied input in the units people see.
func (z *Zone) axisColumn(n int, a zone.Axis) column {
	c := z.column(fmt.Sprintf("vary%d", n), a.Label(), a.Kind(), func(r *zone.Row) any {
		if a.Numeric() {
			return r.Varied[n].SI
		}
		return r.Varied[n].Word
	})
	if n == 0 {
		c.band = "Varied"
	}
	return c
}

func (z *Zone) kindColumns(k int) []column {
	key := kindKey(k)
	col := func(name, title string, kind units.Kind, of func(r *zone.Row) any) column {
		return column{key: key + "_" + name, title: title, kind: kind, value: func(i int) any { return of(z.lines[i][k]) }}
	}
	held := col("held", "Held", units.Share, func(r *zone.Row) any { return orBlank(r.Held) })
	held.formula = fill(`IF([need]=0,"",[{K}_hours]/[need])`, "{K}", key)
	return []column{
		withBand(col("hours", "Hours held", units.Count, func(r *zone.Row) any { return r.VentHours + r.EvapHours }), upperFirst(string(zone.Kinds[k]))+" cooler"),
		held,
		col("temperature", "Temper-ature held", units.Share, func(r *zone.Row) any { return orBlank(r.TemperatureHeld) }),
		col("load", "Load held", units.Share, func(r *zone.Row) any { return orBlank(r.LoadHeld) }),
		col("over", "Over the setpoint", units.DegreeHours, func(r *zone.Row) any { return r.Over }),
		col("run", "Longest not covered", units.Duration, func(r *zone.Row) any { return float64(r.LongestUncovered) }),
		col("month", "Worst month", units.Text, func(r *zone.Row) any { return shortMonth(r.WorstMonth) }),
		col("month_held", "Held in that month", units.Share, func(r *zone.Row) any { return orBlank(r.WorstMonthHeld) }),
		col("evaporated", "Water evaporated", units.Volume, func(r *zone.Row) any { return r.Evaporated }),
		col("water", "Water in all", units.Volume, func(r *zone.Row) any { return r.Evaporated + r.Drained }),
		col("kwh", "Energy", units.Energy, func(r *zone.Row) any { return r.CoolerKWh }),
		col("cost", "Cost a year", units.Money, func(r *zone.Row) any { return r.CoolerCost }),
		col("both_kwh", "Energy of both", units.Energy, func(r *zone.Row) any { return r.BothKWh }),
		col("both_cost", "Cost of both", units.Money, func(r *zone.Row) any { return r.BothCost }),
	}
}

func (z *Zone) refrigeratedColumns() []column {
	return []column{
		withBand(z.column("capacity", "Capacity", units.Capacity, func(r *zone.Row) any { return r.ACCapacity }), "Refrigeration"),
		z.column("ref_kwh", "Energy", units.Energy, func(r *zone.Row) any { return r.RefKWh }),
		z.column("ref_cost", "Cost a year", units.Money, func(r *zone.Row) any { return r.RefCost }),
		withBand(z.column("last_freeze", "Last freeze", units.Text, func(r *zone.Row) any { return r.LastFreeze }), "Frost, month-day"),
		z.column("first_freeze", "First freeze", units.Text, func(r *zone.Row) any { return r.FirstFreeze }),
		z.column("frost_free", "Days between", units.Count, func(r *zone.Row) any { return orBlank(r.FrostFreeDays) }),
		withBand(z.column("latitude", "Latitude", units.Plain, func(r *zone.Row) any { return orBlank(r.Latitude) }), "Source"),
		z.column("longitude", "Longitude", units.Plain, func(r *zone.Row) any { return orBlank(r.Longitude) }),
		z.column("hours", "Hours with weather", units.Count, func(r *zone.Row) any { return r.ValidHours }),
		z.column("file", "File", units.Text, func(r *zone.Row) any { return r.File }),
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
	return monthName(int(m) - 1)
}

func upperFirst(s string) string { return strings.ToUpper(s[:1]) + s[1:] }

// heldStops colour shares from poor to full.
var heldStops = []xlsx.Stop{
	{Kind: xlsx.AtNumber, Value: 0.5, Color: look.ScaleHeld[0]}, {Kind: xlsx.AtNumber, Value: 0.8, Color: look.ScaleHeld[1]}, {Kind: xlsx.AtNumber, Value: 1, Color: look.ScaleHeld[2]},
}

// pagesAcross is how many pages the Ranking takes side by side, to be readable.
const pagesAcross = 4

func (z *Zone) layRanking(p *page) {
	p.place(&table{name: "Ranking", rows: len(z.lines), columns: z.rankingColumns(), filter: true}, z.Units)
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
