package engineer

import (
	"fmt"
	"math"
	"time"

	"github.com/evapbook/evapbook/internal/look"
	"github.com/evapbook/evapbook/internal/money"
	"github.com/evapbook/evapbook/internal/season"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/workbook/figures"
	"github.com/evapbook/evapbook/internal/workbook/fx"
	"github.com/evapbook/evapbook/internal/workbook/sheet"
	"github.com/evapbook/evapbook/internal/xlsx"
	"github.com/evapbook/evapbook/internal/xlsx/chart"
	"github.com/evapbook/evapbook/internal/years"
)

// yearsColumns are the columns of the Years sheet: values, computed at writing,
// in the units people see.
func yearsColumns(c *figures.Case) []sheet.Column {
	t := c.Years
	row := func(i int) *years.Row { return &t.Rows[i] }
	hours := func(o season.Outcome) sheet.Column {
		return sheet.Column{Key: o.String(), Title: sheet.OutcomeTitle(o), Kind: units.Count, Value: func(i int) any { return row(i).Hours[o] }}
	}
	number := func(key, title string, kind units.Kind, of func(*years.Row) float64) sheet.Column {
		return sheet.Column{Key: key, Title: title, Kind: kind, Value: func(i int) any { return figures.OrNone(of(row(i))) }}
	}
	date := func(key, title string, of func(*years.Row) time.Time) sheet.Column {
		return sheet.Column{Key: key, Title: title, Kind: units.Date, Value: func(i int) any {
			if d := of(row(i)); !d.IsZero() {
				return d
			}
			return figures.None
		}}
	}
	return []sheet.Column{
		{Key: "year", Band: "Year", Title: "Year", Kind: units.Text, Value: func(i int) any { return row(i).Label }},
		sheet.Banded(hours(season.Vent), "Hours"), hours(season.Evap), hours(season.Damp), hours(season.Warm),
		{Key: "need", Title: "Need cooling", Kind: units.Count, Value: func(i int) any { return row(i).Hours.Need() }},
		number("coverage", "Held of those", units.Share, years.Coverage),
		number("over", "Above the setpoint", units.DegreeHours, func(r *years.Row) float64 { return r.Over }),
		sheet.Banded(number("water", "In all", units.Volume, func(r *years.Row) float64 { return r.Water }), "Water"),
		sheet.Banded(number("cooler_kwh", "Cooler", units.Energy, func(r *years.Row) float64 { return r.CoolerKWh }), "Energy"),
		number("ref_kwh", "Refriger-ation", units.Energy, func(r *years.Row) float64 { return r.RefKWh }),
		number("both_kwh", "Both together", units.Energy, func(r *years.Row) float64 { return r.BothKWh }),
		sheet.Banded(number("dry", "1 % dry bulb", units.Temperature, func(r *years.Row) float64 { return r.DesignDry }), "Weather"),
		number("cdd", "Cooling degree-days", units.DegreeDays, func(r *years.Row) float64 { return r.Cooling }),
		date("last_freeze", "Last freeze", func(r *years.Row) time.Time { return r.LastFreeze }),
		date("first_freeze", "First freeze", func(r *years.Row) time.Time { return r.FirstFreeze }),
		{Key: "missing", Title: "Hours missing", Kind: units.Count, Value: func(i int) any { return row(i).Missing }},
	}
}

// Years compares the years, and says which one the other sheets show.
func Years(c *figures.Case, p *sheet.Page) {
	t := c.Years
	cols := yearsColumns(c)
	p.ComputedAtWriting(len(cols))
	p.Text(yearsIntroduction(c), "", len(cols), 3, sheet.Text)
	p.Row++
	p.Place(&sheet.Table{Name: "Years", Rows: len(t.Rows), Columns: cols}, c.Units)
	p.FreezeCols = 1
	p.Row--
	yearsSummary(c, p, cols)
	p.Row++
	yearsCharts(c, p)
	if len(t.Rows) <= 12 { // a longer table is small enough on one page of width
		p.Print.FitHeight = 1
	}
}

