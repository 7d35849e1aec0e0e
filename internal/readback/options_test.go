package readback_test

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/data/sample"
	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/readback"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/weather"
	"github.com/evapbook/evapbook/internal/workbook"
	"github.com/evapbook/evapbook/internal/workbook/figures"
)

// Options come back as they were stated, with the one the workbook shows; the
// inputs they change come back as entered.
func TestOptionsComeBack(t *testing.T) {
	r, name := sample.Open()
	s, err := weather.Read(r, name, weather.Options{})
	require.NoError(t, err)
	s.Hours = s.Hours[180*24 : 194*24]
	for _, values := range []bool{false, true} {
		j := job.New()
		require.NoError(t, j.Set("cooler.airflow", "4600 cfm"))
		two := job.Option{Name: "Two-stage, larger", Settings: []job.Setting{{Key: "cooler.kind", Value: "two-stage"}, {Key: "cooler.airflow", Value: "5500 cfm"}, {Key: "price.cooler_installed", Value: "5200"}}}
		require.NoError(t, j.AddOption(two))
		require.NoError(t, j.Show(two.Name))
		live, err := j.Live()
		require.NoError(t, err)
		require.NoError(t, live.Resolve(s.Place(), s.Station.Elevation, s.Station.Region()))
		c, err := figures.Compute(s, live, units.IP, "test")
		require.NoError(t, err)
		c.ValuesOnly = values
		path := filepath.Join(t.TempDir(), "book.xlsx")
		f, err := os.Create(path)
		require.NoError(t, err)
		require.NoError(t, workbook.Write(f, c))
		require.NoError(t, f.Close())

		b, err := readback.Read(path)
		require.NoError(t, err)
		assert.Equal(t, []job.Option{two}, b.Job.Options())
		assert.Equal(t, 1, b.Job.Shown())
		assert.Equal(t, job.Direct, b.Job.Cooler.Kind)
		assert.False(t, b.Job.Stated("cooler.kind"))
		in, _ := job.Find("cooler.airflow")
		assert.Equal(t, "4600 cfm", in.Text(b.Job, units.IP))
		if !values {
			assert.False(t, b.Job.Stated("price.cooler_installed"), "left to its rule")
		}
	}
}
