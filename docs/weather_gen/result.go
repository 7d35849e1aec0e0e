package main

import (
	"fmt"
	"path/filepath"
	"strconv"
	"strings"

	"github.com/evapbook/evapbook/internal/climate"
	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/season"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/weather"
	"github.com/evapbook/evapbook/internal/years"
)

// place is what a file does not say about its station. Elevations are those of
// SOURCES.md beside the files; the rest is from memory, to a tenth of a degree.
type place struct{ latitude, longitude, elevation, utcOffset float64 }

var places = map[string]place{
	"iem-asos-hyderabad-in-2014.tsv":    {17.5, 78.5, 545, 5.5},
	"noaa-isd-lite-phoenix-az-2017.txt": {33.4, -112.0, 339, -7},
	"noaa-lcd-old-jfk-ny-sample.csv":    {40.6, -73.8, 3, -5},
	"noaa-lcd-subset-reno-nv-2021.csv":  {39.5, -119.8, 1342, -8},
	"noaa-lcd-v1-atlanta-ga-2020.csv":   {33.6, -84.4, 308, -5},
}

// result is what the program made of one file.
type result struct {
	file, format, options string
	used, missing         int
	part                  bool // less than a year's warm half: totals mean little
	year                  string
	notes                 []string
	wetBulb               *spread
	dry, wet, supply      float64 // °C at the 1 % dry bulb
	need, held, vent      int
}

// all goes through the files in the order of their names.
func all(dir string) ([]result, error) {
	var rows []result
	for _, pattern := range []string{"*.csv", "*.epw", "*.tsv", "*.txt"} {
		paths, err := filepath.Glob(filepath.Join(dir, pattern))
		if err != nil {
			return nil, err
		}
		for _, p := range paths {
			r, err := carry(p)
			if err != nil {
				return nil, fmt.Errorf("%s: %w", filepath.Base(p), err)
			}
			rows = append(rows, *r)
		}
	}
	if len(rows) == 0 {
		return nil, fmt.Errorf("no weather files in %s", dir)
	}
	return rows, nil
}

func carry(path string) (*result, error) {
	r := &result{file: filepath.Base(path)}
	opt := weather.Options{}
	if p, ok := places[r.file]; ok {
		opt.Latitude, opt.Longitude, opt.Elevation, opt.UTCOffset = &p.latitude, &p.longitude, &p.elevation, &p.utcOffset
		r.options = fmt.Sprintf(" `--latitude %g --longitude %g --elevation %gm --utc-offset %g`", p.latitude, p.longitude, p.elevation, p.utcOffset)
	}
	s, err := weather.Open(path, opt)
	if err != nil {
		opt.AllowGaps, r.part = true, true
		if s, err = weather.Open(path, opt); err != nil {
			return nil, err
		}
		r.options += " `--allow-gaps`"
	}
	if r.wetBulb, err = wetBulbSpread(path); err != nil {
		return nil, err
	}
	return r, r.through(s)
}

// through carries the default house and cooler at the station's height through
// the file, of several years the median one.
func (r *result) through(s *weather.Series) error {
	j := job.New()
	if err := j.Resolve(r.file, s.Station.Elevation, s.Station.Region()); err != nil {
		return err
	}
	files, err := years.Gather([]*weather.Series{s})
	if err != nil {
		return err
	}
	if !files.Single {
		t, shown, err := years.Run(files, j, "")
		if err != nil {
			return err
		}
		s, r.year = shown, t.Rows[t.Shown].Label
	}
	c, err := climate.AtSite(s, j.Site)
	if err != nil {
		return err
	}
	out, err := season.Run(c, j)
	if err != nil {
		return err
	}
	r.format, r.used, r.missing = s.Source.Format, c.Valid, len(s.Hours)-c.Valid
	for _, n := range s.Notes {
		r.notes = append(r.notes, n.Text())
	}
	r.notes = append(r.notes, c.Notes(units.SI)...)
	if len(r.notes) == 0 {
		r.notes = []string{"nothing to note"}
	}
	d := c.Design.DryBulb[climate.One]
	r.dry, r.wet, r.supply = d.Value, d.Coincident, out.Design.DryBulb[climate.One].Supply.T
	r.need, r.held, r.vent = out.Totals.Hours.Need(), out.Totals.Hours.Held(), out.Totals.Hours[season.Vent]
	return nil
}

// cells are headings and values of the results file.
func (r *result) cells() (heads, values []string) {
	wet := [4]string{}
	if w := r.wetBulb; w != nil {
		wet = [4]string{strconv.Itoa(w.hours), fixed(w.mean, 2), fixed(w.low, 2), fixed(w.high, 2)}
	}
	return []string{"file", "format", "year", "hours_used", "hours_missing", "notes", "wet_bulb_hours", "wet_bulb_mean", "wet_bulb_2_5_pct", "wet_bulb_97_5_pct",
			"dry_1pct_c", "wet_1pct_c", "supply_1pct_c", "hours_need", "hours_held", "hours_vent"},
		[]string{r.file, r.format, r.year, strconv.Itoa(r.used), strconv.Itoa(r.missing), strconv.Itoa(len(r.notes)), wet[0], wet[1], wet[2], wet[3],
			fixed(r.dry, 1), fixed(r.wet, 1), fixed(r.supply, 1), strconv.Itoa(r.need), strconv.Itoa(r.held), strconv.Itoa(r.vent)}
}

func fixed(v float64, decimals int) string {
	text := strconv.FormatFloat(v, 'f', decimals, 64)
	if strings.Trim(text, "-0.") == "" {
		text = strings.TrimPrefix(text, "-")
	}
	return text
}

func (r *result) wetBulbWords() string {
	if r.wetBulb == nil {
		return "none in the file"
	}
	return fmt.Sprintf("%+.2f K, %+.2f to %+.2f (%d hours)", r.wetBulb.mean, r.wetBulb.low, r.wetBulb.high, r.wetBulb.hours)
}

func (r *result) designWords() string {
	return fmt.Sprintf("%.1f, %.1f, %.1f °C", r.dry, r.wet, r.supply)
}

func (r *result) needWords() string {
	switch {
	case r.part:
		return fmt.Sprintf("%d h of a part", r.need)
	case r.year != "":
		return fmt.Sprintf("%d h in %s", r.need, r.year)
	}
	return fmt.Sprintf("%d h", r.need)
}

// heldWords gives the held share, and how much of it outdoor air alone holds.
func (r *result) heldWords() string {
	if r.need == 0 {
		return "none needed"
	}
	share := func(n int) float64 { return 100 * float64(n) / float64(r.need) }
	return fmt.Sprintf("%.1f %%, %.0f %% without water", share(r.held), share(r.vent))
}
