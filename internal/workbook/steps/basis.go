package steps

import (
	"github.com/evapbook/evapbook/internal/climate"
	"github.com/evapbook/evapbook/internal/house"
	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/money"
	"github.com/evapbook/evapbook/internal/psychro"
	"github.com/evapbook/evapbook/internal/refrigeration"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/workbook/figures"
	"github.com/evapbook/evapbook/internal/workbook/fx"
	"github.com/evapbook/evapbook/internal/workbook/sheet"
	"github.com/evapbook/evapbook/internal/xlsx"
)

// basis lists what follows once from the inputs and the station, in SI, before
// any hour is computed. Order is that of the Basis sheet.
func basis(c *figures.Case) []sheet.Scalar {
	s := c.Season
	cl, h, ac := s.Climate, s.House, s.AC
	return append(append(siteBasis(c), []sheet.Scalar{
		{
			Name: "B_direct_stage", Label: "Has a direct stage", Kind: units.Count,
			Formula: `IF(In_cooler_kind="indirect",0,1)`,
			Value:   fx.Flag(s.Job.Cooler.Kind != "indirect"),
		},
		{
			Name: "B_indirect_stage", Label: "Has an indirect stage", Kind: units.Count,
			Formula: `IF(In_cooler_kind="direct",0,1)`,
			Value:   fx.Flag(s.Job.Cooler.Kind != "direct"),
		},
		{
			Name: "B_pad_effectiveness", Label: "Effectiveness with the pads as they are", Kind: units.Share, Eq: 14,
			Formula: "Si_cooler_effectiveness*Si_cooler_pad_condition",
			Value:   s.Cooler.Effectiveness,
		},
		{
			Name: "B_aperture", Label: "Solar aperture", Kind: units.Area, Eq: 15,
			Formula: "Si_house_solar_share*Si_house_floor_area",
			Value:   h.Aperture,
		},
		{
			Name: "B_sensible", Label: "Sensible gains inside", Kind: units.Power, Eq: 16, Note: "ASHRAE Handbook Fundamentals 2017 ch. 17",
			Formula: gains(house.SensibleBase, house.SensiblePerArea, house.SensiblePerPerson),
			Value:   h.Sensible,
		},
		{
			Name: "B_latent", Label: "Latent gains inside", Kind: units.Power, Eq: 16, Note: "ASHRAE Handbook Fundamentals 2017 ch. 17",
			Formula: gains(house.LatentBase, house.LatentPerArea, house.LatentPerPerson),
			Value:   h.Latent,
		},
		{
			Name: "B_storage", Label: "Heat capacity of the house over one hour", Kind: units.Conductance, Eq: 17,
			Formula: "1000*Si_house_thermal_mass*Si_house_floor_area/3600",
			Value:   h.Storage,
		},
		{
			Name: "B_heated", Label: "Temperature to which a shut house is heated", Kind: units.Temperature, Eq: 17,
			Formula: "MIN(" + fx.Num(house.HeatedTo) + ",Si_house_setpoint)",
			Value:   min(house.HeatedTo, h.Setpoint),
		},
		{
			Name: "B_ua", Label: "Heat loss coefficient of the house", Kind: units.Conductance, Eq: 15, Note: "from a stated design load by eq. 17, else from the heat loss per floor area",
			Formula: "IF(Si_house_design_load>0,(Si_house_design_load-B_aperture*B_design_ghi-B_sensible)/(Out_design_db_1pct_c-Si_house_setpoint),Si_house_heat_loss*Si_house_floor_area)",
			Value:   h.UA,
		},
		{
			Name: "B_design_ghi", Label: "Mean irradiance at or above the 1 % dry bulb", Kind: units.Irradiance, Eq: 17,
			Formula: "SUMIFS([Working.ghi:],[Working.t:],\">=\"&(Out_design_db_1pct_c-1E-9))/COUNTIFS([Working.t:],\">=\"&(Out_design_db_1pct_c-1E-9))",
			Value:   cl.Design.GHI,
		},
		{
			Name: "B_set_psat", Label: "Saturation pressure at the setpoint", Kind: units.Pressure, Eq: 2,
			Formula: fx.SaturationPressure(fx.Kelvin("Si_house_setpoint")),
			Value:   psychro.SaturationPressure(h.Setpoint),
		},
		{
			Name: "B_moving_psat", Label: "Saturation pressure at the warmest that moving air makes comfortable", Kind: units.Pressure, Eq: 2,
			Formula: fx.SaturationPressure(fx.Kelvin("Si_house_setpoint+Si_house_moving_air")),
			Value:   psychro.SaturationPressure(h.Setpoint + h.MovingAir),
		},
		{
			Name: "B_room_w", Label: "Humidity ratio of the closed room", Kind: units.HumidityRatio, Eq: 25, Note: "at the setpoint and 50 % relative humidity",
			Formula: fx.HumidityRatio("("+fx.Num(house.ClosedRoomRelHum)+"*B_set_psat)", "B_site_pressure"),
			Value:   roomRatio(c),
		},
		{
			Name: "B_infiltration", Label: "Infiltration of the closed house", Kind: units.MassFlow, Eq: 25,
			Formula: "Si_house_infiltration*Si_house_floor_area*Si_house_ceiling/3600*" + fx.Num(house.StandardDensity) + "*B_site_pressure/" + fx.Num(psychro.SeaLevelPressure),
			Value:   h.Infiltration,
		},
		{
			Name: "B_wet_bulb_f", Label: "Wet bulb entering the coil, °F", Kind: units.Plain, Eq: 26,
			Formula: "Si_ac_indoor_wet_bulb*1.8+32",
			Value:   ac.IndoorWetBulbF,
		},
		{Name: "B_cop", Label: "Rated coefficient of performance", Kind: units.Plain, Eq: 27, Formula: "Si_ac_eer2/" + fx.Num(refrigeration.BtuPerWattHour), Value: ac.COP},
		statePrice(c),
	}...), append(tariffBasis(c), curveBasis(c, ac, cl)...)...)
}

