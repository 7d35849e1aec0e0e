package engineer

import (
	"cmp"

	"github.com/evapbook/evapbook/internal/climate"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/workbook/figures"
	"github.com/evapbook/evapbook/internal/workbook/sheet"
	"github.com/evapbook/evapbook/internal/xlsx"
)

// Rules of thumb of the trade; common practice, no source.
const (
	thumbChanges = 30  // air changes an hour in a hot, dry place; 20 to 40 are heard
	thumbTon     = 500 // ft² of floor for a ton of refrigeration
)

// perArea is heat for a unit of floor area: irradiance has the same unit.
const perArea = units.Irradiance

// guide is what consumer guides say of airflow for floor area; see cooler.airflow.
var guide = map[units.System]string{units.IP: "2 to 3, in hot desert to 4", units.SI: "0.010 to 0.015, in hot desert to 0.020"}

// sizing is a line of the page: a value in SI with its formula, and a remark.
type sizing struct {
	label   string
	kind    units.Kind
	format  string // empty: that of the kind
	formula string
	value   float64
	remark  string
	symbol  string // where the kind has none
}

// Sizing sets the cooler and the load of the house beside rules of thumb.
func Sizing(c *figures.Case, p *sheet.Page) {
	p.Cols = []float64{52, 14, 12, 60}
	p.Print.Landscape, p.Print.FitHeight = true, 1
	laySizing(c, p, "The house", houseSizing(c))
	laySizing(c, p, "The cooler", coolerSizing(c))
	laySizing(c, p, "Refrigeration", refrigerationSizing(c))
	p.Text("Rules of thumb are common practice, no source: they know neither the climate nor the house. Size by the load and by the hours that stay uncovered (Answer, What if). Relief openings have to let out as much air as the cooler blows in (Start-up).", "", 4, 2, sheet.Small)
}

func laySizing(c *figures.Case, p *sheet.Page, title string, lines []sizing) {
	p.Section(title, 4)
	for _, l := range lines {
		u := l.kind.Unit(c.Units)
		style := sheet.Number(u.Format)
		if l.format != "" {
			style.NumFmt = l.format
		}
		p.SetRow(p.Row, 1,
			xlsx.Cell{Value: l.label, Style: sheet.Label},
			xlsx.Cell{Value: u.FromSI(l.value), Formula: sheet.DisplayFormula(u, l.formula), Style: style},
			xlsx.Cell{Value: cmp.Or(u.Symbol, l.symbol), Style: sheet.Symbol},
			xlsx.Cell{Value: l.remark, Style: sheet.Quiet})
		p.Row++
	}
	p.Row++
}

const (
	loadFormula   = "B_ua*(Out_design_db_1pct_c-Si_house_setpoint)+B_aperture*B_design_ghi+B_sensible"
	volumeFormula = "(Si_house_floor_area*Si_house_ceiling)"
)

// designLoad is the sensible load in W at the 1 % dry bulb, with the mean sun of
// such hours and the gains inside.
func designLoad(c *figures.Case) float64 {
	s := c.Season
	return s.House.UA*(s.Design.DryBulb[climate.One].Outdoor.T-s.House.Setpoint) + s.House.Aperture*s.Climate.Design.GHI + s.House.Sensible
}

func houseSizing(c *figures.Case) []sizing {
	h, load := &c.Season.Job.House, designLoad(c)
	return []sizing{
		{"Cooled floor area", units.Area, "", "Si_house_floor_area", h.FloorArea, "", ""},
		{"Volume of the house", units.Plain, "#,##0", airVolume(c, volumeFormula), h.FloorArea * h.Ceiling * cubic(c), "floor area times ceiling height", cubicSymbol(c)},
		{"Sensible design load", units.HeatFlow, "", loadFormula, load, "at the 1 % dry bulb, with the mean sun of such hours and the gains inside", ""},
		{"The same for a unit of floor area", perArea, "0.0", "(" + loadFormula + ")/Si_house_floor_area", load / h.FloorArea, "", ""},
	}
}

