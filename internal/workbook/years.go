package workbook

import (
	"fmt"
	"math"
	"time"

	"github.com/evapbook/evapbook/internal/look"
	"github.com/evapbook/evapbook/internal/money"
	"github.com/evapbook/evapbook/internal/season"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/xlsx"
	"github.com/evapbook/evapbook/internal/years"
)

// yearsColumns are the columns of the Years sheet: values, computed at writing,
// in the units people see.
func (c *Case) yearsColumns() []column {
	t := c.Years
	row := func(i int) *years.Row { return &t.Rows[i] }
	hours := func(o season.Outcome, title string) column {
		return column{key: o.String(), title: title, kind: units.Count, value: func(i int) any { return row(i).Hours[o] }}
	}
	number := func(key, title string, kind units.Kind, of func(*years.Row) float64) column {
		return column{key: key, title: title, kind: kind, value: func(i int) any { return orNone(of(row(i))) }}
	}
	date := func(key, title string, of func(*years.Row) time.Time) column {
		return column{key: key, title: title, kind: units.Date, value: func(i int) any {
			if d := of(row(i)); !d.IsZero() {
				return d
			}
			return None
		}}
	}
	return []column{
		{key: "year", band: "Year", title: "Year", kind: units.Text, value: func(i int) any { return row(i).Label }},
		withBand(hours(season.Vent, "Held by outdoor air"), "Hours"), hours(season.Evap, "Held with water"), hours(season.Damp, "Too damp"), hours(season.Warm, "Too warm"),
		{key: "need", title: "Need cooling", kind: units.Count, value: func(i int) any { return row(i).Hours.Need() }},
		number("coverage", "Held of those", units.Share, years.Coverage),
		number("over", "Above the setpoint", units.DegreeHours, func(r *years.Row) float64 { return r.Over }),
		withBand(number("water", "In all", units.Volume, func(r *years.Row) float64 { return r.Water }), "Water"),
		withBand(number("cooler_kwh", "Cooler", units.Energy, func(r *years.Row) float64 { return r.CoolerKWh }), "Energy"),
		number("ref_kwh", "Refriger-ation", units.Energy, func(r *years.Row) float64 { return r.RefKWh }),
		number("both_kwh", "Both together", units.Energy, func(r *years.Row) float64 { return r.BothKWh }),
		withBand(number("dry", "1 % dry bulb", units.Temperature, func(r *years.Row) float64 { return r.DesignDry }), "Weather"),
		number("cdd", "Cooling degree-days", units.DegreeDays, func(r *years.Row) float64 { return r.Cooling }),
		date("last_freeze", "Last freeze", func(r *years.Row) time.Time { return r.LastFreeze }),
		date("first_freeze", "First freeze", func(r *years.Row) time.Time { return r.FirstFreeze }),
		{key: "missing", title: "Hours missing", kind: units.Count, value: func(i int) any { return row(i).Missing }},
	}
}

// layYears compares the years, and says which one the other sheets show.
func (c *Case) layYears(p *page) {
	t := c.Years
	cols := c.yearsColumns()
	p.computedAtWriting(len(cols))
	p.text(c.yearsIntroduction(), "", len(cols), 2, styleText)
	p.row++
	p.place(&table{name: "Years", rows: len(t.Rows), columns: cols}, c.Units)
	p.FreezeCols = 1
	p.row--
	c.yearsSummary(p, cols)
	p.row++
	c.yearsCharts(p)
	if len(t.Rows) <= 12 { // a longer table is small enough on one page of width
		p.Print.FitHeight = 1
	}
}

func (c *Case) yearsIntroduction() string {
	t := c.Years
	first, last := t.Rows[0].Label, t.Rows[t.Counts-1].Label
	text := fmt.Sprintf("%d years, %s to %s, each carried through the same house, cooler and refrigerated unit. The hours on all other sheets are those of %s: %s.",
		t.Counts, first, last, t.Rows[t.Shown].Label, t.Why)
	cover := t.Range(years.Coverage)
	if !math.IsNaN(cover.Median) {
		text += fmt.Sprintf(" Of the hours that need cooling the cooler holds %s in the median year, %s in the best (%s) and %s in the worst (%s).",
			wholePercent(cover.Median), wholePercent(cover.Highest), cover.HighestIn, wholePercent(cover.Lowest), cover.LowestIn)
	}
	text += " Below the years stand the median, what one year in ten stays below and above (tenth and ninetieth percentile), and the extremes with their years."
	if t.South {
		text += " Years run from July to June, so that each holds one season."
	}
	return text
}

func wholePercent(v float64) string { return fixed(100*v, 0) + " %" }

