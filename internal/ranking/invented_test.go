package ranking

import (
	"bufio"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/internal/job"
)

// invented is the weather of an invented place: a year and a day that swing
// like sines. No station measured it.
type invented struct {
	name      string
	elevation float64 // m
	mean      float64 // °C of the year
	swing     float64 // K between the year's mean and midsummer
	humidity  float64 // relative, mean, 0..1
}

var inventedSites = []invented{
	{"Low Sands (invented)", 80, 24, 11, 0.25},
	{"Mid Bench (invented)", 900, 17, 12, 0.30},
	{"High Park (invented)", 2100, 9, 11, 0.40},
	{"Wet Delta (invented)", 5, 24, 6, 0.75},
	{"Cold Ridge (invented)", 3000, -25, 6, 0.60},
}

func (s invented) write(t testing.TB, path string) {
	t.Helper()
	s.writeYears(t, path, 1)
}

// writeYears writes so many years, each 3 K warmer than the one before.
func (s invented) writeYears(t testing.TB, path string, years int) {
	t.Helper()
	f, err := os.Create(path)
	require.NoError(t, err)
	w := bufio.NewWriter(f)
	fmt.Fprintf(w, "# INVENTED WEATHER: no station measured this\n# station: %s\n# country: US\n# latitude: 35\n# longitude: -110\n# elevation_m: %g\n# utc_offset_h: -7\n# time: hour-beginning\ntime,temperature_c,relative_humidity_pct,ghi_wm2\n", s.name, s.elevation)
	start := time.Date(2021, 1, 1, 0, 0, 0, 0, time.UTC)
	for i := range 8760 * years {
		year, day := math.Sin(2*math.Pi*(float64(i)/8760-0.3)), math.Sin(2*math.Pi*(float64(i%24)-9)/24)
		dry := s.mean + s.swing*year + 7*day + 3*float64(i/8760)
		rh := min(0.99, max(0.05, s.humidity*(1-0.4*day)))
		fmt.Fprintf(w, "%s,%.1f,%.1f,%.0f\n", start.Add(time.Duration(i)*time.Hour).Format("2006-01-02 15:04"), dry, 100*rh, max(0, 900*day))
	}
	require.NoError(t, w.Flush())
	require.NoError(t, f.Close())
}

// inventedFiles writes the invented sites, with one file among them that is no
// weather.
func inventedFiles(t testing.TB) []File {
	t.Helper()
	dir := t.TempDir()
	var files []File
	for i, s := range inventedSites {
		path := filepath.Join(dir, fmt.Sprintf("site%d.csv", i))
		s.write(t, path)
		files = append(files, File{Path: path, Name: filepath.Base(path)})
	}
	bad := filepath.Join(dir, "notes.csv")
	require.NoError(t, os.WriteFile(bad, []byte("a shopping list, not weather\n"), 0o644))
	return append(files[:2:2], append([]File{{Path: bad, Name: "notes.csv"}}, files[2:]...)...)
}

func newRun(files []File) *Run {
	return &Run{Plan: Plan{Job: job.New()}, Version: "test", Files: files, Shard: Whole, Workers: 2}
}
