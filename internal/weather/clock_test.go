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

func TestNightOffsetOfAPyranometerIsZero(t *testing.T) {
	s, err := readText(plainYear(2023, func(at time.Time, row string) string {
		if at.Hour() == 2 {
			return strings.Replace(row, ",150", ",-7.4", 1)
		}
		return row
	}), Options{})
	require.NoError(t, err)
	assert.Zero(t, s.Hours[2].GHI)
	assert.Equal(t, 150., s.Hours[3].GHI)
	assert.Equal(t, []string{"global irradiance: 365 readings between -20 and 0 W/m², the offset of a pyranometer at night, were taken as 0"}, texts(s))
}

func TestHumidityPreferenceThatCannotBeMetIsNoted(t *testing.T) {
	s, err := readText(plainYear(2023, nil), Options{Humidity: PreferDewPoint})
	require.NoError(t, err)
	assert.Equal(t, RelHum, s.Humidity)
	assert.Equal(t, []string{"dew point was asked for but is not in the file; relative humidity is used"}, texts(s))
}

// halfHours writes two rows an hour, the second 2 °C warmer.
func halfHours(at time.Time, row string) string {
	half := at.Add(30 * time.Minute).Format("2006-01-02 15:04")
	return row + "\n" + fmt.Sprintf("%s,%.1f,50,850.0,250", half, inventedDryBulb(at)+2)
}

func TestHalfHoursAreAveraged(t *testing.T) {
	want, err := readText(plainYear(2023, nil), Options{})
	require.NoError(t, err)
	s, err := readText(plainYear(2023, halfHours), Options{})
	require.NoError(t, err)
	require.Len(t, s.Hours, 8760)
	for i := range s.Hours {
		assert.Equal(t, want.Hours[i].Time, s.Hours[i].Time)
		assert.InDelta(t, want.Hours[i].DryBulb+1, s.Hours[i].DryBulb, 0.0501) // a decimal place is printed
	}
	assert.InDelta(t, 0.45, s.Hours[9].Humidity, 1e-12)
	assert.InDelta(t, 200, s.Hours[9].GHI, 1e-12)
	assert.Equal(t, []string{"17520 rows a 30 minutes were averaged to hours"}, texts(s))
}

// Steps that end at their stamp: 00:30 and 01:00 make up the hour to 01:00.
func TestHalfHoursThatEndAtTheirStamp(t *testing.T) {
	rows := plainRows(date(2023, 1, 1), date(2024, 1, 1), func(at time.Time, _ string) string {
		first, second := at.Add(30*time.Minute), at.Add(time.Hour)
		return fmt.Sprintf("%s,10,40,850,100\n%s,20,60,850,300", first.Format("2006-01-02 15:04"), second.Format("2006-01-02 15:04"))
	})
	s, err := readText("# time: hour-ending\n"+plainHeadings+rows, Options{})
	require.NoError(t, err)
	require.Len(t, s.Hours, 8760)
	assert.Equal(t, date(2023, 1, 1).Add(time.Hour), s.Hours[0].Time)
	assert.InDelta(t, 15, s.Hours[0].DryBulb, 1e-12)
	assert.InDelta(t, 200, s.Hours[8759].GHI, 1e-12)
}

// clockTime turns the rows of a year into what a logger on United States clock
// time of 2023 would write: 12 March skips 02:00, 5 November repeats 01:00.
func clockTime(repeat bool) string {
	return plainYear(2023, func(at time.Time, row string) string {
		summer := !at.Before(time.Date(2023, 3, 12, 2, 0, 0, 0, time.UTC)) && at.Before(time.Date(2023, 11, 5, 1, 0, 0, 0, time.UTC))
		if at.Equal(time.Date(2023, 11, 5, 0, 0, 0, 0, time.UTC)) && !repeat {
			return ""
		}
		if summer {
			return at.Add(time.Hour).Format("2006-01-02 15:04") + row[16:]
		}
		return row
	})
}