// yearsSummary writes the spread of each column below the years as formulas
// over them; a typical year takes no part.
func (c *Case) yearsSummary(p *page, cols []column) {
	counted := span(0, c.Years.Counts)
	for _, line := range []struct {
		label string
		value func(years.Range) any
		make  string // {R} the column's years, {Y} their labels
	}{
		{"Median", func(r years.Range) any { return r.Median }, "MEDIAN({R})"},
		{"10 % below", func(r years.Range) any { return r.Tenth }, "PERCENTILE({R},0.1)"},
		{"10 % above", func(r years.Range) any { return r.Ninetieth }, "PERCENTILE({R},0.9)"},
		{"Lowest", func(r years.Range) any { return r.Lowest }, "MIN({R})"},
		{"in", func(r years.Range) any { return r.LowestIn }, "INDEX({Y},MATCH(MIN({R}),{R},0))"},
		{"Highest", func(r years.Range) any { return r.Highest }, "MAX({R})"},
		{"in", func(r years.Range) any { return r.HighestIn }, "INDEX({Y},MATCH(MAX({R}),{R},0))"},
	} {
		p.Set(p.row, 1, xlsx.Cell{Value: line.label, Style: styleLabel})
		for k := 1; k < len(cols); k++ {
			p.Set(p.row, 1+k, c.summaryCell(&cols[k], line.value, fill(line.make, "{R}", "[Years."+cols[k].key+counted+"]", "{Y}", "[Years.year"+counted+"]")))
		}
		p.row++
	}
}

// summaryCell is empty where the column holds dates or no year has a value.
func (c *Case) summaryCell(col *column, of func(years.Range) any, formula string) xlsx.Cell {
	u := col.kind.Unit(c.Units)
	style := numberStyle(u.Format)
	if col.kind == units.Date {
		return xlsx.Cell{Style: style}
	}
	r := c.Years.RangeAt(func(i int) float64 { return asNumber(col.value(i)) })
	if math.IsNaN(r.Median) {
		return xlsx.Cell{Style: style}
	}
	return xlsx.Cell{Value: display(u, of(r)), Formula: formula, Style: style}
}

// asNumber is NaN for what is no number.
func asNumber(v any) float64 {
	switch v := v.(type) {
	case float64:
		return v
	case int:
		return float64(v)
	}
	return math.NaN()
}

func (c *Case) yearsCharts(p *page) {
	hours := &xlsx.Chart{Title: "Hours that need cooling, by year", Kind: xlsx.Columns, Stack: xlsx.Stacked, Y: xlsx.Axis{Title: "hours", NumFmt: "#,##0"},
		Alt: "Stacked columns: hours of each year held by outdoor air, held with water, too damp and too warm"}
	for _, s := range outcomeSeries {
		hours.Series = append(hours.Series, xlsx.Series{Name: s.name, X: "[Years.year:]", Y: "[Years." + s.outcome.String() + ":]", Color: outcomeColour[s.outcome]})
	}
	energy := &xlsx.Chart{Title: "Energy by year", Kind: xlsx.Columns, Y: xlsx.Axis{Title: c.unit(units.Energy), NumFmt: "#,##0"},
		Alt: "Columns: energy of the cooler, refrigeration and both together in each year"}
	for w, key := range []string{"cooler_kwh", "ref_kwh", "both_kwh"} {
		energy.Series = append(energy.Series, xlsx.Series{Name: wayTitle[money.Way(w)], X: "[Years.year:]", Y: "[Years." + key + ":]", Color: wayColour[money.Way(w)]})
	}
	cover := &xlsx.Chart{Title: "Share of the hours that need cooling which the cooler holds", Kind: xlsx.Lines, Legend: xlsx.NoLegend, Y: xlsx.Axis{Max: new(1.0), NumFmt: "0 %"},
		Alt:    "Line with points: held share of each year",
		Series: []xlsx.Series{{Name: "held", X: "[Years.year:]", Y: "[Years.coverage:]", Color: look.Evap, Width: 2, Marker: xlsx.Marker{Shape: xlsx.Circle}}}}
	water := &xlsx.Chart{Title: "Water by year", Kind: xlsx.Columns, Legend: xlsx.NoLegend, Y: xlsx.Axis{Title: c.unit(units.Volume), NumFmt: "#,##0"},
		Alt:    "Columns: water evaporated and drained in each year",
		Series: []xlsx.Series{{Name: "water", X: "[Years.year:]", Y: "[Years.water:]", Color: look.Supply}}}
	p.chartRow(560, hours, cover)
	p.chartRow(560, energy, water)
}

// yearsObject is the comparison of the years for JSON, in SI.
func yearsObject(t *years.Table) map[string]any {
	list := []map[string]any{}
	for i := range t.Rows {
		r := &t.Rows[i]
		one := map[string]any{"year": r.Label, "file": r.File, "hours_missing": r.Missing, "counts": i < t.Counts,
			"last_freeze": jsonDate(r.LastFreeze), "first_freeze": jsonDate(r.FirstFreeze)}
		for _, q := range years.Quantities {
			one[q.Key] = jsonValue(q.Of(r))
		}
		list = append(list, one)
	}
	spread := map[string]any{}
	for _, q := range years.Quantities {
		r := t.Range(q.Of)
		spread[q.Key] = map[string]any{"median": jsonValue(r.Median), "p10": jsonValue(r.Tenth), "p90": jsonValue(r.Ninetieth),
			"lowest": jsonValue(r.Lowest), "lowest_year": r.LowestIn, "highest": jsonValue(r.Highest), "highest_year": r.HighestIn}
	}
	cover := t.Range(years.Coverage)
	basis := "calendar years"
	if t.South {
		basis = "July to June"
	}
	return map[string]any{"basis": basis, "shown": t.Rows[t.Shown].Label, "shown_because": t.Why, "years": list, "range": spread,
		"best_year": cover.HighestIn, "worst_year": cover.LowestIn}
}

func jsonDate(d time.Time) any {
	if d.IsZero() {
		return nil
	}
	return jsonValue(d)
}
