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
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

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

// Row is what one year comes to, in SI.
type Row struct {
	Label       string
	File        string
	Missing     int // hours of a year of 8,760 without weather
	Hours       season.Count
	Coverage    float64   // held hours of those that need cooling, 0..1; NaN if none does
	Water       float64   // L evaporated and drained
	CoolerKWh   float64   // the cooler alone
	RefKWh      float64   // refrigeration
	BothKWh     float64   // the cooler, and refrigeration where it does not hold
	Over        float64   // K h above the setpoint
	DesignDry   float64   // °C, dry bulb exceeded in 1 % of the hours
	Cooling     float64   // degree-days, K d
	LastFreeze  time.Time // last day at or below 0 °C before midsummer; zero if none
	FirstFreeze time.Time // first such day after it; zero if none
}

// Table is the comparison of the years.
type Table struct {
	Rows   []Row
	Shown  int    // row whose hours the workbook holds
	Why    string // why that one
	South  bool
	Counts int // leading rows that count in the range: all but a typical year
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
	if t.Shown < 0 { // any house and unit will do to rank the years
		if err := t.fill(f, j); err != nil {
			return nil, nil, err
		}
		t.Shown = t.median()
		t.Why = "the median year by held share"
		if t.Counts%2 == 0 {
			t.Why = "of the two middle years by held share the lower"
		}
	}
	shown := f.Years[t.Shown].Series
	s, err := through(shown, j)
	if err != nil {
		return nil, nil, err
	}
	fixed := s.Job.Clone() // capacity as sized for the shown year
	fixed.House.DesignLoad, fixed.House.HeatLoss = 0, s.House.UA/fixed.House.FloorArea
	if err := t.fill(f, fixed); err != nil {
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

// fill computes the rows; of each year only its row is kept.
func (t *Table) fill(f *Files, j *job.Job) error {
	t.Rows = t.Rows[:0]
	for i := range f.Years {
		s, err := through(f.Years[i].Series, j)
		if err != nil {
			return fmt.Errorf("year %s: %w", f.Years[i].Label, err)
		}
		t.Rows = append(t.Rows, row(&f.Years[i], s))
	}
	return nil
}

func through(w *weather.Series, j *job.Job) (*season.Season, error) {
	c, err := climate.AtSite(w, j.Site)
	if err != nil {
		return nil, err
	}
	return season.Run(c, j)
}

func row(y *weather.Year, s *season.Season) Row {
	t := &s.Totals
	r := Row{
		Label: y.Label, File: y.Series.Source.Name, Missing: max(0, yearHours-s.Climate.Valid), Hours: t.Hours,
		Coverage: math.NaN(), Water: s.WaterTotal(t.Water),
		CoolerKWh: t.CoolerKWh, RefKWh: t.RefKWh, BothKWh: t.BothKWh, Over: t.Over,
		DesignDry: s.Climate.Design.DryBulb[climate.One].Value,
	}
	if need := t.Hours.Need(); need > 0 {
		r.Coverage = float64(t.Hours.Held()) / float64(need)
	}
	for i := range s.Months {
		r.Cooling += s.Months[i].Cooling
	}
	cal := s.Climate.Calendar
	r.LastFreeze, r.FirstFreeze = dayOf(s.Climate, cal.LastFreeze), dayOf(s.Climate, cal.FirstFreeze)
	return r
}

func dayOf(c *climate.Climate, i int) time.Time {
	if i < 0 {
		return time.Time{}
	}
	return c.Days[i].Date
}

// median is the row in the middle by coverage, of two the lower; a year without
// need counts as covered.
func (t *Table) median() int {
	order := make([]int, t.Counts)
	for i := range order {
		order[i] = i
	}
	covered := func(i int) float64 {
		if c := t.Rows[i].Coverage; !math.IsNaN(c) {
			return c
		}
		return 1
	}
	slices.SortStableFunc(order, func(a, b int) int {
		switch x, y := covered(a), covered(b); {
		case x < y:
			return -1
		case x > y:
			return 1
		}
		return 0
	})
	return order[(len(order)-1)/2]
}
