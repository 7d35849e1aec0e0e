package weather

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// anyYear writes an invented year: the heading, then what row makes of an hour.
func anyYear(heading string, row func(at time.Time, celsius float64) string) string {
	var b strings.Builder
	b.WriteString(heading + "\n")
	for t := date(2023, 1, 1); t.Before(date(2024, 1, 1)); t = t.Add(time.Hour) {
		b.WriteString(row(t, inventedDryBulb(t)) + "\n")
	}
	return b.String()
}

// The same year in the ways people write it. The stamps of the first column of
// want are local standard time, UTC-7.
func TestAnyCSV(t *testing.T) {
	seven := -7 * time.Hour
	f := func(c float64) float64 { return c*1.8 + 32 }
	for _, c := range []struct {
		name, columns, text string
		ending              bool
	}{
		{"guessed", "", anyYear("Timestamp,Air Temp (°C),RH (%)", func(at time.Time, c float64) string {
			return fmt.Sprintf("%s,%.6f,40", at.Format("2006-01-02T15:04:05"), c)
		}), false},
		{"named, heading says F", "time=Date,temperature_c=Temp (F),relative_humidity=Humidity", anyYear("Date,Temp (F),Humidity", func(at time.Time, c float64) string {
			return fmt.Sprintf("%s,%.6f,40", at.Format("1/2/2006 3:04 PM"), f(c))
		}), false},
		{"named by odd headings", "time=when, temperature_f=how, warm, dew_point_f=wet=ness,relative_humidity=damp", anyYear(`when;"how, warm";wet=ness;damp`, func(at time.Time, c float64) string {
			return fmt.Sprintf("%s;%.6f;40;40", at.Format("2006-01-02 15:04"), f(c))
		}), false},
		{"day first, decimal commas, semicolons", "", anyYear("Datum;Date;Time;Temperature [C];Humidity", func(at time.Time, c float64) string {
			return "x;" + at.Format("02.01.2006;15:04;") + strings.Replace(fmt.Sprintf("%.6f;40,0", c), ".", ",", 1)
		}), false},
		{"tabs", "", anyYear("date\thour\ttemp_f\trh", func(at time.Time, c float64) string {
			return fmt.Sprintf("%s\t%d\t%.6f\t40", at.Format("2006-01-02"), at.Hour(), f(c))
		}), false},
		{"parts of the date", "", anyYear("Year,Month,Day,Hour,TempF,RelHum", func(at time.Time, c float64) string {
			return fmt.Sprintf("%d,%d,%d,%d,%.6f,40", at.Year(), at.Month(), at.Day(), at.Hour(), f(c))
		}), false},
		{"hours 1 to 24", "", anyYear("Date,Hour,Temp C,RH", func(at time.Time, c float64) string {
			return fmt.Sprintf("%s,%d,%.6f,40", at.Format("01/02/2006"), at.Hour()+1, c)
		}), true},
		{"UTC in the heading", "", anyYear("Time (UTC),Temp (K),RH", func(at time.Time, c float64) string {
			return fmt.Sprintf("%s,%.6f,40", at.Add(-seven).Format("2006-01-02 15:04"), c+273.15)
		}), false},
		{"UTC stated", "time_utc=t,temperature_c=a,relative_humidity_fraction=b", anyYear("t,a,b", func(at time.Time, c float64) string {
			return fmt.Sprintf("%s,%.6f,0.40", at.Add(-seven).Format("20060102:1504"), c)
		}), false},
		{"Z behind the stamp", "", anyYear("time,temp_c,rh", func(at time.Time, c float64) string {
			return fmt.Sprintf("%s,%.6f,40", at.Add(-seven).Format("2006-01-02T15:04:05Z"), c)
		}), false},
		{"clock time with its offset", "", anyYear("time,temp_c,rh", func(at time.Time, c float64) string {
			zone := time.FixedZone("", -7*3600)
			if at.Month() > 3 && at.Month() < 11 {
				zone = time.FixedZone("", -6*3600)
			}
			return fmt.Sprintf("%s,%.6f,40", at.Add(-seven).In(zone).Format("2006-01-02T15:04:05-07:00"), c)
		}), false},
		{"seconds since 1970", "", anyYear("time,temp_c,rh", func(at time.Time, c float64) string {
			return fmt.Sprintf("%d,%.6f,40", at.Add(-seven).Unix(), c)
		}), false},
	} {
		t.Run(c.name, func(t *testing.T) {
			opt := zoneSeven
			if c.columns != "" {
				var err error
				opt.Columns, err = ParseColumns(c.columns)
				require.NoError(t, err)
			}
			s, err := readText(c.text, opt)
			require.NoError(t, err)
			assert.Equal(t, "CSV by headings", s.Source.Format)
			require.Len(t, s.Hours, 8760)
			assert.Equal(t, c.ending, s.HourEnding)
			assert.Equal(t, RelHum, s.Humidity)
			for i := 24; i < 8736; i++ { // the ends of a UTC year stand in for each other
				at := date(2023, 1, 1).Add(time.Duration(i) * time.Hour)
				require.Equal(t, at, s.Start(i))
				require.InDelta(t, inventedDryBulb(at), s.Hours[i].DryBulb, 2e-6)
				require.InDelta(t, 0.4, s.Hours[i].Humidity, 1e-12)
			}
		})
	}
}