// gains are the gains inside by floor area and people; eq. 16.
func gains(base, perArea, perPerson float64) string {
	return fx.Num(base) + "+" + fx.Num(perArea) + "*Si_house_floor_area+" + fx.Num(perPerson) + "*Si_house_people"
}

// statePrice is the price of electricity that follows from the weather file.
func statePrice(c *figures.Case) sheet.Scalar {
	in, _ := job.Find("price.electricity")
	note := "of the United States: the weather file names none of its states"
	if s := c.Series.Station.State; s != "" {
		note = "of " + s + ", EIA Electric Power Annual 2023"
	}
	return sheet.Scalar{Name: "B_state_price", Label: "Residential price of electricity", Kind: units.PricePerKWh, Value: in.Rule.Value(c.Season.Job), Note: note}
}

func siteBasis(c *figures.Case) []sheet.Scalar {
	cl := c.Season.Climate
	elevation := sheet.Scalar{
		Name: "B_station_elevation", Label: "Station elevation", Kind: units.Altitude, Note: "from the weather file",
		Value: cl.StationElevation,
	}
	if !cl.ElevationKnown {
		elevation.Formula, elevation.Note = "Si_site_altitude", "not in the weather file: the site's altitude is taken"
	}
	ground := sheet.Scalar{Name: "B_place_elevation", Label: "Elevation of the place", Kind: units.Altitude, Value: c.Ground(), Formula: "B_station_elevation", Note: "that of the weather station"}
	if c.Sited != nil {
		ground.Formula, ground.Note = "", "of "+c.Sited.Place.Name
	}
	stationP, _ := psychro.StandardPressure(cl.StationElevation)
	return []sheet.Scalar{
		elevation,
		ground,
		{
			Name: "B_station_pressure", Label: "Standard pressure at the station", Kind: units.Pressure, Eq: 1,
			Formula: fx.StandardPressure("B_station_elevation"),
			Value:   stationP,
		},
		{
			Name: "B_site_pressure", Label: "Standard pressure at the site", Kind: units.Pressure, Eq: 1,
			Formula: fx.StandardPressure("Si_site_altitude"),
			Value:   cl.Pressure,
		},
		{
			Name: "B_pressure_ratio", Label: "Site over station pressure", Kind: units.Share, Eq: 8,
			Formula: "B_site_pressure/B_station_pressure",
			Value:   cl.Pressure / stationP,
		},
		{
			Name: "B_lapse", Label: "Dry bulb taken off for height", Kind: units.TemperatureDifference, Eq: 7,
			Formula: "Si_site_lapse_rate*(Si_site_altitude-B_station_elevation)/1000",
			Value:   cl.Site.LapseRate * (cl.Site.Altitude - cl.StationElevation) / 1000,
		},
		{Name: "B_capped", Label: "Hours cut to saturation at the site", Kind: units.Count, Eq: 6, Formula: fx.Capped, Value: cl.Capped},
		{
			Name: "B_psat_zero", Label: "Saturation pressure at 0 °C", Kind: units.Pressure, Eq: 2,
			Formula: fx.SaturationPressure(fx.Zero),
			Value:   psychro.SaturationPressure(0),
		},
	}
}

