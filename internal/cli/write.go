package cli

import (
	"fmt"
	"io"
	"math"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"github.com/evapbook/evapbook/internal/hint"
	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/places"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/workbook"
	"github.com/evapbook/evapbook/internal/workbook/figures"
)

type writeOptions struct {
	*streams
	jobFlags
	weatherFlags
	onePlace

	output string
	force  bool
	hours  string
	json   bool
	quiet  bool
	values bool
	reader string // for whom the workbook is
}

func newWriteCmd(s *streams) *cobra.Command {
	o := &writeOptions{streams: s}
	cmd := &cobra.Command{
		Use:   "write [WEATHER...]",
		Short: "Write the workbook for a weather file",
		Long: `Write writes a workbook for the stated house and cooler at the stated altitude.

The weather is that of a town (--place, the typical year of the station whose
climate is nearest, from within the program), of an hourly weather file (TMY3, EPW
and others, told apart by content; .gz and .zip are unpacked; - is standard
input), or, without either, of the built-in sample, an invented town. With both,
the house stands in the town and the weather is the file's.

Of several years, in one file, in several, in a folder or a zip archive, the
workbook shows the hours of the median year and compares all on the sheet Years.

With --from, inputs and weather are those of a workbook, as somebody has edited
it; flags come on top.`,
		Example: `  # the built-in sample
  evapbook write

  # any town of the United States
  evapbook write --place "Reno, NV"

  # a house at 2,840 ft, its weather from an airport file
  evapbook write boise.csv --altitude 2840ft --floor-area 1600ft2

  # ten years of an airport, the hours of one of them
  evapbook write boise-2010-2019.csv --year 2017

  # the same from a file a year
  evapbook write boise-2017.csv boise-2018.csv boise-2019.csv

  # a job file, one value changed, the headline figures for another program
  evapbook write boise.csv --job house.toml --set cooler.effectiveness=0.85 --json

  # two offers beside the house as entered, on the sheet Options
  evapbook write boise.csv --option "Two-stage: cooler.kind=two-stage, price.cooler_installed=5200" \
    --option "Larger: cooler.airflow=6500cfm, price.cooler_installed=4400"

  # anew, with the inputs as somebody changed them in the workbook
  evapbook write --from boise.xlsx -o boise-2.xlsx`,
		Args: usageArgs(cobra.ArbitraryArgs),
		RunE: func(_ *cobra.Command, args []string) error { return o.run(args) },
	}
	f := cmd.Flags()
	f.StringVarP(&o.output, "output", "o", "", "workbook to write (default: site name.xlsx in this folder)")
	f.BoolVar(&o.force, "force", false, "replace files that exist")
	f.StringVar(&o.hours, "hours", "", "also write the hour table to this CSV file")
	f.BoolVar(&o.json, "json", false, "print the headline figures as JSON on standard output")
	f.StringVar(&o.from, "from", "", fromUsage)
	f.StringArrayVar(&o.offer, "option", nil, optionUsage)
	f.StringVar(&o.show, "show", "", showUsage)
	f.BoolVar(&o.values, "values", false, "leave the formulas out: a light workbook for phones and mail")
	f.StringVar(&o.reader, "for", "", "customer: only the pages a customer reads, as values, for mail and phone")
	f.BoolVarP(&o.quiet, "quiet", "q", false, "no summary")
	f.StringVar(&o.year, "year", "", "of several years, the one whose hours the workbook shows, e.g. 2017 (default: the median by held share)")
	o.jobFlags.add(f)
	o.weatherFlags.add(f)
	o.onePlace.add(f)
	return completable(cmd)
}

// forCustomer is the reader who gets a light workbook.
const forCustomer = "customer"

