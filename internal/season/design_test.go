package season

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

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
