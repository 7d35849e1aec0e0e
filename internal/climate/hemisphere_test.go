package climate_test

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/data/sample"
	"github.com/evapbook/evapbook/internal/climate"
	"github.com/evapbook/evapbook/internal/weather"
)

func sampleYear(t *testing.T) *weather.Series {
	t.Helper()
	r, name := sample.Open()
	s, err := weather.Read(r, name, weather.Options{})
	require.NoError(t, err)
	return s
}

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
	s := sampleYear(t)
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
	assert.Equal(t, later(north.Calendar.Midsummer), south.Calendar.Midsummer)
	for i, d := range north.Days {
		assert.Equal(t, d.Season, south.Days[later(i)].Season)
	}
	assert.Contains(t, []int{1, 2, 12}, int(south.Days[south.Calendar.Hottest].Date.Month()), "midsummer in the south")
}

// A southern winter with frost in one fortnight of June, and a hottest day early
// in December: half a year from that day lies before the frost, which then all
// counted as frost before the season and none as frost after it. (The public
// record of Alice Springs has its first freezes from 17 to 30 June; the hours
// here are invented.)
func TestFrostOfOneFortnight(t *testing.T) {
	for _, hottest := range []string{"11-28", "12-20", "01-31", "02-25"} {
		c := atStation(t, fortnightOfFrost(hottest))
		date := func(i int) string { return c.Days[i].Date.Format("01-02") }
		assert.Equal(t, hottest, date(c.Calendar.Hottest))
		assert.InDelta(t, 9, c.Calendar.Midsummer, 1, "10 January; one hot day moves it by a day at most")
		require.GreaterOrEqual(t, c.Calendar.FirstFreeze, 0, "hottest day %s", hottest)
		require.GreaterOrEqual(t, c.Calendar.LastFreeze, 0, "hottest day %s", hottest)
		assert.Equal(t, "06-17", date(c.Calendar.FirstFreeze), "hottest day %s", hottest)
		assert.Equal(t, "06-30", date(c.Calendar.LastFreeze), "hottest day %s", hottest)
		free, ok := c.FrostFree()
		assert.True(t, ok)
		assert.Equal(t, 365-14, free)
	}
}

// fortnightOfFrost is a year with its middle of summer on 10 January, at or below
// 0 °C from 17 to 30 June only, and one day far above the others.
func fortnightOfFrost(hottest string) *weather.Series {
	s := madeYear(func(i int) float64 {
		day, hour := float64(i/24), float64(i%24)
		return 21 + 8*math.Cos(2*math.Pi*(day-9)/365) + 6*math.Cos(2*math.Pi*(hour-15)/24)
	})
	s.Station.Latitude = -23.8
	for i := range s.Hours {
		switch date := s.Start(i).Format("01-02"); {
		case date == hottest:
			s.Hours[i].DryBulb += 12
		case date >= "06-17" && date <= "06-30" && i%24 == 6:
			s.Hours[i].DryBulb = -1
		}
	}
	return s
}

// A file that is no whole year is no circle: what lies before its hottest day
// does not come after it.
func TestPartOfAYearIsNoCircle(t *testing.T) {
	s := fortnightOfFrost("08-31")
	first, last := 150*24, 250*24
	s.Hours = s.Hours[first:last]
	c := atStation(t, s)
	assert.Zero(t, c.Circle())
	assert.Equal(t, c.Calendar.Hottest, c.Calendar.Midsummer)
	assert.Equal(t, "06-30", c.Days[c.Calendar.LastFreeze].Date.Format("01-02"))
	assert.Equal(t, -1, c.Calendar.FirstFreeze)
	_, ok := c.FrostFree()
	assert.False(t, ok)
}

// Weeks without weather, in which a quarter may not lie, move nothing.
func TestMidsummerWithGaps(t *testing.T) {
	s := fortnightOfFrost("12-20")
	for i := range s.Hours {
		if at := s.Start(i); at.Month() >= time.March && at.Month() <= time.November || at.Day()%4 == 0 {
			s.Hours[i].DryBulb = math.NaN()
		}
	}
	c := atStation(t, s)
	middle := c.Days[c.Calendar.Midsummer].Date
	assert.Contains(t, []time.Month{time.December, time.January, time.February}, middle.Month(), middle)
}
