package weather

import (
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// inventedFolder holds a few invented rows in each format.
const inventedFolder = "../../testdata/weather"

func inventedText(t testing.TB, name string) string {
	raw, err := os.ReadFile(filepath.Join(inventedFolder, name))
	require.NoError(t, err)
	return string(raw)
}

func readInvented(t *testing.T, name string) *Series {
	s, err := readText(inventedText(t, name), zoneSeven)
	require.NoError(t, err)
	return s
}

var (
	minusSeven = -7.
	zoneSeven  = Options{AllowGaps: true, UTCOffset: &minusSeven}
)

// at finds the hour with a stamp.
func at(t *testing.T, s *Series, stamp string) Hour {
	t.Helper()
	want, err := time.Parse("2006-01-02 15:04", stamp)
	require.NoError(t, err)
	for _, h := range s.Hours {
		if h.Time.Equal(want) {
			return h
		}
	}
	require.Failf(t, "no such hour", "%s, first is %s", stamp, s.Hours[0].Time)
	return Hour{}
}

// assertHour compares to 1e-6; NaN equals NaN.
func assertHour(t *testing.T, s *Series, stamp string, dryBulb, humidity, pressure float64) {
	t.Helper()
	h := at(t, s, stamp)
	for _, v := range []struct {
		name      string
		want, got float64
	}{{"dry bulb", dryBulb, h.DryBulb}, {"humidity", humidity, h.Humidity}, {"pressure", pressure, h.Pressure}} {
		if math.IsNaN(v.want) {
			assert.True(t, math.IsNaN(v.got), "%s %s is %g", stamp, v.name, v.got)
			continue
		}
		assert.InDelta(t, v.want, v.got, 1e-6, "%s %s", stamp, v.name)
	}
}

// texts are the notes of a series as sentences.
func texts(s *Series) []string {
	var all []string
	for _, n := range s.Notes {
		all = append(all, n.Text())
	}
	return all
}

func assertNote(t *testing.T, s *Series, part string) {
	t.Helper()
	for _, n := range s.Notes {
		if strings.Contains(n.Text(), part) {
			return
		}
	}
	assert.Failf(t, "note missing", "%q in %v", part, s.Notes)
}

var nan = math.NaN()

func TestEveryFormatIsToldApartByContent(t *testing.T) {
	for file, want := range map[string]string{
		"tmy3.csv": "TMY3", "epw.epw": "EPW", "plain.csv": "plain CSV",
		"lcd-v1.csv": "NOAA LCD", "lcd-v2.csv": "NOAA LCD", "lcd-old.csv": "NOAA LCD", "lcd-subset.csv": "NOAA LCD",
		"isd.csv": "NOAA ISD global-hourly", "isd-lite.txt": "NOAA ISD-Lite", "power.csv": "NASA POWER",
		"nsrdb-utc.csv": "NSRDB", "sam.csv": "SAM CSV", "pvgis.csv": "PVGIS TMY", "openmeteo.csv": "Open-Meteo",
		"iem.tsv": "IEM ASOS", "meteostat.csv": "Meteostat", "any.csv": "CSV by headings",
	} {
		s := readInvented(t, "invented-"+file)
		assert.Equal(t, want, s.Source.Format, file)
		assert.Zero(t, len(s.Hours)%24, file)
	}
}

// 25.1 inHg is 84998.3639 Pa by NIST SP 811; 68, 66, 64 and 59 °F are 20,
// 18.889, 17.778 and 15 °C by definition.
const pa251 = 84998.3639

func TestLCDVersion1(t *testing.T) {
	s := readInvented(t, "invented-lcd-v1.csv")
	assert.Equal(t, RelHum, s.Humidity)
	assertHour(t, s, "2023-07-01 00:00", 20, 0.52, pa251)
	assertHour(t, s, "2023-07-01 01:00", 170/9., 0.58, 25.12*3386.389) // FM-15, not FM-12 or FM-16
	assertHour(t, s, "2023-07-01 02:00", 160/9., (0.58+0.72)/2, 25.12*3386.389)
	assertHour(t, s, "2023-07-01 03:00", 15, 0.72, pa251) // the FM-15 has no temperature
	assertNote(t, s, "relative humidity: 1 missing hours in gaps")
	assertNote(t, s, "1 values marked as suspect by NOAA")
	assertNote(t, s, "3 further reports within an hour were not used")
}

// The suspect dew point (-6s) counts as missing, and is bridged.
func TestLCDSuspectValueIsNotUsed(t *testing.T) {
	opt := zoneSeven
	opt.Humidity = PreferDewPoint
	s, err := readText(inventedText(t, "invented-lcd-v1.csv"), opt)
	require.NoError(t, err)
	assert.InDelta(t, ((51-32)/1.8+10)/2, at(t, s, "2023-07-01 02:00").Humidity, 1e-9)
}

// v2: the same headings in °C and hPa, told by the pressure; the summary of the
// day is stamped 00:00 and collides with a report.
func TestLCDVersion2(t *testing.T) {
	s := readInvented(t, "invented-lcd-v2.csv")
	assert.Equal(t, Station{"NOWHERE, INVENTED US", 41.2, -105, 1480, -7, "", ""}, s.Station)
	assertHour(t, s, "2023-07-01 00:00", 20, 0.53, 85000)
	assertHour(t, s, "2023-07-01 01:00", 18.9, 0.58, 85030)
}

func TestLCDOfSummariesOnly(t *testing.T) {
	_, err := readText("STATION,DATE,REPORT_TYPE,HourlyDryBulbTemperature,HourlyRelativeHumidity\n9,2023-07-01T23:59:00,SOD  ,,\n", zoneSeven)
	require.ErrorContains(t, told(err), "no data rows after the headings")
}

// Without pressure the elevation column tells v2 from v1.
func TestLCDUnitsWithoutPressure(t *testing.T) {
	text := strings.Replace(inventedText(t, "invented-lcd-v2.csv"), "HourlyStationPressure", "HourlySomething", 1)
	s, err := readText(text, zoneSeven)
	require.NoError(t, err)
	assertHour(t, s, "2023-07-01 00:00", 20, 0.53, nan)

	s = readInvented(t, "invented-lcd-subset.csv")
	assertHour(t, s, "2021-07-01 00:00", 20, 0.65, nan)
	assertNote(t, s, "the file has no station pressure")
}

// v1 may have been ordered in metric units.
func TestLCDVersion1Metric(t *testing.T) {
	text := "STATION,DATE,REPORT_TYPE,HourlyDryBulbTemperature,HourlyRelativeHumidity,HourlyStationPressure\n" +
		"99999999999,2023-07-01T00:52:00,FM-15,20,52,850.0\n"
	s, err := readText(text, zoneSeven)
	require.NoError(t, err)
	assertHour(t, s, "2023-07-01 00:00", 20, 0.52, 85000)
}

// Names before 2018; a trailing Z is local time nevertheless; NA is missing.
func TestLCDOld(t *testing.T) {
	s := readInvented(t, "invented-lcd-old.csv")
	assertHour(t, s, "2016-07-01 00:00", 20, 0.52, pa251)
	assertHour(t, s, "2016-07-01 01:00", 170/9., nan, pa251)
}

// UTC+5 from the longitude: 00:00 is 05:00. FM-15 wins over FM-12, the last
// report of the hour over earlier ones, a rejected value over nothing.
func TestISD(t *testing.T) {
	s, err := readText(inventedText(t, "invented-isd.csv"), Options{AllowGaps: true})
	require.NoError(t, err)
	assert.Equal(t, Station{"NOWHERE, INVENTED", 41.2, 75, 1480, 5, "", ""}, s.Station)
	assert.Equal(t, DewPoint, s.Humidity)
	assertHour(t, s, "2023-07-01 05:00", 19, -0.5, nan)
	assertHour(t, s, "2023-07-01 06:00", nan, nan, nan)
	assertHour(t, s, "2023-07-01 07:00", nan, nan, nan)
	assertNote(t, s, "UTC offset +5 h taken from the longitude")
	assertNote(t, s, "2 values that NOAA's checks call suspect or wrong")
	assertNote(t, s, "3 further reports within an hour")
}

// Group MA1 carries altimeter first and station pressure second, in tenths.
func TestISDStationPressure(t *testing.T) {
	text := strings.Replace(inventedText(t, "invented-isd.csv"), "10170,1,99999,9", "10170,1,08500,1", 1)
	s, err := readText(text, Options{AllowGaps: true})
	require.NoError(t, err)
	assertHour(t, s, "2023-07-01 05:00", 19, -0.5, 85000)
}

// The missing hour has no row; 00 UTC is 17:00 of the day before at -7 h.
func TestISDLite(t *testing.T) {
	s := readInvented(t, "invented-isd-lite.txt")
	assert.Equal(t, DewPoint, s.Humidity)
	assertHour(t, s, "2017-06-30 17:00", 30.1, 9.4, nan)
	assertHour(t, s, "2017-06-30 19:00", 28.1, nan, nan)
	assertHour(t, s, "2017-06-30 20:00", 27.1, nan, nan)
	_, err := readText(inventedText(t, "invented-isd-lite.txt"), Options{AllowGaps: true})
	require.ErrorContains(t, told(err), "the stamps are UTC and the file does not tell the station's time zone; hint: state the station's UTC offset")
}

// Columns in the order asked for, PS in kPa, -999 missing; T2MWET is no wet
// bulb. Local solar time: 104.25° west is 6.95 h.
func TestPower(t *testing.T) {
	s, err := readText(inventedText(t, "invented-power.csv"), Options{AllowGaps: true})
	require.NoError(t, err)
	assert.Equal(t, Station{"", 41.2, -104.25, 1480.5, -6.95, "", ""}, s.Station)
	assert.Equal(t, RelHum, s.Humidity)
	assert.Equal(t, DewPoint, s.SpareKind)
	assertHour(t, s, "2023-07-01 00:00", 20.1, 0.525, 85010)
	assertHour(t, s, "2023-07-01 02:00", nan, nan, nan)
	assertNote(t, s, "local solar time")
	for _, n := range s.Notes {
		assert.NotContains(t, n.Text(), "-999", "a code for missing is no reading")
	}

	s, err = readText(strings.Replace(inventedText(t, "invented-power.csv"), "in LST", "in UTC", 1), Options{AllowGaps: true})
	require.NoError(t, err)
	assert.Equal(t, -7., s.Station.UTCOffset)
	assertHour(t, s, "2023-06-30 17:00", 20.1, 0.525, 85010)

	_, bare, _ := strings.Cut(inventedText(t, "invented-power.csv"), "-END HEADER-\r\n")
	s, err = readText(bare, Options{AllowGaps: true})
	require.NoError(t, err)
	assertHour(t, s, "2023-07-01 00:00", 20.1, 0.525, 85010)
	assertNote(t, s, "the header was removed")
}

// Time Zone 0 means UTC although Local Time Zone is -7.
func TestNSRDB(t *testing.T) {
	s, err := readText(inventedText(t, "invented-nsrdb-utc.csv"), Options{AllowGaps: true})
	require.NoError(t, err)
	assert.Equal(t, Station{"NSRDB 999999", 41.2, -105, 1480, -7, "", ""}, s.Station)
	assertHour(t, s, "2012-07-01 00:00", 20.1, 0.525, 85000)
	assertHour(t, s, "2012-07-01 01:00", -7.800000000000001, 0.525, 85000)

	local := strings.Replace(inventedText(t, "invented-nsrdb-utc.csv"), "-105.0,0,1480", "-105.0,-7,1480", 1)
	s, err = readText(local, Options{AllowGaps: true})
	require.NoError(t, err)
	assertHour(t, s, "2012-07-01 07:00", 20.1, 0.525, 85000)

	_, err = readText(strings.Replace(local, "-105.0,-7,1480", "-105.0,-5,1480", 1), Options{AllowGaps: true})
	require.ErrorContains(t, told(err), "x.csv:2: Time Zone is neither 0 nor Local Time Zone")
}

// A typical year that changes the year within a month is one year nevertheless.
func TestNSRDBYearChangesWithinAMonth(t *testing.T) {
	text := inventedText(t, "invented-nsrdb-utc.csv")
	text = strings.Replace(text, "-105.0,0,1480", "-105.0,-7,1480", 1)
	text = strings.Replace(text, "2012,7,1,8,30", "2009,7,1,8,30", 1)
	s, err := readText(text, Options{AllowGaps: true})
	require.NoError(t, err)
	assert.True(t, s.Typical)
	assertHour(t, s, "2009-07-01 08:00", -7.800000000000001, 0.525, 85000)
}

// twet of this arrangement is the mean of dry bulb and dew point: not read.
func TestSAM(t *testing.T) {
	s, err := readText(strings.Replace(inventedText(t, "invented-sam.csv"), ",rh,", ",x,", 1), Options{AllowGaps: true})
	require.NoError(t, err)
	assert.Equal(t, DewPoint, s.Humidity)
	assert.Nil(t, s.Spare)
	assertHour(t, s, "2001-07-01 00:00", 20.1, 10, 85010)
	assert.Equal(t, "INVENTED", s.Station.Name)
}

func TestPVGIS(t *testing.T) {
	s, err := readText(inventedText(t, "invented-pvgis.csv"), Options{AllowGaps: true})
	require.NoError(t, err)
	assert.Equal(t, Station{"", 41.2, 15, 1480, 1, "", ""}, s.Station)
	assertHour(t, s, "2018-07-01 01:00", 20.1, 0.525, 85010)
	assertHour(t, s, "2018-07-01 02:00", 19.1, 0.555, 85020)
	assert.GreaterOrEqual(t, at(t, s, "2018-07-01 02:00").GHI, 0.)
}

func TestOpenMeteo(t *testing.T) {
	s, err := readText(inventedText(t, "invented-openmeteo.csv"), Options{AllowGaps: true})
	require.NoError(t, err)
	assert.Equal(t, -7., s.Station.UTCOffset)
	assertHour(t, s, "2023-07-01 00:00", 20.1, 0.52, 85010)
	assertHour(t, s, "2023-07-01 01:00", 19.1, 0.55, 85015) // NaN, bridged

	// units from the heading, older spelling, seconds since 1970 in UTC
	text := strings.NewReplacer("temperature_2m (°C),relative_humidity_2m", "temperature_2m (°F),relativehumidity_2m",
		"2023-07-01T00:00,20.1", "1688194800,68", "2023-07-01T01:00", "1688198400", "2023-07-01T02:00,18.1", "1688202000,59").
		Replace(inventedText(t, "invented-openmeteo.csv"))
	s, err = readText(text, Options{AllowGaps: true})
	require.NoError(t, err)
	assertHour(t, s, "2023-07-01 00:00", 20, 0.52, 85010) // date -u -d @1688194800: 2023-07-01 07:00:00

	_, err = readText("location_id,"+inventedText(t, "invented-openmeteo.csv"), Options{})
	require.ErrorContains(t, told(err), "x.csv:1: holds several places")
}

func TestIEM(t *testing.T) {
	s := readInvented(t, "invented-iem.tsv")
	assertHour(t, s, "2023-07-01 00:00", 20, 0.525, nan)
	assertHour(t, s, "2023-07-01 01:00", 17.5, 0.625, nan) // M, bridged
	assertHour(t, s, "2023-07-01 02:00", 15, 0.725, nan)

	text := inventedText(t, "invented-iem.tsv")
	bare := strings.ReplaceAll(strings.ReplaceAll(text[strings.Index(text, "station"):], "\t", ","), `"`, "")
	again, err := readText(bare, zoneSeven)
	require.NoError(t, err)
	assert.Equal(t, len(s.Hours), len(again.Hours))
	assertHour(t, again, "2023-07-01 00:00", 20, 0.525, nan)

	_, err = readText(strings.Replace(text, "-> UTC", "-> America/Denver", 1), zoneSeven)
	require.ErrorContains(t, told(err), "x.csv:3: stamps are clock time of America/Denver")
}

func TestMeteostat(t *testing.T) {
	s := readInvented(t, "invented-meteostat.csv")
	assertHour(t, s, "2023-07-01 00:00", 20.1, 0.52, nan)
	assertHour(t, s, "2023-07-01 01:00", 19.1, 0.55, nan)

	headed := "date,hour,temp,rhum,temp_source\n2023-07-01,7,20.1,52.0,x\n2023-07-01,8,19.1,,x\n"
	s, err := readText(headed, zoneSeven)
	require.NoError(t, err)
	assertHour(t, s, "2023-07-01 00:00", 20.1, 0.52, nan)
	assertHour(t, s, "2023-07-01 01:00", 19.1, nan, nan)
}

// One UTC year stays one local year; the hours that fall out at one end stand
// at the other. 8 UTC hours at +8 h move to the front.
func TestUTCYearIsTurnedLikeARing(t *testing.T) {
	for _, year := range []int{2023, 2024} {
		var b strings.Builder
		b.WriteString("date,hour,temp,rhum\n")
		for at := date(year, 1, 1); at.Year() == year; at = at.Add(time.Hour) {
			b.WriteString(at.Format("2006-01-02,15") + "," + at.Add(8*time.Hour).Format("2.15") + ",40\n")
		}
		eight := 8.
		s, err := readText(b.String(), Options{UTCOffset: &eight})
		require.NoError(t, err)
		for _, h := range s.Hours {
			// the temperature spells day and hour of the local time
			require.InDelta(t, float64(h.Time.Day())+float64(h.Time.Hour())/100, h.DryBulb, 1e-9, h.Time)
		}
		assert.Equal(t, date(year, 1, 1), s.Hours[0].Time)
		assert.Len(t, s.Hours, date(year, 12, 31).YearDay()*24)
	}
}
