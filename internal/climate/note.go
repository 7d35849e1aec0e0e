package climate

import (
	"fmt"
	"math"

	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/weather"
)

// FarInHeight is the difference in height between a site and its station from
// which on readers are told, m: some 0.65 K and 1.2 % of the pressure. Common
// practice, no source.
const FarInHeight = 100

// StandardLapse is the temperature gradient of the standard atmosphere, K/km.
// Source: U.S. Standard Atmosphere (1976).
const StandardLapse = 6.5

// Notes says what a reader of the results must know about how the weather was
// brought to the site, in the given units.
func (c *Climate) Notes(sys units.System) []string {
	var notes []string
	add := func(format string, a ...any) { notes = append(notes, fmt.Sprintf(format, a...)) }
	kelvin := func(v float64) string { return units.TemperatureDifference.Show(v, sys) }
	either := func(v float64, up, down string) string {
		if v < 0 {
			return down
		}
		return up
	}
	if !c.ElevationKnown {
		add("the file does not give the station's elevation; the site's altitude was taken for it")
	}
	if up := c.Site.Altitude - c.StationElevation; math.Abs(up) > FarInHeight {
		where, height := either(up, "above", "below"), units.Altitude.Show(math.Abs(up), sys)
		if c.Site.LapseRate == 0 {
			add("the site is %s %s the station and no lapse rate was applied; the standard atmosphere has %s", height, where, units.LapseRate.Show(StandardLapse, sys))
		} else {
			add("the site is %s %s the station; dry bulb moved by %s", height, where, kelvin(-c.Site.LapseRate*up/1000))
		}
	}
	if c.PressureEstimated > 0 {
		add("station pressure of %d hours estimated from elevation (standard atmosphere)", c.PressureEstimated)
	}
	if c.GHIEstimated > 0 {
		add("irradiance of %d hours estimated: clear sky (Haurwitz 1945) times %.2f", c.GHIEstimated, c.Site.Clearness)
	}
	if by := c.Site.Warmer; by != 0 {
		add("every hour is %s %s than the weather file's, at the same relative humidity", kelvin(math.Abs(by)), either(by, "warmer", "cooler"))
	}
	if c.Capped > 0 {
		add("humidity of %d hours was above saturation at the site and was cut to it", c.Capped)
	}
	if n := len(c.Hours) - c.Valid; n > 0 {
		add("%d hours are missing and are counted in no total", n)
	}
	if c.Disputed > 0 {
		used, other := "relative humidity", "dew point"
		if c.Humidity == weather.DewPoint {
			used, other = other, used
		}
		add("relative humidity and dew point of the file differ by more than 5 points in %d hours; %s is used, --humidity takes the %s instead", c.Disputed, used, other)
	}
	return notes
}
