package years

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/internal/hint"
	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/weather"
)

// invented writes hours of an invented dry place from one date up to another;
// warmer is what each year adds to the dry bulb, dew point stays.
func invented(t testing.TB, name string, latitude float64, from, to time.Time, warmer func(year int) float64) *weather.Series {
	return readText(t, name, inventedText(latitude, from, to, warmer))
}

func inventedText(latitude float64, from, to time.Time, warmer func(year int) float64) string {
	var b strings.Builder
	fmt.Fprintf(&b, "# station: Nowhere (invented)\n# latitude: %g\n# longitude: -118\n# elevation_m: 1200\n# utc_offset_h: -8\ntime,temperature_c,dew_point_c\n", latitude)
	for at := from; at.Before(to); at = at.Add(time.Hour) {
		season := math.Cos((float64(at.YearDay()) - 200) / 365 * 2 * math.Pi)
		if latitude < 0 {
			season = -season
		}
		dry := 14 + 12*season - 8*math.Cos(float64(at.Hour()-3)/12*math.Pi) + warmer(at.Year())
		fmt.Fprintf(&b, "%s,%.1f,%.1f\n", at.Format("2006-01-02 15:04"), dry, min(dry-1, 7+8*season))
	}
	return b.String()
}

func readText(t testing.TB, name, text string) *weather.Series {
	s, err := weather.Read(strings.NewReader(text), name, weather.Options{AllowGaps: true})
	require.NoError(t, err)
	return s
}

func day(y int, m time.Month, d int) time.Time { return time.Date(y, m, d, 0, 0, 0, 0, time.UTC) }

// alternate makes years of different warmth, the middle one of five 2013.
func alternate(year int) float64 {
	return map[int]float64{2011: 2, 2012: 10, 2013: 6, 2014: 8, 2015: 4}[year]
}

func resolved(t *testing.T, set ...string) *job.Job {
	j := job.New()
	for i := 0; i < len(set); i += 2 {
		require.NoError(t, j.Set(set[i], set[i+1]))
	}
	require.NoError(t, j.Resolve("Nowhere (invented)", 1200, ""))
	return j
}

func labels(years []weather.Year) (out []string) {
	for _, y := range years {
		out = append(out, y.Label)
	}
	return out
}

func TestYearsOfOneFile(t *testing.T) {
	f, err := Gather([]*weather.Series{invented(t, "five.csv", 42, day(2010, 8, 1), day(2016, 5, 1), alternate)})
	require.NoError(t, err)
	assert.Equal(t, []string{"2011", "2012", "2013", "2014", "2015"}, labels(f.Years))
	require.Len(t, f.Notes, 2)
	assert.Equal(t, "2010 of five.csv is left out of the range over years: 1464 of 4392 hours of the warm half-year have dry bulb and humidity", f.Notes[0].Text())
	assert.Len(t, f.Years[1].Series.Hours, 8784)
	assert.Equal(t, day(2012, 1, 1), f.Years[1].Series.Start(0))

	table, shown, err := Run(f, resolved(t), "")
	require.NoError(t, err)
	assert.Equal(t, "2013", table.Rows[table.Shown].Label, "the third warmest of five has the third best coverage")
	assert.Equal(t, day(2013, 1, 1), shown.Start(0))

	cover := table.Range(Coverage)
	assert.Equal(t, "2011", cover.HighestIn, "the coolest year is covered best")
	assert.Equal(t, "2012", cover.LowestIn, "the warmest year is covered worst")
	assert.Equal(t, table.Rows[2].Coverage, cover.Median)
	assert.Less(t, cover.Tenth, cover.Median)
	assert.Less(t, cover.Median, cover.Ninetieth)
}

// The row of the shown year is what the workbook's own run of that year gives,
// also where the capacity is sized and the heat loss fitted.
func TestShownYearStandsInTheTable(t *testing.T) {
	f, err := Gather([]*weather.Series{invented(t, "five.csv", 42, day(2011, 1, 1), day(2016, 1, 1), alternate)})
	require.NoError(t, err)
	for _, set := range [][]string{nil, {"house.design_load", "9kW"}} {
		j := resolved(t, set...)
		table, shown, err := Run(f, j, "")
		require.NoError(t, err)
		s, err := new(Files).through(shown, j)
		require.NoError(t, err)
		r := table.Rows[table.Shown]
		assert.Equal(t, s.Totals.Hours, r.Hours)
		assert.InDelta(t, s.Totals.RefKWh, r.RefKWh, 1e-6)
		assert.InDelta(t, s.Totals.BothKWh, r.BothKWh, 1e-6)
		assert.InDelta(t, s.WaterTotal(s.Totals.Water), r.Water, 1e-6)
	}
}

