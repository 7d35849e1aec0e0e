package customer

import (
	"fmt"

	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/look"
	"github.com/evapbook/evapbook/internal/money"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/workbook/figures"
	"github.com/evapbook/evapbook/internal/workbook/fx"
	"github.com/evapbook/evapbook/internal/workbook/sheet"
	"github.com/evapbook/evapbook/internal/xlsx"
	"github.com/evapbook/evapbook/internal/xlsx/chart"
)

// sumpLimit is the hardness in mg/L (as calcium carbonate) to which sump water
// may concentrate, and hardness the make-up waters shown. Source: water-
// treatment article on cycles of concentration (300 mg/L make-up and a limit
// of 600 mg/L give 2 cycles); the grades are common practice, no source.
const sumpLimit = 600

var hardness = []struct {
	mgL  float64
	name string
}{{50, "soft"}, {100, "slightly hard"}, {150, "moderately hard"}, {200, "hard"}, {300, "very hard"}, {400, "very hard"}}

// Water lays out what the cooler drinks, and water at the power plant.
func Water(c *figures.Case, p *sheet.Page) {
	p.Cols = []float64{46, 16, 16, 16, 16, 13}
	layWaterUse(c, p)
	layWaterPlaces(c, p)
	layHardness(c, p)
	p.Print.FitHeight = 1
}

// waterLine is a line of label, live value in SI and remark.
type waterLine struct {
	label   string
	kind    units.Kind
	formula string
	value   float64
	remark  string
}

func layWaterUse(c *figures.Case, p *sheet.Page) {
	s, t := c.Season, &c.Season.Totals
	use := t.Water
	perDay := 0.0
	if use.DaysOfUse > 0 {
		perDay = s.WaterTotal(use) / float64(use.DaysOfUse)
	}
	bleed := 1.0
	if s.Bleeding() {
		bleed = s.Job.Cooler.Cycles / (s.Job.Cooler.Cycles - 1)
	}
	p.Section("What the cooler takes", 6)
	for _, l := range []waterLine{
		{"Evaporated in a season", units.Volume, "Out_water_evaporated_l", use.Evaporated, "cools the air"},
		{"Bled or purged", units.Volume, "Out_water_bleed_l", use.Drained(s.Job.Cooler), "carries minerals away"},
		{"In all", units.Volume, "Out_water_total_l", s.WaterTotal(use), "at the setpoint in every hour; the range is below"},
		{"Per day of use", units.Volume, "IF(Out_water_days_of_use=0,0,Out_water_total_l/Out_water_days_of_use)", perDay, "mean over the days the pump runs"},
		{"Peak day", units.Volume, "Out_water_peak_day_l", t.PeakDayWater, ""},
		{"Peak hour, evaporated", units.WaterFlow, "Out_water_peak_hour_l", t.PeakHourWater, ""},
		{"Peak hour with bleed", units.WaterFlow, `Out_water_peak_hour_l*IF(In_cooler_water_care="bleed",Si_cooler_cycles/(Si_cooler_cycles-1),1)`, t.PeakHourWater * bleed, "what the supply line has to bring"},
		{"Cost a year, sewer included where billed", units.Money, "M_cooler_water", c.Money.Options[money.Cooler].WaterCost, "at the stated prices"},
	} {
		u := c.Unit(l.kind)
		p.SetRow(p.Row, 1,
			xlsx.Cell{Value: l.label, Style: sheet.Label},
			xlsx.Cell{Value: sheet.Display(u, l.value), Formula: sheet.DisplayFormula(u, l.formula), Style: sheet.Number(u.Format)},
			xlsx.Cell{Value: u.Symbol, Style: sheet.Symbol},
			xlsx.Cell{Value: l.remark, Style: sheet.Quiet})
		p.Row++
	}
	value, formula := new(sheet.Sentence).When("ISNUMBER(Out_water_low_total_l)", true, new(sheet.Sentence).Say("From ").
		Quantity(c.Units, units.Volume, "Out_water_low_total_l", s.WaterTotal(c.Low.Water), 0).
		Say(", by people who feel the air move and set the cooler ").
		Quantity(c.Units, units.TemperatureDifference, "Si_house_moving_air", s.Job.House.MovingAir, 1).Say(" higher, up to ")).
		Quantity(c.Units, units.Volume, "Out_water_total_l", s.WaterTotal(use), 0).Say(" a season.").
		When(`Out_water_low_total_l="none"`, false, new(sheet.Sentence).Say(" The lower end of the range was computed at writing and is gone since the inputs changed.")).Done()
	p.Text(value, formula, 6, 2, sheet.Text)
	p.Text("Metered homes with evaporative coolers in Phoenix took 66 gal (250 L) a day over a 214-day season, those with bleed nearly half as much again as those without (Karpiscak et al., Journal AWWA 90(4), 1998). Thermostat habits move these figures more than anything else.", "", 6, 3, sheet.Small)
	p.Row++
}

