package weather

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// utcRows writes an invented ISD-Lite file of the hours from one time to another.
func utcRows(from, to time.Time) string {
	var b strings.Builder
	for t := from; t.Before(to); t = t.Add(time.Hour) {
		fmt.Fprintf(&b, "%s %5d %5d -9999 -9999 -9999 -9999 -9999 -9999\n", t.Format("2006 01 02 15"), int(10*inventedDryBulb(t)), -120)
	}
	return strings.ReplaceAll(b.String(), "  ", " ")
}

func read(t *testing.T, path string) string {
	raw, err := os.ReadFile(path)
	require.NoError(t, err)
	return string(raw)
}

// An archive with one weather file is no archive of several, nor is what is no
// archive; flaws of a member name it.
func TestArchiveOfSeveral(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.zip")
	require.NoError(t, os.WriteFile(path, zipped(t, "a.epw", "x", "a.ddy", "y"), 0o600))
	assert.False(t, Several(path))
	require.NoError(t, os.WriteFile(path, []byte("no archive"), 0o600))
	assert.False(t, Several(path))
	assert.False(t, Several(filepath.Join(t.TempDir(), "none.zip")))
	require.NoError(t, os.WriteFile(path, zipped(t, "a.csv", plainYear(2023, nil), "b.csv", "dear sir,\n"), 0o600))
	_, err := OpenAll([]string{path}, Options{})
	require.ErrorContains(t, told(err), "a.zip/b.csv:1: format not recognised")
}

// A zip archive may hold years in different formats: each file is told by what is
// in it, whatever its ending, and what is no weather is passed over. Files of
// different formats are not joined.
func TestArchiveOfMixedFormats(t *testing.T) {
	opt := Options{}
	latitude, longitude, elevation, offset := 41.2, -105., 1480., -7.
	opt.Latitude, opt.Longitude, opt.Elevation, opt.UTCOffset = &latitude, &longitude, &elevation, &offset
	plain, lite := plainYear(2023, nil), utcRows(date(2024, 1, 1), date(2025, 1, 1))
	path := filepath.Join(t.TempDir(), "mixed.zip")
	require.NoError(t, os.WriteFile(path, zipped(t,
		"2023.csv", plain, "read me.txt", "Weather of two years.\n", "2024.txt", lite, "days.ddy", "! The following Location and design days\n", "logo", "\x89PNG"), 0o600))
	require.True(t, Several(path))
	all, err := OpenAll([]string{path}, opt)
	require.NoError(t, err)
	require.Len(t, all, 2)
	for i, want := range []struct{ format, text string }{{"plain CSV", plain}, {"NOAA ISD-Lite", lite}} {
		assert.Equal(t, want.format, all[i].Source.Format)
		alone, err := Read(strings.NewReader(want.text), "alone", opt)
		require.NoError(t, err)
		assert.Equal(t, fmt.Sprint(alone.Hours), fmt.Sprint(all[i].Hours), want.format)
	}
}

// Yearly files of one place give what one file with all the rows gives, on both
// sides of the equator: the last local hours of a UTC year come from the next.
func TestYearlyFilesAreOneFile(t *testing.T) {
	dir := t.TempDir()
	write := func(name, text string) string {
		path := filepath.Join(dir, name)
		require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
		return path
	}
	var paths []string
	var whole string
	for year := 2015; year < 2018; year++ {
		text := utcRows(date(year, 1, 1), date(year+1, 1, 1))
		paths = append(paths, write(fmt.Sprintf("%d.txt", year), text))
		whole += text
	}
	paths[0], paths[1] = paths[1], paths[0] // in any order
	for _, latitude := range []float64{40, -24} {
		offset := -7.
		opt := Options{Latitude: &latitude, UTCOffset: &offset, AllowGaps: true}
		joined, err := OpenAll(paths, opt)
		require.NoError(t, err)
		require.Len(t, joined, 1)
		one, err := Open(write("whole.txt", whole), opt)
		require.NoError(t, err)
		assert.Equal(t, fmt.Sprint(one.Hours), fmt.Sprint(joined[0].Hours), "latitude %v", latitude)
		want, got := one.Years(), joined[0].Years()
		require.Len(t, got, len(want))
		for i := range want {
			assert.Equal(t, want[i].Label, got[i].Label)
			assert.Equal(t, want[i].Valid, got[i].Valid)
		}
		assertNote(t, joined[0], "3 files were joined and taken to be of one place; they do not say where they are from")
		assert.Equal(t, "2016.txt", got[len(got)/2].Series.Source.Name)

		packed := write("all.zip", string(zipped(t, "in/2016.txt", read(t, paths[0]), "in/2015.txt", read(t, paths[1]), "in/2017.txt", read(t, paths[2]))))
		require.True(t, Several(packed))
		unpacked, err := OpenAll([]string{packed}, opt)
		require.NoError(t, err)
		require.Len(t, unpacked, 1)
		assert.Equal(t, fmt.Sprint(one.Hours), fmt.Sprint(unpacked[0].Hours), "in a zip archive")
	}
}

