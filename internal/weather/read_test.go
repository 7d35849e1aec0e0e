package weather

import (
	"archive/zip"
	"bytes"
	"compress/gzip"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/text/encoding/unicode"
)

func gzipped(t testing.TB, text string) []byte {
	var b bytes.Buffer
	w := gzip.NewWriter(&b)
	_, err := w.Write([]byte(text))
	require.NoError(t, err)
	require.NoError(t, w.Close())
	return b.Bytes()
}

func zipped(t testing.TB, members ...string) []byte {
	var b bytes.Buffer
	w := zip.NewWriter(&b)
	for i := 0; i < len(members); i += 2 {
		f, err := w.Create(members[i])
		require.NoError(t, err)
		_, err = f.Write([]byte(members[i+1]))
		require.NoError(t, err)
	}
	require.NoError(t, w.Close())
	return b.Bytes()
}

// The same year, stored in every way it may come, reads the same.
func TestOpenStoredForms(t *testing.T) {
	text := plainYear(2023, nil)
	want, err := readText(text, Options{})
	require.NoError(t, err)
	wide, err := unicode.UTF16(unicode.LittleEndian, unicode.UseBOM).NewEncoder().Bytes([]byte(text))
	require.NoError(t, err)
	big, err := unicode.UTF16(unicode.BigEndian, unicode.UseBOM).NewEncoder().Bytes([]byte(text))
	require.NoError(t, err)
	for name, stored := range map[string][]byte{
		"byte order mark":    []byte("\ufeff" + text),
		"UTF-16":             wide,
		"UTF-16 big endian":  big,
		"CRLF":               []byte(strings.ReplaceAll(text, "\n", "\r\n")),
		"CR":                 []byte(strings.ReplaceAll(text, "\n", "\r")),
		"no last line end":   []byte(strings.TrimSuffix(text, "\n")),
		"blank rows":         []byte(text + "\n,,,,\n\r\n"),
		"gzip":               gzipped(t, text),
		"zip":                zipped(t, "some.txt", text),
		"zip with bystander": zipped(t, "a/readme.txt", "hello", "a/b.CSV", text, "__MACOSX/b.csv", "x"),
	} {
		t.Run(name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "misleading.epw")
			require.NoError(t, os.WriteFile(path, stored, 0o600))
			got, err := Open(path, Options{})
			require.NoError(t, err)
			assert.Equal(t, want.Hours, got.Hours)
			assert.Equal(t, "misleading.epw", got.Source.Name)
			assert.Equal(t, "plain CSV", got.Source.Format)
			assert.Len(t, got.Source.SHA256, 64)
		})
	}
}

func TestLatin1IsReadAndSaidSo(t *testing.T) {
	s, err := readText(strings.Replace(plainYear(2023, nil), "Nowhere", "N\xf8where", 1), Options{})
	require.NoError(t, err)
	assert.Equal(t, "Nøwhere (invented)", s.Station.Name)
	assert.Contains(t, texts(s), "the text is not UTF-8 and was read as Windows-1252")
}

// The hash is that of the stored bytes, not of the text in them. Hashes from
// elsewhere (sha256sum) are compared in the tests on real files.
func TestHashIsOfTheStoredBytes(t *testing.T) {
	a, err := Read(bytes.NewReader(gzipped(t, plainYear(2023, nil))), "a", Options{})
	require.NoError(t, err)
	b, err := readText(plainYear(2023, nil), Options{})
	require.NoError(t, err)
	assert.NotEqual(t, a.Source.SHA256, b.Source.SHA256)
}

