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
