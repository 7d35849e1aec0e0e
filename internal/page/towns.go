package page

import (
	"math"

	"github.com/evapbook/evapbook/internal/places"
	"github.com/evapbook/evapbook/internal/units"
)

// Typed is what somebody typed of a town.
type Typed struct {
	Text     string `json:"text"`
	Units    string `json:"units"`
	Altitude string `json:"altitude"` // of the house, where it is stated
}

// Suggestion is a town that may be meant.
type Suggestion struct {
	Name     string `json:"name"` // with its state
	Altitude string `json:"altitude"`
}

// suggestions are as many as can be read at a glance.
const suggestions = 8

// suggest lists towns that begin with what was typed, the most populous first.
func suggest(t Typed) (Reply, error) {
	sys, err := units.ParseSystem(t.Units)
	if err != nil {
		return Reply{}, err
	}
	all := []Suggestion{}
	for _, town := range places.Beginning(t.Text, suggestions) {
		all = append(all, Suggestion{town.Full(), units.Altitude.Show(town.Elevation, sys)})
	}
	return Reply{Value: all}, nil
}

// Chosen is a place with the station whose weather stands for it.
type Chosen struct {
	Name   string   `json:"name"`
	Number string   `json:"number"` // of the station: its file is stations/NUMBER.bin
	Notes  []string `json:"notes"`  // which station, how far, what to beware of
}

// choose finds the place that is meant and its station.
func choose(t Typed) (Reply, error) {
	sys, err := units.ParseSystem(t.Units)
	if err != nil {
		return Reply{}, err
	}
	s, err := places.Site(t.Text, altitude(t.Altitude))
	if err != nil {
		return Reply{}, err
	}
	return Reply{Value: Chosen{s.Place.Name, s.Station().Number, s.Notes(sys)}}, nil
}

// altitude reads the altitude of a house in m; NaN where none that can be read
// is stated.
func altitude(text string) float64 {
	v, err := units.Parse(units.Altitude, text)
	if err != nil {
		return math.NaN()
	}
	return v
}

// Point is a point of the earth, in degrees as typed.
type Point struct {
	Latitude  string `json:"latitude"`
	Longitude string `json:"longitude"`
}

// links lists where hourly weather of a point can be had.
func links(p Point) (Reply, error) {
	var at [2]float64
	for i, text := range []string{p.Latitude, p.Longitude} {
		v, err := units.Parse(units.Plain, text)
		if err != nil {
			return Reply{}, err
		}
		at[i] = v
	}
	if _, err := places.At(at[0], at[1]); err != nil {
		return Reply{}, err
	}
	return Reply{Value: places.Links(at[0], at[1])}, nil
}
