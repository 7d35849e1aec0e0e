package climate_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"github.com/evapbook/evapbook/internal/climate"
)

// A day with one hour of weather has weather: a station that reports once a day
// has its midsummer in the warmest quarter, and not on its hottest day.
func TestOneReportADayMakesAQuarter(t *testing.T) {
	s := fortnightOfFrost("11-28")
	for i := range s.Hours {
		if i%24 != 15 {
			s.Hours[i].DryBulb = math.NaN()
		}
	}
	c := atStation(t, s)
	assert.InDelta(t, 9, c.Calendar.Midsummer, 1, "10 January")
}

// Places in the season are counted from midsummer; the day after it is the first
// of those that follow, the day before it the last of those that lead up to it,
// and midsummer itself comes last both ways.
func TestDaysAboutMidsummer(t *testing.T) {
	s := madeYear(func(i int) float64 { return 15 + 10*math.Sin(2*math.Pi*float64(i/24-100)/365) })
	middle := atStation(t, s).Calendar.Midsummer
	frost := func(days ...int) *climate.Climate {
		cold := *s
		cold.Hours = append(cold.Hours[:0:0], s.Hours...)
		for _, d := range days {
			cold.Hours[(middle+d)*24+5].DryBulb = -1
		}
		c := atStation(t, &cold)
		assert.Equal(t, middle, c.Calendar.Midsummer, "one cold hour does not move it")
		return c
	}
	for _, c := range []struct{ frosts, dates []int }{
		{[]int{-1, 1}, []int{-1, 1}},
		{[]int{-30, -1, 0, 1, 30}, []int{-1, 1}},
		{[]int{-30, 0, 30}, []int{-30, 30}},
		{[]int{0, 30}, []int{30, 30}},
		{[]int{-30, 0}, []int{-30, -30}},
		{[]int{0}, []int{0, 0}},
	} {
		cal := frost(c.frosts...).Calendar
		assert.Equal(t, c.dates, []int{cal.LastFreeze - middle, cal.FirstFreeze - middle}, "freezing on %v", c.frosts)
	}
	c := frost()
	assert.Equal(t, []int{1, 1}, []int{c.UntilMidsummer(middle - 1), c.SinceMidsummer(middle + 1)})
	assert.Equal(t, []int{365, 365}, []int{c.UntilMidsummer(middle), c.SinceMidsummer(middle)})
}

// The days at the ends of the file are days like others: a winter that freezes in
// the first days of January only has its first freeze on the first of them.
func TestFreezesAtTheEndsOfTheFile(t *testing.T) {
	for _, frosts := range [][]int{{0, 1, 2}, {362, 363, 364}, {364, 0}} {
		s := madeYear(func(i int) float64 { return 15 + 10*math.Sin(2*math.Pi*float64(i/24-100)/365) })
		for _, d := range frosts {
			s.Hours[24*d+5].DryBulb = -1
		}
		cal := atStation(t, s).Calendar
		assert.Equal(t, []int{frosts[0], frosts[len(frosts)-1]}, []int{cal.FirstFreeze, cal.LastFreeze})
	}
}

// A quarter in which too few days have weather does not count, however hot they
// are: 45 of 91 are too few.
func TestAQuarterHardlySeen(t *testing.T) {
	s := madeYear(func(i int) float64 { return 15 + 10*math.Sin(2*math.Pi*float64(i/24-100)/365) })
	usual := atStation(t, s).Calendar.Midsummer
	for i := range s.Hours {
		switch day := i / 24; {
		case day >= 46 && day < 91:
			s.Hours[i].DryBulb = 40
		case day < 137:
			s.Hours[i].DryBulb = math.NaN()
		}
	}
	assert.Equal(t, usual, atStation(t, s).Calendar.Midsummer)
}

// In a file of two winter weeks the hottest day may freeze. It lies neither before
// nor after itself.
func TestHottestDayOfAWinterFreezes(t *testing.T) {
	s := madeYear(func(i int) float64 { return -5 - math.Abs(float64(i/24-7)) })
	s.Hours = s.Hours[:14*24]
	cal := atStation(t, s).Calendar
	assert.Equal(t, []int{7, 6, 8}, []int{cal.Hottest, cal.LastFreeze, cal.FirstFreeze})
}
