package cli

import (
	"encoding/json"
	"fmt"
	"io"
	"math"
	"strings"
	"text/tabwriter"

	"github.com/spf13/cobra"

	"github.com/evapbook/evapbook/internal/hint"
	"github.com/evapbook/evapbook/internal/reading"
	"github.com/evapbook/evapbook/internal/units"
)

type readingOptions struct {
	*streams
	reading.Written
	onePlace
	csv, output      string
	json, force, raw bool
}

func newReadingCmd(s *streams) *cobra.Command {
	o := &readingOptions{streams: s}
	cmd := &cobra.Command{
		Use:   "reading",
		Short: "Is the air off the pads what it should be, here and now?",
		Long: `Reading takes what was read at the unit, outdoor temperature and humidity and the
supply temperature, and says how effective the cooler is, how surely that is
known, what supply to expect, and what a difference usually means.

Read in the shade, where the air goes in and at the pads, at full fan speed, once
the pads have been wet for 15 minutes. The humidity may be a relative humidity, a
wet bulb or a dew point. Answers come in the units of the question.`,
		Example: `  # on a roof at 6,035 ft
  evapbook reading --altitude 6035ft --outdoor 91F --rh 14% --supply 66F

  # the altitude of a town
  evapbook reading --place "Alamogordo, NM" --outdoor 97F --rh 12% --supply 68F

  # with a wet bulb, old aspen pads, and the fan's heat taken into account
  evapbook reading --altitude 1600m --outdoor 34C --wet-bulb 16.5C --supply 22C --pad aspen --pad-age 3 --airflow 4500cfm --fan-power 700W

  # a day's visits, a table for the office
  evapbook reading --csv visits.csv -o judged.csv`,
		Args: usageArgs(cobra.NoArgs),
		RunE: func(*cobra.Command, []string) error { return o.run() },
	}
	f := cmd.Flags()
	for _, fl := range o.Fields() {
		f.StringVar(fl.Text, strings.ReplaceAll(fl.Name, "_", "-"), "", fl.Usage)
	}
	o.onePlace.add(f)
	f.StringVar(&o.csv, "csv", "", "read visits from this CSV file, one a row; columns are named like the flags, which fill empty cells; - is standard input")
	f.StringVarP(&o.output, "output", "o", "", "with --csv: write the table to this file (default: standard output)")
	f.BoolVar(&o.json, "json", false, "print JSON, in SI")
	f.BoolVar(&o.force, "force", false, "replace a file that exists")
	f.BoolVar(&o.raw, "raw", false, "leave cells of CSV as they are; by default texts that a spreadsheet program would take for a formula get an apostrophe")
	return completable(cmd)
}

// elevated takes the altitude from the place, unless it is stated.
func (o *readingOptions) elevated() error {
	text, err := o.onePlace.text()
	if err != nil || text == "" || o.Altitude != "" {
		return err
	}
	s, err := siteSaying(o.err, text, math.NaN())
	if err != nil {
		return err
	}
	sys := units.IP
	if strings.HasSuffix(strings.ToUpper(o.Outdoor), "C") {
		sys = units.SI
	}
	o.Altitude = units.Altitude.Show(s.Elevation(), sys)
	return nil
}

func (o *readingOptions) run() error {
	if err := o.elevated(); err != nil {
		return err
	}
	if o.csv != "" {
		if o.json {
			return hint.With(usagef("--json and --csv do not go together"), "the table of --csv has the same figures")
		}
		return o.batch()
	}
	if o.output != "" {
		return usagef("-o goes with --csv: a single reading is printed")
	}
	v, c, err := o.Parse(func(field string, err error) error {
		return usageError{fmt.Errorf("--%s: %w", strings.ReplaceAll(field, "_", "-"), err)}
	})
	if err != nil {
		return err
	}
	r, err := reading.Judge(v, c)
	if err != nil {
		return err
	}
	if o.json {
		e := json.NewEncoder(o.out)
		e.SetIndent("", "  ")
		return e.Encode(r.Record())
	}
	return printReading(o.out, r, o.Units())
}

// printReading writes a reading for a person on a roof, in the units typed.
func printReading(w io.Writer, r *reading.Result, in reading.Shown) error {
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	lines := r.Lines(in)
	for i, c := range reading.Cautions {
		lines = append(lines, reading.Line{Label: reading.Once("caution", i), Text: c})
	}
	for _, l := range lines {
		fmt.Fprintf(t, "%s\t%s\n", l.Label, l.Text)
	}
	return t.Flush()
}