// A file that writes offsets needs no zone from the user.
func TestOffsetsInStampsGiveTheStandardTime(t *testing.T) {
	s, err := readText(anyYear("time,temp_c,rh", func(at time.Time, c float64) string {
		offset := "+01:00"
		if at.Month() > 3 && at.Month() < 11 {
			at, offset = at.Add(time.Hour), "+02:00"
		}
		return fmt.Sprintf("%s%s,%.3f,40", at.Format("2006-01-02T15:04"), offset, c)
	}), Options{})
	require.NoError(t, err)
	assert.Equal(t, 1., s.Station.UTCOffset)
	assert.Equal(t, date(2023, 7, 1).Add(5*time.Hour), s.Hours[181*24+5].Time)
}

func TestAnyCSVSaysWhatItUsed(t *testing.T) {
	s, err := readText(anyYear("# elevation_m: 300\nTime (UTC-5),Temp F,Dew Point F,Humidity,Pressure (hPa),Wet Bulb F,Solar Radiation (W/m²)", func(at time.Time, c float64) string {
		return fmt.Sprintf("%s,%.3f,30,40,1016,50,-3", at.Format("2006-01-02 15:04"), c*1.8+32)
	}), Options{})
	require.NoError(t, err)
	assert.Equal(t, -5., s.Station.UTCOffset)
	assert.Equal(t, 300., s.Station.Elevation)
	for _, part := range []string{
		`time from column "Time (UTC-5)"`, `dry bulb from column "Temp F" in °F`, `dew point from column "Dew Point F" in °F`,
		`relative humidity from column "Humidity" in %`, `global irradiance from column "Solar Radiation (W/m²)" in W/m²`,
		`column "Wet Bulb F" is not used: some publishers' is no psychrometric wet bulb`,
		`column "Pressure (hPa)" is not used: the heading does not say that it is station pressure`,
		`8760 readings between -20 and 0 W/m²`,
	} {
		assertNote(t, s, part)
	}
}

