package weather

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/text/encoding/unicode"
)

// The clock of the invented JSON is UTC, the offset stated -7 h.
func TestPVGISJSON(t *testing.T) {
	s := readInvented(t, "invented-pvgis.json")
	assertHour(t, s, "2012-06-30 17:00", 21.4, 0.55, 85000)
	assertHour(t, s, "2012-06-30 19:00", 20.1, 0.615, 85020)
	assert.InDelta(t, 1480, s.Station.Elevation, 0)
}

// Damaged and other JSON is refused with where and what.
func TestPVGISJSONErrors(t *testing.T) {
	text := inventedText(t, "invented-pvgis.json")
	for _, c := range []struct{ old, new, want string }{
		{`"tmy_hourly"`, `"hourly"`, "x.csv: holds no rows of outputs.tmy_hourly"},
		{`"T2m": 21.4`, `"T2m": "warm"`, "x.csv:1: outputs.tmy_hourly.T2m holds a string"},
		{`]}}`, ``, "x.csv:1: the JSON document is damaged or cut short"},
		{`20120701:0100`, `2012-07-01`, "x.csv: row 2 of outputs.tmy_hourly: "},
		{`"radiation_db"`, `"other"`, "x.csv: is a JSON document, not a weather file"},
	} {
		require.Contains(t, text, c.old)
		_, err := readText(strings.Replace(text, c.old, c.new, 1), zoneSeven)
		require.Error(t, err, c.want)
		assert.True(t, strings.HasPrefix(err.Error(), c.want), "%s\ndoes not begin with\n%s", err, c.want)
	}
}

// The publisher's JSON and CSV of one place give the same hours.
func TestPVGISJSONIsTheCSV(t *testing.T) {
	fromJSON, err := Open(realFile(t, "more/pvgis-tmy-piedmont-it.json.gz"), Options{})
	require.NoError(t, err)
	fromCSV, err := Open(realFile(t, "pvgis-tmy-piedmont-it.csv"), Options{})
	require.NoError(t, err)
	require.Len(t, fromJSON.Hours, len(fromCSV.Hours))
	assert.Equal(t, fromCSV.Station, fromJSON.Station)
}

// Rows a 3 minutes are averaged; the digit 1 behind a value marks it as wrong.
func TestSURFRAD(t *testing.T) {
	s := readInvented(t, "invented-surfrad.dat")
	assertHour(t, s, "2005-07-01 00:00", 20, 0.40, 85100)
	assertHour(t, s, "2005-07-01 01:00", 21, 0.41, 85100)
	assertNote(t, s, "1 values that NOAA's checks")
	assert.InDelta(t, -100.5, s.Station.Longitude, 0)
	assert.Equal(t, "Ostrel Flat, US", s.Station.Name+", "+s.Station.Country)
}

// Stamps close their hour; the file's own two clocks give the zone.
func TestUSCRN(t *testing.T) {
	s, err := readText(inventedText(t, "invented-uscrn.txt"), Options{AllowGaps: true})
	require.NoError(t, err)
	assertHour(t, s, "2019-07-01 10:00", 21.5, 0.38, math.NaN())
	assert.InDelta(t, -7, s.Station.UTCOffset, 0)
	assert.Equal(t, "USCRN 99999, US", s.Station.Name+", "+s.Station.Country)
	assert.True(t, s.HourEnding)
	assertNote(t, s, "2 values that NOAA's checks")
}