func (o *writeOptions) run(args []string) error {
	if o.reader != "" && o.reader != forCustomer {
		return usageError{hint.With(fmt.Errorf("--for: %q is no reader", o.reader), "customer is; without --for the workbook is for all")}
	}
	inputs := args
	if len(inputs) == 0 {
		inputs = []string{""}
	}
	if err := o.readFrom(o.err); err != nil {
		return err
	}
	j, err := o.jobFlags.build()
	if err != nil {
		return err
	}
	if err := o.onePlace.state(j); err != nil {
		return err
	}
	sited, err := sitedBy(j)
	if err != nil {
		return err
	}
	switch {
	case len(args) > 0:
		if inputs, err = unfold(args); err != nil {
			return err
		}
	case sited != nil && (o.place+o.near != "" || o.base == nil || o.base.Weather.Path == ""):
		inputs = []string{stationPath(sited.Station())}
	case o.base != nil:
		if inputs, err = o.weathersOf(o.base, o.from); err != nil {
			return err
		}
	}
	c, err := o.load(j, sited, inputs)
	if err != nil {
		return err
	}
	name := o.output
	if name == "" {
		name = c.Season.Job.FileName() + ".xlsx"
	}
	if c.Logo, err = readLogo(c.Season.Job.Proposal.Logo, o.err); err != nil {
		return err
	}
	outputs := []output{{path: name, write: func(w io.Writer) error { return workbook.Write(w, c) }, ending: ".xlsx"}}
	if o.hours != "" {
		outputs = append(outputs, output{path: o.hours, write: c.WriteHours, ending: ".csv"})
	}
	if err := checkOutputs(outputs, o.force, append(slices.Clone(inputs), o.job, o.from, c.Season.Job.Proposal.Logo)...); err != nil {
		return err
	}
	taken := toStandard(outputs)
	if taken && o.json {
		return hint.With(usagef("standard output is named for --json and for a file"), "give the file a name")
	}
	if err := (writer{force: o.force, standard: o.out}).files(outputs); err != nil {
		return err
	}
	if o.json {
		if err := c.WriteJSON(o.out); err != nil {
			return err
		}
	}
	if o.quiet {
		return nil
	}
	w := o.out
	if o.json || taken { // standard output stays clean
		w = o.err
	}
	return summarise(w, c, name)
}

// Prices in $ that nobody pays: of a kWh, and of a cubic metre of water ($100 a
// thousand gallons). Common practice, no source: some ten times what is usual.
const dearestPower, dearestWater = 3, 26.4

// doubtPrices asks whether a price is one in cents, or of another amount.
func doubtPrices(j *job.Job, notes io.Writer) {
	if j.Price.Currency != "$" {
		return
	}
	for _, p := range []struct {
		key   string
		price float64
	}{
		{"price.electricity", j.Price.Electricity},
		{"price.season_electricity", j.Price.SeasonElectricity},
		{"price.peak_electricity", j.Price.PeakElectricity},
	} {
		if j.Stated(p.key) && p.price > dearestPower {
			fmt.Fprintf(notes, "evapbook: %s is $%g a kWh; were cents meant? write %gc/kWh\n", p.key, p.price, p.price)
		}
	}
	if j.Price.Water > dearestWater {
		fmt.Fprintf(notes, "evapbook: price.water is $%.4g a thousand gallons; was one price for all of them meant? write 6/kgal\n", units.PricePerVolume.Unit(units.IP).FromSI(j.Price.Water))
	}
}

// load reads weather and job and computes the case.
func (o *writeOptions) load(j *job.Job, sited *places.Sited, inputs []string) (*figures.Case, error) {
	files, err := o.files(inputs, j.Stated(siteAltitude) || sited != nil && !math.IsNaN(sited.Elevation()))
	if err != nil {
		return nil, err
	}
	sys, err := o.jobFlags.system(files.First)
	if err != nil {
		return nil, err
	}
	name, elevation := files.First.Place(), files.First.Station.Elevation
	if sited != nil {
		if !isStation(inputs[0]) {
			sited.Candidates = nil
			if st := files.First.Station; !math.IsNaN(st.Latitude + st.Longitude) {
				sited.FileKm = places.Km(st.Latitude, st.Longitude, sited.Place.Latitude, sited.Place.Longitude)
			}
		}
		name = sited.Place.Name
		if e := sited.Elevation(); !math.IsNaN(e) {
			elevation = e
		}
	}
	if j, err = j.Live(); err != nil {
		return nil, err
	}
	if err := j.Resolve(name, elevation, files.First.Station.Region()); err != nil {
		return nil, err
	}
	doubtPrices(j, o.err)
	c, err := o.compute(files, j, sys)
	if err != nil {
		return nil, err
	}
	c.Given = figures.Given{Flags: o.weatherFlags.text()}
	if !isStation(inputs[0]) {
		c.Given.Path = filepath.ToSlash(strings.Join(inputs, fileSeparator))
	}
	c.Sited = sited
	c.Light = o.reader == forCustomer
	c.ValuesOnly = o.values || c.Light
	return c, nil
}
