package given

import (
	"math"
	"strconv"
	"strings"

	"github.com/evapbook/evapbook/internal/climate"
	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/weather"
	"github.com/evapbook/evapbook/internal/workbook/figures"
	"github.com/evapbook/evapbook/internal/workbook/fx"
	"github.com/evapbook/evapbook/internal/workbook/sheet"
)

// PlaceLine says where the site is and whose weather it has.
func PlaceLine(c *figures.Case) *sheet.Sentence {
	s := c.Season
	return new(sheet.Sentence).Quantity(c.Units, units.Altitude, "Out_site_altitude_m", s.Job.Site.Altitude, 0).
		Say(" above sea level, standard pressure ").Quantity(c.Units, units.Pressure, "Out_site_pressure_pa", s.Climate.Pressure, pressureDigits(c)).
		Say(". Weather: " + c.Series.Place() + ", " + c.Series.Source.Format + ", " + c.Series.Source.Name)
}

func pressureDigits(c *figures.Case) int {
	if c.Units == units.IP {
		return 2
	}
	return 0
}

// CoolerLine says which cooler in which house.
func CoolerLine(c *figures.Case) *sheet.Sentence {
	j := c.Season.Job
	return new(sheet.Sentence).Say("A ").Word("In_cooler_kind", string(j.Cooler.Kind)).Say(" cooler of ").Quantity(c.Units, units.Airflow, "Si_cooler_airflow", j.Cooler.Airflow, airflowDigits(c)).
		Say(" in a house of ").Quantity(c.Units, units.Area, "Si_house_floor_area", j.House.FloorArea, 0).
		Say(" kept at ").Quantity(c.Units, units.Temperature, "Si_house_setpoint", j.House.Setpoint, 1).
		Say(" and at most ").Percent("Si_house_humidity_limit", j.House.HumidityLimit).Say(" relative humidity")
}

func airflowDigits(c *figures.Case) int {
	if c.Units == units.IP {
		return 0
	}
	return 2
}

// WeatherNote says what was done to the weather on its way to the site. It
// says the same as climate.Climate.Notes, but follows the input cells.
func WeatherNote(c *figures.Case) *sheet.Sentence {
	cl, site := c.Season.Climate, c.Season.Climate.Site
	part := func() *sheet.Sentence { return new(sheet.Sentence) }
	moved := site.Altitude - cl.StationElevation
	s := part().Say("About the weather: ").Number("COUNT([Working.t:])", float64(cl.Valid), 0).Say(" hours with data")
	if n := len(cl.Hours) - cl.Valid; n > 0 {
		s.Say("; ").Say(sheet.Fixed(float64(n), 0)).Say(" hours are missing and counted in no total")
	}
	if !cl.ElevationKnown {
		s.Say("; the file does not give the station's elevation, and the site's altitude was taken for it")
	}
	s.Say(yearsNote(c.Series.Notes)).Say(elevationNote(c.Series.Notes, c.Units)).Say(farNote(c))
	far := "ABS(Si_site_altitude-B_station_elevation)>" + fx.Num(climate.FarInHeight)
	s.When(far, math.Abs(moved) > climate.FarInHeight,
		part().Say("; the site lies ").Quantity(c.Units, units.Altitude, "ABS(Si_site_altitude-B_station_elevation)", math.Abs(moved), 0).
			When("Si_site_altitude>B_station_elevation", moved > 0, part().Say(" above")).When("Si_site_altitude<=B_station_elevation", moved <= 0, part().Say(" below")).Say(" the station"))
	s.When("AND("+far+",Si_site_lapse_rate=0)", math.Abs(moved) > climate.FarInHeight && site.LapseRate == 0,
		part().Say(" and no lapse rate was applied (the standard atmosphere has "+units.LapseRate.Show(climate.StandardLapse, c.Units)+")"))
	s.When("AND("+far+",Si_site_lapse_rate<>0)", math.Abs(moved) > climate.FarInHeight && site.LapseRate != 0,
		part().Say(", dry bulb moved by ").Quantity(c.Units, units.TemperatureDifference, "(-B_lapse)", -site.LapseRate*moved/1000, 1))
	s.When("Si_site_warmer<>0", site.Warmer != 0,
		part().Say("; every hour made ").Quantity(c.Units, units.TemperatureDifference, "Si_site_warmer", site.Warmer, 1).Say(" warmer at the same relative humidity"))
	if cl.PressureEstimated > 0 {
		s.Say("; pressure of " + sheet.Fixed(float64(cl.PressureEstimated), 0) + " hours taken from the elevation (standard atmosphere)")
	}
	if cl.GHIEstimated > 0 {
		s.Say("; sun of "+sheet.Fixed(float64(cl.GHIEstimated), 0)+" hours estimated: clear sky (Haurwitz 1945) times ").Number("Si_site_clearness", site.Clearness, 2)
	}
	s.When("B_capped>0", cl.Capped > 0,
		part().Say("; humidity of ").Number("B_capped", float64(cl.Capped), 0).Say(" hours was above saturation at the site and was cut to it"))
	return s.Say(".")
}

// Doubt says why the weather is not to be relied on, empty where it is.
func Doubt(c *figures.Case) string {
	v := c.Series.Verdict()
	if v.Grade != weather.Doubtful {
		return ""
	}
	var why []string
	for _, n := range v.Because {
		why = append(why, n.Text())
	}
	return "DOUBTFUL WEATHER, to be cleared up before anybody relies on this page: " + strings.Join(why, "; ")
}

// yearsNote says which years a typical year's months are from, and what of it.
func yearsNote(notes []weather.Note) string {
	for _, n := range notes {
		if n.Kind == weather.NoteTypical || n.Kind == weather.NoteTypicalOld {
			return "; a " + n.Text()
		}
	}
	return ""
}

// farNote warns where the station that stands for a town is far from it.
func farNote(c *figures.Case) string {
	if c.Sited == nil || len(c.Sited.Candidates) == 0 || !c.Sited.Candidates[0].Far() {
		return ""
	}
	return "; the station is far from " + c.Sited.Place.Name + ", whose climate may be another"
}

// elevationNote says which height the station is taken to have where the file's
// pressures contradict the one it states, and how to set another; else nothing.
func elevationNote(notes []weather.Note, sys units.System) string {
	height := func(metres float64) string { return units.Altitude.Show(math.Round(metres), sys) }
	for _, n := range notes {
		stated, err := strconv.ParseFloat(n.Other, 64)
		switch {
		case err != nil:
		case n.Kind == weather.NoteElevationFitted:
			return "; the station is taken at " + height(n.Value) + ", which its pressures fit, not at the file's " + height(stated) + " (--elevation sets another)"
		case n.Kind == weather.NoteElevationDoubted:
			return "; the station is taken at the " + height(stated) + " stated, though its pressures fit " + height(n.Value)
		}
	}
	return ""
}

// CareNote warns where the sump water is left to concentrate.
func CareNote(c *figures.Case) *sheet.Sentence {
	return new(sheet.Sentence).When(`In_cooler_water_care="none"`, c.Season.Job.Cooler.WaterCare == job.NoCare,
		new(sheet.Sentence).Say("No bleed or purge is set: scale and salts build up, and pads fail early."))
}
