// Package years carries one job through every year of one or several weather
// files, and says how far the years lie apart.
//
// A year is a calendar year north of the equator and July to June south of it.
// Years of which more than a tenth of the warm half-year is missing are left
// out and named. All years get the same house, cooler and refrigerated unit:
// where the capacity is sized or the heat loss fitted to a design load, the year
// whose hours are shown sets them.
package years

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/evapbook/evapbook/internal/climate"
	"github.com/evapbook/evapbook/internal/hint"
	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/season"
	"github.com/evapbook/evapbook/internal/weather"
)

const yearHours = 8760

// Typical is the label of a typical year, which joins months of many years and
// takes no part in the range over them.
const Typical = "typical"

// Files are the years of one place, from one file or several.
type Files struct {
	Years  []weather.Year  // whole ones, in order; a typical year last
	First  *weather.Series // the first file, for the place
	Single bool            // one file that is one year: nothing to compare
	South  bool            // years run from July to June
	Notes  []weather.Note  // what was left out and why

	// AtSite carries a year to the site of the house; nil is climate.AtSite. Who
	// asks again and again may give one that remembers.
	AtSite func(*weather.Series, job.Site) (*climate.Climate, error)
}

// Gather sorts the files of one place into years. Files of different places,
// or with the same year twice, are errors; so is no whole year in several
// files. One file without a whole year is taken as it is.
func Gather(series []*weather.Series) (*Files, error) {
	f := &Files{First: series[0]}
	if err := apart(series); err != nil {
		return nil, err
	}
	for _, s := range series {
		for _, y := range s.Years() {
			f.South = f.South || strings.Contains(y.Label, "/")
			if !y.Whole() {
				f.Notes = append(f.Notes, y.LeftOut(s.Source.Name))
				continue
			}
			if err := f.add(y); err != nil {
				return nil, err
			}
		}
	}
	slices.SortStableFunc(f.Years, byLabel)
	switch {
	case len(series) == 1 && len(f.Years) <= 1 && !longer(series[0], f.Years):
		f.Single, f.Notes = true, nil
	case len(f.Years) == 0:
		return nil, hint.With(errors.New("none of the files has a whole warm half-year"), "give files that cover April to September, south of the equator October to March")
	}
	return f, nil
}

// longer tells whether the one whole year is only a part of the file.
func longer(s *weather.Series, whole []weather.Year) bool {
	return len(whole) == 1 && len(whole[0].Series.Hours) < len(s.Hours)
}

func (f *Files) add(y weather.Year) error {
	for i := range f.Years {
		if f.Years[i].Label == y.Label {
			both := "both hold the year " + y.Label
			if y.Label == Typical {
				both = "are both typical years"
			}
			return hint.With(fmt.Errorf("%s and %s %s", f.Years[i].Series.Source.Name, y.Series.Source.Name, both), "leave one of them out")
		}
	}
	f.Years = append(f.Years, y)
	return nil
}

// byLabel orders years in time; letters sort behind digits, so that a typical
// year comes last.
func byLabel(a, b weather.Year) int { return strings.Compare(a.Label, b.Label) }

// apart lists the files where they are of different places.
func apart(series []*weather.Series) error {
	var names []string
	different := false
	for _, s := range series {
		different = different || !weather.SamePlace(series[0].Station, s.Station)
		names = append(names, fmt.Sprintf("%s (%s)", s.Source.Name, s.Place()))
	}
	if !different {
		return nil
	}
	const most = 4
	listed := strings.Join(names[:min(most, len(names))], ", ")
	if more := len(names) - most; more > 0 {
		listed += fmt.Sprintf(" and %d more", more)
	}
	return hint.With(fmt.Errorf("files of different places: %s", listed), "name one file, or all years of one place; evapbook rank compares places")
}

// Table is the comparison of the years.
type Table struct {
	Rows   []Row
	Shown  int    // row whose hours the workbook holds
	Why    string // why that one
	South  bool
	Counts int // leading rows that count in the range: all but a typical year

	Season *season.Season // of the year shown, with the job as it was given
}

