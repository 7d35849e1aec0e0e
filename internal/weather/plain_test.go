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

const plainHeader = "# station: Nowhere (invented)\n# latitude: 41.2\n# longitude: -105\n# elevation_m: 1480\n# utc_offset_h: -7\n# country: US\n"

const plainHeadings = "time,temperature_c,relative_humidity_pct,pressure_hpa,ghi_wm2\n"

// plainRows writes invented rows; change may replace or drop ("") a row.
func plainRows(from, to time.Time, change func(t time.Time, row string) string) string {
	var b strings.Builder
	for t := from; t.Before(to); t = t.Add(time.Hour) {
		row := fmt.Sprintf("%s,%.1f,40,850.0,150", t.Format("2006-01-02 15:04"), inventedDryBulb(t))
		if change != nil {
			row = change(t, row)
		}
		if row != "" {
			b.WriteString(row + "\n")
		}
	}
	return b.String()
}

// inventedDryBulb is warm in July and at three in the afternoon.
func inventedDryBulb(t time.Time) float64 {
	return 12 - 12*math.Cos((float64(t.YearDay())-15)/365*2*math.Pi) - 7*math.Cos(float64(t.Hour()-3)/12*math.Pi)
}

func date(y int, m time.Month, d int) time.Time { return time.Date(y, m, d, 0, 0, 0, 0, time.UTC) }

// plainYear is a whole invented year.
func plainYear(year int, change func(time.Time, string) string) string {
	return plainHeader + plainHeadings + plainRows(date(year, 1, 1), date(year+1, 1, 1), change)
}

func TestPlain(t *testing.T) {
	s, err := readText(plainYear(2023, nil), Options{})
	require.NoError(t, err)
	assert.Len(t, s.Hours, 8760)
	assert.Empty(t, s.Notes)
	assert.Equal(t, Station{"Nowhere (invented)", 41.2, -105, 1480, -7, "US", ""}, s.Station)
	assert.False(t, s.HourEnding)
	assert.False(t, s.Typical)
	assert.Equal(t, Hour{date(2023, 1, 1), math.Round(inventedDryBulb(date(2023, 1, 1))*10) / 10, 0.4, 85000, 150, false}, s.Hours[0])
}

func TestPlainLeapYearHas8784Hours(t *testing.T) {
	s, err := readText(plainYear(2024, nil), Options{})
	require.NoError(t, err)
	assert.Len(t, s.Hours, 8784)
}

func TestPlainWithoutLeapDayIsNotPadded(t *testing.T) {
	s, err := readText(plainYear(2024, func(at time.Time, row string) string {
		if at.Month() == 2 && at.Day() == 29 {
			return ""
		}
		return row
	}), Options{})
	require.NoError(t, err)
	assert.Len(t, s.Hours, 8760)
	require.Len(t, s.Notes, 1)
	assert.Equal(t, "29 February is left out of the file", s.Notes[0].Text())
}

func TestPlainHourEnding(t *testing.T) {
	text := "# time: hour-ending\n" + plainHeader + plainHeadings
	text += plainRows(date(2023, 1, 1).Add(time.Hour), date(2024, 1, 1).Add(time.Hour), func(at time.Time, row string) string {
		if at.Hour() == 0 { // write midnight as 24:00 of the day before
			row = at.AddDate(0, 0, -1).Format("2006-01-02") + " 24:00" + row[16:]
		}
		return row
	})
	s, err := readText(text, Options{})
	require.NoError(t, err)
	assert.True(t, s.HourEnding)
	assert.Len(t, s.Hours, 8760)
	assert.Equal(t, date(2023, 1, 1), s.Start(0))
	assert.Equal(t, date(2023, 1, 2), s.Hours[23].Time)
}

// Every heading of the format with its unit. 86 °F = 30 °C, 50 °F = 10 °C and
// 59 °F = 15 °C by definition; 25.1 inHg by NIST SP 811: 84998.4 Pa.
func TestPlainUnits(t *testing.T) {
	rows := func(cells string) string {
		return plainRows(date(2023, 1, 1), date(2024, 1, 1), func(at time.Time, _ string) string {
			return at.Format("2006-01-02 15:04") + "," + cells
		})
	}
	for _, c := range []struct {
		headings, cells string
		humidity        Humidity
		want            Hour
	}{
		{"time,temperature_f,dew_point_f,pressure_inhg", "86,50,25.1", DewPoint, Hour{DryBulb: 30, Humidity: 10, Pressure: 84998.3639}},
		{"time,temperature_c,wet_bulb_c,pressure_pa", "30,15,85000", WetBulb, Hour{DryBulb: 30, Humidity: 15, Pressure: 85000}},
		{"time,temperature_c,wet_bulb_f,pressure_hpa", "30,59,850", WetBulb, Hour{DryBulb: 30, Humidity: 15, Pressure: 85000}},
		{"Time , Temperature_C,DEW_POINT_C,pressure_hpa", "30,10,850", DewPoint, Hour{DryBulb: 30, Humidity: 10, Pressure: 85000}},
	} {
		t.Run(c.headings, func(t *testing.T) {
			s, err := readText(c.headings+"\n"+rows(c.cells), Options{})
			require.NoError(t, err)
			assert.Equal(t, c.humidity, s.Humidity)
			assert.InDelta(t, c.want.DryBulb, s.Hours[5].DryBulb, 1e-9)
			assert.InDelta(t, c.want.Humidity, s.Hours[5].Humidity, 1e-9)
			assert.InDelta(t, c.want.Pressure, s.Hours[5].Pressure, 1e-3)
			assert.True(t, math.IsNaN(s.Hours[5].GHI))
			assert.True(t, math.IsNaN(s.Station.Latitude))
		})
	}
}

