// Package climate brings station weather to the site of the house: the air of
// each hour at the stated altitude with its wet bulb and the sun, and what
// follows from the weather alone: design conditions, days and the calendar.
//
// Equation numbers are those of docs/model.md.
package climate

import (
	"errors"
	"fmt"
	"math"
	"time"

	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/psychro"
	"github.com/evapbook/evapbook/internal/solar"
	"github.com/evapbook/evapbook/internal/weather"
)

// Hour is one hour of air at the site.
type Hour struct {
	Missing bool
	Filled  bool      // its dry bulb was not observed, see weather.Hour
	Time    time.Time // stamp as the file prints it
	Start   time.Time // beginning of the hour
	Day     int       // index into Climate.Days

	StationP float64 // Pa, recorded or by eq. 5
	StationW float64 // kg/kg, eq. 6 before the cap at saturation

	Air     psychro.Air // at the site; eqs. 6 to 8
	WetBulb float64     // °C, thermodynamic; eq. 4
	GHI     float64     // W/m²
	Clear   float64     // W/m² clear-sky value, where GHI is estimated from it
}

// Climate is the weather of a site.
type Climate struct {
	Site             job.Site
	StationElevation float64 // m; the site's altitude where the file has none
	ElevationKnown   bool
	Pressure         float64 // Pa, standard atmosphere at the site; eq. 1
	Hours            []Hour
	Days             []Day
	Design           Design
	Calendar         Calendar

	Valid             int              // hours with weather
	PressureEstimated int              // hours whose station pressure came from eq. 5
	GHIEstimated      int              // hours whose irradiance is clear sky times clearness
	Capped            int              // hours whose humidity was cut to saturation at the site
	Disputed          int              // hours in which the file's two humidity columns contradict each other
	Humidity          weather.Humidity // the one of them that is used
}

// ErrNoSun says that irradiance is missing and cannot be estimated.
var ErrNoSun = errors.New("the file has no irradiance and no place to estimate it from; give --latitude, --longitude and --utc-offset")

// AtSite carries a weather series to the site of a resolved job. Series with
// no valid hour, or without irradiance and place, are errors.
func AtSite(s *weather.Series, site job.Site) (*Climate, error) {
	c := &Climate{Site: site, StationElevation: s.Station.Elevation, ElevationKnown: true}
	if math.IsNaN(c.StationElevation) {
		c.StationElevation, c.ElevationKnown = site.Altitude, false
	}
	stationP, err := psychro.StandardPressure(c.StationElevation)
	if err != nil {
		return nil, fmt.Errorf("station elevation: %w", err)
	}
	if c.Pressure, err = psychro.StandardPressure(site.Altitude); err != nil {
		return nil, fmt.Errorf("site.altitude: %w", err)
	}
	c.Hours = make([]Hour, len(s.Hours))
	for i := range s.Hours {
		if err := c.place(s, i, stationP); err != nil {
			return nil, fmt.Errorf("%s: %s: %w", s.Source.Name, s.Hours[i].Time.Format("2006-01-02 15:04"), err)
		}
	}
	if c.Valid == 0 {
		return nil, fmt.Errorf("%s: no hour has both temperature and humidity", s.Source.Name)
	}
	c.Days = groupDays(c.Hours)
	c.Design = c.design()
	c.Calendar = c.calendar()
	c.Disputed, _ = s.HumidityDisagreement(psychro.SaturationPressure)
	c.Humidity = s.Humidity
	return c, nil
}

// place computes hour i at the site.
func (c *Climate) place(s *weather.Series, i int, stationP float64) error {
	in, h := s.Hours[i], &c.Hours[i]
	h.Time, h.Start = in.Time, s.Start(i)
	h.Missing = math.IsNaN(in.DryBulb) || math.IsNaN(in.Humidity)
	h.Filled = in.Filled
	if h.Missing {
		return nil
	}
	c.Valid++
	h.StationP = in.Pressure
	if math.IsNaN(h.StationP) {
		h.StationP = stationP // (5)
		c.PressureEstimated++
	}
	station, err := stationAir(s.Humidity, in, h.StationP)
	if err != nil {
		return err
	}
	if station, err = warmer(station, c.Site.Warmer); err != nil {
		return err
	}
	h.StationW = station.W
	if err := c.air(h, station.T, stationP); err != nil {
		return err
	}
	if h.WetBulb, err = h.Air.WetBulb(); err != nil {
		return err
	}
	h.WetBulb = min(h.WetBulb, h.Air.T)
	return c.sun(s, in, h)
}

// stationAir is the air at the station from whichever humidity the file has.
func stationAir(kind weather.Humidity, in weather.Hour, p float64) (psychro.Air, error) {
	switch kind {
	case weather.DewPoint:
		return psychro.FromDewPoint(in.DryBulb, min(in.Humidity, in.DryBulb), p)
	case weather.WetBulb:
		return psychro.FromWetBulb(in.DryBulb, min(in.Humidity, in.DryBulb), p)
	default:
		return psychro.FromRelHum(in.DryBulb, min(in.Humidity, 1), p)
	}
}

// warmer shifts air by some kelvin at the same relative humidity: eq. 6a.
// Source: the shift of Belcher, Hacker and Powell, Building Services Engineering
// Research and Technology 26 (2005) 49, in its simplest form.
func warmer(a psychro.Air, by float64) (psychro.Air, error) {
	if by == 0 {
		return a, nil
	}
	return psychro.FromRelHum(a.T+by, a.RelHum(), a.P)
}

// CappedMargin is the share by which humidity must exceed saturation at the site
// to count as cut: rounding of equal numbers does not.
const CappedMargin = 1e-9

// air moves the hour to the site's altitude: eqs. 6, 7 and 8.
func (c *Climate) air(h *Hour, stationT, stationP float64) error {
	h.Air.T = stationT - c.Site.LapseRate*(c.Site.Altitude-c.StationElevation)/1000 // (7)
	h.Air.P = h.StationP * c.Pressure / stationP                                    // (8)
	saturated, err := psychro.SaturationHumidityRatio(h.Air.T, h.Air.P)
	if err != nil {
		return err
	}
	h.Air.W = min(h.StationW, saturated) // (6)
	if h.StationW > saturated*(1+CappedMargin) {
		c.Capped++
	}
	return nil
}

// sun fills in irradiance: the file's, or clear sky times clearness.
func (c *Climate) sun(s *weather.Series, in weather.Hour, h *Hour) error {
	h.GHI = in.GHI
	if !math.IsNaN(in.GHI) {
		return nil
	}
	st := s.Station
	if math.IsNaN(st.Latitude) || math.IsNaN(st.Longitude) || math.IsNaN(st.UTCOffset) {
		return ErrNoSun
	}
	c.GHIEstimated++
	h.Clear = solar.ClearSky(h.Start, st.Latitude, st.Longitude, st.UTCOffset)
	h.GHI = h.Clear * c.Site.Clearness
	return nil
}
