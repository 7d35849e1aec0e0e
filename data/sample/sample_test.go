package sample_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/data/sample"
	"github.com/evapbook/evapbook/internal/solar"
	"github.com/evapbook/evapbook/internal/weather"
)

// What the sample is meant to be like; it is invented, so the bounds are the
// author's intention and have no other source.
func TestSampleIsTheDryTownItClaimsToBe(t *testing.T) {
	r, name := sample.Open()
	s, err := weather.Read(r, name, weather.Options{})
	require.NoError(t, err)
	assert.Empty(t, s.Notes)
	assert.Len(t, s.Hours, 8760)
	assert.Contains(t, s.Station.Name, "invented")
	assert.Equal(t, 1480., s.Station.Elevation)
	assert.Equal(t, weather.RelHum, s.Humidity)

	lowest, highest := 99., -99.
	var july []float64
	for d := range 365 {
		dayLow, dayHigh := 99., -99.
		for _, h := range s.Hours[d*24 : d*24+24] {
			dayLow, dayHigh = min(dayLow, h.DryBulb), max(dayHigh, h.DryBulb)
		}
		lowest, highest = min(lowest, dayLow), max(highest, dayHigh)
		if s.Hours[d*24].Time.Month() == time.July {
			july = append(july, dayHigh)
		}
	}
	assert.InDelta(t, -15, lowest, 2)
	assert.InDelta(t, 39.5, highest, 0.6)
	assert.InDelta(t, 33.5, mean(july), 0.6)
}

// Irradiance never exceeds the clear sky and is dark at night.
func TestSampleSun(t *testing.T) {
	r, name := sample.Open()
	s, err := weather.Read(r, name, weather.Options{})
	require.NoError(t, err)
	for i, h := range s.Hours {
		clear := solar.ClearSky(s.Start(i), s.Station.Latitude, s.Station.Longitude, s.Station.UTCOffset)
		assert.LessOrEqual(t, h.GHI, clear+0.5)
	}
}

func mean(v []float64) float64 {
	sum := 0.
	for _, x := range v {
		sum += x
	}
	return sum / float64(len(v))
}
