package workbook

import (
	"github.com/evapbook/evapbook/internal/climate"
	"github.com/evapbook/evapbook/internal/house"
	"github.com/evapbook/evapbook/internal/psychro"
	"github.com/evapbook/evapbook/internal/refrigeration"
	"github.com/evapbook/evapbook/internal/units"
)

// scalar is one named cell: a value that formulas elsewhere refer to by name.
type scalar struct {
	name, label string
	kind        units.Kind
	eq          int
	formula     string // empty: a constant
	value       any
	note        string // source, or why
}

// basis lists what follows once from the inputs and the station, in SI, before
// any hour is computed. Order is that of the Basis sheet.
func (c *Case) basis() []scalar {
	s := c.Season
	cl, h, ac := s.Climate, s.House, s.AC
	return append(append(c.siteBasis(), []scalar{
		{name: "B_direct_stage", label: "Has a direct stage", kind: units.Count, formula: `IF(In_cooler_kind="indirect",0,1)`, value: flag(s.Job.Cooler.Kind != "indirect")},
		{name: "B_indirect_stage", label: "Has an indirect stage", kind: units.Count, formula: `IF(In_cooler_kind="direct",0,1)`, value: flag(s.Job.Cooler.Kind != "direct")},
		{name: "B_pad_effectiveness", label: "Effectiveness with the pads as they are", kind: units.Share, eq: 14, formula: "Si_cooler_effectiveness*Si_cooler_pad_condition", value: s.Cooler.Effectiveness},
		{name: "B_aperture", label: "Solar aperture", kind: units.Area, eq: 15, formula: "Si_house_solar_share*Si_house_floor_area", value: h.Aperture},
		{name: "B_sensible", label: "Sensible gains inside", kind: units.Power, eq: 16, formula: "136+2.2*Si_house_floor_area+22*Si_house_people", value: h.Sensible, note: "ASHRAE Handbook Fundamentals 2017 ch. 17"},
		{name: "B_latent", label: "Latent gains inside", kind: units.Power, eq: 16, formula: "20+0.22*Si_house_floor_area+12*Si_house_people", value: h.Latent, note: "ASHRAE Handbook Fundamentals 2017 ch. 17"},
		{name: "B_ua", label: "Heat loss coefficient of the house", kind: units.Conductance, eq: 15,
			formula: "IF(Si_house_design_load>0,(Si_house_design_load-B_aperture*B_design_ghi-B_sensible)/(Out_design_db_1pct_c-Si_house_setpoint),Si_house_heat_loss*Si_house_floor_area)",
			value:   h.UA, note: "from a stated design load by eq. 17, else from the heat loss per floor area"},
		{name: "B_design_ghi", label: "Mean irradiance at or above the 1 % dry bulb", kind: units.Irradiance, eq: 17,
			formula: "SUMIFS([Working.ghi:],[Working.t:],\">=\"&(Out_design_db_1pct_c-1E-9))/COUNTIFS([Working.t:],\">=\"&(Out_design_db_1pct_c-1E-9))", value: cl.Design.GHI},
		{name: "B_set_psat", label: "Saturation pressure at the setpoint", kind: units.Pressure, eq: 2, formula: psatFormula("(Si_house_setpoint+273.15)"), value: psychro.SaturationPressure(h.Setpoint)},
		{name: "B_room_w", label: "Humidity ratio of the closed room", kind: units.HumidityRatio, eq: 25, formula: humidityRatioFormula("(0.5*B_set_psat)", "B_site_pressure"), value: c.roomRatio(), note: "at the setpoint and 50 % relative humidity"},
		{name: "B_infiltration", label: "Infiltration of the closed house", kind: units.MassFlow, eq: 25, formula: "Si_house_infiltration*Si_house_floor_area*Si_house_ceiling/3600*1.2*B_site_pressure/101325", value: h.Infiltration},
		{name: "B_wet_bulb_f", label: "Wet bulb entering the coil, °F", kind: units.Plain, eq: 26, formula: "Si_ac_indoor_wet_bulb*1.8+32", value: ac.IndoorWetBulbF},
		{name: "B_cop", label: "Rated coefficient of performance", kind: units.Plain, eq: 27, formula: "Si_ac_eer2/3.412142", value: ac.COP},
	}...), c.curveBasis(ac, cl)...)
}

