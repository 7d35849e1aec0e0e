package weather

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// realFolder holds real weather files, which are not part of the repository.
const realFolder = "../../../shared/weather"

// realFile finds a real file or skips the test, loudly.
func realFile(t testing.TB, name string) string {
	path := filepath.Join(realFolder, name)
	if _, err := os.Stat(path); err != nil {
		t.Skipf("SKIPPED: real weather file %s is not there", path)
	}
	return path
}

// expectedFigures reads testdata/weather/real-files.csv, made from SOURCES.md.
func expectedFigures(t *testing.T) []map[string]string {
	f, err := os.Open("../../testdata/weather/real-files.csv")
	require.NoError(t, err)
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	require.NoError(t, err)
	var out []map[string]string
	for _, row := range rows[1:] {
		m := map[string]string{}
		for i, name := range rows[0] {
			m[name] = row[i]
		}
		out = append(out, m)
	}
	return out
}

// Rows as they stand in the file, before anything is sorted out, filled or
// moved: their number and the range of each quantity.
func TestRealFilesRows(t *testing.T) {
	for _, want := range expectedFigures(t) {
		t.Run(want["file"], func(t *testing.T) {
			raw, err := os.ReadFile(realFile(t, want["file"]))
			require.NoError(t, err)
			doc, err := unpack(raw, want["file"])
			require.NoError(t, err)
			f, err := detect(doc)
			require.NoError(t, err)
			assert.Equal(t, want["format"], f.name)
			o, err := f.read(doc)
			require.NoError(t, err)
			rows, err := strconv.Atoi(want["rows"])
			require.NoError(t, err)
			assert.Len(t, o.rows, rows)
			assertRange(t, o, dryBulb, want["dry_min"], want["dry_max"])
			assertRange(t, o, relHum, want["rh_min"], want["rh_max"])
			assertRange(t, o, pressure, want["pressure_min"], want["pressure_max"])
			if want["elevation"] == "" {
				assert.True(t, math.IsNaN(o.station.Elevation))
			} else {
				assert.Equal(t, want["elevation"], strconv.FormatFloat(o.station.Elevation, 'g', -1, 64))
			}
		})
	}
}

func assertRange(t *testing.T, o *observations, q quantity, low, high string) {
	t.Helper()
	if low == "" {
		return
	}
	lo, hi := math.Inf(1), math.Inf(-1)
	for i := range o.rows {
		if v := o.rows[i].values[q] * limits[q].scale; !math.IsNaN(v) {
			lo, hi = min(lo, v), max(hi, v)
		}
	}
	assertPrinted(t, low, lo, "lowest "+limits[q].name)
	assertPrinted(t, high, hi, "highest "+limits[q].name)
}

// assertPrinted compares to half of the last digit that SOURCES.md prints.
func assertPrinted(t *testing.T, printed string, got float64, what string) {
	t.Helper()
	want, err := strconv.ParseFloat(printed, 64)
	require.NoError(t, err)
	half := 0.5
	if _, decimals, ok := strings.Cut(printed, "."); ok {
		half = 0.5 * math.Pow(10, -float64(len(decimals)))
	}
	assert.InDelta(t, want, got, half+1e-6, what)
}

// The finished series: whole days, the hash of SOURCES.md, local time.
func TestRealFilesSeries(t *testing.T) {
	hyderabad, phoenix := 5.5, -7.
	zones := map[string]*float64{"iem-asos-hyderabad-in-2014.tsv": &hyderabad, "noaa-isd-lite-phoenix-az-2017.txt": &phoenix}
	for _, want := range expectedFigures(t) {
		if want["hours"] == "" {
			continue
		}
		t.Run(want["file"], func(t *testing.T) {
			s, err := Open(realFile(t, want["file"]), Options{AllowGaps: true, UTCOffset: zones[want["file"]]})
			require.NoError(t, err)
			assert.Equal(t, want["sha256"], s.Source.SHA256)
			hours, err := strconv.Atoi(want["hours"])
			require.NoError(t, err)
			assert.Len(t, s.Hours, hours)
			for _, n := range s.Notes {
				assert.NotContains(t, n.Text(), "warmest hour", "the mean day must peak in the afternoon")
			}
		})
	}
}

