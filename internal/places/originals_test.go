package places

import (
	"math"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/internal/weather"
)

// Original TMY3 files, which are not part of the repository.
const originals = "../../../shared/weather"

// originalFiles skips, loudly, where there are none.
func originalFiles(t *testing.T) []string {
	var all []string
	for _, pattern := range []string{"tmy3-*.csv", "zone/tmy3-*.csv.gz"} {
		found, err := filepath.Glob(filepath.Join(originals, pattern))
		require.NoError(t, err)
		all = append(all, found...)
	}
	if len(all) == 0 {
		t.Skipf("SKIPPED: original TMY3 files are not in %s", originals)
	}
	return all
}

// Each station is what the reader makes of its original file: every hour, every
// stamp, the station and the notes; all but the name and the bytes of the file.
func TestStationsEqualTheirOriginalFiles(t *testing.T) {
	files := originalFiles(t)
	hours := 0
	for _, path := range files {
		want, err := weather.Open(path, weather.Options{})
		require.NoError(t, err)
		var s *Station
		for i := range Stations() {
			if c := &Stations()[i]; c.Full() == want.Station.Name && c.Latitude == want.Station.Latitude {
				s = c
			}
		}
		require.NotNil(t, s, "%s: no station is called %s", path, want.Station.Name)
		for _, opt := range []weather.Options{{}, {Humidity: weather.PreferDewPoint}} {
			if opt.Humidity != "" {
				want, err = weather.Open(path, opt)
				require.NoError(t, err)
			}
			got, err := Read(s, opt)
			require.NoError(t, err)
			got.Source, want.Source = weather.Source{}, weather.Source{}
			missingAsCode(want, got)
			assert.True(t, assert.ObjectsAreEqual(want, got), path)
		}
		hours += len(want.Hours)
	}
	t.Logf("%d files, %d hours equal", len(files), hours)
	assert.Len(t, files, 77)
}

// missingAsCode writes a number for what is missing, since NaN equals nothing.
func missingAsCode(all ...*weather.Series) {
	for _, s := range all {
		for i := range s.Hours {
			h := &s.Hours[i]
			for _, v := range []*float64{&h.DryBulb, &h.Humidity, &h.Pressure, &h.GHI} {
				if math.IsNaN(*v) {
					*v = -9999
				}
			}
		}
		for i := range s.Spare {
			if math.IsNaN(s.Spare[i]) {
				s.Spare[i] = -9999
			}
		}
	}
}