func TestFilesThatAreNoWeatherFiles(t *testing.T) {
	bomb := gzipped(t, strings.Repeat("0\n", 61<<19))
	for _, c := range []struct {
		name   string
		stored []byte
		want   string
	}{
		{"empty", nil, "x: is empty"},
		{"blanks", []byte("\n \n"), "x: is empty"},
		{"PDF", []byte("%PDF-1.7\n..."), "x: is a PDF document, not a weather file"},
		{"workbook", zipped(t, "[Content_Types].xml", "<x/>", "xl/workbook.xml", "<x/>"), "x: is an office document such as an Excel workbook, not text; save it as CSV"},
		{"old workbook", []byte("\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"), "x: is an old office document"},
		{"JSON", []byte("{\"hourly\": [1, 2]}\n"), "x: is a JSON document, not a weather file"},
		{"web page", []byte("<!DOCTYPE html><p>404"), "x: is a web page"},
		{"zeros", []byte("a\x00b\x00c"), "x: is a binary file"},
		{"prose", []byte("dear sir,\n"), `x:1: format not recognised, first line is "dear sir,"; hint: known formats: TMY3, EPW,`},
		{"empty zip", zipped(t), "x: the zip archive is empty"},
		{"many members", zipped(t, "a.csv", "1", "b.csv", "2"), "x: the zip archive holds several files"},
		{"cut gzip", gzipped(t, plainYear(2023, nil))[:2000], "x: damaged compressed file"},
		{"cut zip", zipped(t, "a.csv", "1")[:30], "x: damaged zip file"},
		{"flood", bomb, "x: unpacks to more than 16 MB"},
		{"flood of one line", gzipped(t, strings.Repeat("0", 61<<20)), "x: a line is longer than 1 MB"},
		{"cut UTF-16", []byte("\xff\xfea"), "x:1: format not recognised"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := Read(bytes.NewReader(c.stored), "x", Options{})
			require.ErrorContains(t, told(err), c.want)
			var flaw *Error
			require.ErrorAs(t, err, &flaw)
			assert.NotContains(t, err.Error(), "\n")
		})
	}
}

func TestOpenErrors(t *testing.T) {
	_, err := Open("no/such.epw", Options{})
	require.ErrorContains(t, told(err), "no/such.epw: no such file; hint: check the spelling and the folder")
	_, err = Open(t.TempDir(), Options{})
	require.ErrorContains(t, told(err), "is a folder, not a file")
	_, err = readText("x", Options{Humidity: "rh"})
	require.ErrorContains(t, told(err), `humidity preference "rh" is not known`)
	far := 200.
	_, err = readText("x", Options{Longitude: &far})
	require.ErrorContains(t, told(err), "longitude 200 is outside -180 to 180")
}

func TestOptionsOverrideTheStation(t *testing.T) {
	lat, lon, z, utc := -30., 20., 5., 2.
	s, err := readText(plainYear(2023, nil), Options{Latitude: &lat, Longitude: &lon, Elevation: &z, UTCOffset: &utc})
	require.NoError(t, err)
	assert.Equal(t, Station{"Nowhere (invented)", lat, lon, z, utc, "US", ""}, s.Station)
}

func TestHalfAYearIsAnError(t *testing.T) {
	half := plainHeader + plainHeadings + plainRows(date(2023, 1, 1), date(2023, 7, 1), nil)
	_, err := readText(half, Options{})
	require.ErrorContains(t, told(err), "x.csv: only 2184 of 4392 hours of the warm half-year (April to September) have dry bulb and humidity; hint:")
	s, err := readText(half, Options{AllowGaps: true})
	require.NoError(t, err)
	require.Len(t, s.Notes, 1)
	assert.Contains(t, s.Notes[0].Text(), "only 2184 of 4392 hours")

	south := strings.Replace(half, "41.2", "-41.2", 1)
	_, err = readText(south, Options{})
	require.ErrorContains(t, told(err), "only 2160 of 4368 hours of the warm half-year (October to March)")
}

// Without a latitude the warmer half of the year decides.
func TestWarmHalfWithoutLatitude(t *testing.T) {
	text := plainHeadings + plainRows(date(2023, 1, 1), date(2024, 1, 1), func(at time.Time, row string) string {
		if at.Month() == 8 {
			return ""
		}
		return row
	})
	_, err := readText(text, Options{})
	require.ErrorContains(t, told(err), "only 3648 of 4392 hours of the warm half-year (April to September)")
}

