package season

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/internal/climate"
	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/weather"
)

// In the driest of places the mean wet bulb of the hours near a design dry bulb
// lies below that of dry air of it: the supply is then that of dry air. Eq. 29.
func TestDesignOfADryPlace(t *testing.T) {
	s := &weather.Series{Station: weather.Station{Name: "invented", Latitude: 30, Longitude: -105, UTCOffset: -7}, Humidity: weather.RelHum}
	for i := range 480 {
		s.Hours = append(s.Hours, weather.Hour{Time: time.Date(2023, 7, 1, i, 0, 0, 0, time.UTC), DryBulb: 20 + float64(i)/24, Pressure: 95000, GHI: 200})
	}
	for _, d := range runJob(t, s).Design.DryBulb {
		assert.Zero(t, d.Outdoor.W)
		assert.Less(t, d.Supply.Leaving.T, d.Outdoor.T-10)
	}
}

// ramp is eleven days without a cloud that get hotter from hour to hour.
func ramp() *weather.Series {
	s := &weather.Series{Station: weather.Station{Name: "invented", Latitude: 30, Longitude: -105, UTCOffset: -7}, Humidity: weather.RelHum}
	for i := range 264 {
		s.Hours = append(s.Hours, weather.Hour{Time: time.Date(2023, 7, 1, i, 0, 0, 0, time.UTC), DryBulb: 20 + float64(i)/24, Humidity: 0.2, Pressure: 95000, GHI: 400})
	}
	return s
}

// A stated design load is the load at the 1 % dry bulb with the sun of the hours
// at or above it, whatever heat loss that takes; one that sun and people bring
// by themselves is an error. Eq. 17.
func TestStatedDesignLoad(t *testing.T) {
	r := runJob(t, ramp(), "house.design_load", "9000 W")
	load := r.House.UA*(r.Climate.Design.DryBulb[climate.One].Value-r.House.Setpoint) + r.House.Aperture*400 + r.House.Sensible
	assert.InDelta(t, 9000, load, 1e-6)

	j := job.New()
	require.NoError(t, j.Set("house.design_load", "1000 W"))
	require.NoError(t, j.Resolve("invented", 0, ""))
	_, err := Run(r.Climate, j)
	assert.ErrorContains(t, err, "house.design_load")
}

// A day's highest supply is that of the hottest of its hours, and hours without
// weather have none.
func TestHighestSupplyOfADay(t *testing.T) {
	s := ramp()
	for i := range s.Hours {
		if i < 24 || i%24 == 23 {
			s.Hours[i].DryBulb = math.NaN()
		}
	}
	r := runJob(t, s)
	assert.True(t, math.IsNaN(r.Days[0].MaxSupply), "a day without weather")
	for i, d := range r.Days[1:] {
		assert.InDelta(t, r.Hours[24*(i+1)+22].Supply.T, d.MaxSupply, 1e-12, "day %d", i+1)
	}
}
