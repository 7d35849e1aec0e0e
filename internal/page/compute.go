package page

import (
	"github.com/evapbook/evapbook/internal/climate"
	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/season"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/version"
	"github.com/evapbook/evapbook/internal/weather"
	"github.com/evapbook/evapbook/internal/workbook/figures"
	"github.com/evapbook/evapbook/internal/years"
)

// kept is what an answer leaves for the next: most changes on the page are of
// the house, the cooler or a price, and each touches only a part of the work.
type kept struct {
	site     job.Site
	climates map[*weather.Series]*climate.Climate // at the site
	run      hourly
	table    *years.Table    // of run; nil where the weather is one year, or before its first answer
	shown    *weather.Series // the year of the table whose hours are shown
}

// hourly is all of a job that the hours depend on: a price is not.
type hourly struct {
	site   job.Site
	house  job.House
	cooler job.Cooler
	ac     job.AC
}

// compute carries a job through the open weather as the command does.
func (p *Page) compute(j *job.Job, sys units.System) (*figures.Case, error) {
	if p.open == nil {
		return nil, errNoWeather
	}
	first := p.open.First
	name, height := first.Place(), first.Station.Elevation
	if p.town != nil {
		name, height = p.town.Place.Name, p.town.Elevation()
	}
	if err := j.Resolve(name, height, first.Station.Region()); err != nil {
		return nil, err
	}
	c, err := p.run(j, sys)
	if err != nil {
		return nil, err
	}
	c.Sited = p.town
	if p.source.Kind == "file" {
		c.Given.Path = p.source.Name
	}
	return c, nil
}

// run carries a resolved job through the one year there is, or through all of
// them and shows one.
func (p *Page) run(j *job.Job, sys units.System) (*figures.Case, error) {
	asked := hourly{j.Site, j.House, j.Cooler, j.AC}
	if p.open.Single || p.kept.table != nil && p.kept.run == asked {
		return p.again(j, sys)
	}
	table, shown, err := years.Run(p.open, j, "")
	if err != nil {
		return nil, err
	}
	c := figures.Of(table.Season, shown, j, sys, version.Text())
	table.Season = nil // the next answer has a season of its own
	p.kept.run, p.kept.table, p.kept.shown = asked, table, shown
	return p.beside(c), nil
}

// again carries a job through the year shown alone.
func (p *Page) again(j *job.Job, sys units.System) (*figures.Case, error) {
	year, shown := p.open.First, p.open.First
	if t := p.kept.table; t != nil {
		year, shown = p.open.Years[t.Shown].Series, p.kept.shown
	}
	at, err := p.atSite(year, j.Site)
	if err != nil {
		return nil, err
	}
	s, err := season.Run(at, j)
	if err != nil {
		return nil, err
	}
	return p.beside(figures.Of(s, shown, j, sys, version.Text())), nil
}

// beside adds the other years, where several count.
func (p *Page) beside(c *figures.Case) *figures.Case {
	if t := p.kept.table; t != nil && t.Counts > 1 {
		c.Years = t
	}
	return c
}

// atSite carries a series to a site, unless an answer before stood on the same.
func (p *Page) atSite(s *weather.Series, site job.Site) (*climate.Climate, error) {
	if p.kept.site != site {
		p.kept.site, p.kept.climates = site, nil
	}
	if c := p.kept.climates[s]; c != nil {
		return c, nil
	}
	c, err := climate.AtSite(s, site)
	if err != nil {
		return nil, err
	}
	if p.kept.climates == nil {
		p.kept.climates = map[*weather.Series]*climate.Climate{}
	}
	p.kept.climates[s] = c
	return c, nil
}
