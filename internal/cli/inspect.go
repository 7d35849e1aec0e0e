package cli

import (
	"encoding/json"
	"math"

	"github.com/spf13/cobra"

	"github.com/evapbook/evapbook/internal/hint"
	"github.com/evapbook/evapbook/internal/inspect"
	"github.com/evapbook/evapbook/internal/weather"
)

type inspectOptions struct {
	*streams
	weatherFlags
	onePlace
	json bool
}

func newInspectCmd(s *streams) *cobra.Command {
	o := &inspectOptions{streams: s}
	cmd := &cobra.Command{
		Use:   "inspect [WEATHER]",
		Short: "Say what a weather file is and what is in it",
		Long: `Inspect reads a weather file as write would and says what it made of it: the
format, the place, which hours are there, the ranges, which humidity and pressure
would be used and why, and what is missing and how to give it. With --place it
looks at the typical year of the station that stands for a town.`,
		Example: `  # what is this file?
  evapbook inspect boise.csv

  # a logger's export with headings of its own
  evapbook inspect garden.csv --columns 'time=Date,temperature_f=Out,relative_humidity=Hum'`,
		Args: usageArgs(cobra.MaximumNArgs(1)),
		RunE: func(_ *cobra.Command, args []string) error {
			path, err := o.weather(args)
			if err != nil {
				return err
			}
			return o.run(path)
		},
	}
	cmd.Flags().BoolVar(&o.json, "json", false, "print JSON")
	o.weatherFlags.add(cmd.Flags())
	o.onePlace.add(cmd.Flags())
	return completable(cmd)
}

// weather is the file named, or the station that stands for the place.
func (o *inspectOptions) weather(args []string) (string, error) {
	text, err := o.onePlace.text()
	switch {
	case err != nil:
		return "", err
	case len(args) == 1 && text == "":
		return args[0], nil
	case len(args) == 1:
		return "", usagef("a weather file and a place do not go together: inspect looks at one weather")
	case text == "":
		return "", hint.With(usagef("no weather named"), "evapbook inspect FILE, or --place \"Bend, OR\"")
	}
	s, err := site(text, math.NaN())
	if err != nil {
		return "", err
	}
	return stationPath(s.Station()), nil
}

func (o *inspectOptions) run(path string) error {
	s, zoneless, err := o.look(path)
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

// look opens the file with gaps allowed, for inspect reports what write would
// refuse; a file in UTC of an unknown place is looked at in UTC.
func (o *inspectOptions) look(path string) (s *weather.Series, zoneless bool, err error) {
	flags := o.weatherFlags
	flags.allowGaps = true
	s, err = flags.open(path, o.in)
	if err == nil || flags.utcOffset != "" || path == "-" {
		return s, false, err
	}
	flags.utcOffset = "0"
	if s, again := flags.open(path, o.in); again == nil {
		return s, true, nil
	}
	return nil, false, err
}
