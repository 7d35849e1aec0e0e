package climate_test

import (
	"math"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/internal/climate"
	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/weather"
)

// A site more than 100 m from its station in height says so, up or down, and
// one just within says nothing.
func TestNoteOfHeightDifference(t *testing.T) {
	s := sampleYear(t)
	for _, c := range []struct {
		apart, lapse float64
		want         string
	}{
		{100, 6.5, ""},
		{-100, 6.5, ""},
		{101, 6.5, "the site is 101 m above the station; dry bulb moved by -0.7 K"},
		{-400, 6.5, "the site is 400 m below the station; dry bulb moved by 2.6 K"},
		{101, 0, "the site is 101 m above the station and no lapse rate was applied; the standard atmosphere has 6.50 K/km"},
	} {
		at, err := climate.AtSite(s, job.Site{Altitude: s.Station.Elevation + c.apart, LapseRate: c.lapse, Clearness: 0.75})
		require.NoError(t, err)
		notes := strings.Join(at.Notes(units.SI), "\n")
		if c.want == "" {
			assert.NotContains(t, notes, "the station", c.apart)
			continue
		}
		assert.Contains(t, notes, c.want)
	}
}

// oneDay is a clear day of invented weather, in file order.
func oneDay(kind weather.Humidity, humidity float64) *weather.Series {
	s := &weather.Series{Station: weather.Station{Name: "invented", Latitude: 40, Longitude: -105, UTCOffset: -7, Elevation: 500}, Humidity: kind}
	for i := range 48 {
		s.Hours = append(s.Hours, weather.Hour{Time: time.Date(2023, 7, 1, i, 0, 0, 0, time.UTC), DryBulb: 25, Humidity: humidity, Pressure: 95000, GHI: 100})
	}
	return s
}

// What does not happen is not noted, and what does is, with its hours.
func TestNotesOfWhatWasDone(t *testing.T) {
	assert.Empty(t, atStation(t, oneDay(weather.RelHum, 0.5)).Notes(units.SI))

	s := oneDay(weather.RelHum, 0.5)
	for i := range 3 {
		s.Hours[i].Pressure = math.NaN()
	}
	s.Hours[20].GHI = math.NaN()
	assert.Equal(t, []string{
		"station pressure of 3 hours estimated from elevation (standard atmosphere)",
		"irradiance of 1 hours estimated: clear sky (Haurwitz 1945) times 0.75",
	}, atStation(t, s).Notes(units.SI))
}

// Saturated air at its own station is whole: rounding is no cut. A dew point
// above the dry bulb, as sensors have it in fog, is saturation too.
func TestSaturatedAirIsNotCut(t *testing.T) {
	for _, s := range []*weather.Series{oneDay(weather.RelHum, 1), oneDay(weather.DewPoint, 25), oneDay(weather.DewPoint, 25.3), oneDay(weather.WetBulb, 25.2)} {
		c := atStation(t, s)
		assert.Zero(t, c.Capped, "humidity of kind %d", s.Humidity)
		for i := range c.Hours {
			assert.InDelta(t, 1, c.Hours[i].Air.RelHum(), 1e-9, "humidity of kind %d", s.Humidity)
		}
	}
}

// Days are the hours in their order, none left out and none twice.
func TestDaysHoldTheHours(t *testing.T) {
	c := atStation(t, oneDay(weather.RelHum, 0.5))
	require.Len(t, c.Days, 2)
	for i, d := range c.Days {
		assert.Equal(t, []int{24 * i, 24 * (i + 1), 24}, []int{d.First, d.Last, d.Valid})
		assert.Equal(t, time.Date(2023, 7, 1+i, 0, 0, 0, 0, time.UTC), d.Date, "a day begins at midnight")
	}
	assert.Equal(t, -1, c.Calendar.LastFreeze)
	assert.Equal(t, -1, c.Calendar.FirstFreeze)
}

// Of a day without a valid hour nothing is known, and it set no freeze.
func TestADayWithoutHours(t *testing.T) {
	s := oneDay(weather.RelHum, 0.5)
	for i := 24; i < 48; i++ {
		s.Hours[i].DryBulb = math.NaN()
	}
	d := atStation(t, s).Days[1]
	assert.Zero(t, d.Valid)
	for _, v := range []float64{d.Min, d.Max, d.Mean} {
		assert.True(t, math.IsNaN(v), "%v", v)
	}
	assert.InDelta(t, climate.NeverSeen, d.Unseen, 0)
}

// A summer that is half a degree warmer is called warmer, one that is half a
// degree cooler is called cooler.
func TestNoteOfWarmerSummers(t *testing.T) {
	for by, want := range map[float64]string{
		0.5:  "every hour is 0.5 K warmer than the weather file's, at the same relative humidity",
		-0.5: "every hour is 0.5 K cooler than the weather file's, at the same relative humidity",
	} {
		c, err := climate.AtSite(oneDay(weather.RelHum, 0.5), job.Site{Altitude: 500, Clearness: 0.75, Warmer: by})
		require.NoError(t, err)
		assert.Equal(t, []string{want}, c.Notes(units.SI))
	}
}
