package alternatives

import (
	"fmt"

	"github.com/evapbook/evapbook/internal/climate"
	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/look"
	"github.com/evapbook/evapbook/internal/money"
	"github.com/evapbook/evapbook/internal/season"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/workbook/figures"
	"github.com/evapbook/evapbook/internal/workbook/given"
	"github.com/evapbook/evapbook/internal/workbook/sheet"
	"github.com/evapbook/evapbook/internal/workbook/variants"
	"github.com/evapbook/evapbook/internal/xlsx"
)

// sweep is a table over two inputs.
type sweep struct {
	title          string
	down, across   job.Input
	downs, acrosss []float64 // SI
	cells          [][]*variants.Variant
}

// What the sweeps of the Whatif sheet vary.
var (
	sweepEffectiveness = []float64{0.5, 0.6, 0.7, 0.8, 0.85, 0.9, 0.95}
	sweepAirflow       = []float64{0.6, 0.8, 1, 1.2, 1.5, 2} // of the stated airflow
	sweepPads          = []float64{1, 0.9, 0.8, 0.7, 0.6, 0.5}
	sweepSetpoint      = []float64{-2, -1, 0, 1, 2, 3} // steps from the stated setpoint
	warmerBy           = []float64{1, 2, 3}            // steps above the stated weather
)

// step is the step in K of temperatures on this sheet, round in the unit of the book.
func step(sys units.System) float64 {
	if sys == units.IP {
		return units.TemperatureDifference.Unit(sys).ToSI(2)
	}
	return 1
}

func sweeps(c *figures.Case) ([]*sweep, error) {
	j := c.Season.Job
	scaled := func(in job.Input, list []float64, of func(x float64) float64) (out []float64) {
		for _, x := range list {
			if v := of(x); v >= in.Min && v <= in.Max {
				out = append(out, v)
			}
		}
		return out
	}
	same := func(x float64) float64 { return x }
	s := []*sweep{{title: "effectiveness and airflow"}, {title: "setpoint and pad condition"}}
	for key, in := range map[string]*job.Input{
		"cooler.effectiveness": &s[0].down, "cooler.airflow": &s[0].across, "house.setpoint": &s[1].down, "cooler.pad_condition": &s[1].across,
	} {
		var err error
		if *in, err = job.Lookup(key); err != nil {
			return nil, err
		}
	}
	s[0].downs = scaled(s[0].down, sweepEffectiveness, same)
	s[0].acrosss = scaled(s[0].across, sweepAirflow, func(x float64) float64 { return x * j.Cooler.Airflow })
	s[1].downs = scaled(s[1].down, sweepSetpoint, func(x float64) float64 { return x*step(c.Units) + j.House.Setpoint })
	s[1].acrosss = scaled(s[1].across, sweepPads, same)
	for _, w := range s {
		for _, d := range w.downs {
			var row []*variants.Variant
			for _, a := range w.acrosss {
				row = append(row, &variants.Variant{Brief: true, Set: map[string]float64{w.down.Key: d, w.across.Key: a}})
			}
			w.cells = append(w.cells, row)
		}
	}
	return s, nil
}

// Whatif lays out other coolers, pads, airflows and setpoints for the house.
func Whatif(c *figures.Case, p *sheet.Page) error {
	kinds := make([]*variants.Variant, len(coolerKinds))
	all := []*variants.Variant{}
	for i, k := range coolerKinds {
		kinds[i] = &variants.Variant{Kind: k}
		all = append(all, kinds[i])
	}
	hotter := make([]*variants.Variant, len(warmerBy))
	for i, k := range warmerBy {
		hotter[i] = &variants.Variant{Warmer: k * step(c.Units)}
		all = append(all, hotter[i])
	}
	sweeps, err := sweeps(c)
	if err != nil {
		return fmt.Errorf("what-if tables: %w", err)
	}
	for _, s := range sweeps {
		for _, row := range s.cells {
			all = append(all, row...)
		}
	}
	if err := variants.Run(c, all); err != nil {
		return fmt.Errorf("what-if tables: %w", err)
	}
	p.Cols = []float64{50, 13, 13, 13, 13, 13, 13}
	p.Print.FitHeight = 1
	p.ComputedAtWriting(7)
	p.Row++
	layKinds(c, p, kinds)
	layWarmer(c, p, hotter)
	for _, s := range sweeps {
		laySweep(c, p, s, "Hours held, by "+s.title, units.Share, "0%", look.ScaleGood, held)
		laySweep(c, p, s, "Water in a season, by "+s.title, units.Volume, "#,##0", look.ScaleCool, func(v *variants.Variant) any { return v.Water })
	}
	return nil
}

