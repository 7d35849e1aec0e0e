package workbook

import (
	"math"

	"github.com/evapbook/evapbook/internal/job"
)

// weatherNote says what was done to the weather on its way to the site. It
// says the same as climate.Climate.Notes, but follows the input cells.
func (c *Case) weatherNote() *sentence {
	cl, site := c.Season.Climate, c.Season.Climate.Site
	part := func() *sentence { return new(sentence) }
	moved := site.Altitude - cl.StationElevation
	s := part().say("About the weather: ").number("COUNT([Working.t:])", float64(cl.Valid), 0).say(" hours with data")
	if n := len(cl.Hours) - cl.Valid; n > 0 {
		s.say("; ").say(fixed(float64(n), 0)).say(" hours are missing and counted in no total")
	}
	if !cl.ElevationKnown {
		s.say("; the file does not give the station's elevation, and the site's altitude was taken for it")
	}
	s.when("ABS(Si_site_altitude-B_station_elevation)>100", math.Abs(moved) > 100,
		part().say("; the site is ").number("Si_site_altitude-B_station_elevation", moved, 0).say(" m from the station in height"))
	s.when("AND(ABS(Si_site_altitude-B_station_elevation)>100,Si_site_lapse_rate=0)", math.Abs(moved) > 100 && site.LapseRate == 0,
		part().say(" and no lapse rate was applied (the standard atmosphere has 6.5 K/km)"))
	s.when("AND(ABS(Si_site_altitude-B_station_elevation)>100,Si_site_lapse_rate<>0)", math.Abs(moved) > 100 && site.LapseRate != 0,
		part().say(", dry bulb moved by ").number("-B_lapse", -site.LapseRate*moved/1000, 1).say(" K"))
	if cl.PressureEstimated > 0 {
		s.say("; pressure of " + fixed(float64(cl.PressureEstimated), 0) + " hours taken from the elevation (standard atmosphere)")
	}
	if cl.GHIEstimated > 0 {
		s.say("; sun of "+fixed(float64(cl.GHIEstimated), 0)+" hours estimated: clear sky (Haurwitz 1945) times ").number("Si_site_clearness", site.Clearness, 2)
	}
	s.when("B_capped>0", cl.Capped > 0,
		part().say("; humidity of ").number("B_capped", float64(cl.Capped), 0).say(" hours was above saturation at the site and was cut to it"))
	return s.say(".")
}

// cappedFormula counts the hours of climate.Climate.Capped. The products keep
// rounding of equal numbers out, as the engine does.
const cappedFormula = "SUMPRODUCT(([Working.w:]*(1+1E-9)<[Working.st_w:])*1)"

// careNote warns where the sump water is left to concentrate.
func (c *Case) careNote() *sentence {
	return new(sentence).when(`In_cooler_water_care="none"`, c.Season.Job.Cooler.WaterCare == job.NoCare,
		new(sentence).say("No bleed or purge is set: scale and salts build up, and pads fail early."))
}
