package weather

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The edges of rules, where a slip by one is not seen in ordinary files.

func TestClockWindow(t *testing.T) {
	sunday := date(2023, time.March, 12)
	for hour := range 24 {
		got := clockChange(sunday.Add(time.Duration(hour) * time.Hour))
		assert.Equal(t, hour >= 1 && hour <= 3, got, "Sunday %d:00", hour)
		assert.False(t, clockChange(sunday.Add(time.Duration(hour-24)*time.Hour)), "Saturday %d:00", hour)
	}
	for month := time.January; month <= time.December; month++ {
		first := date(2023, month, 1)
		night := first.AddDate(0, 0, (7-int(first.Weekday()))%7).Add(2 * time.Hour)
		changes := map[time.Month]bool{time.March: true, time.April: true, time.September: true, time.October: true, time.November: true}
		assert.Equal(t, changes[month], clockChange(night), month)
	}
}

// One missing hour on a spring Sunday is a clock change; with as many gaps
// beside it as clock changes still, with more it is a gappy file.
func TestClockChangeAmongGaps(t *testing.T) {
	for gaps, want := range []bool{true, true, false} {
		o := &observations{}
		for i := range 24 * 90 {
			at := date(2023, time.March, 1).Add(time.Duration(i) * time.Hour)
			gap := at.Month() == time.April && at.Day() <= gaps && at.Hour() == 9
			if gap || at.Equal(date(2023, time.March, 12).Add(2*time.Hour)) {
				continue
			}
			o.rows = append(o.rows, observation{time: at})
		}
		o.checkDaylight()
		assert.Equal(t, want, len(o.notes) == 1, "%d gaps beside it", gaps)
	}
}

func TestTimesOfDay(t *testing.T) {
	for _, r := range []struct {
		hour, minute int
		ok           bool
	}{{0, 0, true}, {23, 59, true}, {23, 60, false}, {24, 0, true}, {24, 1, false}, {25, 0, false}} {
		_, err := civil(2023, 5, 31, r.hour, r.minute)
		assert.Equal(t, r.ok, err == nil, "%02d:%02d", r.hour, r.minute)
	}
	for _, r := range []struct {
		month, day int
		ok         bool
	}{{1, 1, true}, {1, 0, false}, {12, 31, true}, {13, 1, false}, {0, 1, false}, {2, 29, false}, {4, 30, true}, {4, 31, false}} {
		_, err := civil(2023, r.month, r.day, 0, 0)
		assert.Equal(t, r.ok, err == nil, "2023-%02d-%02d", r.month, r.day)
	}
	for text, ok := range map[string]bool{"10:20:59": true, "10:20:60": false, "10:20:59.9": true, "1:00": true, "10-20": false} {
		_, _, err := parseClock(text)
		assert.Equal(t, ok, err == nil, text)
	}
}

// Quality codes of the ISD documentation: 2 and 6 suspect, 3 and 7 erroneous.
func TestISDQuality(t *testing.T) {
	for _, quality := range "0123456789ACIMPRU" {
		bad := strings.ContainsRune("2367", quality)
		for key, cell := range map[string]string{"dry bulb": "+0154,%c", "dew point": "-0021,%c", "pressure": "99999,9,10132,%c"} {
			rejected := 0
			got := isdCell(key, fmt.Sprintf(cell, quality), &rejected)
			assert.Equal(t, bad, got == "", "%s of quality %c", key, quality)
			assert.Equal(t, bad, rejected == 1, "%s of quality %c", key, quality)
		}
	}
}

// What the limits of quantity.go mean, once more in the units of messages.
func TestLimitsOfQuantities(t *testing.T) {
	for q, r := range map[quantity]struct{ low, high, shown float64 }{
		dryBulb: {-90, 60, 1}, relHum: {0, 1.1, 100}, dewPoint: {-100, 45, 1}, wetBulb: {-90, 45, 1},
		pressure: {50000, 110000, 0.01}, irradiance: {-20, 1500, 1},
	} {
		off := 1e-6 * max(1, math.Abs(r.high))
		assert.True(t, q.possible(r.low) && q.possible(r.high), limits[q].name)
		assert.False(t, q.possible(r.low-off), "%s below", limits[q].name)
		assert.False(t, q.possible(r.high+off), "%s above", limits[q].name)
		assert.Equal(t, r.shown, limits[q].scale, "%s in %s", limits[q].name, limits[q].si)
	}
}

