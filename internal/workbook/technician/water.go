package technician

import (
	"fmt"

	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/look"
	"github.com/evapbook/evapbook/internal/psychro"
	"github.com/evapbook/evapbook/internal/startup"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/workbook/figures"
	"github.com/evapbook/evapbook/internal/workbook/fx"
	"github.com/evapbook/evapbook/internal/workbook/sheet"
	"github.com/evapbook/evapbook/internal/xlsx"
)

// siteUnits are units of these pages that package units has no kind for.
type siteUnits struct {
	bore, tap, velocity, draught, slot, jug units.Unit
	window                                  float64 // m wide
	windowText                              string
}

func unitsOnSite(c *figures.Case) siteUnits {
	if c.Units == units.IP {
		return siteUnits{
			bore: units.Unit{Symbol: "in", Scale: 1 / 0.0254, Format: "0.00"}, tap: units.Unit{Symbol: "psi", Scale: 1 / 6894.757, Format: "0"},
			velocity: units.Unit{Symbol: "fpm", Scale: 60 / 0.3048, Format: "#,##0"}, draught: units.Unit{Symbol: "in w.c.", Scale: 1 / 249.089, Format: "0.000"},
			slot: units.Unit{Symbol: "in", Scale: 1 / 0.0254, Format: "0.0"}, jug: units.Unit{Symbol: "qt", Scale: 4 / 3.785411784},
			window: 0.9144, windowText: "36 in",
		}
	}
	return siteUnits{
		bore: units.Unit{Symbol: "mm", Scale: 1000, Format: "0.0"}, tap: units.Unit{Symbol: "kPa", Scale: 0.001, Format: "0"},
		velocity: units.Unit{Symbol: "m/s", Scale: 1, Format: "0.00"}, draught: units.Unit{Symbol: "Pa", Scale: 1, Format: "0.0"},
		slot: units.Unit{Symbol: "cm", Scale: 100, Format: "0.0"}, jug: units.Unit{Symbol: "L", Scale: 1},
		window: 0.9, windowText: "90 cm",
	}
}

// waterColumn is where the right half of the page begins.
const waterColumn = 6

// layWaterLine sets the peak hour beside what the supply line can bring.
func layWaterLine(c *figures.Case, p *sheet.Page) {
	s, t := c.Season, &c.Season.Totals
	su, flow, length := unitsOnSite(c), units.WaterFlow.Unit(c.Units), units.Length.Unit(c.Units)
	p.Across(p.Row, waterColumn, startupCols, xlsx.Cell{Value: "Water line and bleed here", Style: sheet.Section})
	p.Row++
	line := func(label, labelFormula string, value any, formula string, style xlsx.Style, symbol string) string {
		p.Across(p.Row, waterColumn, waterColumn+2, xlsx.Cell{Value: label, Formula: labelFormula, Style: styleCheck})
		p.Set(p.Row, waterColumn+3, xlsx.Cell{Value: value, Formula: formula, Style: style})
		p.Set(p.Row, waterColumn+4, xlsx.Cell{Value: symbol, Style: styleOf})
		p.Row++
		return xlsx.CellRef(p.Row-1, waterColumn+3)
	}
	bleed := 1.0
	if s.Bleeding() {
		bleed = s.Job.Cooler.Cycles / (s.Job.Cooler.Cycles - 1)
	}
	const withBleed = `(Out_water_peak_hour_l*IF(In_cooler_water_care="bleed",Si_cooler_cycles/(Si_cooler_cycles-1),1))`
	line("Peak hour, evaporated", "", flow.FromSI(t.PeakHourWater), sheet.DisplayFormula(flow, "Out_water_peak_hour_l"), small(flow.Format), flow.Symbol)
	line("Peak hour with bleed", "", flow.FromSI(t.PeakHourWater*bleed), sheet.DisplayFormula(flow, withBleed), small(flow.Format), flow.Symbol)
	tube := startup.TapLine
	d := line("Line, inside diameter", "", su.bore.FromSI(tube.Diameter), "", typed(su.bore.Format), su.bore.Symbol)
	l := line("Line, length", "", length.FromSI(tube.Length), "", typed("0"), length.Symbol)
	dp := line("Pressure left at the tap", "", su.tap.FromSI(tube.Pressure), "", typed(su.tap.Format), su.tap.Symbol)
	capacity := fx.Fill("(140*({P}/9806.65/(10.67*{L}))^(1/1.852)*{D}^(4.8704/1.852)*3600000)",
		"{P}", su.tap.ToSICell(dp), "{L}", "("+length.ToSICell(l)+")", "{D}", "("+su.bore.ToSICell(d)+")")
	brings := line("Line can bring", "", flow.FromSI(tube.Capacity()), sheet.DisplayFormula(flow, capacity), small(flow.Format), flow.Symbol)
	share := line("Used in the peak hour", "", t.PeakHourWater*bleed/tube.Capacity(), fx.Fill("{N}/("+flow.ToSICell(brings)+")", "{N}", withBleed), small("0%"), "")
	p.Conditional = append(p.Conditional, xlsx.CondFormat{Range: share, When: share + ">1", Style: xlsx.Style{Bold: true, Color: look.Paper, Fill: look.Warm}})
	layBleedCheck(c, line, su, flow.ToSICell(brings), tube.Capacity())
}

