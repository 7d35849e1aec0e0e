package zone

import (
	"github.com/evapbook/evapbook/internal/weather"
	"github.com/evapbook/evapbook/internal/years"
)

// oneYear reads a file and gives the year that stands for it, so that sites
// with longer records compare with the others: of several years the one that
// the workbook of a single site would show, a typical year or that of median
// coverage by the cooler as stated.
func (p *Plan) oneYear(f File) (*weather.Series, error) {
	series, err := weather.Open(f.Path, p.Weather)
	if err != nil {
		return nil, err
	}
	all, err := years.Gather([]*weather.Series{series})
	if err != nil {
		return nil, err
	}
	if all.Single {
		return series, nil
	}
	j := p.Job.Clone()
	if err := j.Resolve(series.Place(), series.Station.Elevation); err != nil {
		return nil, err
	}
	_, shown, err := years.Run(all, j, "")
	return shown, err
}
