package season

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/internal/climate"
	"github.com/evapbook/evapbook/internal/job"
)

// BenchmarkSeason is one house through one year at one site, from the station's
// hours to the totals: what comparing sites or sizes costs a site-year.
func BenchmarkSeason(b *testing.B) {
	s := sampleYear(b)
	j := job.New()
	require.NoError(b, j.Resolve(s.Station.Name, s.Station.Elevation, s.Station.Region()))
	b.ReportAllocs()
	for b.Loop() {
		c, err := climate.AtSite(s, j.Site)
		require.NoError(b, err)
		_, err = Run(c, j)
		require.NoError(b, err)
	}
}
