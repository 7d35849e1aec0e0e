package manysites

import (
	"fmt"
	"math"
	"slices"

	"github.com/evapbook/evapbook/internal/look"
	"github.com/evapbook/evapbook/internal/ranking"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/workbook/sheet"
	"github.com/evapbook/evapbook/internal/xlsx"
	"github.com/evapbook/evapbook/internal/xlsx/chart"
)

// kindColour keeps a kind of cooler the same colour in all zone charts.
var kindColour = [len(ranking.Kinds)]string{look.Evap, look.Damp, look.Leaf}

var kindShape = [len(ranking.Kinds)]chart.Shape{chart.Circle, chart.Triangle, chart.Diamond}

// place is what coverage is set against: a column of the Ranking, and its value
// for a site as fromSI shows it.
type place struct {
	key  string
	kind units.Kind
	of   func(s ranking.Site, fromSI func(float64) float64) float64
}

var (
	byElevation = place{"elevation", units.Altitude, func(s ranking.Site, fromSI func(float64) float64) float64 { return fromSI(s[0].Elevation) }}
	byWetBulb   = place{"wb", units.Temperature, func(s ranking.Site, fromSI func(float64) float64) float64 { return fromSI(s[0].DesignWetBulb) }}
	// The depression is that of the two columns beside it.
	byDepression = place{"design_depression", units.Temperature, func(s ranking.Site, fromSI func(float64) float64) float64 {
		return fromSI(s[0].DesignDryBulb) - fromSI(s[0].DesignCoincident)
	}}
)

// share is a share of the hours: the end of its column's key, and its value.
type share struct {
	key string
	of  func(*ranking.Row) *float64
}

var (
	held            = share{"held", func(r *ranking.Row) *float64 { return r.Held }}
	temperatureHeld = share{"temperature", func(r *ranking.Row) *float64 { return r.TemperatureHeld }}
	monthHeld       = share{"month_held", func(r *ranking.Row) *float64 { return r.WorstMonthHeld }}
)

func (z *Book) layAltitude(p *sheet.Page) {
	p.Cols = []float64{26, 10, 14, 14, 14, 14, 14, 14}
	if z.first == 0 {
		p.Text("No site has hours that need cooling.", "", 8, 1, sheet.Text)
		return
	}
	elevation, depression := units.Altitude.Unit(z.Units).Symbol, units.TemperatureDifference.Unit(z.Units).Symbol
	p.ChartRow(520,
		z.coverage("Hours held, by elevation", byElevation, "elevation, "+elevation, held),
		z.coverage("Hours held, by depression at the 1 % dry bulb", byDepression, "dry bulb less coincident wet bulb, "+depression, held))
	p.ChartRow(520,
		z.coverage("Temperature held, humidity aside, by elevation", byElevation, "elevation, "+elevation, temperatureHeld),
		z.coverage("Hours held in the worst month, by elevation", byElevation, "elevation, "+elevation, monthHeld))
	temperature := units.Temperature.Unit(z.Units).Symbol
	p.ChartRow(520,
		z.coverage("Hours held, by 1 % wet bulb", byWetBulb, "wet bulb, "+temperature, held),
		z.coverage("Hours held in the worst month, by 1 % wet bulb", byWetBulb, "wet bulb, "+temperature, monthHeld))
	p.Row++
	z.bands(p)
	if z.first > 2 {
		p.Row++
		z.slopes(p)
	}
}

// coverage plots a share against a column of the Ranking, for all kinds.
func (z *Book) coverage(title string, x place, axis string, of share) *chart.Chart {
	ch := &chart.Chart{Title: title, Kind: chart.Scatter, X: chart.Axis{Title: axis, NumFmt: "#,##0", Min: z.lowest(x)}, Y: chart.Axis{NumFmt: "0 %", Min: z.lowestShare(of), Max: new(1.0), Major: 0.1},
		Alt: "Points, one for each site and kind of cooler: " + title}
	for k, kind := range ranking.Kinds {
		ch.Series = append(ch.Series, chart.Series{Name: string(kind), X: "[Ranking." + x.key + z.charted() + "]", Y: "[Ranking." + kindKey(k) + "_" + of.key + z.charted() + "]",
			Color: kindColour[k], Marker: chart.Marker{Shape: kindShape[k], Size: 4}, Transparency: 25})
	}
	return ch
}

