package places

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/internal/places/columns"
)

func TestKm(t *testing.T) {
	assert.InDelta(t, 111.19, Km(40, -100, 41, -100), 0.01) // a degree of latitude on a sphere of 6371 km
	assert.InDelta(t, 0, Km(40, -100, 40, -100), 1e-9)
	assert.InDelta(t, math.Pi*6371, Km(0, 0, 0, 180), 1e-6)
	assert.InDelta(t, Km(0, 179.5, 0, -179.5), Km(0, 0.5, 0, -0.5), 1e-9, "across the date line")
}

func TestNearestPrefersTheSameHeight(t *testing.T) {
	down := Nearest(36.1, -115.2, 610, 3)
	up := Nearest(36.1, -115.2, 2200, 3)
	assert.Equal(t, "LAS VEGAS MCCARRAN INTL AP, NV", down[0].Station.Full())
	assert.Greater(t, up[0].Station.Elevation, 1500.)
	assert.True(t, up[0].Far())
	assert.Len(t, up, 3)
}

func TestAt(t *testing.T) {
	p, err := At(44.06, -121.31)
	require.NoError(t, err)
	assert.Equal(t, "Bend, OR", p.Near.Full())
	assert.Equal(t, p.Near.Elevation, p.Elevation)
	p, err = At(43.2, -119.9)
	require.NoError(t, err)
	assert.Nil(t, p.Near)
	assert.True(t, math.IsNaN(p.Elevation))
	assert.Zero(t, p.Candidates(math.NaN(), 1)[0].Higher)
	_, err = At(44, 200)
	assert.ErrorContains(t, err, "no place on the earth")
}

// The reason given for HeightKm, worked out anew: leaving one out, the summer
// means of a station and of the one chosen for it differ least near 0.4 km/m,
// also where the year is moved to the station's height at a lapse rate, in K/km.
func TestHeightKm(t *testing.T) {
	if testing.Short() {
		t.Skip("SKIPPED in short mode: unpacks all stations")
	}
	var stations []Candidate // of the 48 states; Higher holds the summer mean, °C
	for i := range Stations() {
		s := &Stations()[i]
		if s.State == "AK" || s.State == "HI" {
			continue
		}
		y, err := columns.Unpack(Block(s))
		require.NoError(t, err)
		sum := 0
		const june, september = 151 * 24, 243 * 24
		for _, v := range y.DryBulb[june:september] {
			sum += v
		}
		stations = append(stations, Candidate{Station: s, Higher: float64(sum) / 10 / (september - june)})
	}
	assert.Len(t, stations, 925)
	rms := func(perMetre, lapse float64) float64 {
		total := 0.0
		for i, a := range stations {
			best, other := math.Inf(1), 0.0
			for j, b := range stations {
				if i == j || math.Abs(a.Station.Latitude-b.Station.Latitude) > 6 {
					continue
				}
				span := Km(a.Station.Latitude, a.Station.Longitude, b.Station.Latitude, b.Station.Longitude) + perMetre*math.Abs(a.Station.Elevation-b.Station.Elevation)
				if span < best {
					best, other = span, b.Higher-lapse*(a.Station.Elevation-b.Station.Elevation)/1000
				}
			}
			total += (a.Higher - other) * (a.Higher - other)
		}
		return math.Sqrt(total / float64(len(stations)))
	}
	for _, c := range []struct{ perMetre, lapse, want float64 }{
		{0, 0, 1.71}, {0.15, 0, 1.46}, {0.3, 0, 1.33}, {HeightKm, 0, 1.31}, {0.5, 0, 1.36}, {1, 0, 1.37},
		{0, 6.5, 1.30}, {0.15, 6.5, 1.24}, {0.3, 6.5, 1.21}, {HeightKm, 6.5, 1.21}, {0.5, 6.5, 1.30}, {1, 6.5, 1.32},
	} {
		assert.InDelta(t, c.want, rms(c.perMetre, c.lapse), 0.006, "%g km/m, %g K/km", c.perMetre, c.lapse)
	}
}