func TestDaylightSavingStampsAreToldApart(t *testing.T) {
	_, err := readText(clockTime(true), Options{})
	require.ErrorContains(t, told(err), "second row for the hour of 2023-11-05 01:00")
	require.ErrorContains(t, told(err), "as clocks show when daylight-saving time ends; hint: download it again in local standard time or in UTC")

	s, err := readText(clockTime(false), Options{})
	require.NoError(t, err)
	assertNote(t, s, "the hour of 2023-03-12 02:00 is missing, as clocks show when daylight-saving time begins")
}

// A gap elsewhere is no sign of clock time.
func TestGapsAreNoDaylightSaving(t *testing.T) {
	drop := func(hours ...time.Time) string {
		return plainYear(2023, func(at time.Time, row string) string {
			for _, h := range hours {
				if at.Equal(h) {
					return ""
				}
			}
			return row
		})
	}
	sunday := time.Date(2023, 3, 12, 2, 0, 0, 0, time.UTC)
	for _, text := range []string{
		drop(sunday.AddDate(0, 0, 1)),
		drop(sunday, sunday.AddDate(0, 0, 1), sunday.AddDate(0, 1, 3)),
	} {
		s, err := readText(text, Options{})
		require.NoError(t, err)
		for _, n := range s.Notes {
			assert.NotContains(t, n.Text(), "daylight")
		}
	}
}

// Reports carry real dates, so their order in the file does not matter.
func TestShuffledReportsAreSorted(t *testing.T) {
	text := inventedText(t, "invented-lcd-v1.csv")
	want, err := readText(text, zoneSeven)
	require.NoError(t, err)
	lines := strings.Split(strings.TrimSpace(text), "\n")
	last := len(lines) - 1
	lines[1], lines[last] = lines[last], lines[1]
	got, err := readText(strings.Join(lines, "\n")+"\n", zoneSeven)
	require.NoError(t, err)
	assert.Equal(t, fmt.Sprint(want.Hours), fmt.Sprint(got.Hours)) // NaN prints the same
	assertNote(t, got, "the reports were not in the order of time and were sorted")
}

// Stamps of our own form that end in Z or an offset are that clock.
func TestPlainStampsWithZone(t *testing.T) {
	const rows = "time,temperature_c,relative_humidity_pct\n2023-07-01T17:00%[1]s,30,20\n2023-07-01T18:00%[1]s,31,19\n"
	s, err := readText(fmt.Sprintf(rows, "Z"), zoneSeven)
	require.NoError(t, err)
	assertHour(t, s, "2023-07-01 10:00", 30, 0.20, math.NaN())
	s, err = readText(fmt.Sprintf(rows, "-06:00"), Options{AllowGaps: true})
	require.NoError(t, err)
	assertHour(t, s, "2023-07-01 17:00", 30, 0.20, math.NaN())
	_, err = readText(fmt.Sprintf(rows, "Z")+"2023-07-01T19:00,31,19\n", zoneSeven)
	assert.ErrorContains(t, told(err), "some stamps name a time zone, others do not")
}

// The state tells the zone before the longitude does: Detroit is nearer to the
// meridian of Central time, El Paso has Mountain time, Lewiston Pacific time.
func TestZoneOfState(t *testing.T) {
	for _, c := range []struct {
		state    string
		lat, lon float64
		want     float64
	}{
		{"MI", 42.4, -83, -5}, {"TX", 31.8, -106.4, -7}, {"TX", 32.9, -97, -6}, {"ID", 46.4, -117, -8}, {"ID", 43.6, -116.2, -7},
		{"OR", 43.6, -117, -7}, {"TN", 35, -85.2, -5}, {"", 23, 72.6, 5},
	} {
		st := Station{State: c.state, Latitude: c.lat, Longitude: c.lon, UTCOffset: math.NaN()}
		got, _, ok := st.zone()
		require.True(t, ok)
		assert.InDelta(t, c.want, got, 0, "%s %g", c.state, c.lon)
	}
	s := stationOf(map[string]string{"name": "DALLAS FT WORTH AIRPORT, TX US"})
	assert.Equal(t, "TX", s.State)
}
