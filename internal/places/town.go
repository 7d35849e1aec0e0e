package places

import (
	"sync"

	data "github.com/evapbook/evapbook/data/places"
)

// Town is a populated place.
type Town struct {
	Name       string
	State      string  // two letters
	Latitude   float64 // degrees north
	Longitude  float64 // degrees east
	Elevation  float64 // m
	Population int

	key string // of the name, as keyOf makes it
}

// Full is the town's name with its state.
func (t *Town) Full() string { return t.Name + ", " + t.State }

// Towns lists all towns by state and name. The slice is shared: do not change it.
func Towns() []Town { return gazetteer() }

var gazetteer = sync.OnceValue(func() []Town {
	rows := table(data.Towns, 6)
	all := make([]Town, len(rows))
	for i, f := range rows {
		all[i] = Town{
			Name: f[0], State: f[1], Latitude: number(f[2]), Longitude: number(f[3]),
			Elevation: number(f[4]), Population: int(number(f[5])), key: keyOf(f[0]),
		}
	}
	return all
})