// layBleedCheck is what to time at the bleed or after a purge.
func layBleedCheck(c *figures.Case, line func(label, labelFormula string, value any, formula string, style xlsx.Style, symbol string) string, su siteUnits, brings string, capacity float64) {
	k, peak := c.Season.Job.Cooler, c.Season.Totals.PeakHourWater
	texts := map[job.WaterCare]string{
		job.Bleed:  "Bleed at the peak: s per " + su.jug.Symbol,
		job.Purge:  "Refill after a purge, min",
		job.NoCare: "No bleed, no purge",
	}
	jug := su.jug.ToSI(1)
	value := any(figures.None)
	switch {
	case k.WaterCare == job.Bleed && peak > 0:
		value = 3600 * jug * (k.Cycles - 1) / peak
	case k.WaterCare == job.Purge:
		value = 60 * k.Sump / capacity
	}
	line(texts[k.WaterCare], fmt.Sprintf(`IF(In_cooler_water_care="bleed",%s,IF(In_cooler_water_care="purge",%s,%s))`, fx.Quote(texts[job.Bleed]), fx.Quote(texts[job.Purge]), fx.Quote(texts[job.NoCare])),
		value, fmt.Sprintf(`IF(AND(In_cooler_water_care="bleed",Out_water_peak_hour_l>0),3600*%s*(Si_cooler_cycles-1)/MAX(Out_water_peak_hour_l,1E-9),IF(In_cooler_water_care="purge",60*Si_cooler_sump/(%s),"none"))`, fx.Num(jug), brings), small("0"), "")
}

// windowCounts are the numbers of windows shown.
var windowCounts = []int{2, 3, 4, 6, 8}

// layRelief is the opening the air needs to get out, what it costs in pressure,
// and how far windows have to stand open for it.
func layRelief(c *figures.Case, p *sheet.Page) {
	su, area := unitsOnSite(c), units.Area.Unit(c.Units)
	p.Section("Ways out for the air: relief openings for full airflow, or windows "+su.windowText+" wide, each open by", startupCols)
	heads := []string{"through it, " + su.velocity.Symbol, "opening, " + area.Symbol, "costs, " + su.draught.Symbol, reliefRatio[c.Units]}
	for _, n := range windowCounts {
		heads = append(heads, fmt.Sprintf("%d windows,\n%s", n, su.slot.Symbol))
	}
	p.Heads(heads...)
	p.Height(p.Row-1, 26)
	flow := c.Season.Cooler.Airflow
	density := c.Season.Climate.Pressure / (psychro.GasConstant * (c.Season.House.Setpoint + psychro.ZeroCelsius))
	for _, v := range startup.FaceVelocities {
		ref := "(" + su.velocity.ToSICell("$"+xlsx.CellRef(p.Row, 1)) + ")"
		a := startup.OpeningArea(flow, v)
		p.SetRow(p.Row, 1,
			xlsx.Cell{Value: su.velocity.FromSI(v), Style: typed(su.velocity.Format)},
			xlsx.Cell{Value: area.FromSI(a), Formula: sheet.DisplayFormula(area, "(Si_cooler_airflow/"+ref+")"), Style: small(reliefFormat[c.Units])},
			xlsx.Cell{Value: su.draught.FromSI(startup.BackPressure(v, density)), Formula: sheet.DisplayFormula(su.draught, "(B_site_pressure/("+fx.GasConstant+"*"+fx.Kelvin("Si_house_setpoint")+")/2*("+ref+"/0.6)^2)"), Style: small(su.draught.Format)},
			xlsx.Cell{Value: reliefScale[c.Units] / v, Formula: fx.Num(reliefScale[c.Units]) + "/" + ref, Style: small("0.00")})
		for i, n := range windowCounts {
			p.Set(p.Row, 5+i, xlsx.Cell{Value: su.slot.FromSI(startup.WindowOpening(a, n, su.window)),
				Formula: sheet.DisplayFormula(su.slot, fmt.Sprintf("(Si_cooler_airflow/%s/%d/%s)", ref, n, fx.Num(su.window))), Style: small(su.slot.Format)})
		}
		p.Row++
	}
	p.Text("Published range: 1 to 2 ft² per 1,000 cfm (0.20 to 0.39 m² per m³/s), leeward side; less is too little. Pressure by the orifice relation, Cd 0.6 (ASHRAE Fundamentals ch. 16, from memory). Line capacity by Hazen-Williams, C 140 (from memory); "+
		"1/4 in line from a hose tap, run outdoors so that a freeze break shows (common practice, no source).", "", startupCols, 2, sheet.Small)
}

// The area per airflow, as each unit system states it: the SI area times scale
// over the SI velocity.
var (
	reliefRatio  = map[units.System]string{units.IP: "ft² per 1,000 cfm", units.SI: "m² per m³/s"}
	reliefFormat = map[units.System]string{units.IP: "0.0", units.SI: "0.00"}
	reliefScale  = map[units.System]float64{units.IP: 1000 * units.CFM / units.SquareFoot, units.SI: 1}
)