func yearsIntroduction(c *figures.Case) string {
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

func wholePercent(v float64) string { return sheet.Fixed(100*v, 0) + " %" }

// yearsSummary writes the spread of each column below the years as formulas
// over them; a typical year takes no part.
func yearsSummary(c *figures.Case, p *sheet.Page, cols []sheet.Column) {
	counted := sheet.Rows(0, c.Years.Counts)
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
		p.Set(p.Row, 1, xlsx.Cell{Value: line.label, Style: sheet.Label})
		for k := 1; k < len(cols); k++ {
			p.Set(p.Row, 1+k, summaryCell(c, &cols[k], line.value, fx.Fill(line.make, "{R}", "[Years."+cols[k].Key+counted+"]", "{Y}", "[Years.year"+counted+"]")))
		}
		p.Row++
	}
}

// summaryCell is empty where the column holds dates or no year has a value.
func summaryCell(c *figures.Case, col *sheet.Column, of func(years.Range) any, formula string) xlsx.Cell {
	u := col.Kind.Unit(c.Units)
	style := sheet.Number(u.Format)
	if col.Kind == units.Date {
		return xlsx.Cell{Style: style}
	}
	r := c.Years.RangeAt(func(i int) float64 { return asNumber(col.Value(i)) })
	if math.IsNaN(r.Median) {
		return xlsx.Cell{Style: style}
	}
	return xlsx.Cell{Value: sheet.Display(u, of(r)), Formula: formula, Style: style}
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

func yearsCharts(c *figures.Case, p *sheet.Page) {
	hours := &chart.Chart{Title: "Hours that need cooling, by year", Kind: chart.Columns, Stack: chart.Stacked, Y: chart.Axis{Title: "hours", NumFmt: "#,##0"},
		Alt: "Stacked columns: hours of each year that open windows hold, that the cooler holds, too damp and too warm"}
	for _, s := range sheet.OutcomeSeries {
		hours.Series = append(hours.Series, chart.Series{Name: s.Name, X: "[Years.year:]", Y: "[Years." + s.Outcome.String() + ":]", Color: sheet.OutcomeColour[s.Outcome]})
	}
	energy := &chart.Chart{Title: "Energy by year", Kind: chart.Columns, Y: chart.Axis{Title: c.Symbol(units.Energy), NumFmt: "#,##0"},
		Alt: "Columns: energy of the cooler, refrigeration and both together in each year"}
	for w, key := range []string{"cooler_kwh", "ref_kwh", "both_kwh"} {
		energy.Series = append(energy.Series, chart.Series{Name: figures.WayTitle[money.Way(w)], X: "[Years.year:]", Y: "[Years." + key + ":]", Color: sheet.WayColour[money.Way(w)]})
	}
	cover := &chart.Chart{Title: "Share of the hours that need cooling which the cooler holds", Kind: chart.Lines, NoLegend: true, Y: chart.Axis{Title: "share of the hours", Max: new(1.0), NumFmt: "0 %"},
		Alt:    "Line with points: held share of each year",
		Series: []chart.Series{{Name: "held", X: "[Years.year:]", Y: "[Years.coverage:]", Color: look.Evap, Width: 2, Marker: chart.Marker{Shape: chart.Circle}}}}
	water := &chart.Chart{Title: "Water by year", Kind: chart.Columns, NoLegend: true, Y: chart.Axis{Title: c.Symbol(units.Volume), NumFmt: "#,##0"},
		Alt:    "Columns: water evaporated and drained in each year",
		Series: []chart.Series{{Name: "water", X: "[Years.year:]", Y: "[Years.water:]", Color: look.Supply}}}
	p.ChartRow(560, hours, cover)
	p.ChartRow(560, energy, water)
}