func TestAskedForYear(t *testing.T) {
	f, err := Gather([]*weather.Series{invented(t, "five.csv", 42, day(2011, 1, 1), day(2016, 1, 1), alternate)})
	require.NoError(t, err)
	table, shown, err := Run(f, resolved(t), "2015")
	require.NoError(t, err)
	assert.Equal(t, day(2015, 1, 1), shown.Start(0))
	assert.Equal(t, "the year asked for", table.Why)
	_, _, err = Run(f, resolved(t), "1999")
	require.Contains(t, hint.Text(err), "--year 1999: no such whole year in the weather\nhint: there are 2011, 2012, 2013, 2014, 2015")
}

// South of the equator the season runs over the turn of the year.
func TestSouthernYearsRunFromJuly(t *testing.T) {
	f, err := Gather([]*weather.Series{invented(t, "south.csv", -33, day(2012, 1, 1), day(2015, 1, 1), func(int) float64 { return 2 })})
	require.NoError(t, err)
	assert.True(t, f.South)
	assert.Equal(t, []string{"2012/13", "2013/14"}, labels(f.Years))
	assert.Len(t, f.Notes, 2, "half of 2011/12 and of 2014/15")
	table, shown, err := Run(f, resolved(t), "2013")
	require.NoError(t, err)
	assert.Equal(t, day(2013, 7, 1), shown.Start(0))
	assert.Equal(t, day(2014, 6, 30), shown.Start(len(shown.Hours)-1).Truncate(24*time.Hour))
	first := table.Rows[0]
	assert.True(t, first.LastFreeze.IsZero() || first.LastFreeze.Before(day(2013, 1, 15)))
}

func TestSeveralFiles(t *testing.T) {
	year := func(y int) *weather.Series {
		return invented(t, fmt.Sprint(y, ".csv"), 42, day(y, 1, 1), day(y+1, 1, 1), alternate)
	}
	f, err := Gather([]*weather.Series{year(2013), year(2011), year(2012)})
	require.NoError(t, err)
	assert.Equal(t, []string{"2011", "2012", "2013"}, labels(f.Years))

	_, err = Gather([]*weather.Series{year(2013), year(2013)})
	require.ErrorContains(t, err, "2013.csv and 2013.csv both hold the year 2013")

	_, err = Gather([]*weather.Series{year(2013), invented(t, "far.csv", 44, day(2014, 1, 1), day(2015, 1, 1), alternate)})
	require.ErrorContains(t, err, "files of different places: ")
}

// A typical year among real ones gives the hours and stays out of the range.
func TestTypicalYearBesideRealOnes(t *testing.T) {
	typical := invented(t, "typical.csv", 42, day(2011, 1, 1), day(2012, 1, 1), alternate)
	typical.Typical = true
	f, err := Gather([]*weather.Series{typical, invented(t, "two.csv", 42, day(2012, 1, 1), day(2014, 1, 1), alternate)})
	require.NoError(t, err)
	assert.Equal(t, []string{"2012", "2013", Typical}, labels(f.Years))
	table, shown, err := Run(f, resolved(t), "")
	require.NoError(t, err)
	assert.True(t, shown.Typical)
	assert.Equal(t, 2, table.Counts)
	assert.Equal(t, "2013", table.Range(Coverage).HighestIn)
}

func TestOneYearIsNoRange(t *testing.T) {
	for _, to := range []time.Time{day(2012, 1, 1), day(2011, 6, 1)} {
		f, err := Gather([]*weather.Series{invented(t, "one.csv", 42, day(2011, 1, 1), to, alternate)})
		require.NoError(t, err)
		assert.True(t, f.Single)
		assert.Empty(t, f.Notes)
	}
}

// Of 1, 2, 3, 4, 10 a spreadsheet's PERCENTILE(…;0.9) is 7.6 and
// PERCENTILE(…;0.1) is 1.4: rank 1 + 0.9 (5 - 1) = 4.6, worked by hand.
func TestPercentile(t *testing.T) {
	v := []float64{1, 2, 3, 4, 10}
	assert.InDelta(t, 7.6, percentile(v, 0.9), 1e-12)
	assert.InDelta(t, 1.4, percentile(v, 0.1), 1e-12)
	assert.Equal(t, 3., percentile(v, 0.5))
	assert.Equal(t, 7., percentile([]float64{7}, 0.1))
	assert.True(t, math.IsNaN(percentile(nil, 0.5)))
}
