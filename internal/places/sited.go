package places

import (
	"fmt"
	"math"
	"strings"

	"github.com/evapbook/evapbook/internal/units"
)

// shown is how many stations are named for a place: the one taken and two more.
const shown = 3

// Sited is a place with the station that stands for it.
type Sited struct {
	Place      *Place
	Candidates []Candidate // the station taken, then the next ones; empty where a weather file was given
	FileKm     float64     // how far away the weather file's station is; 0 where that is not known
}

// Site finds what a text names and the stations for it. The altitude in m is
// that of the house, NaN where it is not stated.
func Site(text string, altitude float64) (*Sited, error) {
	p, err := Find(text)
	if err != nil {
		return nil, err
	}
	return &Sited{Place: p, Candidates: p.Candidates(altitude, shown)}, nil
}

// Station is the one taken.
func (s *Sited) Station() *Station { return s.Candidates[0].Station }

// Elevation is the altitude in m of a house of which nothing else is said: that
// of the town, of coordinates far from any town that of the station.
func (s *Sited) Elevation() float64 {
	if math.IsNaN(s.Place.Elevation) && len(s.Candidates) > 0 {
		return s.Station().Elevation
	}
	return s.Place.Elevation
}

// Notes say in plain sentences without full stop which station stands for the
// place, what comes next, and what to beware of.
func (s *Sited) Notes(sys units.System) []string {
	var all []string
	if n := s.Place.Namesakes(); n != "" {
		all = append(all, n)
	}
	if len(s.Candidates) == 0 {
		if s.FileKm > FarKm {
			all = append(all, fmt.Sprintf("WARNING: the weather file's station is %s from %s: its climate may be another; leave the file out for that of a nearer station", length(s.FileKm, sys), s.Place.Name))
		}
		return all
	}
	c := s.Candidates[0]
	text := fmt.Sprintf("the weather is the typical year of station %s", c.Named(sys))
	if len(s.Candidates) > 1 {
		var next []string
		for _, n := range s.Candidates[1:] {
			next = append(next, n.Named(sys))
		}
		text += "; next would be " + strings.Join(next, " and ")
	}
	all = append(all, text)
	if c.Far() {
		all = append(all, fmt.Sprintf("WARNING: that station is far from %s (more than %s or %s of height): its climate may be another; a file of a nearer station would be better", s.Place.Name, length(FarKm, sys), units.Altitude.Show(FarMetre, sys)))
	}
	if s.Place.Town == nil && s.Place.Station == nil {
		all = append(all, s.Place.ground(sys))
	}
	return all
}

// ground says where the altitude of coordinates is from.
func (p *Place) ground(sys units.System) string {
	if p.Near == nil {
		return "no town is within " + length(nearTown, sys) + " of these coordinates: unless stated, the altitude is that of the station"
	}
	return "unless stated, the altitude is that of " + p.Near.Full()
}

// Namesakes says in a sentence without full stop which other towns have the name
// that was given, empty where none has.
func (p *Place) Namesakes() string {
	if len(p.Others) == 0 {
		return ""
	}
	return fmt.Sprintf("%s is the most populous town of that name; others: %s", p.Name, p.otherNames())
}

// otherNames names at most five others.
func (p *Place) otherNames() string {
	var names []string
	for _, t := range p.Others {
		if len(names) == suggestions {
			names = append(names, fmt.Sprintf("and %d more", len(p.Others)-suggestions))
			break
		}
		name := t.Full()
		if name == p.Name {
			name += fmt.Sprintf(" (%.2f, %.2f)", t.Latitude, t.Longitude)
		}
		names = append(names, name)
	}
	return strings.Join(names, "; ")
}

// Named is the candidate in words: name, number, distance and height.
func (c Candidate) Named(sys units.System) string {
	text := fmt.Sprintf("%s (%s", c.Station.Full(), c.Station.Number)
	if c.Km > 0 {
		text += "; " + length(c.Km, sys) + " away"
	}
	if h := math.Round(c.Higher); h != 0 {
		way := "lower"
		if h < 0 {
			way = "higher"
		}
		text += ", " + units.Altitude.Show(math.Abs(c.Higher), sys) + " " + way
	}
	return text + ")"
}

// length writes kilometres, or miles of 1.609344 km.
func length(km float64, sys units.System) string {
	if sys == units.IP {
		return fmt.Sprintf("%.0f mi", km/1.609344)
	}
	return fmt.Sprintf("%.0f km", km)
}
