package weather

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Standard time by state on both sides of a line: towns with the zone that
// 49 CFR part 71 gives them, positions rounded to a tenth; from memory.
func TestStateZones(t *testing.T) {
	for _, c := range []struct {
		town, state string
		north, east float64
		want        float64
	}{
		{"Miami", "FL", 25.8, -80.2, -5}, {"Pensacola", "FL", 30.4, -87.2, -6},
		{"Lexington", "KY", 38.0, -84.5, -5}, {"Paducah", "KY", 37.1, -88.6, -6},
		{"Detroit", "MI", 42.3, -83.0, -5}, {"Ironwood", "MI", 46.5, -90.2, -6},
		{"Wichita", "KS", 37.7, -97.3, -6}, {"Goodland", "KS", 39.4, -101.7, -7},
		{"Omaha", "NE", 41.3, -95.9, -6}, {"Scottsbluff", "NE", 41.9, -103.7, -7},
		{"Fargo", "ND", 46.9, -96.8, -6}, {"Dickinson", "ND", 46.9, -102.8, -7},
		{"Sioux Falls", "SD", 43.5, -96.7, -6}, {"Rapid City", "SD", 44.1, -103.2, -7},
		{"Dallas", "TX", 32.8, -96.8, -6}, {"El Paso", "TX", 31.8, -106.4, -7},
		{"Anchorage", "AK", 61.2, -149.9, -9}, {"Adak", "AK", 51.9, -176.6, -10}, {"Shemya", "AK", 52.7, 174.1, -10}, {"St. Paul Island", "AK", 57.2, -170.2, -9},
		{"Nashville", "TN", 36.2, -86.8, -6}, {"Knoxville", "TN", 36.0, -83.9, -5},
		{"Portland", "OR", 45.5, -122.7, -8}, {"Ontario", "OR", 44.0, -117.0, -7},
		{"Boise", "ID", 43.6, -116.2, -7}, {"Coeur d'Alene", "ID", 47.7, -116.8, -8},
		{"Reno", "NV", 39.5, -119.8, -8}, {"Albuquerque", "NM", 35.1, -106.7, -7}, {"Honolulu", "HI", 21.3, -157.9, -10},
	} {
		s := Station{State: c.state, Latitude: c.north, Longitude: c.east}
		got, ok := s.stateZone()
		assert.True(t, ok, c.town)
		assert.Equal(t, c.want, got, c.town)
	}
	_, ok := (&Station{State: "ZZ"}).stateZone()
	assert.False(t, ok)
}

// A file without a column of station numbers has none.
func TestStationColumn(t *testing.T) {
	assert.Equal(t, -1, stationColumn([]string{"time", "temperature"}))
	assert.Equal(t, 1, stationColumn([]string{"usaf", " Station ", "time"}))
}
