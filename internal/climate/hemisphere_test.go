package climate_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/data/sample"
	"github.com/evapbook/evapbook/internal/climate"
	"github.com/evapbook/evapbook/internal/weather"
)

// halfYear is as many whole days as half a year of 365 days has.
const halfYear = 182

// southern moves a year's weather by half a year under its calendar: what a
// place of the same climate south of the equator has.
func southern(s *weather.Series) *weather.Series {
	moved := *s
	moved.Station.Latitude = -s.Station.Latitude
	moved.Hours = make([]weather.Hour, len(s.Hours))
	for i := range s.Hours {
		h := s.Hours[(i+halfYear*24)%len(s.Hours)]
		h.Time = s.Hours[i].Time
		moved.Hours[i] = h
	}
	return &moved
}

// In the southern hemisphere the cooling season spans the turn of the year; the
// calendar must be the northern one, half a year later.
func TestSouthernCalendar(t *testing.T) {
	r, name := sample.Open()
	s, err := weather.Read(r, name, weather.Options{})
	require.NoError(t, err)
	north, south := atStation(t, s), atStation(t, southern(s))
	later := func(day int) int { return (day - halfYear + len(north.Days)) % len(north.Days) }
	assert.Equal(t, later(north.Calendar.Hottest), south.Calendar.Hottest)
	assert.Equal(t, later(north.Calendar.LastFreeze), south.Calendar.LastFreeze)
	assert.Equal(t, later(north.Calendar.FirstFreeze), south.Calendar.FirstFreeze)
	for i := range climate.DesignShares {
		assert.Equal(t, north.Design.DryBulb[i].Value, south.Design.DryBulb[i].Value, "design conditions do not know the date")
		assert.Equal(t, north.Design.WetBulb[i].Value, south.Design.WetBulb[i].Value)
		assert.InDelta(t, north.Design.DryBulb[i].Coincident, south.Design.DryBulb[i].Coincident, 1e-12)
	}
	for i, d := range north.Days {
		assert.Equal(t, d.Season, south.Days[later(i)].Season)
	}
	assert.Contains(t, []int{1, 2, 12}, int(south.Days[south.Calendar.Hottest].Date.Month()), "midsummer in the south")
}