// Files of other places, and the same year twice, are not joined.
func TestFilesThatAreNotJoined(t *testing.T) {
	a := &observations{station: Station{Latitude: 40, Longitude: -105, Elevation: 1500}, rows: []observation{{time: date(2015, 1, 1)}, {time: date(2015, 12, 31)}}}
	b := *a
	b.rows = []observation{{time: date(2016, 1, 1)}, {time: date(2016, 12, 31)}}
	assert.True(t, a.continues(&b))
	b.station.Elevation = 1400
	assert.False(t, a.continues(&b))
	for i := range 100 {
		a.rows = append(a.rows, observation{time: date(2015, 12, 31).Add(time.Duration(i) * time.Hour)})
	}
	b = *a
	assert.False(t, a.continues(&b), "the same year twice")
}

// The report of 12:53 and the one on the hour stand in the hour that ends at 13,
// in ISD-Lite and in reports alike. Source: ISD-Lite technical document (20 June
// 2006): the capture window is the ten minutes up to and including the hour.
func TestReportsAndISDLiteAgreeOnTheHour(t *testing.T) {
	lcd := "STATION,DATE,REPORT_TYPE,HourlyDryBulbTemperature,HourlyRelativeHumidity,HourlyStationPressure\n" +
		"9,2017-07-01T11:53:00,FM-15,68,40,29.0\n9,2017-07-01T12:53:00,FM-15,86,40,29.0\n"
	offset := 0.
	s, err := readText(lcd, Options{AllowGaps: true, UTCOffset: &offset})
	require.NoError(t, err)
	lite := "2017 07 01 12   200    50 -9999 -9999 -9999 -9999 -9999 -9999\n2017 07 01 13   300    50 -9999 -9999 -9999 -9999 -9999 -9999\n"
	l, err := readText(lite, Options{AllowGaps: true, UTCOffset: &offset})
	require.NoError(t, err)
	isd := "STATION,DATE,REPORT_TYPE,TMP,DEW\n9,2017-07-01T11:53:00,FM-15,\"+0200,1\",\"+0050,1\"\n9,2017-07-01T13:00:00,FM-12,\"+0300,1\",\"+0050,1\"\n"
	i, err := readText(isd, Options{AllowGaps: true, UTCOffset: &offset})
	require.NoError(t, err)
	for _, s := range []*Series{s, l, i} {
		for k := range s.Hours {
			switch {
			case s.Start(k).Equal(date(2017, 7, 1).Add(11 * time.Hour)):
				assert.InDelta(t, 20, s.Hours[k].DryBulb, 1e-9, s.Source.Format)
			case s.Start(k).Equal(date(2017, 7, 1).Add(12 * time.Hour)):
				assert.InDelta(t, 30, s.Hours[k].DryBulb, 1e-9, s.Source.Format)
			}
		}
	}
}

// Two stations are surely one by their position, or by a name where a position
// is not told; not by having nothing to tell, and never against what they state.
func TestStationsThatAreSurelyOne(t *testing.T) {
	at := func(name string, latitude, elevation float64) Station {
		return Station{Name: name, Latitude: latitude, Longitude: -105, Elevation: elevation}
	}
	nowhere := func(name string, elevation float64) Station {
		return Station{Name: name, Latitude: math.NaN(), Longitude: math.NaN(), Elevation: elevation}
	}
	for _, c := range []struct {
		what string
		a, b Station
		want bool
	}{
		{"one position, other names", at("Field", 40, 1500), at("Airport", 40, 1500), true},
		{"other positions, one name", at("Field", 40, 1500), at("Field", 43, 1500), false},
		{"one name, no position", nowhere("Field", 1500), nowhere("Field", math.NaN()), true},
		{"one name, other heights", nowhere("Field", 1500), nowhere("Field", 2500), false},
		{"other names, no position", nowhere("Field", 1500), nowhere("Airport", 1500), false},
		{"nothing told", nowhere("", 1500), nowhere("", 1500), false},
	} {
		assert.Equal(t, c.want, CertainlySame(c.a, c.b), c.what)
		assert.Equal(t, c.want, CertainlySame(c.b, c.a), c.what)
	}
}

// What is the same in every file that is joined is noted once, and what only one
// of them has is not lost.
func TestNotesOfJoinedFiles(t *testing.T) {
	station := Station{Latitude: 40, Longitude: -105, Elevation: 1500}
	year := func(y int, notes ...Note) *observations {
		return &observations{station: station, notes: notes, rows: []observation{{time: date(y, 1, 1)}, {time: date(y, 12, 31)}}}
	}
	a := year(2015, Note{Kind: NoteWindows1252}, Note{Kind: NoteTimeColumn, Other: "time"})
	a.join(year(2016, Note{Kind: NoteWindows1252}, Note{Kind: NoteTimeColumn, Other: "Zeit"}))
	kinds := map[NoteKind]int{}
	for _, n := range a.notes {
		kinds[n.Kind]++
	}
	assert.Equal(t, map[NoteKind]int{NoteWindows1252: 1, NoteTimeColumn: 2, NoteJoined: 1}, kinds)
}
