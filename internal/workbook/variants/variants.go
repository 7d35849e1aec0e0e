// Package variants carries a house through the year with some of its inputs
// changed, for figures that a book shows beside its live ones.
package variants

import (
	"cmp"
	"runtime"

	"golang.org/x/sync/errgroup"

	"github.com/evapbook/evapbook/internal/climate"
	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/money"
	"github.com/evapbook/evapbook/internal/season"
	"github.com/evapbook/evapbook/internal/workbook/figures"
)

// Variant is the case with some inputs changed. What is to change is stated;
// Run fills in what comes of it.
type Variant struct {
	Set    map[string]float64 // by key, in SI
	Kind   job.CoolerKind     // "" keeps it
	Warmer float64            // K added to what is stated
	Job    *job.Job           // instead of the case's; nil keeps it
	Brief  bool               // asks for hours and water alone, in a fraction of the time

	Season *season.Season // without its hours and days; nil of brief ones
	Low    season.Brief   // of warmer ones alone
	Money  money.Comparison

	Hours season.Count
	Water float64 // L in a season
}

// Stated is the case itself, to stand beside its variants.
func Stated(c *figures.Case) *Variant {
	s := c.Season
	return &Variant{Season: s, Low: c.Low, Money: c.Money, Hours: s.Totals.Hours, Water: s.WaterTotal(s.Totals.Water)}
}

// Run computes variants on all cores. The climate is brought to the site anew
// only where a variant is warmer; other inputs of the site cannot be varied.
func Run(c *figures.Case, list []*Variant) error {
	var g errgroup.Group
	g.SetLimit(runtime.GOMAXPROCS(0))
	for _, v := range list {
		g.Go(func() error { return v.run(c) })
	}
	return g.Wait()
}

func (v *Variant) run(c *figures.Case) error {
	j, err := v.stated(c)
	if err != nil {
		return err
	}
	if err := j.Resolve(c.Series.Place(), c.Series.Station.Elevation, c.Series.Station.Region()); err != nil {
		return err
	}
	cl := c.Season.Climate
	if v.Brief {
		b, err := season.RunBriefly(cl, j)
		v.Hours, v.Water = b.Hours, b.Water.Total(j.Cooler)
		return err
	}
	if v.Warmer != 0 {
		j.Site.Warmer += v.Warmer
		if cl, err = climate.AtSite(c.Series, j.Site); err != nil {
			return err
		}
	}
	s := caseSeason(c, j)
	if s == nil || v.Warmer != 0 {
		if s, err = season.Run(cl, j); err != nil {
			return err
		}
	}
	v.Season, v.Money = s, money.Compare(s)
	v.Hours, v.Water = s.Totals.Hours, s.WaterTotal(s.Totals.Water)
	if v.Warmer != 0 { // shown for these alone
		v.Low = s.Low()
	}
	s.Hours, s.Days = nil, nil // only totals are shown, and there are many variants
	return nil
}

// caseSeason is the season of the case where the job differs from the case's in
// prices alone, under those prices; nil where house, cooler or air conditioner
// are others.
func caseSeason(c *figures.Case, j *job.Job) *season.Season {
	if j.House != c.Stated.House || j.Cooler != c.Stated.Cooler || j.AC != c.Stated.AC {
		return nil
	}
	s := *c.Season
	s.Job = s.Job.Clone()
	s.Job.Price, s.Job.Plant = j.Price, j.Plant
	return &s
}

// stated is the job with the variant's inputs.
func (v *Variant) stated(c *figures.Case) (*job.Job, error) {
	j := cmp.Or(v.Job, c.Stated).Clone()
	if v.Kind != "" {
		if err := j.Set("cooler.kind", string(v.Kind)); err != nil {
			return nil, err
		}
	}
	for key, value := range v.Set {
		if err := j.SetSI(key, value); err != nil {
			return nil, err
		}
	}
	return j, nil
}
