package workbook

import (
	"fmt"
	"math"

	"github.com/evapbook/evapbook/internal/look"
	"github.com/evapbook/evapbook/internal/season"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/xlsx"
)

// bin is a range of dry bulb in the unit people see: low <= T < high.
type bin struct {
	low, high float64
	hours     []int // hours of the climate that fall into it
}

// binSteps are 5 °F from 40 °F, or 2.5 °C from 5 °C; everything below goes into
// the first bin.
func (c *Case) binSteps() (start, width float64) {
	if c.Units == units.IP {
		return 40, 5
	}
	return 5, 2.5
}

// binCount takes the bins to 130 °F or 50 °C; everything above goes into the last.
const binCount = 20

// bins sorts the hours into dry-bulb bins.
func (c *Case) bins() []bin {
	u := units.Temperature.Unit(c.Units)
	start, width := c.binSteps()
	out := make([]bin, binCount)
	for k := range out {
		out[k] = bin{low: start + float64(k-1)*width, high: start + float64(k)*width}
	}
	out[0].low, out[binCount-1].high = math.Inf(-1), math.Inf(1)
	for i := range c.Season.Hours {
		if c.missing(i) {
			continue
		}
		t := c.Season.Climate.Hours[i].Air.T
		for k := range out {
			if t < edge(u, out[k].high) {
				out[k].hours = append(out[k].hours, i)
				break
			}
		}
	}
	return out
}

// edge is a bin's limit in SI with the 15 digits that criteria compare by, and
// so little under it that a value on the edge counts as above.
func edge(u units.Unit, shown float64) float64 { return u.ToSI(shown) - 1e-9 }

// binsColumns are the columns of the Bins sheet, in the units people see.
func (c *Case) binsColumns(bins []bin) []column {
	u := units.Temperature.Unit(c.Units)
	in := func(b int) string { // criteria that pick the hours of a bin
		above := `[Working.t:],">="&(` + u.ToSICell("[low]") + "-1E-9)"
		below := `[Working.t:],"<"&(` + u.ToSICell("[high]") + "-1E-9)"
		switch b {
		case 0:
			return below
		case len(bins) - 1:
			return above
		default:
			return above + "," + below
		}
	}
	hour := func(i int) *season.Hour { return &c.Season.Hours[i] }
	sum := func(key, title string, kind units.Kind, of func(*season.Hour) float64) column {
		return column{key: key, title: title, kind: kind, rowFormula: func(b int) string { return "SUMIFS([Working." + key + ":]," + in(b) + ")" },
			value: func(b int) any {
				total := 0.0
				for _, i := range bins[b].hours {
					total += of(hour(i))
				}
				return total
			}}
	}
	mean := func(key, title string, of func(i int) float64) column {
		conv := displayFormula(u, "AVERAGEIFS([Working."+key+":],%s)")
		return column{key: key, title: title, kind: units.Temperature, raw: true,
			rowFormula: func(b int) string { return `IF([hours]=0,"",` + fmt.Sprintf(conv, in(b)) + ")" },
			value: func(b int) any {
				if len(bins[b].hours) == 0 {
					return ""
				}
				total := 0.0
				for _, i := range bins[b].hours {
					total += of(i)
				}
				return u.FromSI(total / float64(len(bins[b].hours)))
			}}
	}
	count := func(o season.Outcome) column {
		return column{key: o.String(), title: o.String(), kind: units.Count,
			rowFormula: func(b int) string {
				return "COUNTIFS(" + in(b) + `,[Working.outcome:],"` + o.String() + `")`
			},
			value: func(b int) any {
				n := 0
				for _, i := range bins[b].hours {
					n += flag(hour(i).Outcome == o)
				}
				return n
			}}
	}
	return []column{
		{key: "label", band: "Dry bulb", title: "Bin", kind: units.Text, value: func(b int) any { return binLabel(bins, b) }},
		{key: "low", title: "From", kind: units.Temperature, raw: true, value: func(b int) any { return openEnd(bins[b].low) }},
		{key: "high", title: "To below", kind: units.Temperature, raw: true, value: func(b int) any { return openEnd(bins[b].high) }},
		{key: "hours", band: "Hours", title: "In all", kind: units.Count, rowFormula: func(b int) string { return "COUNTIFS(" + in(b) + ")" }, value: func(b int) any { return len(bins[b].hours) }},
		count(season.Idle), count(season.Vent), count(season.Evap), count(season.Damp), count(season.Warm),
		withBand(mean("wb", "Mean coincident wet bulb", func(i int) float64 { return c.cells[i].wetBulb }), "Temperature"),
		mean("ts", "Mean supply with water", func(i int) float64 { return hour(i).Supply.T }),
		withBand(sum("evaporated", "Water evaporated", units.Volume, func(h *season.Hour) float64 { return h.Evaporated }), "Takes"),
		sum("cooler_kwh", "Cooler energy", units.Energy, func(h *season.Hour) float64 { return h.CoolerKWh }),
		sum("ref_kwh", "Refrigeration energy", units.Energy, func(h *season.Hour) float64 { return h.RefKWh }),
	}
}