// Files that must be refused without more being said, and why.
func TestRealFilesRefused(t *testing.T) {
	for file, want := range map[string]string{
		"noaa-lcd-old-jfk-ny-sample.csv":    "in the best of 9 years, 2012, only 505 of 4392 hours of the warm half-year",
		"noaa-isd-lite-phoenix-az-2017.txt": "the file does not tell the station's time zone",
		"iem-asos-hyderabad-in-2014.tsv":    "the file does not tell the station's time zone",
		"noaa-lcd-v1-atlanta-ga-2020.csv":   "only 0 of 4392 hours of the warm half-year",
		"openmeteo-paris-fr-2026.csv":       "only 888 of 4392 hours of the warm half-year",
	} {
		t.Run(file, func(t *testing.T) {
			_, err := Open(realFile(t, file), Options{})
			require.ErrorContains(t, told(err), want)
		})
	}
}

// The Phoenix EPW was converted from the Phoenix TMY3 file: the same hours.
func TestPhoenixEPWIsPhoenixTMY3(t *testing.T) {
	a, err := Open(realFile(t, "tmy3-phoenix-az.csv"), Options{})
	require.NoError(t, err)
	b, err := Open(realFile(t, "epw-phoenix-az.epw"), Options{})
	require.NoError(t, err)
	require.Equal(t, len(a.Hours), len(b.Hours))
	for i := range a.Hours {
		x, y := a.Hours[i], b.Hours[i]
		assert.Equal(t, x.Time.YearDay(), y.Time.YearDay())
		assert.InDelta(t, x.DryBulb, y.DryBulb, 0.0501, "hour %d", i)
		assert.InDelta(t, x.Humidity, y.Humidity, 1e-9, "hour %d", i)
		assert.InDelta(t, x.Pressure, y.Pressure, 1e-6, "hour %d", i)
	}
}

// FORMATS.md: in Leadville and Phoenix relative humidity and dew point differ
// by more than 5 points in 27 to 42 hours a year. The saturation pressure here
// is the Magnus form over water (Alduchov and Eskridge, J. Appl. Meteor. 35,
// 1996, eq. 21); which form was used there is not stated.
func TestHumidityDisagreementRealFiles(t *testing.T) {
	for _, name := range []string{"tmy3-leadville-co.csv", "tmy3-phoenix-az.csv"} {
		for _, p := range []Preference{PreferRelHum, PreferDewPoint} {
			s, err := Open(realFile(t, name), Options{Humidity: p})
			require.NoError(t, err)
			n, ok := s.HumidityDisagreement(magnus)
			require.True(t, ok)
			assert.GreaterOrEqual(t, n, 27, name)
			assert.LessOrEqual(t, n, 42, name)
		}
	}
}

func magnus(c float64) float64 { return 6.1094 * math.Exp(17.625*c/(243.04+c)) }

// A whole climate zone of TMY3 files, gzipped.
func TestRealZoneFiles(t *testing.T) {
	files, err := filepath.Glob(filepath.Join(realFolder, "zone", "*.csv.gz"))
	require.NoError(t, err)
	if len(files) == 0 {
		t.Skipf("SKIPPED: no real weather files in %s/zone", realFolder)
	}
	if testing.Short() {
		t.Skip("SKIPPED: 71 files, not in short mode")
	}
	fitted := 0
	for _, f := range files {
		s, err := Open(f, Options{})
		require.NoError(t, err)
		assert.Len(t, s.Hours, 8760, f)
		assert.True(t, s.Typical, f)
		// SOURCES.md: elevations from 63 m to 2,312 m
		assert.GreaterOrEqual(t, s.Station.Elevation, 63.)
		assert.LessOrEqual(t, s.Station.Elevation, 2312.)
		for _, n := range s.Notes { // docs/stations.md counts what was filled in and left out
			if n.Kind == NoteLeftOut { // 28.8 °C at three in the morning of an April day, and the hours filled in beside it
				assert.Contains(t, f, "724756")
				assert.Equal(t, 13, n.Count)
				continue
			}
			assert.Contains(t, []NoteKind{NoteTypical, NoteTypicalOld, NoteFilled, NoteFilledNights, NoteSpikes, NoteElevationFitted}, n.Kind, "%s: %s", f, n)
			if n.Kind == NoteElevationFitted {
				fitted++
			}
		}
	}
	assert.Equal(t, 3, fitted, "files whose pressures contradict their elevation by more than 100 m")
}
