package cli

import (
	"encoding/json"

	"github.com/spf13/cobra"

	"github.com/evapbook/evapbook/internal/weather"
)

type inspectOptions struct {
	*streams
	weatherFlags
	json bool
}

func newInspectCmd(s *streams) *cobra.Command {
	o := &inspectOptions{streams: s}
	cmd := &cobra.Command{
		Use:   "inspect WEATHER",
		Short: "Say what a weather file is and what is in it",
		Long: `Inspect reads a weather file as write would and says what it made of it: the
format, the place, which hours are there, the ranges, which humidity and pressure
would be used and why, and what is missing and how to give it.`,
		Example: `  # what is this file?
  evapbook inspect boise.csv

  # a logger's export with headings of its own
  evapbook inspect garden.csv --columns 'time=Date,temperature_f=Out,relative_humidity=Hum'`,
		Args: usageArgs(cobra.ExactArgs(1)),
		RunE: func(_ *cobra.Command, args []string) error { return o.run(args[0]) },
	}
	cmd.Flags().BoolVar(&o.json, "json", false, "print JSON")
	o.weatherFlags.add(cmd.Flags())
	return cmd
}

func (o *inspectOptions) run(path string) error {
	s, zoneless, err := o.look(path)
	if err != nil {
		return err
	}
	r := describe(s, zoneless)
	if o.json {
		e := json.NewEncoder(o.out)
		e.SetIndent("", "  ")
		return e.Encode(r)
	}
	return r.page(o.out)
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
