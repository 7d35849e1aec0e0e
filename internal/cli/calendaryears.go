package cli

import (
	"slices"

	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/ranking"
	"github.com/evapbook/evapbook/internal/startup"
	"github.com/evapbook/evapbook/internal/weather"
)

// realYears is what tells whether a file holds years of the same place as
// another.
type realYears struct {
	station weather.Station
	format  string
}

// realYearsOf is nil for what stands alone: typical years, stations within the
// program, standard input.
func realYearsOf(s *weather.Series, f *ranking.File) *realYears {
	if s.Typical || f.Sited != nil || isStation(f.Path) || f.Path == standard {
		return nil
	}
	return &realYears{s.Station, s.Source.Format}
}

// visit is startup.Visit as a list of one.
func visit(s *weather.Series, j *job.Job) ([]*startup.Place, error) {
	p, err := startup.Visit(s, j)
	if err != nil {
		return nil, err
	}
	return []*startup.Place{p}, nil
}

// joinYears reads files that certainly are years of one place once more, as one
// series: a cooling year may begin in one file and end in the next. What that
// gives stands in the place of the first of them.
func (o *calendarOptions) joinYears(files []ranking.File, years []*realYears, j *job.Job, found [][]*startup.Place, reasons []error) error {
	opt, err := o.weatherFlags.options()
	if err != nil {
		return err
	}
	opt.AllowGaps = true // years that are not whole are left out by name
	for _, group := range samePlaces(years) {
		var paths []string
		for _, i := range group {
			paths = append(paths, files[i].Path)
		}
		series, err := weather.OpenAll(paths, opt)
		var joined []*startup.Place
		for k := 0; err == nil && k < len(series); k++ {
			var p []*startup.Place
			p, err = visit(series[k], j)
			joined = append(joined, p...)
		}
		if err != nil {
			continue // each by itself, as it was found
		}
		for _, i := range group {
			found[i], reasons[i] = nil, nil
		}
		found[group[0]] = joined
	}
	return nil
}

// samePlaces groups the files of two or more that are of one place and format.
func samePlaces(years []*realYears) [][]int {
	var groups [][]int
	for i, y := range years {
		if y == nil {
			continue
		}
		at := slices.IndexFunc(groups, func(g []int) bool {
			first := years[g[0]]
			return first.format == y.format && weather.CertainlySame(first.station, y.station)
		})
		if at < 0 {
			groups = append(groups, []int{i})
			continue
		}
		groups[at] = append(groups[at], i)
	}
	return slices.DeleteFunc(groups, func(g []int) bool { return len(g) < 2 })
}
