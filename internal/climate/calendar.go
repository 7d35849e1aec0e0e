package climate

import (
	"math"
	"time"
)

// The base of heating and cooling degree-days, the customary one of United
// States climate data.
const (
	DegreeDayBaseF = 65                          // °F
	DegreeDayBase  = (DegreeDayBaseF - 32) / 1.8 // °C
)

// Day is a calendar day of the file, in file order.
type Day struct {
	Date        time.Time
	First, Last int // hours, Last exclusive
	Valid       int // hours with weather
	Min, Max    float64
	Mean        float64
	Unseen      float64 // K by which the lowest observed hour lies above Min; NeverSeen where no hour was observed
	Season      int     // days after (before: negative) midsummer, taking the year as a circle
}

// NeverSeen is the Unseen of a day without an observed hour: more than any air.
const NeverSeen = 1000

// Freezes tells whether an hour of the day that was observed is at or below
// 0 °C. Hours that the publisher filled in set no date by themselves.
func (d Day) Freezes() bool { return d.Min+d.Unseen <= 0 }

// Cooling is the day's cooling degree-days, K d.
func (d Day) Cooling() float64 { return max(0, d.Mean-DegreeDayBase) }

// Heating is the day's heating degree-days, K d.
func (d Day) Heating() float64 { return max(0, DegreeDayBase-d.Mean) }

// Calendar holds the dates by which a cooler is opened and closed. A day index
// of -1 says that no such day exists.
type Calendar struct {
	Midsummer   int // middle of the warmest quarter; the day whose Season is 0
	Hottest     int // day with the highest mean dry bulb
	LastFreeze  int // last day with an observed hour at or below 0 °C before midsummer
	FirstFreeze int // first such day after it
}

func groupDays(hours []Hour) []Day {
	var days []Day
	for i := range hours {
		h := &hours[i]
		y, m, d := h.Start.Date()
		n := len(days)
		if n == 0 || !sameDate(days[n-1].Date, y, m, d) {
			days = append(days, Day{
				Date: time.Date(y, m, d, 0, 0, 0, 0, time.UTC), First: i,
				Min: math.Inf(1), Max: math.Inf(-1), Unseen: math.Inf(1),
			})
			n++
		}
		day := &days[n-1]
		h.Day, day.Last = n-1, i+1
		if !h.Missing {
			day.Valid++
			day.Min, day.Max = min(day.Min, h.Air.T), max(day.Max, h.Air.T)
			day.Mean += h.Air.T
			if !h.Filled {
				day.Unseen = min(day.Unseen, h.Air.T) // the lowest observed, for now
			}
		}
	}
	for i := range days {
		if d := &days[i]; d.Valid > 0 {
			d.Mean /= float64(d.Valid)
			d.Unseen = min(d.Unseen-d.Min, NeverSeen)
		} else {
			d.Min, d.Max, d.Mean, d.Unseen = math.NaN(), math.NaN(), math.NaN(), NeverSeen
		}
	}
	return days
}

func sameDate(t time.Time, y int, m time.Month, d int) bool {
	ty, tm, td := t.Date()
	return ty == y && tm == m && td == d
}

func (c *Climate) calendar() Calendar {
	cal := Calendar{Midsummer: midsummer(c.Days), LastFreeze: -1, FirstFreeze: -1}
	for i := range c.Days {
		c.Days[i].Season = seasonPosition(i, cal.Midsummer, len(c.Days))
	}
	cal.Hottest = hottest(c.Days, func(i int) int { return c.Days[i].Season })
	for i, d := range c.Days {
		if !d.Freezes() {
			continue
		}
		if before := c.UntilMidsummer(i); before > 0 && (cal.LastFreeze < 0 || before < c.UntilMidsummer(cal.LastFreeze)) {
			cal.LastFreeze = i
		}
		if after := c.SinceMidsummer(i); after > 0 && (cal.FirstFreeze < 0 || after < c.SinceMidsummer(cal.FirstFreeze)) {
			cal.FirstFreeze = i
		}
	}
	return cal
}
