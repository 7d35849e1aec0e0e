package climate

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/internal/psychro"
)

// heightOf undoes the standard atmosphere, ASHRAE Fundamentals 2017 ch. 1 eq. 3.
func TestHeightOf(t *testing.T) {
	for _, z := range []float64{-100, 0, 874, 3026} {
		p, err := psychro.StandardPressure(z)
		require.NoError(t, err)
		assert.InDelta(t, z, heightOf(p), 1e-6)
	}
}

func TestElevationDoubted(t *testing.T) {
	p, err := psychro.StandardPressure(874)
	require.NoError(t, err)
	for _, r := range []struct {
		elevation float64
		doubted   bool
	}{{874, false}, {780, false}, {701, true}, {1030, true}} {
		c := &Climate{ElevationKnown: true, StationElevation: r.elevation, Hours: []Hour{{StationP: p}}}
		c.noteElevation()
		assert.Equal(t, r.doubted, strings.Contains(strings.Join(c.Notes, " "), "--elevation"), "%v m", r.elevation)
	}
}