// layKinds sets the three kinds of cooler side by side.
func layKinds(c *figures.Case, p *sheet.Page, kinds []*variants.Variant) {
	p.Section("The three kinds of cooler, with the same airflow and pads", 7)
	p.Heads("", "Direct", "Indirect", "Two-stage", "Unit")
	layVariants(c, p, kinds, []variantRow{
		{"Verdict", units.Text, "@", func(v *variants.Variant) any { return figures.VerdictTitle[v.Season.Totals.Verdict()] }},
		{"Hours held, of hours that need cooling", units.Share, "0%", held},
		{"The same, or comfortable in moving air", units.Share, "0%", movingAir},
		{"Hours too damp", units.Count, "#,##0", func(v *variants.Variant) any { return v.Hours[season.Damp] }},
		{"Hours too warm", units.Count, "#,##0", func(v *variants.Variant) any { return v.Hours[season.Warm] }},
		{"Longest uncovered run", units.Duration, "#,##0", func(v *variants.Variant) any { return v.Season.Totals.LongestRun }},
		{"When too warm, on average by", units.TemperatureDifference, "0.0", func(v *variants.Variant) any {
			return figures.Ratio(v.Season.Totals.Over, float64(v.Hours[season.Warm]))
		}},
		{"Supply at the 1 % dry bulb", units.Temperature, "0.0", func(v *variants.Variant) any { return v.Season.Design.DryBulb[climate.One].Supply.T }},
		{"Supply at the 1 % wet bulb", units.Temperature, "0.0", func(v *variants.Variant) any { return v.Season.Design.WetBulb[climate.One].Supply.T }},
		{"Water in a season", units.Volume, "#,##0", func(v *variants.Variant) any { return v.Water }},
		{"Electricity in a season", units.Energy, "#,##0", func(v *variants.Variant) any { return v.Season.Totals.CoolerKWh }},
		{"Running cost a year, at the stated prices", units.Money, c.Unit(units.Money).Format, func(v *variants.Variant) any { return v.Money.Options[money.Cooler].Total() }},
	})
	p.Text("A fan behind an indirect stage takes at least 0.27 W/cfm (572 W per m³/s) unless stated (common practice, no source). Options sets the kinds side by side, each at its own price.", "", 7, 1, sheet.Small)
	p.Row++
}

// layWarmer sets warmer summers beside the stated one.
func layWarmer(c *figures.Case, p *sheet.Page, hotter []*variants.Variant) {
	u := units.TemperatureDifference.Unit(c.Units)
	p.Section("Warmer summers: every hour warmer at the same relative humidity", 7)
	titles := []string{"", "As stated"}
	for _, k := range warmerBy {
		titles = append(titles, "+"+sheet.Fixed(u.FromSI(k*step(c.Units)), 0)+" "+sheet.Spoken(u))
	}
	p.Heads(append(titles, "Unit")...)
	stated := variants.Stated(c)
	layVariants(c, p, append([]*variants.Variant{stated}, hotter...), []variantRow{
		{"Verdict", units.Text, "@", func(v *variants.Variant) any { return figures.VerdictTitle[v.Season.Totals.Verdict()] }},
		{"Hours that need cooling", units.Count, "#,##0", func(v *variants.Variant) any { return v.Hours.Need() }},
		{"Hours held, of hours that need cooling", units.Share, "0%", held},
		{"The same, or comfortable in moving air", units.Share, "0%", movingAir},
		{"Hottest indoors", units.Temperature, "0.0", func(v *variants.Variant) any { return v.Season.Totals.HottestIndoor }},
		{"Water in a season, lower end", units.Volume, "#,##0", func(v *variants.Variant) any { return v.Season.WaterTotal(v.Low.Water) }},
		{"Water in a season", units.Volume, "#,##0", func(v *variants.Variant) any { return v.Water }},
		{"Electricity in a season", units.Energy, "#,##0", func(v *variants.Variant) any { return v.Season.Totals.CoolerKWh }},
		{"Refrigeration in a season", units.Energy, "#,##0", func(v *variants.Variant) any { return v.Season.Totals.RefKWh }},
	})
	p.Row++
}

