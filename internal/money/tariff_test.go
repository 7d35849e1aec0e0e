package money_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/money"
)

// A tariff of the usual American shape, its figures invented: dearer from June
// to September, dearest from 16:00 to 21:00 by the clock on the wall.
func TestTariff(t *testing.T) {
	tariff := money.Tariff{Base: 0.12, Season: 0.15, Peak: 0.36, First: time.June, Last: time.September, From: 16, To: 21, PeakDays: 1, SummerTime: job.SummerTimeUS}
	at := func(month time.Month, day, hour int) float64 {
		return tariff.At(time.Date(2023, month, day, hour, 0, 0, 0, time.UTC))
	}
	assert.Equal(t, 0.12, at(time.May, 31, 17))
	assert.Equal(t, 0.15, at(time.June, 1, 14))
	assert.Equal(t, 0.36, at(time.June, 1, 15), "16:00 on the wall is 15:00 standard time")
	assert.Equal(t, 0.36, at(time.September, 30, 19))
	assert.Equal(t, 0.15, at(time.September, 30, 20))

	tariff.PeakDays = money.Weekdays
	assert.InDelta(t, (5*0.36+2*0.15)/7, at(time.July, 4, 18), 1e-15, "a typical year has no weekdays")

	tariff.SummerTime, tariff.PeakDays = job.NoSummerTime, 1
	assert.Equal(t, 0.15, at(time.July, 4, 15))
	assert.Equal(t, 0.36, at(time.July, 4, 20))

	tariff.First, tariff.Last = time.July, time.July
	assert.Equal(t, []float64{0.12, 0.15, 0.12}, []float64{at(time.June, 30, 0), at(time.July, 31, 0), at(time.August, 1, 0)}, "a season of one month")
	tariff.From, tariff.To = 18, 18
	assert.Equal(t, 0.15, at(time.July, 4, 18), "no hour from 18:00 to 18:00")

	tariff.First, tariff.Last, tariff.From, tariff.To = time.November, time.February, 22, 6
	assert.Equal(t, 0.36, at(time.January, 1, 23), "over the new year and over midnight")
	assert.Equal(t, 0.36, at(time.December, 1, 5))
	assert.Equal(t, 0.15, at(time.December, 1, 6))
	assert.Equal(t, 0.12, at(time.March, 1, 23))
}

func TestSummerTimeSouth(t *testing.T) {
	tariff := money.Tariff{Season: 1, Peak: 2, First: time.January, Last: time.December, From: 12, To: 13, PeakDays: 1, SummerTime: job.SummerTimeSouth}
	for _, r := range []struct {
		month time.Month
		day   int
		hour  int // standard time of the peak
	}{{time.January, 15, 11}, {time.April, 3, 11}, {time.April, 4, 12}, {time.July, 1, 12}, {time.October, 3, 12}, {time.October, 4, 11}} {
		assert.Equal(t, 2.0, tariff.At(time.Date(2023, r.month, r.day, r.hour, 0, 0, 0, time.UTC)), "%s %d", r.month, r.day)
	}
}

// Clocks are ahead from the first day of the change on, and no longer on the last.
func TestClocksOnTheDaysOfChange(t *testing.T) {
	for zone, days := range map[job.SummerTime][2][2]int{
		job.SummerTimeUS: {{3, 11}, {11, 4}}, job.SummerTimeEU: {{3, 28}, {10, 28}},
	} {
		tariff := money.Tariff{SummerTime: zone}
		at := func(day [2]int, later int) int {
			return tariff.CivilHour(time.Date(2023, time.Month(day[0]), day[1]+later, 12, 0, 0, 0, time.UTC))
		}
		assert.Equal(t, []int{12, 13, 13, 12}, []int{at(days[0], -1), at(days[0], 0), at(days[1], -1), at(days[1], 0)}, string(zone))
	}
}