func (c *Case) siteBasis() []scalar {
	cl := c.Season.Climate
	elevation := scalar{name: "B_station_elevation", label: "Station elevation", kind: units.Altitude, value: cl.StationElevation, note: "from the weather file"}
	if !cl.ElevationKnown {
		elevation.formula, elevation.note = "Si_site_altitude", "not in the weather file: the site's altitude is taken"
	}
	stationP, _ := psychro.StandardPressure(cl.StationElevation)
	return []scalar{
		elevation,
		{name: "B_station_pressure", label: "Standard pressure at the station", kind: units.Pressure, eq: 1, formula: standardPressureFormula("B_station_elevation"), value: stationP},
		{name: "B_site_pressure", label: "Standard pressure at the site", kind: units.Pressure, eq: 1, formula: standardPressureFormula("Si_site_altitude"), value: cl.Pressure},
		{name: "B_pressure_ratio", label: "Site over station pressure", kind: units.Share, eq: 8, formula: "B_site_pressure/B_station_pressure", value: cl.Pressure / stationP},
		{name: "B_lapse", label: "Dry bulb taken off for height", kind: units.TemperatureDifference, eq: 7, formula: "Si_site_lapse_rate*(Si_site_altitude-B_station_elevation)/1000",
			value: cl.Site.LapseRate * (cl.Site.Altitude - cl.StationElevation) / 1000},
		{name: "B_capped", label: "Hours cut to saturation at the site", kind: units.Count, eq: 6, formula: cappedFormula, value: cl.Capped},
		{name: "B_psat_zero", label: "Saturation pressure at 0 °C", kind: units.Pressure, eq: 2, formula: psatFormula("273.15"), value: psychro.SaturationPressure(0)},
	}
}

func standardPressureFormula(z string) string {
	return "101325*(1-2.25577E-5*" + z + ")^5.2559"
}

func (c *Case) roomRatio() float64 {
	a, _ := psychro.FromRelHum(c.Season.House.Setpoint, house.ClosedRoomRelHum, c.Season.Climate.Pressure)
	return a.W
}

// curveBasis reduces the two performance curves to second-degree polynomials
// of outdoor °F at the stated entering wet bulb, already divided by their
// value at rating; eq. 26.
func (c *Case) curveBasis(ac refrigeration.Unit, cl *climate.Climate) []scalar {
	curve := func(name, label string, q refrigeration.Biquadratic) []scalar {
		rated, x := q.At(67, 95), ac.IndoorWetBulbF
		over := "/(" + polynomial(q, "67", "95") + ")"
		return []scalar{
			{name: "B_" + name + "_0", label: label + ", constant term", kind: units.Plain, eq: 26, formula: "(" + num(q.A) + "+" + num(q.B) + "*B_wet_bulb_f+" + num(q.C) + "*B_wet_bulb_f^2)" + over, value: (q.A + q.B*x + q.C*x*x) / rated, note: "NREL/TP-5500-56354 (2013)"},
			{name: "B_" + name + "_1", label: label + ", per °F", kind: units.Plain, eq: 26, formula: "(" + num(q.D) + "+" + num(q.F) + "*B_wet_bulb_f)" + over, value: (q.D + q.F*x) / rated},
			{name: "B_" + name + "_2", label: label + ", per °F²", kind: units.Plain, eq: 26, formula: num(q.E) + over, value: q.E / rated},
		}
	}
	altitude := scalar{name: "B_altitude_factor", label: "Capacity at this altitude over sea level", kind: units.Share, eq: 26,
		formula: altitudeFormula("Si_site_altitude"), value: refrigeration.AltitudeFactor(cl.Site.Altitude),
		note: "condensing units 0.98, 0.97, 0.95, 0.93 at 2,500, 5,000, 7,500, 10,000 ft (design manual table 4-2)"}
	return append(append(curve("capacity", "Capacity curve", refrigeration.CapacityCurve), curve("eir", "Input ratio curve", refrigeration.EIRCurve)...), altitude)
}

// polynomial writes the curve at x and y.
func polynomial(q refrigeration.Biquadratic, x, y string) string {
	return fill("{a}+{b}*{x}+{c}*{x}^2+{d}*{y}+{e}*{y}^2+{f}*{x}*{y}",
		"{a}", num(q.A), "{b}", num(q.B), "{c}", num(q.C), "{d}", num(q.D), "{e}", num(q.E), "{f}", num(q.F), "{x}", x, "{y}", y)
}

// altitudeFormula adds up the fall of each segment of the altitude table.
func altitudeFormula(z string) string {
	f := num(refrigeration.AltitudeTable[0].Factor)
	for i := 1; i < len(refrigeration.AltitudeTable); i++ {
		a, b := refrigeration.AltitudeTable[i-1], refrigeration.AltitudeTable[i]
		f += fill("-{d}*MIN(MAX({z}-{lo},0),{w})/{w}", "{d}", num(round(a.Factor-b.Factor, 9)), "{z}", z, "{lo}", num(a.Altitude), "{w}", num(b.Altitude-a.Altitude))
	}
	return f
}
