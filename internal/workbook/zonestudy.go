package workbook

import (
	"fmt"
	"strings"

	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/xlsx"
	"github.com/evapbook/evapbook/internal/zone"
)

// layStudy adds the sites up by combination.
func (z *Zone) layStudy(p *page) {
	by := map[int64][]zone.Site{}
	for _, s := range z.lines {
		by[s[0].Combination] = append(by[s[0].Combination], s)
	}
	n := len(by)
	sites := func(i int) []zone.Site { return by[int64(i)] }
	sum := func(key, title string, kind units.Kind, of func(zone.Site) float64) column {
		return column{key: key, title: title, kind: kind, raw: true,
			formula: "SUMIFS([Ranking." + key + ":],[Ranking.combination:],[combination])",
			value: func(i int) any {
				total := 0.0
				for _, s := range sites(i) {
					total += kind.Unit(z.Units).FromSI(of(s))
				}
				return total
			}}
	}
	cols := []column{
		{key: "combination", band: "Combination", title: "No.", kind: units.Count, value: func(i int) any { return i + 1 }},
		{key: "label", title: "Varied inputs", kind: units.Text, value: func(i int) any { return z.combination(sites(i)[0][0]) }},
		{key: "sites", title: "Sites", kind: units.Count, formula: "COUNTIFS([Ranking.combination:],[combination])", value: func(i int) any { return len(sites(i)) }},
		withBand(sum("need", "Hours that need cooling", units.Count, func(s zone.Site) float64 { return float64(s[0].NeedHours) }), "All sites together"),
		sum("ref_kwh", "Refriger-ation energy", units.Energy, func(s zone.Site) float64 { return s[0].RefKWh }),
	}
	for k := range zone.Kinds {
		cols = append(cols, z.studyKind(k, sum)...)
	}
	p.place(&table{name: "Study", rows: n, columns: cols}, z.Units)
	widen(p.Grids[0], map[string]float64{"label": 48})
	p.FreezeCols = 2
	p.row++
	p.chartRow(560, z.studyChart("Hours held, all sites together", "share", "0 %", new(1.0)), z.studyChart("Water in all, all sites together", "water", "#,##0", nil))
}

func (z *Zone) studyKind(k int, sum func(key, title string, kind units.Kind, of func(zone.Site) float64) column) []column {
	key := kindKey(k)
	hours := sum(key+"_hours", "Hours held", units.Count, func(s zone.Site) float64 { return float64(s[k].VentHours + s[k].EvapHours) })
	hours.band = upperFirst(string(zone.Kinds[k])) + " cooler"
	need := sum("need", "", units.Count, func(s zone.Site) float64 { return float64(s[k].NeedHours) })
	return []column{
		hours,
		{key: key + "_share", title: "Held", kind: units.Share, formula: fill(`IF([need]=0,"",[{K}_hours]/[need])`, "{K}", key), value: func(i int) any {
			if need.value(i).(float64) == 0 {
				return ""
			}
			return hours.value(i).(float64) / need.value(i).(float64)
		}},
		sum(key+"_over", "Over the setpoint", units.DegreeHours, func(s zone.Site) float64 { return s[k].Over }),
		sum(key+"_water", "Water in all", units.Volume, func(s zone.Site) float64 { return s[k].Evaporated + s[k].Drained }),
		sum(key+"_kwh", "Energy", units.Energy, func(s zone.Site) float64 { return s[k].CoolerKWh }),
	}
}

// combination is a row's varied inputs in words.
func (z *Zone) combination(r *zone.Row) string {
	var words []string
	for n, a := range z.Table.Axes {
		words = append(words, fmt.Sprintf("%s %s", a.Key[strings.Index(a.Key, ".")+1:], a.Text(r.Varied[n], z.Units)))
	}
	return strings.Join(words, ", ")
}

func (z *Zone) studyChart(title, of, format string, top *float64) *xlsx.Chart {
	ch := &xlsx.Chart{Title: title, Kind: xlsx.Lines, Y: xlsx.Axis{NumFmt: format, Max: top}, Alt: "Lines over the combinations for the kinds of cooler: " + title}
	for k, kind := range zone.Kinds {
		ch.Series = append(ch.Series, xlsx.Series{Name: string(kind), X: "[Study.label:]", Y: "[Study." + kindKey(k) + "_" + of + ":]", Color: kindColour[k], Width: 2})
	}
	return ch
}
