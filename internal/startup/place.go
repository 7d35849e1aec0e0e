package startup

import (
	"errors"
	"fmt"
	"math"
	"time"

	"github.com/evapbook/evapbook/internal/climate"
	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/season"
	"github.com/evapbook/evapbook/internal/weather"
)

// Place is one site with the years that its weather files hold.
type Place struct {
	Name      string
	Country   string
	Latitude  float64 // degrees north; NaN unknown
	Longitude float64 // degrees east; NaN unknown
	South     bool    // its years begin in July
	Years     []Year
	Notes     []weather.Note // years left out and why
}

// Visit carries a job through every year of a weather series. The job is not
// changed; what it does not state follows from the series. Years of which more
// than a tenth of the warm half-year is missing are left out of several.
func Visit(s *weather.Series, j *job.Job) (*Place, error) {
	j = j.Clone()
	if err := j.Resolve(s.Place(), s.Station.Elevation, s.Station.Region()); err != nil {
		return nil, err
	}
	p := &Place{Name: j.Site.Name, Country: s.Station.Country, Latitude: s.Station.Latitude, Longitude: s.Station.Longitude}
	years := s.Years()
	for _, y := range years {
		if len(years) > 1 && !y.Whole() {
			p.Notes = append(p.Notes, y.LeftOut(s.Source.Name))
			continue
		}
		if err := p.add(&y, j); err != nil {
			return nil, fmt.Errorf("%s: %w", y.Label, err)
		}
	}
	if len(p.Years) == 0 {
		return nil, errors.New("none of its years has nine tenths of the warm half-year")
	}
	return p, nil
}

func (p *Place) add(y *weather.Year, j *job.Job) error {
	c, err := climate.AtSite(y.Series, j.Site)
	if err != nil {
		return err
	}
	s, err := season.Run(c, j)
	if err != nil {
		return err
	}
	p.South = South(p.Latitude, c.Days[c.Calendar.Midsummer].Date)
	p.Years = append(p.Years, YearOf(y.Label, s, p.South))
	return nil
}

// South tells whether a place has its summer at the turn of the year: by its
// latitude, where that is unknown by the middle of its warmest quarter.
func South(latitude float64, midsummer time.Time) bool {
	if !math.IsNaN(latitude) {
		return latitude < 0
	}
	return midsummer.Month() >= time.November || midsummer.Month() <= time.March
}

// Join puts the years of one place together that stand in several files: files
// whose place has the same name and position. A year that stands in two files
// counts once. Order is that of the first file of each place.
func Join(places []*Place) []*Place {
	type key struct {
		name                string
		latitude, longitude float64
	}
	where := map[key]*Place{}
	var out []*Place
	for _, p := range places {
		k := key{p.Name, p.Latitude, p.Longitude}
		if math.IsNaN(p.Latitude) || math.IsNaN(p.Longitude) {
			k.latitude, k.longitude = math.Inf(1), math.Inf(1) // NaN would equal nothing
		}
		first := where[k]
		if first == nil {
			where[k] = p
			out = append(out, p)
			continue
		}
		first.join(p)
	}
	return out
}

func (p *Place) join(other *Place) {
	have := map[string]bool{}
	for _, y := range p.Years {
		have[y.Label] = true
	}
	for _, y := range other.Years {
		if have[y.Label] {
			p.Notes = append(p.Notes, weather.Note{Kind: weather.NoteYearTwice, Of: y.Label, Other: p.Name})
			continue
		}
		p.Years = append(p.Years, y)
	}
	p.Notes = append(p.Notes, other.Notes...)
}
