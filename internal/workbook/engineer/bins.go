package engineer

import (
	"fmt"
	"math"

	"github.com/evapbook/evapbook/internal/look"
	"github.com/evapbook/evapbook/internal/season"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/workbook/figures"
	"github.com/evapbook/evapbook/internal/workbook/fx"
	"github.com/evapbook/evapbook/internal/workbook/sheet"
	"github.com/evapbook/evapbook/internal/xlsx/chart"
)

// bin is a range of dry bulb in the unit people see: low <= T < high.
type bin struct {
	low, high float64
	hours     []int // hours of the climate that fall into it
}

// binSteps are 5 °F from 40 °F, or 2.5 °C from 5 °C; everything below goes into
// the first bin.
func binSteps(c *figures.Case) (start, width float64) {
	if c.Units == units.IP {
		return 40, 5
	}
	return 5, 2.5
}

// binCount takes the bins to 130 °F or 50 °C; everything above goes into the last.
const binCount = 20

// bins sorts the hours into dry-bulb bins.
func bins(c *figures.Case) []bin {
	u := units.Temperature.Unit(c.Units)
	start, width := binSteps(c)
	out := make([]bin, binCount)
	for k := range out {
		out[k] = bin{low: start + float64(k-1)*width, high: start + float64(k)*width}
	}
	out[0].low, out[binCount-1].high = math.Inf(-1), math.Inf(1)
	for i := range c.Season.Hours {
		if c.Missing(i) {
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
func binsColumns(c *figures.Case, bins []bin) []sheet.Column {
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
	sum := func(key, title string, kind units.Kind, of func(*season.Hour) float64) sheet.Column {
		return sheet.Column{
			Key: key, Title: title, Kind: kind,
			RowFormula: func(b int) string { return "SUMIFS([Working." + key + ":]," + in(b) + ")" },
			Value: func(b int) any {
				total := 0.0
				for _, i := range bins[b].hours {
					total += of(hour(i))
				}
				return total
			},
		}
	}
	mean := func(key, title string, of func(i int) float64) sheet.Column {
		conv := sheet.DisplayFormula(u, "AVERAGEIFS([Working."+key+":],%s)")
		return sheet.Column{Key: key, Title: title, Kind: units.Temperature, Raw: true,
			RowFormula: func(b int) string { return `IF([hours]=0,"",` + fmt.Sprintf(conv, in(b)) + ")" },
			Value: func(b int) any {
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
	count := func(o season.Outcome) sheet.Column {
		return sheet.Column{Key: o.String(), Title: sheet.OutcomeTitle(o), Kind: units.Count,
			RowFormula: func(b int) string {
				return "COUNTIFS(" + in(b) + `,[Working.outcome:],"` + o.String() + `")`
			},
			Value: func(b int) any {
				n := 0
				for _, i := range bins[b].hours {
					n += fx.Flag(hour(i).Outcome == o)
				}
				return n
			}}
	}
	return []sheet.Column{
		{Key: "label", Band: "Dry bulb", Title: "Bin", Kind: units.Text, Value: func(b int) any { return binLabel(bins, b) }},
		{Key: "low", Title: "From", Kind: units.Temperature, Raw: true, Value: func(b int) any { return openEnd(bins[b].low) }},
		{Key: "high", Title: "To below", Kind: units.Temperature, Raw: true, Value: func(b int) any { return openEnd(bins[b].high) }},
		{
			Key: "hours", Band: "Hours", Title: "In all", Kind: units.Count,
			RowFormula: func(b int) string { return "COUNTIFS(" + in(b) + ")" },
			Value:      func(b int) any { return len(bins[b].hours) },
		},
		count(season.Idle), count(season.Vent), count(season.Evap), count(season.Damp), count(season.Warm),
		sheet.Banded(mean("wb", "Mean coincident wet bulb", func(i int) float64 { return c.Solved()[i].WetBulb }), "Temperature"),
		mean("ts", "Mean supply with water", func(i int) float64 { return hour(i).Supply.T }),
		sheet.Banded(sum("evaporated", "Water evaporated", units.Volume, func(h *season.Hour) float64 { return h.Evaporated }), "Takes"),
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

// Bins lays out the hours by outdoor dry bulb.
func Bins(c *figures.Case, p *sheet.Page) {
	bins := bins(c)
	p.Place(&sheet.Table{Name: "Bins", Rows: len(bins), Columns: binsColumns(c, bins)}, c.Units)
	p.Text("Every hour with weather stands in one bin. Mean coincident wet bulb is the mean over the hours of the bin.", "", 12, 1, sheet.Small)
	p.Row++
	first := 0 // bins without a need hour on the cold side are left out of the charts
	for first < len(bins)-1 && !needed(c, bins[first]) {
		first++
	}
	last := len(bins) - 1
	for last > first && len(bins[last].hours) == 0 {
		last--
	}
	rows := sheet.Rows(first, last+1)
	hours := &chart.Chart{Title: "Hours that need cooling, by outdoor dry bulb", Kind: chart.Columns, Stack: chart.Stacked,
		X: chart.Axis{Title: "outdoor dry bulb, " + c.Symbol(units.Temperature)}, Y: chart.Axis{Title: "hours", NumFmt: "#,##0"},
		Alt: "Stacked columns: hours of each dry-bulb bin that open windows hold, that the cooler holds, too damp and too warm"}
	for _, s := range sheet.OutcomeSeries {
		hours.Series = append(hours.Series, chart.Series{Name: s.Name, X: "[Bins.label" + rows + "]", Y: "[Bins." + s.Outcome.String() + rows + "]", Color: sheet.OutcomeColour[s.Outcome]})
	}
	temperature := &chart.Chart{Title: "Wet bulb and supply, by outdoor dry bulb", Kind: chart.Lines,
		X: chart.Axis{Title: "outdoor dry bulb, " + c.Symbol(units.Temperature)}, Y: chart.Axis{Title: c.Symbol(units.Temperature), NumFmt: "0"},
		Alt: "Lines: mean coincident wet bulb and mean supply temperature of each dry-bulb bin",
		Series: []chart.Series{
			{Name: "mean supply with water", X: "[Bins.label" + rows + "]", Y: "[Bins.ts" + rows + "]", Color: look.Supply, Width: 2},
			{Name: "mean coincident wet bulb", X: "[Bins.label" + rows + "]", Y: "[Bins.wb" + rows + "]", Color: look.WetBulb, Width: 2, Dash: chart.Dashes},
		}}
	p.Print.FitHeight = 1
	p.ChartsAcross(len(p.Grids[0].Columns), hours, temperature)
}

func needed(c *figures.Case, b bin) bool {
	for _, i := range b.hours {
		if c.Season.Hours[i].Outcome.Need() {
			return true
		}
	}
	return false
}
