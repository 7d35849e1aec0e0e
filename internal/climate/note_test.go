package climate_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/data/sample"
	"github.com/evapbook/evapbook/internal/climate"
	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/weather"
)

// A site more than 100 m from its station in height says so, up or down, and
// one just within says nothing.
func TestNoteOfHeightDifference(t *testing.T) {
	r, name := sample.Open()
	s, err := weather.Read(r, name, weather.Options{})
	require.NoError(t, err)
	for _, c := range []struct {
		apart, lapse float64
		want         string
	}{
		{100, 6.5, ""},
		{-100, 6.5, ""},
		{101, 6.5, "the site is 101 m from the station in height; dry bulb moved by -0.7 K"},
		{-400, 6.5, "the site is -400 m from the station in height; dry bulb moved by 2.6 K"},
		{101, 0, "the site is 101 m from the station in height and no lapse rate was applied"},
	} {
		at, err := climate.AtSite(s, job.Site{Altitude: s.Station.Elevation + c.apart, LapseRate: c.lapse, Clearness: 0.75})
		require.NoError(t, err)
		notes := strings.Join(at.Notes, "\n")
		if c.want == "" {
			assert.NotContains(t, notes, "from the station in height", c.apart)
			continue
		}
		assert.Contains(t, notes, c.want)
	}
}
