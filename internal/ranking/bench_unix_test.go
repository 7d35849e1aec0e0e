//go:build unix

package ranking

import (
	"compress/gzip"
	"encoding/csv"
	"errors"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/internal/climate"
	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/season"
	"github.com/evapbook/evapbook/internal/weather"
)

const zoneFolder = "../../../shared/weather/zone"

// stages of a site-year, as the benchmark reports their shares.
var stages = [...]string{"reading", "psychrometrics", "season", "writing"}

// BenchmarkSiteYear is one typical year through one kind of cooler: how much
// processor time it takes in all threads (ms-cpu/op), how many site-years and
// hours a second one core makes, and what share of the time each stage has.
func BenchmarkSiteYear(b *testing.B) {
	packed := filepath.Join(zoneFolder, "tmy3-722780-az.csv.gz")
	if _, err := os.Stat(packed); err != nil {
		b.Skip("SKIPPED: no " + packed)
	}
	b.Run("gzip", func(b *testing.B) { benchSiteYear(b, packed) })
	b.Run("plain", func(b *testing.B) {
		b.Helper()
		plain := filepath.Join(b.TempDir(), "tmy3.csv")
		require.NoError(b, os.WriteFile(plain, unpacked(b, packed), 0o644))
		benchSiteYear(b, plain)
	})
}

func benchSiteYear(b *testing.B, path string) {
	var spent [len(stages)]time.Duration
	b.ReportAllocs()
	start := cpuTime(b)
	for b.Loop() {
		siteYear(b, path, &spent)
	}
	perOp := (cpuTime(b) - start).Seconds() / float64(b.N)
	total := 0.0
	for _, d := range spent {
		total += d.Seconds()
	}
	for i, d := range spent {
		b.ReportMetric(100*d.Seconds()/total, "%"+stages[i])
	}
	b.ReportMetric(1000*perOp, "ms-cpu/op")
	b.ReportMetric(1/perOp, "site-years/cpu-s")
	b.ReportMetric(8760/perOp, "hours/cpu-s")
}

// siteYear goes through all stages and adds the time of each.
func siteYear(b *testing.B, path string, spent *[len(stages)]time.Duration) {
	mark := time.Now()
	lap := func(stage int) {
		now := time.Now()
		spent[stage] += now.Sub(mark)
		mark = now
	}
	series, err := weather.Open(path, weather.Options{})
	require.NoError(b, err)
	lap(0)
	j := job.New()
	require.NoError(b, j.Resolve(series.Station.Name, series.Station.Elevation, series.Station.Region()))
	c, err := climate.AtSite(series, j.Site)
	require.NoError(b, err)
	lap(1)
	s, err := season.Run(c, j)
	require.NoError(b, err)
	lap(2)
	row := weatherRow(series, c)
	row.add(s, job.Direct)
	require.NoError(b, (&Table{Rows: []Row{row}}).WriteParquet(io.Discard))
	lap(3)
}

// BenchmarkZone is a run over the whole folder, three kinds of cooler each,
// beside a bare scan of the same files with encoding/csv on as many cores.
func BenchmarkZone(b *testing.B) {
	paths, err := filepath.Glob(filepath.Join(zoneFolder, "*.csv.gz"))
	require.NoError(b, err)
	if len(paths) == 0 {
		b.Skip("SKIPPED: no files in " + zoneFolder)
	}
	var files []File
	for _, p := range paths {
		files = append(files, File{Path: p, Name: filepath.Base(p)})
	}
	b.Run("run", func(b *testing.B) {
		for b.Loop() {
			r := newRun(files)
			r.Workers = runtime.GOMAXPROCS(0)
			_, err := r.Do(b.Context())
			require.NoError(b, err)
		}
		b.ReportMetric(float64(b.N*len(files))/b.Elapsed().Seconds(), "sites/s")
	})
	b.Run("bare scan", func(b *testing.B) {
		for b.Loop() {
			scanAll(b, paths)
		}
		b.ReportMetric(float64(b.N*len(files))/b.Elapsed().Seconds(), "sites/s")
	})
}

// scanAll reads every field of every file and does nothing with them.
func scanAll(b *testing.B, paths []string) {
	work, done := make(chan string), make(chan error)
	workers := runtime.GOMAXPROCS(0)
	for range workers {
		go func() {
			var err error
			for p := range work {
				err = errors.Join(err, scan(p))
			}
			done <- err
		}()
	}
	for _, p := range paths {
		work <- p
	}
	close(work)
	for range workers {
		require.NoError(b, <-done)
	}
}

func scan(path string) error {
	f, err := os.Open(path)
	if err != nil {
		return err
	}
	defer f.Close()
	z, err := gzip.NewReader(f)
	if err != nil {
		return err
	}
	r := csv.NewReader(z)
	r.FieldsPerRecord, r.ReuseRecord = -1, true
	for {
		if _, err := r.Read(); errors.Is(err, io.EOF) {
			return nil
		} else if err != nil {
			return err
		}
	}
}

func unpacked(b *testing.B, path string) []byte {
	f, err := os.Open(path)
	require.NoError(b, err)
	defer f.Close()
	z, err := gzip.NewReader(f)
	require.NoError(b, err)
	var text strings.Builder
	_, err = io.Copy(&text, z)
	require.NoError(b, err)
	return []byte(text.String())
}

// cpuTime is the processor time of this process so far, all threads together.
func cpuTime(b *testing.B) time.Duration {
	var u syscall.Rusage
	require.NoError(b, syscall.Getrusage(syscall.RUSAGE_SELF, &u))
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}
