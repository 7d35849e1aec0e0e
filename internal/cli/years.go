package cli

import (
	"path"
	"strings"

	"github.com/evapbook/evapbook/internal/hint"
	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/readback"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/version"
	"github.com/evapbook/evapbook/internal/weather"
	"github.com/evapbook/evapbook/internal/workbook/figures"
	"github.com/evapbook/evapbook/internal/years"
)

// files reads all weather files and sorts them into years. Of several files each
// may have gaps, for years that are not whole are left out.
func (o *writeOptions) files(inputs []string, altitudeKnown bool) (*years.Files, error) {
	flags := o.weatherFlags
	flags.allowGaps = flags.allowGaps || len(inputs) > 1
	if len(inputs) > 1 {
		opt, err := flags.options()
		if err != nil {
			return nil, err
		}
		for _, input := range inputs {
			if isStation(input) {
				return nil, hint.With(usagef("%s cannot be one of several weather files", input), "name files of one place only")
			}
			if input == "-" {
				continue
			}
			if err := checkInput(input); err != nil {
				return nil, err
			}
		}
		series, err := weather.OpenAll(inputs, opt)
		if err != nil {
			return nil, err
		}
		return years.Gather(series)
	}
	s, err := flags.openAsking(inputs[0], o.in, altitudeKnown)
	if err != nil {
		return nil, err
	}
	return years.Gather([]*weather.Series{s})
}

// compute carries the job through the one year there is, or through all of
// them and shows one.
func (o *writeOptions) compute(f *years.Files, j *job.Job, sys units.System) (*figures.Case, error) {
	if f.Single {
		if o.year != "" {
			return nil, hint.With(usagef("--year %s: the weather is one year only", o.year), "leave --year out")
		}
		return figures.Compute(f.First, j, sys, version.Text())
	}
	table, shown, err := years.Run(f, j, o.year)
	if err != nil {
		return nil, err
	}
	c, err := figures.Compute(shown, j, sys, version.Text())
	if err != nil {
		return nil, err
	}
	if table.Counts > 1 {
		c.Years = table
	}
	return c, nil
}

// fileSeparator stands between the names of several files in the workbook.
const fileSeparator = " | "

// weathersOf finds all weather files a workbook was written from; the SHA-256
// it holds is that of the file whose hours it shows.
func (o *weatherFlags) weathersOf(b *readback.Book, workbook string) ([]string, error) {
	names := strings.Split(b.Weather.Path, fileSeparator)
	var found []string
	for _, name := range names {
		one := *b
		if len(names) > 1 {
			one.Weather.Path = name
			if path.Base(name) != b.Weather.File {
				one.Weather.File, one.Weather.SHA256 = path.Base(name), ""
			}
		}
		file, err := o.weatherOf(&one, workbook)
		if err != nil {
			return nil, err
		}
		found = append(found, file)
	}
	return found, nil
}
