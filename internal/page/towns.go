package page

import (
	"fmt"
	"math"
	"strings"

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
	Name    string `json:"name"`
	Number  string `json:"number"`  // of the station: its file is stations/NUMBER.bin
	Station string `json:"station"` // in words, with distance and height
	Warning string `json:"warning,omitempty"`
	Others  string `json:"others,omitempty"` // places of the same name
}

// choose finds the place that is meant and its station.
func choose(t Typed) (Reply, error) {
	sys, err := units.ParseSystem(t.Units)
	if err != nil {
		return Reply{}, err
	}
	p, err := places.Find(t.Text)
	if err != nil {
		return Reply{}, err
	}
	near := p.Candidates(t.altitude(), 1)[0]
	c := Chosen{Name: p.Name, Number: near.Station.Number, Station: stationWords(p, near, sys)}
	if near.Far() {
		c.Warning = "That station is far away or at another height: another climate may begin there. A weather file from nearer by serves better."
	}
	var others []string
	for _, town := range p.Others {
		others = append(others, town.Full())
	}
	c.Others = strings.Join(others, "; ")
	return Reply{Value: c}, nil
}

// altitude is that of the house in m; NaN where none that can be read is stated.
func (t Typed) altitude() float64 {
	v, err := units.Parse(units.Altitude, t.Altitude)
	if err != nil {
		return math.NaN()
	}
	return v
}

// stationWords says where the weather of a place is from.
func stationWords(p *places.Place, c places.Candidate, sys units.System) string {
	s := "Weather of " + c.Station.Full() + ", a typical year"
	if p.Station != nil {
		return s + ", " + units.Altitude.Show(p.Elevation, sys) + " above sea level"
	}
	distance := fmt.Sprintf("%.0f km", c.Km)
	if sys == units.IP {
		distance = fmt.Sprintf("%.0f miles", c.Km/1.609344)
	}
	s += "; the station is " + distance + " away"
	switch higher := units.Altitude.Show(math.Abs(c.Higher), sys); {
	case c.Higher >= 1:
		s += ", the town " + higher + " higher"
	case c.Higher <= -1:
		s += ", the town " + higher + " lower"
	}
	return s
}