// cubic is how many of the shown unit of volume of air there are in a m³.
func cubic(c *figures.Case) float64 {
	if c.Units == units.IP {
		return units.Length.Unit(units.IP).FromSI(1) * units.Area.Unit(units.IP).FromSI(1)
	}
	return 1
}

func cubicSymbol(c *figures.Case) string {
	if c.Units == units.IP {
		return "ft³"
	}
	return "m³"
}

func airVolume(c *figures.Case, formula string) string {
	if c.Units == units.IP {
		return units.Length.Unit(units.IP).FromSICell("(" + units.Area.Unit(units.IP).FromSICell(formula) + ")")
	}
	return formula
}

func coolerSizing(c *figures.Case) []sizing {
	s := c.Season
	h, v, air := &s.Job.House, s.Job.Cooler.Airflow, &s.Design.DryBulb[climate.One].Supply
	volume := h.FloorArea * h.Ceiling
	carries := max(0, air.MassFlow*air.SpecificHeat*(s.House.Setpoint-air.T))
	const carriesFormula = "MAX(0,[Design.m#1]*[Design.cp#1]*(Si_house_setpoint-[Design.ts#1]))"
	areaUnit, flowUnit := units.Area.Unit(c.Units), units.Airflow.Unit(c.Units)
	ratio := flowUnit.FromSI(v) / areaUnit.FromSI(h.FloorArea)
	ratioFormula := "(" + flowUnit.FromSICell("Si_cooler_airflow") + ")/(" + areaUnit.FromSICell("Si_house_floor_area") + ")"
	ratioFormat := "0.0"
	if c.Units == units.SI {
		ratioFormat = "0.0000"
	}
	return []sizing{
		{"Airflow at full speed", units.Airflow, "", "Si_cooler_airflow", v, "as stated, or by the rule on Inputs", ""},
		{"Airflow for a unit of floor area", units.Plain, ratioFormat, ratioFormula, ratio, "consumer guides: " + guide[c.Units], flowUnit.Symbol + "/" + areaUnit.Symbol},
		{"Air changes an hour", units.Plain, "0", "3600*Si_cooler_airflow/" + volumeFormula, 3600 * v / volume, "", ""},
		{"Airflow by the rule of 30 air changes an hour", units.Airflow, "", "30*" + volumeFormula + "/3600", thumbChanges * volume / 3600, "common practice, no source; 20 to 40 are heard", ""},
		{"Supply at the 1 % dry bulb", units.Temperature, "", "[Design.ts#1]", air.T, "", ""},
		{"Sensible heat it then carries at full speed", units.HeatFlow, "", carriesFormula, carries, "nothing where the supply is as warm as the setpoint", ""},
		{"The same over the design load", units.Share, "0%", fxRatio("("+carriesFormula+")", "("+loadFormula+")"), over(carries, designLoad(c)), "above 100 % it holds the design hour, humidity aside", ""},
	}
}

// fxRatio is 0 where there is no load to carry.
func fxRatio(part, whole string) string { return "IF(" + whole + "<=0,0," + part + "/" + whole + ")" }

func over(part, whole float64) float64 {
	if whole <= 0 {
		return 0
	}
	return part / whole
}

func refrigerationSizing(c *figures.Case) []sizing {
	ton := units.Capacity.Unit(units.IP)
	area := units.Area.Unit(units.IP)
	rated := c.Season.Job.AC.Capacity
	return []sizing{
		{"Rated capacity", units.Capacity, "", "Si_ac_capacity", rated, "as stated, or the next size that carries every hour (Methods, eqs. 26 and 27)", ""},
		{"By the rule of 500 ft² (46 m²) to a ton", units.Capacity, "", ton.ToSICell("(" + area.FromSICell("Si_house_floor_area") + "/500)"), ton.ToSI(area.FromSI(c.Season.Job.House.FloorArea) / thumbTon), "common practice, no source", ""},
	}
}