func TestMissingRowsAreInserted(t *testing.T) {
	gap := func(at time.Time, row string) string {
		switch {
		case at.Month() == 5 && at.Day() == 3 && at.Hour() >= 10 && at.Hour() < 13: // three: bridged
			return ""
		case at.Month() == 6 && at.Day() == 3 && at.Hour() < 4: // four: not bridged
			return ""
		}
		return row
	}
	s, err := readText(plainYear(2023, gap), Options{})
	require.NoError(t, err)
	require.Len(t, s.Hours, 8760)
	for i := range s.Hours {
		assert.Equal(t, date(2023, 1, 1).Add(time.Duration(i)*time.Hour), s.Hours[i].Time)
	}
	i := (date(2023, 5, 3).YearDay()-1)*24 + 10
	assert.InDelta(t, (s.Hours[i-1].DryBulb*2+s.Hours[i+3].DryBulb*2)/4, s.Hours[i+1].DryBulb, 1e-9)
	assert.Equal(t, []string{
		"dry bulb: 3 missing hours in gaps of up to 3 h were interpolated",
		"dry bulb: 4 hours are missing and left out",
		"relative humidity: 3 missing hours in gaps of up to 3 h were interpolated",
		"relative humidity: 4 hours are missing and left out",
		"station pressure: 3 missing hours in gaps of up to 3 h were interpolated",
		"station pressure: 4 hours are missing and left out",
		"global irradiance: 3 missing hours in gaps of up to 3 h were interpolated",
		"global irradiance: 4 hours are missing and left out",
	}, texts(s))
}

func TestBrokenDaysAreCompleted(t *testing.T) {
	text := plainHeader + plainHeadings + plainRows(date(2023, 1, 1).Add(5*time.Hour), date(2024, 1, 1).Add(-7*time.Hour), nil)
	s, err := readText(text, Options{})
	require.NoError(t, err)
	assert.Len(t, s.Hours, 8760)
	assert.Equal(t, date(2023, 1, 1), s.Hours[0].Time)
}

func TestSeveralYears(t *testing.T) {
	text := plainHeader + plainHeadings + plainRows(date(2019, 1, 1), date(2022, 1, 1), nil)
	s, err := readText(text, Options{})
	require.NoError(t, err)
	assert.Len(t, s.Hours, 1096*24)
	assert.False(t, s.Typical)
}

func TestTypicalYearInPlainForm(t *testing.T) {
	text := plainHeader + plainHeadings + plainRows(date(2019, 1, 1), date(2019, 3, 1), nil) +
		plainRows(date(2012, 3, 1), date(2012, 9, 1), nil) + plainRows(date(2015, 9, 1), date(2016, 1, 1), nil)
	s, err := readText(text, Options{})
	require.NoError(t, err)
	assert.True(t, s.Typical)
	assert.Len(t, s.Hours, 8760)
}

func TestStampsInAnotherZoneAreNoted(t *testing.T) {
	text := plainHeader + plainHeadings + plainRows(date(2023, 1, 1), date(2024, 1, 1), func(at time.Time, row string) string {
		return row[:16] + strings.Replace(plainRows(at.Add(-7*time.Hour), at.Add(-6*time.Hour), nil)[16:], "\n", "", 1)
	})
	s, err := readText(text, Options{})
	require.NoError(t, err)
	require.Len(t, s.Notes, 1)
	assert.Contains(t, s.Notes[0].Text(), "the warmest hour of the mean day is stamped 22:00")
}

func TestWildYearsAreAnErrorNotAFlood(t *testing.T) {
	_, err := readText(plainHeadings+"1901-01-01 00:00,5,40,850,0\n2023-01-01 00:00,5,40,850,0\n", Options{})
	require.ErrorContains(t, told(err), "2 rows are spread over 44560 days")
}

// Time must not grow with the square of what a damaged file holds. Together
// these took about half a second on two cores where this was written.
func TestDamagedFilesDoNotStall(t *testing.T) {
	start := time.Now()
	for _, text := range []string{
		plainHeadings + strings.Repeat(`"`, 2<<20+1),
		plainHeadings + "\"" + strings.Repeat("\n", 2<<20),
		plainHeadings + strings.Repeat(`a"`, 1<<20),
		plainHeadings + strings.Repeat("a\"\n", 1<<18),
		plainHeadings + strings.Repeat("\n", 2<<20),
		strings.Repeat("time,", 1<<19) + "\n1\n",
		strings.Repeat("#\n", 1<<20),
	} {
		_, err := readText(text, Options{})
		checkFlaw(t, err)
	}
	assert.Less(t, time.Since(start), time.Minute)
}