// INMET's yearly files: station lines, decimal commas, Portuguese headings, UTC.
func TestStationLinesAboveHeadings(t *testing.T) {
	const inmet = "ESTACAO:;OSTREL\nLATITUDE:;-9,388323\nLONGITUDE:;-40,523262\nALTITUDE:;372,72\n" +
		"Data;Hora UTC;PRESSAO ATMOSFERICA AO NIVEL DA ESTACAO, HORARIA (mB);RADIACAO GLOBAL (Kj/m²);TEMPERATURA DO AR - BULBO SECO, HORARIA (°C);UMIDADE RELATIVA DO AR, HORARIA (%);\n" +
		"2020/01/01;1200 UTC;970,3;360;24,8;78;\n2020/01/01;1300 UTC;970,6;,72;24,6;-9999;\n"
	s, err := readText(inmet, Options{AllowGaps: true})
	require.NoError(t, err)
	assertHour(t, s, "2020-01-01 09:00", 24.8, 0.78, 97030)
	assert.InDelta(t, 100, at(t, s, "2020-01-01 09:00").GHI, 1e-9)
	assert.InDelta(t, 372.72, s.Station.Elevation, 1e-9)
	assert.InDelta(t, -9.388323, s.Station.Latitude, 1e-9)
	assert.Equal(t, "OSTREL", s.Station.Name)

	const legend = "#Latitude: 41.2\n#Longitude: 100.5 W\n#Elevation: 1000 ft a.s.l.\n#Time reference: UTC-7\n#TEMP - Air temperature at 2 m [deg_C]\n#Data:\n" +
		"Date;Time;TEMP;RH\n31.07.2020;10:00;24.8;78\n31.07.2020;11:00;25.8;70\n"
	s, err = readText(legend, Options{AllowGaps: true})
	require.NoError(t, err)
	assertHour(t, s, "2020-07-31 10:00", 24.8, 0.78, math.NaN())
	assert.InDelta(t, 304.8, s.Station.Elevation, 1e-9)
	assert.InDelta(t, -100.5, s.Station.Longitude, 1e-9)
	assert.InDelta(t, -7, s.Station.UTCOffset, 1e-9)

	_, err = readText(strings.Replace(legend, "1000 ft", "high", 1), Options{AllowGaps: true})
	assert.ErrorContains(t, told(err), `x.csv:3: column "elevation": "high a.s.l." is not a number`)
}

// What --columns states adds to what the headings say.
func TestColumnsAdd(t *testing.T) {
	const text = "Time,Temp (C),RH,Luftdruck\n2023-07-01 10:00,25,40,851\n2023-07-01 11:00,26,38,850\n"
	named, err := ParseColumns("pressure_hpa=Luftdruck")
	require.NoError(t, err)
	s, err := readText(text, Options{AllowGaps: true, Columns: named})
	require.NoError(t, err)
	assertHour(t, s, "2023-07-01 10:00", 25, 0.40, 85100)
}

// A column stated for a quantity is the one that is read, whatever other heading
// would have been taken for it.
func TestColumnsStatedGoFirst(t *testing.T) {
	named, err := ParseColumns("temperature_c=Roof")
	require.NoError(t, err)
	for _, text := range []string{
		"Time,Temp (C),RH,Roof\n2023-07-01 10:00,25,40,31\n2023-07-01 11:00,26,38,33\n",
		"Time,Roof,RH,Temp (C)\n2023-07-01 10:00,31,40,25\n2023-07-01 11:00,33,38,26\n",
	} {
		s, err := readText(text, Options{AllowGaps: true, Columns: named})
		require.NoError(t, err)
		assertHour(t, s, "2023-07-01 10:00", 31, 0.40, math.NaN())
	}
}

// Several stations in one file are named, and one can be chosen.
func TestSeveralStations(t *testing.T) {
	const text = "station,valid,lon,lat,elevation,tmpf,dwpf\nAAA,2014-07-01 10:53,-100,41,100,77,50\nBBB,2014-07-01 10:53,-101,42,200,86,50\nAAA,2014-07-01 11:53,-100,41,100,78,50\nBBB,2014-07-01 11:53,-101,42,200,87,50\n"
	_, err := readText(text, zoneSeven)
	assert.EqualError(t, told(err), `x.csv:1:1: column "station": the file holds 2 stations: AAA, BBB; hint: choose one, as in --station AAA`)
	opt := zoneSeven
	opt.StationName = "bbb"
	s, err := readText(text, opt)
	require.NoError(t, err)
	assert.InDelta(t, 200, s.Station.Elevation, 0)
	assertHour(t, s, "2014-07-01 03:00", 30, 10, math.NaN())
	opt.StationName = "CCC"
	_, err = readText(text, opt)
	assert.ErrorContains(t, told(err), "no row is of station CCC; the file has AAA, BBB")
}