// lowest begins the axis of elevation at the sea, unless a site lies below it,
// and the others at a round number under the least.
func (z *Book) lowest(x place) *float64 {
	const round = 5
	low := slices.Min(z.values(z.shown(x)))
	switch {
	case x.kind != units.Altitude:
		low = math.Floor(low/round) * round
	case low < 0:
		return nil
	default:
		low = 0
	}
	return &low
}

// shown is where a site stands, as people see it.
func (z *Book) shown(x place) func(ranking.Site) float64 {
	u := x.kind.Unit(z.Units)
	return func(s ranking.Site) float64 { return x.of(s, u.FromSI) }
}

// lowestShare begins the axis of a share at the tenth under the least.
func (z *Book) lowestShare(of share) *float64 {
	low := 0.9
	for _, s := range z.lines[:z.first] {
		for _, r := range s {
			low = min(low, *of.of(r))
		}
	}
	low = math.Floor(low*10) / 10
	return &low
}

// bandEdges are the limits of the altitude bands in the unit people see.
func (z *Book) bandEdges() []float64 {
	if z.Units == units.IP {
		return []float64{-2000, 1000, 2500, 4000, 5500, 7000, 20000}
	}
	return []float64{-600, 300, 750, 1200, 1700, 2200, 6000}
}

// bands averages the sites by band of elevation.
func (z *Book) bands(p *sheet.Page) {
	u := units.Altitude.Unit(z.Units)
	p.Section("By elevation, "+u.Symbol, 8)
	p.Heads("From", "Sites", "Depression at 1 %", "Need, hours", "Direct held", "Indirect held", "Two-stage held", "Direct, worst month")
	edges := z.bandEdges()
	for b := 0; b+1 < len(edges); b++ {
		low, high := edges[b], edges[b+1]
		criteria := fmt.Sprintf(`[Ranking.elevation%s],">=%g",[Ranking.elevation%s],"<%g"`, z.charted(), low, z.charted(), high)
		z.meansRow(p, bandLabel(edges, b), criteria, func(s ranking.Site) bool {
			e := u.FromSI(s[0].Elevation)
			return e >= low && e < high
		})
	}
}

func bandLabel(edges []float64, b int) string {
	switch b {
	case 0:
		return fmt.Sprintf("below %s", groupedDigits(edges[1]))
	case len(edges) - 2:
		return fmt.Sprintf("%s and up", groupedDigits(edges[b]))
	}
	return fmt.Sprintf("%s to %s", groupedDigits(edges[b]), groupedDigits(edges[b+1]))
}

func groupedDigits(v float64) string { return units.Count.Show(v, units.SI) }

// meansRow is a line of a label, how many sites meet the criteria, and their
// means: AVERAGEIFS over the Ranking.
func (z *Book) meansRow(p *sheet.Page, label, criteria string, meets func(ranking.Site) bool) {
	var sites []ranking.Site
	for _, s := range z.lines[:z.first] {
		if meets(s) {
			sites = append(sites, s)
		}
	}
	p.SetRow(p.Row, 1, xlsx.Cell{Value: label, Style: sheet.Label},
		xlsx.Cell{Value: len(sites), Formula: "COUNTIFS(" + criteria + ")", Style: sheet.Number("#,##0")})
	depression := units.TemperatureDifference.Unit(z.Units)
	for i, m := range []struct {
		key, format string
		of          func(ranking.Site) float64
	}{
		{"design_depression", "0.0", func(s ranking.Site) float64 { return depression.FromSI(s[0].DesignDepression) }},
		{"need", "#,##0", func(s ranking.Site) float64 { return float64(s[0].NeedHours) }},
		{"direct_held", "0 %", func(s ranking.Site) float64 { return *s[0].Held }},
		{"indirect_held", "0 %", func(s ranking.Site) float64 { return *s[1].Held }},
		{"twostage_held", "0 %", func(s ranking.Site) float64 { return *s[2].Held }},
		{"direct_month_held", "0 %", func(s ranking.Site) float64 { return *s[0].WorstMonthHeld }},
	} {
		p.Set(p.Row, 3+i, xlsx.Cell{Value: meanOf(sites, m.of), Style: sheet.Number(m.format),
			Formula: fmt.Sprintf(`IFERROR(AVERAGEIFS([Ranking.%s%s],%s),"")`, m.key, z.charted(), criteria)})
	}
	p.Row++
}

