package page

import (
	"bytes"
	"fmt"
	"strings"

	"github.com/evapbook/evapbook/data/sample"
	"github.com/evapbook/evapbook/internal/places"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/weather"
	"github.com/evapbook/evapbook/internal/years"
)

// Source says which weather to open.
type Source struct {
	Kind      string `json:"kind"`     // town, file or sample
	Name      string `json:"name"`     // of the town or file
	Station   string `json:"station"`  // number of the town's station, whose packed year comes as the file
	Altitude  string `json:"altitude"` // of a town's house, where it is stated
	AllowGaps bool   `json:"allow_gaps"`
	Elevation string `json:"elevation"` // of the station, where the file does not say
	Latitude  string `json:"latitude"`
	Longitude string `json:"longitude"`
	UTCOffset string `json:"utc_offset"`
}

// Opened is what the page says of the weather it opened.
type Opened struct {
	Place     string   `json:"place"`
	From      string   `json:"from"` // where the weather is from, in a line
	Units     string   `json:"units"`
	Elevation string   `json:"elevation"` // of the station, in Units; empty if unknown
	Invented  bool     `json:"invented"`
	Years     int      `json:"years"`
	Notes     []string `json:"notes"`
}

// openWeather opens weather for the calls that follow. Where it fails, what was
// open before stays so.
func (p *Page) openWeather(s Source, file []byte) (Reply, error) {
	series, err := s.read(file)
	if err != nil {
		return Reply{}, err
	}
	f, err := years.Gather([]*weather.Series{series})
	if err != nil {
		return Reply{}, err
	}
	o := describe(f)
	var town *places.Sited
	if s.Kind == "town" {
		if town, err = places.Site(s.Name, altitude(s.Altitude)); err != nil {
			return Reply{}, err
		}
		if n := town.Station().Number; n != s.Station {
			return Reply{}, fmt.Errorf("the station of %s is %s, not %s", s.Name, n, s.Station)
		}
		o.Place = town.Place.Name
	}
	f.AtSite = p.atSite
	p.open, p.source, p.town, p.kept = f, s, town, kept{}
	return Reply{Value: o}, nil
}

func (s *Source) read(file []byte) (*weather.Series, error) {
	opt, err := s.options()
	if err != nil {
		return nil, err
	}
	switch s.Kind {
	case "sample":
		r, name := sample.Open()
		return weather.Read(r, name, opt)
	case "town":
		station, ok := places.ByNumber(s.Station)
		if !ok {
			return nil, fmt.Errorf("no station has the number %q", s.Station)
		}
		return places.ReadBlock(station, file, opt)
	case "file":
		return weather.Read(bytes.NewReader(file), s.Name, opt)
	}
	return nil, fmt.Errorf("no weather is of the kind %q", s.Kind)
}

// options are what a person states about a file that does not say it.
func (s *Source) options() (weather.Options, error) {
	opt := weather.Options{AllowGaps: s.AllowGaps}
	for _, o := range []struct {
		name, text string
		kind       units.Kind
		to         **float64
	}{
		{"elevation", s.Elevation, units.Altitude, &opt.Elevation},
		{"latitude", s.Latitude, units.Plain, &opt.Latitude},
		{"longitude", s.Longitude, units.Plain, &opt.Longitude},
		{"UTC offset", s.UTCOffset, units.Plain, &opt.UTCOffset},
	} {
		if strings.TrimSpace(o.text) == "" {
			continue
		}
		v, err := units.Parse(o.kind, o.text)
		if err != nil {
			return opt, fmt.Errorf("%s: %w", o.name, err)
		}
		*o.to = &v
	}
	return opt, nil
}

func describe(f *years.Files) Opened {
	s := f.First
	o := Opened{Place: s.Place(), Units: units.SI.String(), Years: len(f.Years), Notes: []string{}}
	sys := units.SI
	if weather.InUnitedStates(s.Station.Country) {
		sys = units.IP
	}
	o.Units = sys.String()
	o.From = s.Source.Format + ", " + s.Source.Name
	if v := s.Station.Elevation; v == v {
		o.Elevation = units.Altitude.Show(v, sys)
	}
	o.Invented = strings.Contains(strings.ToLower(s.Station.Name+" "+s.Source.Name), "invented") || s.Source.Name == sample.Name
	for _, n := range s.Notes {
		o.Notes = append(o.Notes, n.String())
	}
	return o
}
