package cli

import (
	"context"
	"fmt"
	"io"
	"runtime"
	"slices"
	"strings"
	"text/tabwriter"
	"time"

	"github.com/spf13/cobra"
	"golang.org/x/sync/errgroup"

	"github.com/evapbook/evapbook/internal/csvcell"
	"github.com/evapbook/evapbook/internal/hint"
	"github.com/evapbook/evapbook/internal/ical"
	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/ranking"
	"github.com/evapbook/evapbook/internal/startup"
	"github.com/evapbook/evapbook/internal/version"
)

type calendarOptions struct {
	*streams
	jobFlags
	weatherFlags
	manyPlaces

	ics, csv string
	year     int
	margin   int
	force    bool
	raw      bool
}

func newCalendarCmd(s *streams) *cobra.Command {
	o := &calendarOptions{streams: s}
	cmd := &cobra.Command{
		Use:   "calendar [FILE|FOLDER|PATTERN...]",
		Short: "The weeks for start-up and close-down at many sites",
		Long: `Calendar runs the stated house and cooler through every weather file and says when
to start each cooler up and close it down: after the last freeze and before the
season is on in earnest, and the other way round in autumn. In earnest: a
twentieth of the hours that need water lies before, and a twentieth after.

Where there are five years or more of a place, in one file or several, the dates
are those safe in nine years of ten; with fewer, --margin days are kept from the
freezes. South of the equator the year begins in July. Forecasts decide in the
end: drain again if it is to freeze.`,
		Example: `  # when to visit in two towns, without a file
  evapbook calendar --place "Reno, NV" --place "Bend, OR"

  # when to visit which customer, as a table
  evapbook calendar stations/

  # the same for a calendar program
  evapbook calendar stations/ --ics visits.ics --year 2027`,
		Args: usageArgs(cobra.ArbitraryArgs),
		RunE: func(cmd *cobra.Command, args []string) error { return o.run(cmd.Context(), args) },
	}
	f := cmd.Flags()
	f.StringVar(&o.ics, "ics", "", "write the visits of --year to this calendar file (iCalendar)")
	f.StringVar(&o.csv, "csv", "", "write the table to this CSV file too")
	f.IntVar(&o.year, "year", 0, "year of the visits in --ics; south of the equator the one in which the summer begins")
	f.IntVar(&o.margin, "margin", startup.FreezeMargin, "days to keep from the freezes of fewer than five years")
	f.BoolVar(&o.force, "force", false, "replace files that exist")
	f.BoolVar(&o.raw, "raw", false, "leave cells of CSV as they are; by default texts that a spreadsheet program would take for a formula get an apostrophe")
	o.jobFlags.add(f)
	o.weatherFlags.add(f)
	o.manyPlaces.add(f)
	return completable(cmd)
}

func (o *calendarOptions) run(ctx context.Context, args []string) error {
	if err := o.check(args); err != nil {
		return err
	}
	j, err := o.jobFlags.buildForMany(o.err)
	if err != nil {
		return err
	}
	files, passed, err := o.sites(o.err, args, j)
	if err != nil {
		return err
	}
	if err := checkOutputs(o.outputs(), o.force, append(pathsOf(files), o.job)...); err != nil {
		return err
	}
	places, left, err := o.visits(ctx, files, j)
	if err != nil {
		return err
	}
	places = startup.Join(places)
	if len(places) > 0 {
		if err := o.write(places); err != nil {
			return err
		}
	}
	for _, p := range places {
		for _, n := range p.Notes {
			fmt.Fprintf(o.err, "evapbook: %s\n", n)
		}
	}
	sayPassed(o.err, passed, false)
	for _, l := range left {
		fmt.Fprintf(o.err, "left out: %s\n", l)
	}
	if len(left) > 0 {
		return leftOutError{fmt.Errorf("done, but %d of %d files were left out", len(left), len(files))}
	}
	return nil
}

func (o *calendarOptions) check(args []string) error {
	switch {
	case len(args) == 0 && o.manyPlaces.none():
		return hint.With(usagef("no weather files and no places named"), "evapbook calendar stations/, or evapbook calendar --place \"Reno, NV\"")
	case o.ics != "" && o.year == 0:
		return hint.With(usagef("--ics needs the year of the visits"), "add --year, such as --year 2027")
	case o.year != 0 && (o.year < 1900 || o.year > 9000):
		return usagef("--year %d: not a year from 1900 to 9000", o.year)
	case o.year != 0 && o.ics == "":
		return usagef("--year goes with --ics: the table has days of any year")
	case o.margin < 0 || o.margin > 90:
		return usagef("--margin %d: not a number of days from 0 to 90", o.margin)
	}
	if toStandard(o.outputs()) {
		return hint.With(usagef("standard output has the table for people"), "give the file a name")
	}
	return checkOutputs(o.outputs(), o.force, append(slices.Clone(args), o.job)...)
}

