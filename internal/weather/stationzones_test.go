package weather_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"github.com/evapbook/evapbook/internal/places"
	"github.com/evapbook/evapbook/internal/weather"
)

// besideALine is how many of the 1,009 stations may have another time than their
// state by the split.
const besideALine = 16

// The standard time of a state is that of its stations of the TMY3 set, whose
// files state it (NREL/TP-581-43156), but for those beside a county line that the
// split by meridian does not follow, and some whose files have the neighbour's.
func TestStateZonesAreThoseOfTheStations(t *testing.T) {
	var other []string
	for _, s := range places.Stations() {
		got, ok := weather.StateZone(weather.Station{State: s.State, Latitude: s.Latitude, Longitude: s.Longitude})
		if !assert.True(t, ok, s.Full()) {
			continue
		}
		if got != s.UTCOffset {
			other = append(other, s.Full())
			assert.InDelta(t, s.UTCOffset, got, 1, s.Full())
		}
	}
	assert.LessOrEqual(t, len(other), besideALine, "%v", other)
}