// layWaterPlaces sets water at the house beside water at the power plant.
func layWaterPlaces(c *figures.Case, p *sheet.Page) {
	u := units.Volume.Unit(c.Units)
	p.Section("Water here and at the power plant, "+u.Symbol+" a year", 6)
	p.Heads("", "At the house", "At the plant", "Together")
	first := p.Row
	number := sheet.Number("#,##0")
	for w := money.Cooler; w < money.Ways; w++ {
		o := &c.Money.Options[w]
		here, plant := "M_"+w.String()+"_water_l", "M_"+w.String()+"_plant_water"
		p.SetRow(p.Row, 1,
			xlsx.Cell{Value: figures.WayTitle[w], Style: sheet.Label},
			xlsx.Cell{Value: u.FromSI(o.Yearly.Water), Formula: sheet.DisplayFormula(u, here), Style: number},
			xlsx.Cell{Value: u.FromSI(o.PlantWater), Formula: sheet.DisplayFormula(u, plant), Style: number},
			xlsx.Cell{Value: u.FromSI(o.Yearly.Water + o.PlantWater), Formula: sheet.DisplayFormula(u, here+"+"+plant), Style: number})
		p.Row++
	}
	value, formula := new(sheet.Sentence).Say("Plant water at ").Quantity(c.Units, units.WaterPerEnergy, "Si_plant_water", c.Season.Job.Plant.Water, 2).
		Say(": thermal plants alone, United States mean (NREL/TP-550-33905, 2003). With reservoir evaporation it is several times that; state plant.water for the grid in question.").Done()
	p.Text(value, formula, 6, 2, sheet.Small)
	p.Row++
	p.Mark("ways", first, 1, first+int(money.Ways)-1, 1)
	p.Mark("here", first, 2, first+int(money.Ways)-1, 2)
	p.Mark("plant", first, 3, first+int(money.Ways)-1, 3)
	p.ChartsAcross(len(p.Cols), &chart.Chart{Title: "Water here and at the power plant", Kind: chart.Bars, Stack: chart.Stacked, Y: chart.Axis{Title: u.Symbol + " a year", NumFmt: "#,##0"}, X: chart.Axis{Reverse: true},
		Alt: "Bars: water at the house and at the power plant for the cooler, refrigeration and both",
		Series: []chart.Series{
			{Name: "at the house", X: "[Water.ways:]", Y: "[Water.here:]", Color: look.Evap},
			{Name: "at the power plant", X: "[Water.ways:]", Y: "[Water.plant:]", Color: look.Grey},
		}})
}

// layHardness turns make-up hardness into cycles, bleed and minerals.
func layHardness(c *figures.Case, p *sheet.Page) {
	vol, mass := units.Volume.Unit(c.Units), units.Mass.Unit(c.Units)
	e := c.Season.Totals.Water.Evaporated
	p.Section("Hard water: how much to bleed", 6)
	p.Heads("Hardness of the supply, as calcium carbonate", "", "Cycles", "Bleed, "+vol.Symbol, "In all, "+vol.Symbol, "Minerals, "+mass.Symbol)
	grade := sheet.Number(`0 "mg/L"`)
	grade.HAlign = xlsx.Left
	for _, h := range hardness {
		cycles := sumpLimit / h.mgL
		bleed := job.Cooler{WaterCare: job.Bleed, Cycles: cycles}
		w := c.Season.Totals.Water
		row := p.Row
		ref := func(col int) string { return xlsx.CellRef(row, col) }
		p.SetRow(row, 1,
			xlsx.Cell{Value: h.mgL, Style: grade}, xlsx.Cell{Value: h.name, Style: sheet.Label},
			xlsx.Cell{Value: cycles, Formula: fx.Num(sumpLimit) + "/" + ref(1), Style: sheet.Number("0.0")},
			xlsx.Cell{Value: vol.FromSI(w.Drained(bleed)), Formula: sheet.DisplayFormula(vol, "Out_water_evaporated_l/("+ref(3)+"-1)"), Style: sheet.Number("#,##0")},
			xlsx.Cell{Value: vol.FromSI(w.Total(bleed)), Formula: sheet.DisplayFormula(vol, "Out_water_evaporated_l*"+ref(3)+"/("+ref(3)+"-1)"), Style: sheet.Number("#,##0")},
			xlsx.Cell{Value: mass.FromSI(e * h.mgL / 1e6), Formula: sheet.DisplayFormula(mass, "Out_water_evaporated_l*"+ref(1)+"/1000000"), Style: sheet.Number("0.0")})
		p.Row++
	}
	p.Text(fmt.Sprintf("Cycles are those at which the sump reaches %d mg/L (worked example of a water-treatment article: 300 mg/L gives 2 cycles). Minerals are what the evaporated water leaves behind in a season: bleed has to carry it off, or it stays as scale on the pads.", sumpLimit), "", 6, 3, sheet.Small)
}