// outputs are the files asked for, to be checked.
func (o *calendarOptions) outputs() []output {
	var outputs []output
	for _, out := range []output{{path: o.ics, ending: ".ics"}, {path: o.csv, ending: ".csv"}} {
		if out.path != "" {
			outputs = append(outputs, out)
		}
	}
	return outputs
}

// visits runs the files, a few at a time. A file that cannot be used is left
// out with its reason.
func (o *calendarOptions) visits(ctx context.Context, files []ranking.File, j *job.Job) (places []*startup.Place, left []string, err error) {
	if _, err := o.weatherFlags.options(); err != nil {
		return nil, nil, err
	}
	found, reasons := make([][]*startup.Place, len(files)), make([]error, len(files))
	years := make([]*realYears, len(files))
	g, ctx := errgroup.WithContext(ctx)
	g.SetLimit(runtime.GOMAXPROCS(0))
	for i := range files {
		g.Go(func() error {
			if ctx.Err() != nil {
				return ctx.Err()
			}
			s, err := o.weatherFlags.open(files[i].Path, o.in)
			if err == nil {
				years[i] = realYearsOf(s, &files[i])
				found[i], err = visit(s, jobThere(j, files[i].Sited))
			}
			reasons[i] = err
			return nil
		})
	}
	if err := g.Wait(); err != nil {
		return nil, nil, err
	}
	if err := o.joinYears(files, years, j, found, reasons); err != nil {
		return nil, nil, err
	}
	for i, p := range found {
		if reasons[i] != nil {
			reason := strings.TrimPrefix(strings.TrimPrefix(hint.Text(reasons[i]), files[i].Path+": "), files[i].Name+": ")
			left = append(left, files[i].Name+": "+reason)
			continue
		}
		places = append(places, p...)
	}
	return places, left, nil
}

// calendarRow is a line of the table.
type calendarRow struct {
	Site        string `csv:"site"`
	Years       int    `csv:"years"`
	LastFreeze  string `csv:"last_freeze"`
	FirstFreeze string `csv:"first_freeze"`
	FirstNeed   string `csv:"first_need"`
	LastNeed    string `csv:"last_need"`
	Opens       string `csv:"season_opens"`
	Closes      string `csv:"season_closes"`
	StartFrom   string `csv:"start_up_from"`
	StartBy     string `csv:"start_up_by"`
	StartWeek   string `csv:"start_up_week"`
	CloseFrom   string `csv:"close_down_from"`
	CloseBy     string `csv:"close_down_by"`
	CloseWeek   string `csv:"close_down_week"`
	Note        string `csv:"note"`
}

func (o *calendarOptions) write(places []*startup.Place) error {
	var rows []calendarRow
	cal := &ical.Calendar{Product: "-//evapbook//" + version.Text() + "//EN", Name: "Evaporative coolers", Stamp: time.Date(o.year, time.January, 1, 0, 0, 0, 0, time.UTC)}
	for _, p := range places {
		plan := startup.PlanOf(p.Years, o.margin)
		rows = append(rows, rowOf(p, &plan))
		cal.Events = append(cal.Events, events(p, &plan, o.year)...)
	}
	var outputs []output
	if o.ics != "" {
		outputs = append(outputs, output{path: o.ics, write: cal.Write})
	}
	if o.csv != "" {
		outputs = append(outputs, output{path: o.csv, write: func(w io.Writer) error { return csvcell.Marshal(rows, w, o.raw) }})
	}
	if err := (writer{force: o.force}).files(outputs); err != nil {
		return err
	}
	return printCalendar(o.out, rows, o.margin)
}

// monthDay writes a counted day for any year; a dash for none.
func monthDay(day int, south bool) string {
	if day == startup.None {
		return "-"
	}
	const anyCommonYear = 2001
	return startup.Date(day, anyCommonYear, south).Format("01-02")
}