// meanOf is the mean over sites, the empty text over none.
func meanOf(sites []ranking.Site, of func(ranking.Site) float64) any {
	if len(sites) == 0 {
		return ""
	}
	sum := 0.0
	for _, s := range sites {
		sum += of(s)
	}
	return sum / float64(len(sites))
}

// slopes say how coverage changes with what it may depend on, over all sites.
func (z *Book) slopes(p *sheet.Page) {
	alt, dep := units.Altitude.Unit(z.Units).Symbol, units.TemperatureDifference.Unit(z.Units).Symbol
	p.Section("Straight lines through all sites", 8)
	p.Heads("Held share of", "", "change per 1,000 "+alt, "R²", "change per "+dep+" of depression", "R²", "change per "+dep+" of 1 % wet bulb", "R²")
	p.Height(p.Row-1, 42)
	for k, kind := range ranking.Kinds {
		held := z.values(func(s ranking.Site) float64 { return *s[k].Held })
		p.Set(p.Row, 1, xlsx.Cell{Value: string(kind) + " cooler", Style: sheet.Label})
		for i, x := range []struct {
			place
			per float64
		}{{byElevation, 1000}, {byDepression, 1}, {byWetBulb, 1}} {
			z.line(p, 3+2*i, "[Ranking."+kindKey(k)+"_held"+z.charted()+"]", "[Ranking."+x.key+z.charted()+"]", z.values(z.shown(x.place)), held, x.per)
		}
		p.Row++
	}
	p.Text("The sites of one region are not independent: high stations there are cool ones too. R² is the share of the spread between sites that the line accounts for.", "", 8, 2, sheet.Small)
}

func (z *Book) values(of func(ranking.Site) float64) []float64 {
	var v []float64
	for _, s := range z.lines[:z.first] {
		v = append(v, of(s))
	}
	return v
}

// line writes slope and R² of y over x, nothing where all x or all y are the
// same: programs differ in what rounding of the mean then leaves to divide by.
func (z *Book) line(p *sheet.Page, col int, y, x string, xs, ys []float64, per float64) {
	slope, r2, ok := regression(xs, ys)
	cell := func(v float64, formula, format string) xlsx.Cell {
		c := xlsx.Cell{Value: "", Style: sheet.Number(format),
			Formula: fmt.Sprintf(`IF(OR(MIN(%[1]s)=MAX(%[1]s),MIN(%[2]s)=MAX(%[2]s)),"",%[3]s)`, x, y, formula)}
		if ok {
			c.Value = v
		}
		return c
	}
	p.Set(p.Row, col, cell(per*slope, fmt.Sprintf("%g*SLOPE(%s,%s)", per, y, x), "+0.0 %;-0.0 %"))
	p.Set(p.Row, col+1, cell(r2, fmt.Sprintf("SLOPE(%s,%s)*SLOPE(%s,%s)", y, x, x, y), "0.00"))
}

// regression is the least-squares slope and R²; not ok where all x or all y
// are the same.
func regression(x, y []float64) (slope, r2 float64, ok bool) {
	if slices.Min(x) == slices.Max(x) || slices.Min(y) == slices.Max(y) {
		return 0, 0, false
	}
	n := float64(len(x))
	var mx, my, sxx, sxy, syy float64
	for i := range x {
		mx, my = mx+x[i]/n, my+y[i]/n
	}
	for i := range x {
		dx, dy := x[i]-mx, y[i]-my
		sxx, sxy, syy = sxx+dx*dx, sxy+dx*dy, syy+dy*dy
	}
	return sxy / sxx, sxy * sxy / (sxx * syy), true
}
