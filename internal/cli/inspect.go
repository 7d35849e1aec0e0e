package cli

import (
	"encoding/json"
	"fmt"
	"math"
	"slices"

	"github.com/spf13/cobra"

	"github.com/evapbook/evapbook/internal/hint"
	"github.com/evapbook/evapbook/internal/inspect"
	"github.com/evapbook/evapbook/internal/readback"
	"github.com/evapbook/evapbook/internal/weather"
)

type inspectOptions struct {
	*streams
	weatherFlags
	onePlace
	json bool
	from string // a workbook whose weather is looked at
}

func newInspectCmd(s *streams) *cobra.Command {
	o := &inspectOptions{streams: s}
	cmd := &cobra.Command{
		Use:   "inspect [WEATHER...]",
		Short: "Say what a weather file is and what is in it",
		Long: `Inspect reads a weather file as write would and says what it made of it: the
format, the place, which hours are there, the ranges, which humidity and pressure
would be used and why, and what is missing and how to give it. Several files that
are years of one place, also in a folder or a zip archive, are looked at as one;
- is standard input. With --place inspect looks at the typical year of the station
that stands for a town, with --from at the weather of a workbook.`,
		Example: `  # what is this file?
  evapbook inspect boise.csv

  # a logger's export with headings of its own
  evapbook inspect garden.csv --columns 'time=Date,temperature_f=Out,relative_humidity=Hum'`,
		Args: usageArgs(cobra.ArbitraryArgs),
		RunE: func(_ *cobra.Command, args []string) error {
			args, err := o.named(args)
			if err != nil {
				return err
			}
			if o.place+o.near == "" && (len(args) > 1 || len(args) == 1 && weather.Several(args[0])) {
				return o.several(args)
			}
			path, err := o.weather(args)
			if err != nil {
				return err
			}
			return o.run(path)
		},
	}
	cmd.Flags().BoolVar(&o.json, "json", false, "print JSON")
	cmd.Flags().StringVar(&o.from, "from", "", "look at the weather that a workbook was written from")
	o.weatherFlags.add(cmd.Flags())
	o.onePlace.add(cmd.Flags())
	return completable(cmd)
}

// named are the files to look at: those of the arguments, with the files of a
// folder in its place, or those of the workbook.
func (o *inspectOptions) named(args []string) ([]string, error) {
	switch {
	case o.from == "":
		return unfold(args)
	case len(args) > 0 || o.place+o.near != "":
		return nil, usagef("--from and a weather file or place do not go together: inspect looks at one weather")
	}
	if err := checkInput(o.from); err != nil {
		return nil, err
	}
	b, err := readback.Read(o.from)
	if err != nil {
		return nil, err
	}
	sited, err := sitedBy(b.Job)
	if err != nil {
		return nil, err
	}
	if sited != nil && b.Weather.Path == "" {
		return []string{stationPath(sited.Station())}, nil
	}
	return o.weathersOf(b, o.from)
}

// weather is the file named, or the station that stands for the place.
func (o *inspectOptions) weather(args []string) (string, error) {
	text, err := o.onePlace.text()
	switch {
	case err != nil:
		return "", err
	case len(args) == 1 && text == "":
		return args[0], nil
	case len(args) > 0:
		return "", usagef("a weather file and a place do not go together: inspect looks at one weather")
	case text == "":
		return "", hint.With(usagef("no weather named"), "evapbook inspect FILE, or --place \"Bend, OR\"")
	}
	s, err := siteSaying(o.err, text, math.NaN())
	if err != nil {
		return "", err
	}
	return stationPath(s.Station()), nil
}

func (o *inspectOptions) run(path string) error {
	s, zoneless, err := o.look(path, o.in)
	if err != nil {
		return err
	}
	r := inspect.Describe(s, zoneless)
	if at, ok := stationAt(path); ok {
		r.Named = "--place " + at.Number
	}
	if o.json {
		e := json.NewEncoder(o.out)
		e.SetIndent("", "  ")
		return e.Encode(r)
	}
	return r.Page(o.out)
}

// several looks at years of one place as one, and at what cannot be joined one
// after the other.
func (o *inspectOptions) several(paths []string) error {
	if slices.Contains(paths, standard) {
		return hint.With(usagef("standard input cannot be one of several files"), "name it alone")
	}
	all, err := o.weatherFlags.openAll(paths)
	if err != nil {
		return err
	}
	var reports []*inspect.Report
	for _, s := range all {
		reports = append(reports, inspect.Describe(s, false))
	}
	if o.json {
		e := json.NewEncoder(o.out)
		e.SetIndent("", "  ")
		return e.Encode(reports)
	}
	for i, r := range reports {
		if i > 0 {
			fmt.Fprintln(o.out)
		}
		if err := r.Page(o.out); err != nil {
			return err
		}
	}
	return nil
}
