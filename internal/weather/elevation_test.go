package weather

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The standard atmosphere, ASHRAE Fundamentals 2017 ch. 1 table 1.
func TestHeightOf(t *testing.T) {
	for z, p := range map[float64]float64{0: 101325, 1000: 89875, 3000: 70108} {
		assert.InDelta(t, z, heightOf(p), 0.6)
	}
	assert.Zero(t, heightOf(101325), "sea level itself")
}

// plainDays is a plain CSV of hours at a constant pressure.
func plainDays(days int, elevation, hectopascals float64) string {
	var b strings.Builder
	fmt.Fprintf(&b, "# elevation_m: %g\ntime,temperature_c,relative_humidity_pct,pressure_hpa\n", elevation)
	at := time.Date(2023, 1, 1, 0, 0, 0, 0, time.UTC)
	for h := range 24 * days {
		warm := 20 - 5*math.Cos(2*math.Pi*float64(h%24-3)/24)
		fmt.Fprintf(&b, "%s,%.1f,40,%g\n", at.Add(time.Duration(h)*time.Hour).Format(stampForm), warm, hectopascals)
	}
	return b.String()
}

// 912.566 hPa is the standard pressure of 874 m.
func TestElevationFitted(t *testing.T) {
	stated := 701.
	for _, c := range []struct {
		days      int
		elevation float64
		opt       Options
		want      float64
		note      string
	}{
		{200, 874, Options{}, 874, ""},
		{200, 780, Options{}, 780, ""},
		{200, 701, Options{}, 874, "874 m is used for the station"},
		{200, 1030, Options{}, 874, "not its elevation of 1030 m"},
		{100, 701, Options{}, 701, ""}, // too few hours to tell from weather
		{200, 874, Options{Elevation: &stated}, 701, "not the stated elevation of 701 m, which is used"},
	} {
		c.opt.AllowGaps = true
		s, err := readText(plainDays(c.days, c.elevation, 912.566), c.opt)
		require.NoError(t, err)
		assert.InDelta(t, c.want, s.Station.Elevation, 1)
		said := strings.Join(texts(s), "; ")
		assert.Contains(t, said, c.note)
		if c.note == "" {
			assert.NotContains(t, said, "the pressures in the file fit")
		}
	}
}
