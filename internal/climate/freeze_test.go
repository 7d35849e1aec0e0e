package climate_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
)

// A freeze that rests on filled hours only sets no date; one observed hour at or
// below 0 °C in the day is enough.
func TestFilledFreezesSetNoDate(t *testing.T) {
	s := sampleYear(t)
	before := atStation(t, s)
	june := func(month time.Month, day, hour int) int {
		for i := range s.Hours {
			if at := s.Start(i); at.Month() == month && at.Day() == day && at.Hour() == hour {
				return i
			}
		}
		t.Fatal("no such hour")
		return 0
	}
	for k := range 3 {
		h := &s.Hours[june(time.June, 24, 3+k)]
		h.DryBulb, h.Filled = -5, true
	}
	assert.Equal(t, before.Calendar.LastFreeze, atStation(t, s).Calendar.LastFreeze)
	s.Hours[june(time.June, 24, 5)].Filled = false
	c := atStation(t, s)
	assert.Equal(t, "06-24", c.Days[c.Calendar.LastFreeze].Date.Format("01-02"))
}
