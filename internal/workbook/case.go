// Package workbook lays out the sheets of an evapbook workbook: what stands in
// each cell, as a live formula and as the engine's value cached beside it.
//
// Columns, scalars and figures are declared as data, each with its header,
// kind of unit, formula and Go value side by side; package xlsx writes them.
// Working, Days, Design, Basis and Totals are in SI; what people read (Answer,
// Money, Months, Hours) is in the unit system they chose.
//
// Names: In_ an input as the person sees it, Si_ the same in SI, B_ what
// follows from inputs before any hour is computed, M_ money, Out_ a headline
// figure in SI.
package workbook

import (
	"io"

	"github.com/evapbook/evapbook/internal/climate"
	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/money"
	"github.com/evapbook/evapbook/internal/season"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/weather"
	"github.com/evapbook/evapbook/internal/years"
)

// Case is one house with its cooler in one climate, computed.
type Case struct {
	Series  *weather.Series
	Season  *season.Season
	Money   money.Comparison
	Units   units.System // what people see
	Version string       // of the program, printed on the workbook
	Given   Given        // for the Weather sheet; may be left empty

	Years *years.Table // the other years of the weather, nil where there is one only

	// ValuesOnly leaves the formulas and the sheets behind the figures out: a
	// light workbook for phones and mail that looks the same and cannot be edited.
	ValuesOnly bool

	stated *job.Job // as the user gave it, for telling stated inputs from derived ones
	cells  []cells
	passed []int
}

// hourIn is the weather of an hour at the site.
type hourIn = climate.Hour

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
	return &Case{Series: series, Season: s, Money: money.Compare(s), Units: sys, Version: version, stated: j}, nil
}

// Write writes the workbook.
func (c *Case) Write(w io.Writer) error {
	c.cells, c.passed = solveCells(c.Season), passedHours(c.Season)
	b, err := c.book()
	if err != nil {
		return err
	}
	return b.Write(w)
}
