package cli

import (
	"fmt"
	"os"
	"path"
	"path/filepath"
	"slices"
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
	if len(inputs) == 1 && !weather.Several(inputs[0]) {
		s, err := o.weatherFlags.openAsking(inputs[0], o.in, altitudeKnown)
		if err != nil {
			return nil, err
		}
		return years.Gather([]*weather.Series{s})
	}
	for _, input := range inputs {
		if isStation(input) {
			return nil, hint.With(usagef("%s cannot be one of several weather files", input), "name files of one place only")
		}
	}
	series, err := o.weatherFlags.openAll(inputs)
	if err != nil {
		return nil, err
	}
	return years.Gather(series)
}

// openAll reads several files, those of one place as one; each may have gaps.
func (o *weatherFlags) openAll(inputs []string) ([]*weather.Series, error) {
	flags := *o
	flags.allowGaps = true
	opt, err := flags.options()
	if err != nil {
		return nil, err
	}
	for _, input := range inputs {
		if input == standard {
			continue
		}
		if err := checkInput(input); err != nil {
			return nil, err
		}
	}
	return weather.OpenAll(inputs, opt)
}

// unfold puts the weather files in it in the place of each folder.
func unfold(inputs []string) ([]string, error) {
	var all []string
	for _, input := range inputs {
		info, err := os.Stat(input)
		if err != nil || !info.IsDir() {
			all = append(all, input) // what is not there is told where it is opened
			continue
		}
		entries, err := os.ReadDir(input)
		if err != nil {
			return nil, fileError(input, err)
		}
		before := len(all)
		for _, e := range entries {
			if e.Type().IsRegular() && !strings.HasPrefix(e.Name(), ".") && slices.Contains(weatherEndings, strings.ToLower(filepath.Ext(e.Name()))) {
				all = append(all, filepath.Join(input, e.Name()))
			}
		}
		if len(all) == before {
			return nil, hint.With(fmt.Errorf("%s: is a folder without weather files", input), "files are taken that end in %s", strings.Join(weatherEndings[1:], " "))
		}
	}
	return all, nil
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
	c := figures.Of(table.Season, shown, j, sys, version.Text())
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
