// Package figures holds one computed house and what is said of it in numbers:
// the headline figures, the verdict and the comparison of money, each with its
// formula; and the same as JSON and CSV.
package figures

import (
	"math"

	"github.com/evapbook/evapbook/internal/climate"
	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/money"
	"github.com/evapbook/evapbook/internal/places"
	"github.com/evapbook/evapbook/internal/season"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/weather"
	"github.com/evapbook/evapbook/internal/workbook/fx"
	"github.com/evapbook/evapbook/internal/years"
)

// Case is one house with its cooler in one climate, computed.
type Case struct {
	Series  *weather.Series
	Season  *season.Season
	Low     season.Brief // the lower ends of what the cooler takes
	Money   money.Comparison
	Units   units.System // what people see
	Version string       // of the program, printed on the workbook
	Given   Given        // for the Weather sheet; may be left empty
	Logo    []byte       // PNG or JPEG for the proposal's page, may be nil

	Sited *places.Sited // the town the house stands in, nil where only a weather file was given
	Years *years.Table  // the other years of the weather, nil where there is one only

	// ValuesOnly leaves the formulas and the sheets behind the figures out: a
	// light workbook for phones and mail that looks the same and cannot be edited.
	ValuesOnly bool
	// Light leaves out all but the customer's pages; it goes with ValuesOnly.
	Light bool

	Stated *job.Job    // as the user gave it, for telling stated inputs from derived ones
	cells  []fx.Solved // of solved
}

// Ground is the altitude in m of a house of which nothing else is stated.
func (c *Case) Ground() float64 {
	if c.Sited != nil && !math.IsNaN(c.Sited.Elevation()) {
		return c.Sited.Elevation()
	}
	return c.Season.Climate.StationElevation
}

// Compute carries a resolved job through a weather series.
func Compute(series *weather.Series, j *job.Job, sys units.System, version string) (*Case, error) {
	cl, err := climate.AtSite(series, j.Site)
	if err != nil {
		return nil, err
	}
	s, err := season.Run(cl, j)
	if err != nil {
		return nil, err
	}
	return Of(s, series, j, sys, version), nil
}

// Of is Compute where the job has been carried through the series before.
func Of(s *season.Season, series *weather.Series, j *job.Job, sys units.System, version string) *Case {
	return &Case{Series: series, Season: s, Low: s.Low(), Money: money.Compare(s), Units: sys, Version: version, Stated: j}
}

// Solved are the wet bulbs of the hours as the cells find them, worked out once.
func (c *Case) Solved() []fx.Solved {
	if c.cells == nil {
		c.cells = fx.SolveHours(c.Season)
	}
	return c.cells
}

// Unit is the unit of a kind as people see it, money in the job's currency.
func (c *Case) Unit(k units.Kind) units.Unit {
	return k.Priced(c.Units, c.Season.Job.Price.Currency)
}

// Show is an amount in SI as people read it: with its unit, money with the sign
// of its currency.
func (c *Case) Show(k units.Kind, v float64) string {
	if k == units.Money {
		return c.Season.Job.Price.Currency + k.Show(v, c.Units)
	}
	return k.Show(v, c.Units)
}

// Symbol is the symbol of a kind as people see it, for axis titles.
func (c *Case) Symbol(k units.Kind) string { return c.Unit(k).Symbol }

// Date is the date of a day, None if there is no such day.
func (c *Case) Date(day int) any {
	if day < 0 {
		return None
	}
	return c.Season.Climate.Days[day].Date
}

// Missing tells whether hour i has no weather.
func (c *Case) Missing(i int) bool { return c.Season.Climate.Hours[i].Missing }

// Given is how the weather was named on the command line: enough to read the
// same weather again for a workbook that has been edited.
type Given struct {
	Path  string // as given; empty for the built-in sample
	Flags string // flags that change how the file is read, such as "--humidity=relative"
}

// Notes lists what a reader of the results must know about the weather.
func (c *Case) Notes() []string {
	return append(c.FileNotes(), c.Season.Climate.Notes(c.Units)...)
}

// FileNotes are the notes that hold whatever the inputs are.
func (c *Case) FileNotes() []string {
	notes := []string{}
	if c.Sited != nil {
		notes = c.Sited.Notes(c.Units)
	}
	for _, n := range c.Series.Notes {
		notes = append(notes, n.String())
	}
	return notes
}
