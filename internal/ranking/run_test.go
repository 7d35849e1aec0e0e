package ranking

import (
	"bytes"
	"context"
	"errors"
	"path/filepath"
	"testing"

	"github.com/parquet-go/parquet-go"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/internal/climate"
	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/season"
	"github.com/evapbook/evapbook/internal/weather"
)

// do carries out a run that is expected to succeed.
func do(t *testing.T, r *Run) *Table {
	t.Helper()
	table, err := r.Do(t.Context())
	require.NoError(t, err)
	return table
}

// bytesOf is both tables as files.
func bytesOf(t *testing.T, table *Table) (csv, pq string) {
	t.Helper()
	var a, b bytes.Buffer
	require.NoError(t, table.WriteCSV(&a, false))
	require.NoError(t, table.WriteParquet(&b))
	return a.String(), b.String()
}

func TestRowsAreThoseOfSingleRuns(t *testing.T) {
	files := inventedFiles(t)
	table := do(t, newRun(files))
	require.Len(t, table.Rows, 3*len(inventedSites))
	assert.Equal(t, len(inventedSites), table.Sites())

	series, err := weather.Open(files[1].Path, weather.Options{})
	require.NoError(t, err)
	j := job.New()
	require.NoError(t, j.Set("cooler.kind", "two-stage"))
	require.NoError(t, j.Resolve(series.Station.Name, series.Station.Elevation, series.Station.Region()))
	c, err := climate.AtSite(series, j.Site)
	require.NoError(t, err)
	s, err := season.Run(c, j)
	require.NoError(t, err)

	row := table.Rows[3*1+2]
	assert.Equal(t, "Mid Bench (invented)", row.Site)
	assert.Equal(t, 900.0, row.Elevation)
	assert.Equal(t, "two-stage", row.Kind)
	assert.Equal(t, int64(s.Totals.Hours.Need()), row.NeedHours)
	assert.Equal(t, float64(s.Totals.Hours.Held())/float64(s.Totals.Hours.Need()), *row.Held)
	assert.Equal(t, s.Totals.CoolerKWh, row.CoolerKWh)
	assert.Equal(t, s.Totals.RefKWh, row.RefKWh)
	assert.Equal(t, s.Totals.Water.Evaporated, row.Evaporated)
	assert.Equal(t, row.NeedHours, row.VentHours+row.EvapHours+row.DampHours+row.WarmHours)
}

func TestABadFileIsLeftOut(t *testing.T) {
	table := do(t, newRun(inventedFiles(t)))
	require.Len(t, table.Left, 1)
	assert.Equal(t, 2, table.Left[0].Order)
	assert.Equal(t, "notes.csv", table.Left[0].File)
	assert.Regexp(t, `^notes.csv:1: .*not recognised`, table.Left[0].Reason, "under its name, whatever the path")
}

func TestWorkersDoNotChangeABit(t *testing.T) {
	files := inventedFiles(t)
	one, many := newRun(files), newRun(files)
	one.Workers, many.Workers = 1, 8
	csv1, pq1 := bytesOf(t, do(t, one))
	csv8, pq8 := bytesOf(t, do(t, many))
	assert.Equal(t, csv1, csv8)
	assert.Equal(t, pq1, pq8)
}

func TestAStoppedRunGivesWhatIsDone(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	r := newRun(inventedFiles(t))
	r.Workers = 1
	r.Progress = func(done, of int) {
		assert.Equal(t, len(inventedSites)+1, of)
		if done == 2 {
			cancel()
		}
	}
	table, err := r.Do(ctx)
	require.ErrorIs(t, err, context.Canceled)
	assert.Equal(t, 2, table.Sites())
}

func TestAnErrorOfKeepEndsTheRun(t *testing.T) {
	full := errors.New("disk full")
	r := newRun(inventedFiles(t))
	r.Keep = func(File, []Row, []*season.Season) error { return full }
	_, err := r.Do(t.Context())
	require.ErrorIs(t, err, full)
}

func TestHoursAddUpToTheRow(t *testing.T) {
	r := newRun(inventedFiles(t)[:1])
	var file bytes.Buffer
	r.Keep = func(_ File, rows []Row, seasons []*season.Season) error { return WriteHours(&file, rows, seasons) }
	table := do(t, r)
	hours, err := parquet.Read[HourRow](bytes.NewReader(file.Bytes()), int64(file.Len()))
	require.NoError(t, err)
	require.Len(t, hours, 3*8760)
	kWh, need := map[string]float64{}, map[string]int64{}
	for _, h := range hours {
		kWh[h.Kind] += *h.CoolerKWh
		if h.Outcome != "idle" {
			need[h.Kind]++
			require.NotNil(t, h.Indoor)
		}
	}
	for _, row := range table.Rows {
		assert.InEpsilon(t, row.CoolerKWh, kWh[row.Kind], 1e-9, "other order of adding")
		assert.Equal(t, row.NeedHours, need[row.Kind])
	}
	assert.Equal(t, "2021-01-01 00:00", hours[0].Time.UTC().Format("2006-01-02 15:04"))
}

func TestVaryMakesARowOfEachCombination(t *testing.T) {
	r := newRun(inventedFiles(t)[:2])
	for _, text := range []string{"cooler.effectiveness=0.6:0.8:0.1", "site.altitude=0m,1500m"} {
		a, err := ParseAxis(text)
		require.NoError(t, err)
		r.Axes = append(r.Axes, a)
	}
	table := do(t, r)
	require.Len(t, table.Rows, 2*3*2*3)
	var held []float64
	for _, row := range table.Rows[:3*2*3] {
		assert.Equal(t, row.Varied[1].SI, row.Elevation, "the varied altitude is that of the site")
		if row.Kind == "direct" && row.Varied[1].SI == 0 {
			held = append(held, *row.TemperatureHeld)
		}
	}
	require.Len(t, held, 3)
	assert.IsIncreasing(t, held, "better pads hold the temperature in more hours")
	csv, _ := bytesOf(t, table)
	assert.Contains(t, csv, ",cooler_effectiveness,site_altitude_m\n")
}

func TestAFileOfThreeYearsIsRankedByTheMiddleOne(t *testing.T) {
	path := filepath.Join(t.TempDir(), "three.csv")
	inventedSites[1].writeYears(t, path, 3)
	table := do(t, newRun([]File{{Path: path, Name: "three.csv"}}))
	require.Empty(t, table.Left)
	row := table.Rows[0]
	assert.Equal(t, int64(8760), row.Hours)
	assert.Contains(t, row.Notes, "the weather holds 3 whole years; the hours are those of 2022")
}
