package cli

import (
	"fmt"
	"io"
	"math"
	"strings"

	"github.com/evapbook/evapbook/internal/hint"
	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/places"
	"github.com/evapbook/evapbook/internal/ranking"
)

// onePlace is the flags that say where the house stands.
type onePlace struct{ place, near string }

const (
	placeUsage = `town and state, or the number of a weather station within the program, e.g. "Bend, OR" or 726810`
	nearUsage  = "coordinates, degrees north and east, e.g. 44.06,-121.31"
)

func (o *onePlace) add(f flagSet) {
	f.StringVar(&o.place, "place", "", placeUsage)
	f.StringVar(&o.near, "near", "", nearUsage)
}

// text is the place as the input site.place has it, empty where none is given.
func (o *onePlace) text() (string, error) {
	switch {
	case o.place != "" && o.near != "":
		return "", usagef("--place and --near both say where the house stands")
	case o.near != "":
		return nearText(o.near)
	}
	return o.place, nil
}

// nearText checks coordinates and writes them one way.
func nearText(text string) (string, error) {
	lat, lon, ok := places.Coordinates(text)
	if !ok {
		return "", hint.With(usagef("--near %s: not a latitude and a longitude", text), "write --near 44.06,-121.31, west negative")
	}
	p, err := places.At(lat, lon)
	if err != nil {
		return "", usageError{fmt.Errorf("--near %w", err)}
	}
	return p.Name, nil
}

// state puts the place among the inputs.
func (o *onePlace) state(j *job.Job) error {
	text, err := o.text()
	if err != nil || text == "" {
		return err
	}
	if err := j.Set("site.place", text); err != nil {
		return fmt.Errorf("--place: %w", err)
	}
	return nil
}

// sitedBy finds the place a job names; nil where it names none.
func sitedBy(j *job.Job) (*places.Sited, error) {
	if j.Site.Place == "" {
		return nil, nil
	}
	altitude := math.NaN()
	if j.Stated("site.altitude") {
		altitude = j.Site.Altitude
	}
	return site(j.Site.Place, altitude)
}

func site(text string, altitude float64) (*places.Sited, error) {
	s, err := places.Site(text, altitude)
	if err != nil {
		return nil, usageError{err}
	}
	return s, nil
}

// siteSaying is site for commands that have no page of notes: it says which other
// towns have the name.
func siteSaying(notes io.Writer, text string, altitude float64) (*places.Sited, error) {
	s, err := site(text, altitude)
	if err == nil && s.Place.Namesakes() != "" {
		fmt.Fprintf(notes, "evapbook: %s\n", s.Place.Namesakes())
	}
	return s, err
}

// manyPlaces is the flags that name several places.
type manyPlaces struct{ place, near, states []string }

func (o *manyPlaces) add(f flagSet) {
	f.StringArrayVar(&o.place, "place", nil, placeUsage+"; may be repeated")
	f.StringArrayVar(&o.near, "near", nil, nearUsage+"; may be repeated")
	f.StringArrayVar(&o.states, "places", nil, "all stations of these states, e.g. NM,AZ, or all")
}

func (o *manyPlaces) none() bool { return len(o.place)+len(o.near)+len(o.states) == 0 }

// sited lists the places named, towns first, then coordinates, then stations.
func (o *manyPlaces) sited(notes io.Writer, altitude float64) ([]*places.Sited, error) {
	texts := append([]string{}, o.place...)
	for _, n := range o.near {
		text, err := nearText(n)
		if err != nil {
			return nil, err
		}
		texts = append(texts, text)
	}
	numbers, err := stationsOf(o.states)
	if err != nil {
		return nil, err
	}
	var all []*places.Sited
	seen := map[string]bool{}
	for _, text := range append(texts, numbers...) {
		s, err := siteSaying(notes, text, altitude)
		if err != nil {
			return nil, err
		}
		if !seen[s.Place.Name] {
			all = append(all, s)
		}
		seen[s.Place.Name] = true
	}
	return all, nil
}

// sites lists the files that arguments name and the places that flags name, and
// the files of folders that are passed over.
func (o *manyPlaces) sites(notes io.Writer, args []string, j *job.Job) (files []ranking.File, passed []string, err error) {
	if files, passed, err = findSites(args); err != nil {
		return nil, nil, err
	}
	altitude := math.NaN()
	if j.Stated("site.altitude") {
		altitude = j.Site.Altitude
	}
	sited, err := o.sited(notes, altitude)
	if err != nil {
		return nil, nil, err
	}
	for _, s := range sited {
		name := s.Place.Name
		if s.Place.Station != nil {
			name = s.Place.Station.Number
		}
		files = append(files, ranking.File{Path: stationPath(s.Station()), Name: name, Sited: s})
	}
	return files, passed, nil
}

// jobThere is a job with the name and the altitude of a place, where the job
// does not state them.
func jobThere(j *job.Job, s *places.Sited) *job.Job {
	if s == nil {
		return j
	}
	j = j.Clone()
	if !j.Stated("site.name") {
		must(j.Set("site.name", s.Place.Name))
	}
	if !j.Stated("site.altitude") {
		must(j.SetSI("site.altitude", s.Elevation()))
	}
	return j
}

// must is for what cannot fail: names and elevations within the program.
func must(err error) {
	if err != nil {
		panic("cli: " + err.Error())
	}
}

// stationsOf lists the numbers of the stations of states such as "NM,AZ".
func stationsOf(lists []string) ([]string, error) {
	want := map[string]bool{}
	every := false
	for _, text := range strings.FieldsFunc(strings.Join(lists, ","), func(r rune) bool { return r == ',' || r == ';' }) {
		if strings.EqualFold(strings.TrimSpace(text), "all") {
			every = true
			continue
		}
		letters, ok := places.StateOf(text)
		if !ok {
			return nil, hint.With(usagef("--places %s: not a state", text), "two letters, as NM,AZ, or all; a town is --place")
		}
		want[letters] = true
	}
	var numbers []string
	all := places.Stations()
	for i := range all {
		if every || want[all[i].State] {
			numbers = append(numbers, all[i].Number)
		}
	}
	if len(numbers) == 0 && len(lists) > 0 {
		return nil, usagef("--places %s: no station there", strings.Join(lists, ","))
	}
	return numbers, nil
}