func TestDailySummariesAreRefused(t *testing.T) {
	_, err := readText("STATION,NAME,DATE,PRCP,TMAX,TMIN\nUSW0,A,2020-01-01,0,10,1\n", zoneSeven)
	assert.ErrorContains(t, told(err), "x.csv:1: holds NOAA's summaries of days, not hours")
}

// The known formats saved again by a spreadsheet with semicolons, with decimal
// commas, and as UTF-16 with and without its mark give the same hours.
func TestKnownFormatsSavedAgain(t *testing.T) {
	for _, name := range []string{"invented-tmy3.csv", "invented-epw.epw", "invented-sam.csv", "invented-pvgis.csv"} {
		text := inventedText(t, name)
		want, err := readText(text, zoneSeven)
		require.NoError(t, err)
		semicolons := strings.ReplaceAll(text, ",", ";")
		utf16, err := unicode.UTF16(unicode.LittleEndian, unicode.UseBOM).NewEncoder().String(text)
		require.NoError(t, err)
		bare, err := unicode.UTF16(unicode.BigEndian, unicode.IgnoreBOM).NewEncoder().String(text)
		require.NoError(t, err)
		for how, text := range map[string]string{"semicolons": semicolons, "tabs": strings.ReplaceAll(text, ",", "\t"),
			"decimal commas": strings.ReplaceAll(semicolons, ".", ","), "UTF-16": utf16, "UTF-16 without a mark": bare} {
			got, err := readText(text, zoneSeven)
			if !assert.NoError(t, err, "%s with %s", name, how) {
				continue
			}
			assert.InDelta(t, want.Station.Latitude, got.Station.Latitude, 0, "%s with %s", name, how)
			require.Len(t, got.Hours, len(want.Hours))
			for i := range want.Hours {
				if w, g := want.Hours[i], got.Hours[i]; !math.IsNaN(w.DryBulb) {
					assert.InDelta(t, w.DryBulb, g.DryBulb, 0, "%s with %s", name, how)
				}
			}
		}
	}
}

// Files made by others put more behind the elevation of a TMY3 station line.
func TestTMY3StationFromTheFront(t *testing.T) {
	first, rest, _ := strings.Cut(inventedText(t, "invented-tmy3.csv"), "\n")
	want, err := readText(first+"\n"+rest, zoneSeven)
	require.NoError(t, err)
	s, err := readText(strings.TrimRight(first, "\r,")+",Data Version: 3.5,Typical year\n"+rest, zoneSeven)
	require.NoError(t, err)
	assert.InDelta(t, want.Station.Elevation, s.Station.Elevation, 0)
	assert.InDelta(t, want.Station.Longitude, s.Station.Longitude, 0)
}

// Of a station line of just the seven fields, one of which is no number, the
// others count.
func TestTMY3StationOfSevenFields(t *testing.T) {
	line := []string{"700000", "\"Made Up\"", "ID", "-7.0", "43.0", "west", "850"}
	st, err := tmy3Station("x.csv", line[:7:7], 1)
	require.NoError(t, err)
	assert.Equal(t, []float64{-7, 43, 850}, []float64{st.UTCOffset, st.Latitude, st.Elevation})
	assert.True(t, math.IsNaN(st.Longitude))
}

// A known format without a column that it needs is told which one.
func TestColumnsThatAreNeeded(t *testing.T) {
	for _, heading := range []string{"Month", "Day", "Hour"} { // by the others it is known
		text := strings.Replace(inventedText(t, "invented-nsrdb-utc.csv"), "\n"+heading+",", "\nmine,", 1)
		text = strings.Replace(text, ","+heading+",", ",mine,", 1)
		_, err := readText(text, Options{AllowGaps: true})
		require.Error(t, err, heading)
		assert.ErrorContains(t, told(err), heading)
	}
}