// variantRow is one figure of several variants.
type variantRow struct {
	label  string
	kind   units.Kind
	format string
	of     func(v *variants.Variant) any
}

// layVariants writes a line for each figure, a column for each variant and the
// unit after them.
func layVariants(c *figures.Case, p *sheet.Page, list []*variants.Variant, rows []variantRow) {
	for _, r := range rows {
		u := c.Unit(r.kind)
		p.Set(p.Row, 1, xlsx.Cell{Value: r.label, Style: sheet.Label})
		for i, v := range list {
			p.Set(p.Row, 2+i, xlsx.Cell{Value: sheet.Display(u, r.of(v)), Style: sheet.Number(r.format)})
		}
		p.Set(p.Row, 2+len(list), xlsx.Cell{Value: sheet.Spoken(u), Style: sheet.Symbol})
		p.Row++
	}
}

// laySweep writes a table over two inputs with heat-map colours.
func laySweep(c *figures.Case, p *sheet.Page, s *sweep, title string, kind units.Kind, format string, colours []string, of func(*variants.Variant) any) {
	u, du, au := kind.Unit(c.Units), s.down.Kind.Unit(c.Units), s.across.Kind.Unit(c.Units)
	if u.Symbol != "" {
		title += ", " + u.Symbol
	}
	p.Section(title, 7)
	p.Set(p.Row, 1, xlsx.Cell{Value: "down: " + named(s.down, du) + "\nacross: " + named(s.across, au), Style: corner})
	p.Height(p.Row, 28)
	for i, a := range s.acrosss {
		style := sheet.Head
		style.NumFmt = given.InputFormat(s.across, au)
		p.Set(p.Row, 2+i, xlsx.Cell{Value: au.FromSI(a), Style: style})
	}
	p.Row++
	first := p.Row
	for k, d := range s.downs {
		style := sheet.Head
		style.NumFmt = given.InputFormat(s.down, du)
		p.Set(p.Row, 1, xlsx.Cell{Value: du.FromSI(d), Style: style})
		for i, v := range s.cells[k] {
			cell := sheet.Number(format)
			cell.HAlign = xlsx.Centre
			p.Set(p.Row, 2+i, xlsx.Cell{Value: sheet.Display(u, of(v)), Style: cell})
		}
		p.Row++
	}
	stops := []xlsx.Stop{{Kind: xlsx.AtMin, Color: colours[0]}, {Kind: xlsx.AtPercentile, Value: 50, Color: colours[1]}, {Kind: xlsx.AtMax, Color: colours[2]}}
	p.Conditional = append(p.Conditional, xlsx.CondFormat{Range: xlsx.RangeRef(first, 2, p.Row-1, 1+len(s.acrosss)), Scale: stops})
	p.Row++
}

// corner is the cell that says what runs down and across a table.
var corner = xlsx.Style{Size: look.Small, Color: look.Quiet, Fill: look.Sand, Wrap: true, VAlign: xlsx.Middle}

// named is an input's label with its unit.
func named(in job.Input, u units.Unit) string {
	if u.Symbol == "" {
		return in.Label
	}
	return in.Label + ", " + u.Symbol
}