func rowOf(p *startup.Place, plan *startup.Plan) calendarRow {
	d := func(day int) string { return monthDay(day, p.South) }
	r := calendarRow{Site: p.Name, Years: plan.Years, LastFreeze: d(plan.LastFreeze), FirstFreeze: d(plan.FirstFreeze), FirstNeed: d(plan.FirstNeed), LastNeed: d(plan.LastNeed), Opens: d(plan.Opens), Closes: d(plan.Closes)}
	if !plan.Needed() {
		r.StartFrom, r.StartBy, r.StartWeek, r.CloseFrom, r.CloseBy, r.CloseWeek = "-", "-", "-", "-", "-", "-"
		r.Note = "no day needs water"
		return r
	}
	r.StartFrom, r.StartBy, r.StartWeek = d(plan.StartUp.From), d(plan.StartUp.By), d(plan.StartUp.Best)
	r.CloseFrom, r.CloseBy, r.CloseWeek = d(plan.CloseDown.From), d(plan.CloseDown.By), d(plan.CloseDown.Best)
	r.Note = strings.Join(remarks(plan), "; ")
	return r
}

// remarks say what is special about a plan.
func remarks(plan *startup.Plan) []string {
	var all []string
	if t, u := plan.StartUp.Tight, plan.CloseDown.Tight; t || u {
		when := "begins before frosts end"
		switch {
		case t && u:
			when = "begins and ends among frosts"
		case u:
			when = "outlasts the first frost"
		}
		all = append(all, "the season "+when+": drain on cold nights")
	}
	if plan.LastFreeze == startup.None && plan.FirstFreeze == startup.None {
		all = append(all, "no freeze in these years")
	}
	if plan.Percentiles {
		all = append(all, "dates safe in nine years of ten")
	}
	return all
}

func printCalendar(w io.Writer, rows []calendarRow, margin int) error {
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	fmt.Fprintln(t, "site\tyears\tlast freeze\tfirst freeze\tseason\tstart-up week of\t(from..by)\tclose-down week of\t(from..by)\tnote")
	for _, r := range rows {
		fmt.Fprintf(t, "%s\t%d\t%s\t%s\t%s..%s\t%s\t%s..%s\t%s\t%s..%s\t%s\n", r.Site, r.Years, r.LastFreeze, r.FirstFreeze, r.Opens, r.Closes,
			r.StartWeek, r.StartFrom, r.StartBy, r.CloseWeek, r.CloseFrom, r.CloseBy, r.Note)
	}
	if err := t.Flush(); err != nil {
		return err
	}
	_, err := fmt.Fprintf(w, "dates are month-day; the season leaves a twentieth of the hours that need water before it and after it; with fewer than %d years, %d days are kept from the freezes; watch the forecast\n", startup.FewYears, margin)
	return err
}

// events are the visits to a place in one year.
func events(p *startup.Place, plan *startup.Plan, year int) []ical.Event {
	if !plan.Needed() {
		return nil
	}
	event := func(what string, w startup.Window, facts string) ical.Event {
		first := startup.Date(w.Best, year, p.South)
		d := func(day int) string { return startup.Date(day, year, p.South).Format("2 January 2006") }
		text := fmt.Sprintf("Window: %s to %s.\n%s", d(w.From), d(w.By), facts)
		for _, r := range remarks(plan) {
			text += "\n" + strings.ToUpper(r[:1]) + r[1:] + "."
		}
		return ical.Event{
			Key:   fmt.Sprintf("%s|%g|%g|%s|%d", p.Name, p.Latitude, p.Longitude, what, year),
			First: first, Last: first.AddDate(0, 0, startup.VisitDays-1),
			Summary: what + ": " + p.Name, Location: p.Name, Description: text + "\nWatch the forecast: drain again if it is to freeze.",
		}
	}
	d := func(day int) string {
		if day == startup.None {
			return "none"
		}
		return startup.Date(day, year, p.South).Format("2 January")
	}
	return []ical.Event{
		event("Cooler start-up", plan.StartUp, fmt.Sprintf("Last freeze in %s of weather: %s. First day that needs water: %s.", several(plan.Years, "year"), d(plan.LastFreeze), d(plan.FirstNeed))),
		event("Cooler close-down", plan.CloseDown, fmt.Sprintf("First freeze in %s of weather: %s. Last day that needs water: %s.", several(plan.Years, "year"), d(plan.FirstFreeze), d(plan.LastNeed))),
	}
}