func TestAnyCSVFlaws(t *testing.T) {
	const rows = "\n2023-01-01 00:00,5,40\n2023-01-01 01:00,5,40\n"
	for _, c := range []struct{ name, columns, text, want string }{
		{"no unit", "", "time,temp,rh" + rows, `x.csv:1: column "temp": no unit for dry bulb; hint: add it, as in temperature_c or temperature_f`},
		{"heading not there", "time=time,temperature_c=warm,humidity=rh", "time,temp,rh" + rows, `no column is headed "warm"; the headings are "time", "temp", "rh"`},
		{"summer time", "", "time (PDT),temp_c,rh" + rows, `the heading names daylight-saving time (PDT); hint: download it in local standard time or in UTC`},
		{"order of dates", "", "time,temp_c,rh\n01/02/2023 00:00,5,40\n01/02/2023 01:00,5,40\n", `no date tells whether day or month comes first; hint: write dates as 2023-07-01`},
		{"both orders", "", "time,temp_c,rh\n31/01/2023 00:00,5,40\n01/31/2023 01:00,5,40\n", `both day first and month first`},
		{"two digits", "", "time,temp_c,rh\n31.01.23 00:00,5,40\n", `"31.01.23" has a year of two digits`},
		{"both decimal signs", "", "time;temp_c;rh\n2023-01-31 00:00;5,5;40.5\n", `some numbers have a decimal comma and others a decimal point`},
		{"mixed zones", "", "time,temp_c,rh\n2023-01-31T00:00Z,5,40\n2023-01-31T01:00,5,40\n", `some stamps name a time zone, others do not`},
		{"no zone for UTC", "", "time utc,temp_c,rh" + rows, `the stamps are UTC and the file does not tell the station's time zone`},
		{"only names", "", "time,place,colour\n2023-01-01,a,b\n", `cannot tell which column holds temperature, humidity; the headings are "time", "place", "colour"`},
	} {
		t.Run(c.name, func(t *testing.T) {
			opt := Options{AllowGaps: true}
			if c.columns != "" {
				var err error
				opt.Columns, err = ParseColumns(c.columns)
				require.NoError(t, err)
			}
			_, err := readText(c.text, opt)
			require.ErrorContains(t, told(err), c.want)
			checkFlaw(t, err)
		})
	}
}

// A table may give months of several years, once through the calendar: a typical
// year. Its note says of which years, and whether all of them are old.
func TestAnyCSVOfTypicalMonths(t *testing.T) {
	for _, c := range []struct {
		back int // years before 2023
		want string
	}{
		{0, "typical year joined from months of 2021 to 2023"},
		{8, "typical year joined from months of 2013 to 2015"},
		{9, "typical year joined from months of 2012 to 2014: recent summers have mostly been warmer"},
	} {
		s, err := readText(anyYear("time,temp_c,rh", func(at time.Time, warm float64) string {
			years := -c.back
			if at.Month()%2 == 0 {
				years -= 2
			}
			return fmt.Sprintf("%s,%.6f,40", at.AddDate(years, 0, 0).Format("2006-01-02 15:04"), warm)
		}), zoneSeven)
		require.NoError(t, err)
		assert.True(t, s.Typical)
		assert.Len(t, s.Hours, 8760)
		assert.Contains(t, texts(s), c.want)
	}
}

// A row that ends before its date is named, though the dates are looked through
// before the rows are read.
func TestAnyCSVRowThatEndsBeforeItsDate(t *testing.T) {
	_, err := readText("temp_c,rh,time\n5,40,2023-01-01 00:00\n5,40\n5,40,2023-01-01 02:00\n", zoneSeven)
	require.ErrorContains(t, told(err), "x.csv:3")
}

func TestParseColumnsFlaws(t *testing.T) {
	for text, want := range map[string]string{
		"":                         `no assignment such as time=Date`,
		"x=1,time=Date":            `no assignment such as`,
		"time=,temperature_c=a":    `time= has no heading behind it`,
		"time=a,temperature_hpa=b": `"hpa" is no unit of dry bulb`,
		"time_mars=a":              `"mars" is not known`,
	} {
		_, err := ParseColumns(text)
		require.ErrorContains(t, told(err), want, text)
	}
}

// Where columns cannot be told, what else the file does not say is asked for in
// the same run.
func TestColumnsAndPlaceAreAskedForAtOnce(t *testing.T) {
	latitude := 40.
	_, err := readText("# elevation_m: 1480\nwhen,heat,damp\n2023-01-01 00:00,5,5\n", Options{Latitude: &latitude})
	require.ErrorContains(t, told(err), "not known either: --longitude --utc-offset")
	assert.NotContains(t, told(err).Error(), "--latitude")
}