// Run carries a resolved job through all years and gives, beside their table,
// the series of the year to show, which says so in its notes. wanted names it;
// empty is a typical year if there is one, else the year whose coverage is the
// median, of two middle ones the lower.
func Run(f *Files, j *job.Job, wanted string) (*Table, *weather.Series, error) {
	t := &Table{South: f.South, Shown: -1, Counts: len(f.Years)}
	if f.Years[len(f.Years)-1].Label == Typical {
		t.Counts--
	}
	if err := t.choose(f, wanted); err != nil {
		return nil, nil, err
	}
	if t.Shown < 0 {
		if err := t.rank(f, j); err != nil {
			return nil, nil, err
		}
	}
	shown := f.Years[t.Shown].Series
	var err error
	if t.Season, err = f.through(shown, j); err != nil {
		return nil, nil, err
	}
	if err := t.fill(f); err != nil {
		return nil, nil, err
	}
	return t, shown.With(append([]weather.Note{t.note()}, f.Notes...)...), nil
}

// note says which year the hours are of.
func (t *Table) note() weather.Note {
	year := t.Rows[t.Shown].Label
	if len(t.Rows) == 1 {
		return weather.Note{Kind: weather.NoteOnlyYear, Of: year}
	}
	return weather.Note{Kind: weather.NoteShownYear, Of: year, Other: t.Why, Count: len(t.Rows)}
}

// choose finds the year asked for, or a typical one.
func (t *Table) choose(f *Files, wanted string) error {
	var have []string
	for i, y := range f.Years {
		have = append(have, y.Label)
		switch {
		case wanted == y.Label || wanted != "" && strings.HasPrefix(y.Label, wanted+"/"):
			t.Shown, t.Why = i, "the year asked for"
			return nil
		case wanted == "" && y.Label == Typical:
			t.Shown, t.Why = i, "a typical year"
		}
	}
	if wanted != "" {
		return hint.With(fmt.Errorf("--year %s: no such whole year in the weather", wanted), "there are %s", strings.Join(have, ", "))
	}
	return nil
}

// rank shows the year in the middle by held share. The hours alone tell it, and
// any unit will do, for refrigeration does not change them.
func (t *Table) rank(f *Files, j *job.Job) error {
	covered := make([]float64, t.Counts)
	for i := range covered {
		c, err := f.atSite(f.Years[i].Series, j.Site)
		if err != nil {
			return inYear(&f.Years[i], err)
		}
		b, err := season.RunBriefly(c, j)
		if err != nil {
			return inYear(&f.Years[i], err)
		}
		covered[i] = coverage(b.Hours)
	}
	t.Shown, t.Why = median(covered), "the median year by held share"
	if t.Counts%2 == 0 {
		t.Why = "of the two middle years by held share the lower"
	}
	return nil
}

// fill computes the rows, all with capacity and heat loss as the shown year has
// them; of each year only its row is kept.
func (t *Table) fill(f *Files) error {
	fixed := t.Season.Job.Clone()
	fixed.House.DesignLoad, fixed.House.HeatLoss = 0, t.Season.House.UA/fixed.House.FloorArea
	for i := range f.Years {
		s, err := t.Season, error(nil)
		if i != t.Shown {
			s, err = f.through(f.Years[i].Series, fixed)
		}
		if err != nil {
			return inYear(&f.Years[i], err)
		}
		t.Rows = append(t.Rows, row(&f.Years[i], s))
	}
	return nil
}

func inYear(y *weather.Year, err error) error { return fmt.Errorf("year %s: %w", y.Label, err) }

func (f *Files) atSite(w *weather.Series, site job.Site) (*climate.Climate, error) {
	if f.AtSite != nil {
		return f.AtSite(w, site)
	}
	return climate.AtSite(w, site)
}

func (f *Files) through(w *weather.Series, j *job.Job) (*season.Season, error) {
	c, err := f.atSite(w, j.Site)
	if err != nil {
		return nil, err
	}
	return season.Run(c, j)
}

// median is the index of the middle of some coverages, of two the lower; a year
// without need counts as covered.
func median(covered []float64) int {
	order := make([]int, len(covered))
	for i := range order {
		order[i] = i
	}
	at := func(i int) float64 {
		if c := covered[i]; !math.IsNaN(c) {
			return c
		}
		return 1
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(at(a), at(b)) })
	return order[(len(order)-1)/2]
}
