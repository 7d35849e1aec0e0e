package manysites

import (
	"fmt"
	"strings"

	"github.com/evapbook/evapbook/internal/ranking"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/workbook/fx"
	"github.com/evapbook/evapbook/internal/workbook/sheet"
	"github.com/evapbook/evapbook/internal/xlsx/chart"
)

// layStudy adds the sites up by combination.
func (z *Book) layStudy(p *sheet.Page) {
	by := map[int64][]ranking.Site{}
	for _, s := range z.lines {
		by[s[0].Combination] = append(by[s[0].Combination], s)
	}
	n := len(by)
	sites := func(i int) []ranking.Site { return by[int64(i)] }
	sum := func(key, title string, kind units.Kind, of func(ranking.Site) float64) sheet.Column {
		return sheet.Column{Key: key, Title: title, Kind: kind, Raw: true,
			Formula: "SUMIFS([Ranking." + key + ":],[Ranking.combination:],[combination])",
			Value: func(i int) any {
				total := 0.0
				for _, s := range sites(i) {
					total += kind.Unit(z.Units).FromSI(of(s))
				}
				return total
			}}
	}
	cols := []sheet.Column{
		{Key: "combination", Band: "Combination", Title: "No.", Kind: units.Count, Value: func(i int) any { return i + 1 }},
		{Key: "label", Title: "Varied inputs", Kind: units.Text, Value: func(i int) any { return z.combination(sites(i)[0][0]) }},
		{
			Key: "sites", Title: "Sites", Kind: units.Count,
			Formula: "COUNTIFS([Ranking.combination:],[combination])",
			Value:   func(i int) any { return len(sites(i)) },
		},
		sheet.Banded(sum("need", "Hours that need cooling", units.Count, func(s ranking.Site) float64 { return float64(s[0].NeedHours) }), "All sites together"),
		sum("ref_kwh", "Refriger-ation energy", units.Energy, func(s ranking.Site) float64 { return s[0].RefKWh }),
	}
	for k := range ranking.Kinds {
		cols = append(cols, z.studyKind(k, sum)...)
	}
	p.Place(&sheet.Table{Name: "Study", Rows: n, Columns: cols}, z.Units)
	widen(p.Grids[0], map[string]float64{"label": 48})
	p.FreezeCols = 2
	p.Row++
	p.ChartRow(560, z.studyChart("Hours held, all sites together", "share", "0 %", new(1.0)), z.studyChart("Water in all, all sites together", "water", "#,##0", nil))
}

func (z *Book) studyKind(k int, sum func(key, title string, kind units.Kind, of func(ranking.Site) float64) sheet.Column) []sheet.Column {
	key := kindKey(k)
	hours := sum(key+"_hours", "Hours held", units.Count, func(s ranking.Site) float64 { return float64(s[k].VentHours + s[k].EvapHours) })
	hours.Band = upperFirst(string(ranking.Kinds[k])) + " cooler"
	need := sum("need", "", units.Count, func(s ranking.Site) float64 { return float64(s[k].NeedHours) })
	return []sheet.Column{
		hours,
		{
			Key: key + "_share", Title: "Held", Kind: units.Share,
			Formula: fx.Fill(`IF([need]=0,"",[{K}_hours]/[need])`, "{K}", key),
			Value: func(i int) any {
				if need.Value(i).(float64) == 0 {
					return ""
				}
				return hours.Value(i).(float64) / need.Value(i).(float64)
			},
		},
		sum(key+"_over", "Over the setpoint", units.DegreeHours, func(s ranking.Site) float64 { return s[k].Over }),
		sum(key+"_water", "Water in all", units.Volume, func(s ranking.Site) float64 { return s[k].Evaporated + s[k].Drained }),
		sum(key+"_kwh", "Energy", units.Energy, func(s ranking.Site) float64 { return s[k].CoolerKWh }),
	}
}

// combination is a row's varied inputs in words.
func (z *Book) combination(r *ranking.Row) string {
	var words []string
	for n, a := range z.Table.Axes {
		words = append(words, fmt.Sprintf("%s %s", a.Key[strings.Index(a.Key, ".")+1:], a.Text(r.Varied[n], z.Units)))
	}
	return strings.Join(words, ", ")
}

func (z *Book) studyChart(title, of, format string, top *float64) *chart.Chart {
	ch := &chart.Chart{Title: title, Kind: chart.Lines, Y: chart.Axis{NumFmt: format, Max: top}, Alt: "Lines over the combinations for the kinds of cooler: " + title}
	for k, kind := range ranking.Kinds {
		ch.Series = append(ch.Series, chart.Series{Name: string(kind), X: "[Study.label:]", Y: "[Study." + kindKey(k) + "_" + of + ":]", Color: kindColour[k], Width: 2})
	}
	return ch
}