func roomRatio(c *figures.Case) float64 {
	a, _ := psychro.FromRelHum(c.Season.House.Setpoint, house.ClosedRoomRelHum, c.Season.Climate.Pressure)
	return a.W
}

// curveBasis reduces the two performance curves to second-degree polynomials
// of outdoor °F at the stated entering wet bulb, already divided by their
// value at rating; eq. 26.
func curveBasis(c *figures.Case, ac refrigeration.Unit, cl *climate.Climate) []sheet.Scalar {
	curve := func(name, label string, q refrigeration.Biquadratic) []sheet.Scalar {
		rated, x := q.At(refrigeration.RatedWetBulbF, refrigeration.RatedDryBulbF), ac.IndoorWetBulbF
		over := "/(" + fx.Biquadratic(q, fx.Num(refrigeration.RatedWetBulbF), fx.Num(refrigeration.RatedDryBulbF)) + ")"
		return []sheet.Scalar{
			{
				Name: "B_" + name + "_0", Label: label + ", constant term", Kind: units.Plain, Eq: 26, Note: "NREL/TP-5500-56354 (2013)",
				Formula: "(" + fx.Num(q.A) + "+" + fx.Num(q.B) + "*B_wet_bulb_f+" + fx.Num(q.C) + "*B_wet_bulb_f^2)" + over,
				Value:   (q.A + q.B*x + q.C*x*x) / rated,
			},
			{
				Name: "B_" + name + "_1", Label: label + ", per °F", Kind: units.Plain, Eq: 26,
				Formula: "(" + fx.Num(q.D) + "+" + fx.Num(q.F) + "*B_wet_bulb_f)" + over,
				Value:   (q.D + q.F*x) / rated,
			},
			{Name: "B_" + name + "_2", Label: label + ", per °F²", Kind: units.Plain, Eq: 26, Formula: fx.Num(q.E) + over, Value: q.E / rated},
		}
	}
	altitude := sheet.Scalar{Name: "B_altitude_factor", Label: "Capacity at this altitude over sea level", Kind: units.Share, Eq: 26,
		Formula: fx.AltitudeFactor("Si_site_altitude"), Value: refrigeration.AltitudeFactor(cl.Site.Altitude),
		Note: "condensing units 0.98, 0.97, 0.95, 0.93 at 2,500, 5,000, 7,500, 10,000 ft (design manual table 4-2)"}
	return append(append(curve("capacity", "Capacity curve", refrigeration.CapacityCurve), curve("eir", "Input ratio curve", refrigeration.EIRCurve)...), altitude)
}

// scalarsOf are the row's cells, one below the other.
func scalarsOf(r figures.MoneyRow) (list []sheet.Scalar) {
	for w := range r.Formula {
		list = append(list, sheet.Scalar{
			Name: r.Name(w), Label: figures.WayTitle[money.Way(w)] + ": " + r.Label, Kind: r.Kind, Eq: r.Eq,
			Formula: r.Formula[w],
			Value:   r.Value[w],
		})
	}
	return list
}

// layConstants writes the figures behind the rules of derived inputs.
func layConstants(p *sheet.Page) {
	for _, k := range job.Constants {
		p.SetRow(p.Row, 1,
			xlsx.Cell{Value: k.Label, Style: sheet.Label},
			xlsx.Cell{Value: k.Value, Style: sheet.Number("#,##0.00####"), Name: k.Name},
			xlsx.Cell{Value: k.Unit, Style: sheet.Label},
			xlsx.Cell{}, xlsx.Cell{Value: k.Name, Style: sheet.Quiet}, xlsx.Cell{Value: k.Source, Style: sheet.Quiet})
		p.Row++
	}
}

// Basis lays out what follows from the inputs before any hour.
func Basis(c *figures.Case, p *sheet.Page) {
	p.Cols = []float64{46, 16, 14, 8, 24, 60}
	p.Print.Landscape = true
	p.Print.FitHeight = 2
	p.Print.TitleRows = [2]int{p.Row, p.Row}
	p.Heads("Quantity", "Value", "Unit", "Eq.", "Name", "Source or reason")
	p.Scalars(basis(c))
	p.Row++
	p.Section("What each way of cooling takes in a year", 6)
	for _, r := range c.MoneyRows() {
		if !r.IsMoney() {
			p.Scalars(scalarsOf(r))
		}
	}
	p.Row++
	p.Section("Rules behind derived inputs", 6)
	layConstants(p)
}