// An hour of which half the steps are there has a mean, with fewer it has none.
func TestHourlyMeanOfHalf(t *testing.T) {
	row := func(v float64) observation {
		r := emptyRow()
		r.values[dryBulb] = v
		return r
	}
	gap := math.NaN()
	assert.Equal(t, 21.0, meanOf([]observation{row(20), row(gap), row(22), row(gap)}, 4).values[dryBulb])
	assert.Equal(t, 21.0, meanOf([]observation{row(20), row(22)}, 4).values[dryBulb], "half the rows are not even there")
	assert.True(t, math.IsNaN(meanOf([]observation{row(20), row(gap), row(gap), row(gap)}, 4).values[dryBulb]))
	assert.True(t, math.IsNaN(meanOf([]observation{row(20), row(22), row(24)}, 12).values[dryBulb]))
	assert.True(t, math.IsNaN(meanOf([]observation{row(gap), row(gap)}, 2).values[dryBulb]))
}

// Every step of whole minutes that goes into an hour is averaged, no other.
func TestStepsThatAreAveraged(t *testing.T) {
	for minutes, want := range map[int]bool{
		1: true, 2: true, 3: true, 4: true, 5: true, 6: true, 10: true, 12: true, 15: true, 20: true, 30: true,
		7: false, 25: false, 45: false, 60: false, 120: false,
	} {
		o := &observations{}
		for i := range 40 {
			o.rows = append(o.rows, observation{time: date(2023, 1, 1).Add(time.Duration(i*minutes) * time.Minute)})
		}
		assert.Equal(t, want, o.step() > 0, "%d min", minutes)
	}
}

// Rows closer together than the step, or twice at one time, are no regular step.
func TestCrowdedRowsAreNotAveraged(t *testing.T) {
	for _, extra := range []int{0, 10} {
		o := &observations{}
		for i := range 40 {
			at := date(2023, 1, 1).Add(time.Duration(i*30) * time.Minute)
			o.rows = append(o.rows, observation{time: at})
			if i == 20 {
				o.rows = append(o.rows, observation{time: at.Add(time.Duration(extra) * time.Minute)})
			}
		}
		assert.Zero(t, o.step(), "another row %d min later", extra)
	}
}

func TestOffsetsOfStamps(t *testing.T) {
	for text, want := range map[string]float64{
		"2023-07-01T14:00-07:00": -7, "2023-07-01T14:00+05:30": 5.5, "2023-07-01T14:00+14:00": 14,
		"2023-07-01T14:00-03:59": -(3 + 59./60), "2023-07-01T14:00Z": 0,
	} {
		rest, hours, ok := cutZone(text)
		assert.True(t, ok, text)
		assert.InDelta(t, want, hours, 1e-12, text)
		assert.Equal(t, "2023-07-01T14:00", rest, text)
	}
	for _, text := range []string{"2023-07-01T14:00+15:00", "2023-07-01T14:00+05:60", "2023-07-01 14:00"} {
		_, _, ok := cutZone(text)
		assert.False(t, ok, text)
	}
}

// Southern cooling years begin in July and are named by both calendar years.
func TestYearLabels(t *testing.T) {
	for _, r := range []struct {
		at    time.Time
		north bool
		want  string
	}{
		{date(2023, time.December, 31), true, "2023"}, {date(2023, time.July, 1), false, "2023/24"},
		{date(2023, time.June, 30), false, "2022/23"}, {date(1999, time.December, 1), false, "1999/00"},
	} {
		assert.Equal(t, r.want, yearLabel(r.at, r.north), "%s", r.at)
	}
}

func TestOptionsOnTheEarth(t *testing.T) {
	for _, r := range []struct {
		set    func(*Options, *float64)
		lo, hi float64
	}{
		{func(o *Options, v *float64) { o.Latitude = v }, -90, 90},
		{func(o *Options, v *float64) { o.Longitude = v }, -180, 180},
	} {
		for v, ok := range map[float64]bool{r.lo: true, r.hi: true, r.lo - 0.5: false, r.hi + 0.5: false} {
			var o Options
			r.set(&o, &v)
			err := o.check("x.csv")
			assert.Equal(t, ok, err == nil, "%v: %v", v, err)
		}
	}
}

// PVGIS ends its table with lines that explain the columns; some begin with a
// letter and a digit.
func TestPVGISFooter(t *testing.T) {
	require.NotNil(t, pvgisLayout.end)
	for cell, end := range map[string]bool{"20230701:1400": false, "90230701:1400": false, "": true, "T2m: 2-m air temperature (degree Celsius)": true, "(c) European Union": true} {
		assert.Equal(t, end, pvgisLayout.end([]string{cell}), cell)
	}
}

// A tenth of the warm half-year may be missing, not more.
func TestShareOfTheSeason(t *testing.T) {
	const season = 183 * 24 // April to September
	for missing, ok := range map[int]bool{season / 10: true, season/10 + 1: false} {
		left := missing
		_, err := readText(plainYear(2023, func(at time.Time, row string) string {
			if at.Month() >= time.May && left > 0 {
				left--
				return strings.Replace(row, row[17:strings.Index(row, ",40,")], "", 1)
			}
			return row
		}), Options{})
		assert.Equal(t, ok, err == nil, "%d of %d hours missing: %v", missing, season, err)
	}
}
