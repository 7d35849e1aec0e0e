package cli

import (
	"bufio"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/rogpeppe/go-internal/testscript"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/internal/ranking"
)

// TestRank runs the scripts of testdata/rank. Each finds a folder of invented
// weather, sites/.
func TestRank(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:   filepath.Join("testdata", "rank"),
		Setup: func(env *testscript.Env) error { return inventSites(filepath.Join(env.WorkDir, "sites")) },
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"exits": exits,
		},
	})
}

// exits runs evapbook and checks its exit status: exits 3 rank sites.
func exits(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: exits status arguments...")
	}
	err := ts.Exec("evapbook", args[1:]...)
	got := "0"
	if err != nil {
		_, err = fmt.Sscanf(err.Error(), "exit status %s", &got)
		ts.Check(err)
	}
	if got != args[0] {
		ts.Fatalf("exit status %s, want %s", got, args[0])
	}
}

// inventSites writes years that swing like sines for three invented places.
func inventSites(dir string) error {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return err
	}
	for i, p := range []struct{ elevation, mean, humidity float64 }{{80, 24, 0.25}, {900, 17, 0.3}, {2100, 9, 0.4}} {
		f, err := os.Create(filepath.Join(dir, fmt.Sprintf("s%d.csv", i)))
		if err != nil {
			return err
		}
		w := bufio.NewWriter(f)
		inventYear(w, i, p.elevation, p.mean, p.humidity)
		if err := w.Flush(); err != nil {
			return err
		}
		if err := f.Close(); err != nil {
			return err
		}
	}
	return nil
}

func inventYear(w io.Writer, i int, elevation, mean, humidity float64) {
	fmt.Fprintf(w, "# INVENTED WEATHER: no station measured this\n# station: Place %d (invented)\n# country: US\n# latitude: %d\n# longitude: -110\n# elevation_m: %g\n# utc_offset_h: -7\n# time: hour-beginning\ntime,temperature_c,relative_humidity_pct,ghi_wm2\n", i, 33+i, elevation)
	start := time.Date(2023, 1, 1, 0, 0, 0, 0, time.UTC)
	for h := range 8760 {
		year, day := math.Sin(2*math.Pi*(float64(h)/8760-0.3)), math.Sin(2*math.Pi*(float64(h%24)-9)/24)
		fmt.Fprintf(w, "%s,%.1f,%.1f,%.0f\n", start.Add(time.Duration(h)*time.Hour).Format("2006-01-02 15:04"), mean+11*year+7*day, 100*humidity*(1-0.4*day), max(0, 900*day))
	}
}

func TestProgressLine(t *testing.T) {
	assert.Equal(t, "250 of 1,000 files, 25.0 a second, 30s left", progressLine("files", 250, 1000, 10*time.Second))
}

func TestSitesKeepTheirOrderAndNames(t *testing.T) {
	dir := t.TempDir()
	for _, path := range []string{"b/x.csv", "a/y.epw", "a/z.md", "a/.hidden.csv", "a/deep/x.csv.gz", "c/x.csv"} {
		require.NoError(t, os.MkdirAll(filepath.Join(dir, filepath.Dir(path)), 0o755))
		require.NoError(t, os.WriteFile(filepath.Join(dir, path), nil, 0o644))
	}
	names := func(args ...string) []string {
		for i := range args {
			args[i] = filepath.Join(dir, args[i])
		}
		files, _, err := findSites(args)
		require.NoError(t, err)
		var n []string
		for _, f := range files {
			n = append(n, f.Name)
		}
		return n
	}
	assert.Equal(t, []string{"a/deep/x.csv.gz", "a/y.epw", "b/x.csv", "c/x.csv"}, names(""))
	assert.Equal(t, []string{"x.csv", "deep/x.csv.gz", "y.epw"}, names("b", "a"))
	same := names("b/x.csv", "c/*.csv")
	assert.Equal(t, []string{filepath.ToSlash(filepath.Join(dir, "b/x.csv")), filepath.ToSlash(filepath.Join(dir, "c/x.csv"))}, same, "equal names give way to paths")
	_, passed, err := findSites([]string{dir})
	require.NoError(t, err)
	assert.Equal(t, []string{filepath.Join(dir, "a/z.md")}, passed, "what does not end like a weather file is named")
	_, _, err = findSites([]string{filepath.Join(dir, "nothing*.csv")})
	assert.ErrorContains(t, err, "no weather file there")
}

func filesNamed(names ...string) []ranking.File {
	var files []ranking.File
	for _, n := range names {
		files = append(files, ranking.File{Path: n, Name: n})
	}
	return files
}