// openEnd leaves the cell of an open end blank.
func openEnd(v float64) any {
	if math.IsInf(v, 0) {
		return ""
	}
	return v
}

func binLabel(bins []bin, b int) string {
	switch b {
	case 0:
		return fmt.Sprintf("below %g", bins[0].high)
	case len(bins) - 1:
		return fmt.Sprintf("%g and up", bins[b].low)
	default:
		return fmt.Sprintf("%g to %g", bins[b].low, bins[b].high)
	}
}

func (c *Case) layBins(p *page) {
	bins := c.bins()
	p.place(&table{name: "Bins", rows: len(bins), columns: c.binsColumns(bins)}, c.Units)
	p.text("Every hour with weather stands in one bin. Mean coincident wet bulb is the mean over the hours of the bin.", "", 12, 1, styleSmall)
	p.row++
	first := 0 // bins without a need hour on the cold side are left out of the charts
	for first < len(bins)-1 && !c.needed(bins[first]) {
		first++
	}
	last := len(bins) - 1
	for last > first && len(bins[last].hours) == 0 {
		last--
	}
	rows := span(first, last+1)
	hours := &xlsx.Chart{Title: "Hours that need cooling, by outdoor dry bulb", Kind: xlsx.Columns, Stack: xlsx.Stacked,
		X: xlsx.Axis{Title: "outdoor dry bulb, " + c.unit(units.Temperature)}, Y: xlsx.Axis{Title: "hours", NumFmt: "#,##0"},
		Alt: "Stacked columns: hours of each dry-bulb bin held by outdoor air, held with water, too damp and too warm"}
	for _, s := range outcomeSeries {
		hours.Series = append(hours.Series, xlsx.Series{Name: s.name, X: "[Bins.label" + rows + "]", Y: "[Bins." + s.outcome.String() + rows + "]", Color: outcomeColour[s.outcome]})
	}
	temperature := &xlsx.Chart{Title: "Wet bulb and supply, by outdoor dry bulb", Kind: xlsx.Lines,
		X: xlsx.Axis{Title: "outdoor dry bulb, " + c.unit(units.Temperature)}, Y: xlsx.Axis{Title: c.unit(units.Temperature), NumFmt: "0"},
		Alt: "Lines: mean coincident wet bulb and mean supply temperature of each dry-bulb bin",
		Series: []xlsx.Series{
			{Name: "mean supply with water", X: "[Bins.label" + rows + "]", Y: "[Bins.ts" + rows + "]", Color: look.Supply, Width: 2},
			{Name: "mean coincident wet bulb", X: "[Bins.label" + rows + "]", Y: "[Bins.wb" + rows + "]", Color: look.WetBulb, Width: 2, Dash: xlsx.Dashes},
		}}
	p.Print.FitHeight = 1
	p.chartRow(480, hours, temperature)
}

func (c *Case) needed(b bin) bool {
	for _, i := range b.hours {
		if c.Season.Hours[i].Outcome.Need() {
			return true
		}
	}
	return false
}