func TestPlainFlaws(t *testing.T) {
	at := func(row string) string {
		return plainYear(2023, func(at time.Time, old string) string {
			if at.Equal(date(2023, 7, 4)) {
				return row
			}
			return old
		})
	}
	const line = 8 + 184*24 // 4 July is day 184 counted from 0; rows begin on line 8
	for _, c := range []struct{ name, text, want string }{
		{"decimal comma", strings.ReplaceAll(at(`2023-07-04 00:00;"19,5";40;850;0`), "", ""), "the row has 2 columns"},
		{"decimal comma in quotes", at(`2023-07-04 00:00,"19,5",40,850,0`), fmt.Sprintf(`x.csv:%d:2: column "temperature_c": "19,5" is not a number: decimal comma; hint: write a decimal point`, line)},
		{"time", at(`04.07.2023 00:00,19,40,850,0`), fmt.Sprintf(`x.csv:%d:1: column "time": "04.07.2023" is not a date of the form YYYY-MM-DD`, line)},
		{"clock", at(`2023-07-04 24:30,19,40,850,0`), `there is no time 24:30`},
		{"short row", at(`2023-07-04 00:00,19,40`), fmt.Sprintf("x.csv:%d: the row has 3 columns, the headings need 5", line)},
		{"open quote", at(`2023-07-04 00:00,19,"40,850,0`), fmt.Sprintf("x.csv:%d:3: quoted field is never closed", line)},
		{"half hours", at("2023-07-04 00:00,19,40,850,0\n2023-07-04 00:30,19,40,850,0"), fmt.Sprintf("x.csv:%d: second row for the hour", line+1)},
		{"no humidity column", "time,temperature_c\n2023-01-01 00:00,5\n", `missing a humidity column ("relative_humidity_pct" or "dew_point_c" or "dew_point_f" or "wet_bulb_c" or "wet_bulb_f")`},
		{"misspelt", "time,temp_c,relative_humidity_pct\n2023-01-01 00:00,5,5\n", `x.csv:1: missing column "temperature_c" or "temperature_f"`},
		{"strange", "time,heat,damp\n2023-01-01 00:00,5,5\n", `x.csv:1: cannot tell which column holds temperature, humidity; the headings are "time", "heat", "damp"; hint: name the columns, as in --columns`},
		{"no rows", plainHeader + plainHeadings, "no data rows after the headings"},
		{"latitude", "# latitude: north\n" + plainHeadings, `x.csv:1: column "latitude": "north" is not a number`},
		{"elevation", "# elevation_m: 14800\n" + plainHeadings, `x.csv:1: station elevation 14800 is outside -500 to 9000`},
		{"time label", "# time: UTC\n" + plainHeadings, `x.csv:1: column "time": "UTC" is not known`},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := readText(c.text, Options{})
			require.ErrorContains(t, told(err), c.want)
			requirePlace(t, err)
		})
	}
}

func TestPlainSemicolonsAndQuotedText(t *testing.T) {
	want, err := readText(plainYear(2023, nil), Options{})
	require.NoError(t, err)
	got, err := readText(strings.ReplaceAll(plainYear(2023, nil), ",", ";"), Options{})
	require.NoError(t, err)
	assert.Equal(t, want.Hours, got.Hours)

	text := plainHeader + "remark," + plainHeadings + plainRows(date(2023, 1, 1), date(2024, 1, 1), func(_ time.Time, row string) string {
		return "\"said \"\"hot\"\", then\nwent, home\"," + row
	})
	got, err = readText(text, Options{})
	require.NoError(t, err)
	assert.Equal(t, want.Hours, got.Hours)
	_, err = readText(strings.Replace(text, ",150\n", ",x\n", 1), Options{})
	require.ErrorContains(t, told(err), `x.csv:8:6: column "ghi_wm2": "x" is not a number`)
}

func TestFractionsForPercentAreAnError(t *testing.T) {
	_, err := readText(strings.ReplaceAll(plainYear(2023, nil), ",40,", ",0.40,"), Options{})
	require.ErrorContains(t, told(err), "looks like a fraction")
}

func TestHumidityAbove100IsSaturation(t *testing.T) {
	s, err := readText(strings.ReplaceAll(plainYear(2023, nil), ",40,", ",102,"), Options{})
	require.NoError(t, err)
	assert.Equal(t, 1., s.Hours[0].Humidity)
}
