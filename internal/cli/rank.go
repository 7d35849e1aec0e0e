package cli

import (
	"context"
	"crypto/sha256"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"path/filepath"
	"runtime"
	"runtime/debug"
	"slices"
	"strings"
	"syscall"
	"time"

	"github.com/spf13/cobra"

	"github.com/evapbook/evapbook/internal/hint"
	"github.com/evapbook/evapbook/internal/ranking"
	"github.com/evapbook/evapbook/internal/season"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/version"
	"github.com/evapbook/evapbook/internal/weather"
	"github.com/evapbook/evapbook/internal/workbook/manysites"
)

type rankOptions struct {
	*streams
	jobFlags
	weatherFlags
	manyPlaces

	output, csv, parquet, hours string
	vary, join                  []string
	shard                       string
	jobs                        int
	force, quiet, raw, verbose  bool
	passed                      []string // files of folders that are not considered
}

func newRankCmd(s *streams) *cobra.Command {
	o := &rankOptions{streams: s}
	cmd := &cobra.Command{
		Use:   "rank [FILE|FOLDER|PATTERN...]",
		Short: "Compare many sites: one house, three kinds of cooler, every weather file",
		Long: `Rank runs the same house through every weather file, each at the altitude its
file gives, with a direct, an indirect and a two-stage cooler, and writes a
workbook that ranks the sites, a table for other programs, or both. With --places
it needs no files: the stations of the United States are within the program.

A file that cannot be used is left out, named with its reason, and does not stop
the others; the exit status is then 3. Folders are searched for weather files.

--vary adds a row for each value of an input; several --vary combine. --shard
takes a part of the files, for schedulers; --join reads the parts' Parquet tables
and gives what the run in one piece would have given.`,
		Example: `  # the stations of two states, and all there are
  evapbook rank --places NM,AZ
  evapbook rank --places all --csv all.csv

  # all files of a folder
  evapbook rank stations/ -o zone.xlsx

  # how much do better pads and more air bring? a table, no workbook
  evapbook rank stations/ --vary cooler.effectiveness=0.6:0.95:0.05 --vary cooler.airflow=3000cfm,4500cfm --csv study.csv

  # the second of eight parts, and all of them joined
  evapbook rank archive/ --shard 2/8 --parquet parts/2.parquet
  evapbook rank --join 'parts/*.parquet' -o zone.xlsx`,
		RunE: func(cmd *cobra.Command, args []string) error { return o.run(cmd.Context(), args) },
	}
	f := cmd.Flags()
	f.StringVarP(&o.output, "output", "o", "", "workbook to write (default: zone.xlsx, if no other output is asked for)")
	f.StringVar(&o.csv, "csv", "", "write the rows to this CSV file")
	f.StringVar(&o.parquet, "parquet", "", "write the rows to this Parquet file, for other programs and --join")
	f.StringVar(&o.hours, "hours", "", "write the hours of every site as Parquet into this folder")
	f.StringArrayVar(&o.vary, "vary", nil, "vary an input, as key=from:to:step or key=a,b,c; may be repeated")
	f.StringVar(&o.shard, "shard", "", "take only part i of n of the files, as i/n")
	f.StringArrayVar(&o.join, "join", nil, "read the Parquet tables of all parts instead of weather; a pattern or a file, may be repeated")
	f.IntVarP(&o.jobs, "jobs", "j", runtime.GOMAXPROCS(0), "sites worked on at a time")
	f.BoolVar(&o.force, "force", false, "replace files that exist")
	f.BoolVar(&o.raw, "raw", false, "leave cells of CSV as they are; by default texts that a spreadsheet program would take for a formula get an apostrophe")
	f.BoolVarP(&o.quiet, "quiet", "q", false, "no progress and no summary")
	o.jobFlags.add(f)
	o.weatherFlags.add(f)
	f.BoolVar(&o.verbose, "verbose", false, "name every file left out or not considered, not only the first ten")
	o.manyPlaces.add(f)
	return completable(cmd)
}

func (o *rankOptions) run(ctx context.Context, args []string) error {
	if len(args) == 0 && len(o.join) == 0 && o.manyPlaces.none() {
		return hint.With(usagef("no weather files and no places named"), "evapbook rank stations/ -o zone.xlsx, or evapbook rank --places NM,AZ")
	}
	if o.output == "" && o.csv == "" && o.parquet == "" && o.hours == "" {
		o.output = "zone.xlsx"
	}
	if _, err := o.statedUnits(); err != nil {
		return err
	}
	if err := checkOutputs(o.named(&ranking.Table{}, nil), o.force, append(slices.Clone(args), o.job)...); err != nil {
		return err
	}
	var t *ranking.Table
	var err error
	if len(o.join) > 0 {
		t, err = o.joined(args)
	} else {
		t, err = o.computed(ctx, args)
	}
	if err != nil {
		return err
	}
	if err := o.write(t); err != nil {
		return err
	}
	return o.finish(t)
}

// named lists the files to write; without a table they can only be checked.
func (o *rankOptions) named(t *ranking.Table, book func(io.Writer) error) []output {
	var named []output
	for _, out := range []output{
		{path: o.csv, write: func(w io.Writer) error { return t.WriteCSV(w, o.raw) }, ending: ".csv"},
		{path: o.parquet, write: t.WriteParquet, ending: ".parquet"},
		{path: o.output, write: book, ending: ".xlsx"},
	} {
		if out.path != "" {
			named = append(named, out)
		}
	}
	return named
}

// joined reads the parts of a sharded run.
func (o *rankOptions) joined(args []string) (*ranking.Table, error) {
	if len(o.vary) > 0 || o.shard != "" || o.hours != "" || o.jobFlags.stated() || o.weatherFlags != (weatherFlags{humidity: string(weather.PreferAuto)}) {
		return nil, usagef("--join takes what the parts hold: only output files and --units go with it")
	}
	var paths []string
	for _, pattern := range append(o.join, args...) { // a shell may have spread the pattern
		found, err := filepath.Glob(pattern)
		if err != nil {
			return nil, usagef("%s: not a pattern", pattern)
		}
		if len(found) == 0 {
			return nil, fmt.Errorf("%s: no such file", pattern)
		}
		paths = append(paths, found...)
	}
	if err := checkOutputs(o.named(&ranking.Table{}, nil), o.force, paths...); err != nil {
		return nil, err
	}
	for _, path := range paths {
		if err := checkInput(path); err != nil {
			return nil, err
		}
	}
	return ranking.Join(paths)
}

// stated says whether a flag states an input.
func (o *jobFlags) stated() bool {
	for _, v := range o.short {
		if *v != "" {
			return true
		}
	}
	return o.job != "" || len(o.set) > 0
}

// computed runs the sites.
func (o *rankOptions) computed(ctx context.Context, args []string) (*ranking.Table, error) {
	r, err := o.plan(args)
	if err != nil {
		return nil, err
	}
	if o.hours != "" {
		if err := os.MkdirAll(o.hours, 0o755); err != nil {
			return nil, fmt.Errorf("%s: cannot make the folder: %w", o.hours, err)
		}
		paths := hoursPaths(o.hours, r.Files)
		r.Keep = func(f ranking.File, rows []ranking.Row, seasons []*season.Season) error {
			return o.keepHours(paths[f.Name], rows, seasons)
		}
	}
	p := newProgress(o.err, "files")
	if !o.quiet {
		r.Progress = p.report
	}
	spendMemory(o.jobs)
	ctx, stop := signal.NotifyContext(ctx, os.Interrupt, syscall.SIGTERM)
	defer stop()
	context.AfterFunc(ctx, stop) // a second interrupt ends the program at once
	t, err := r.Do(ctx)
	p.clear()
	if errors.Is(err, context.Canceled) {
		return nil, o.stopped(t, r)
	}
	if err == nil && !o.quiet {
		spent := time.Since(p.started)
		fmt.Fprintf(o.err, "%s in %s, %.1f a second\n", several(t.Sites(), "site"), spent.Round(10*time.Millisecond), float64(t.Sites())/spent.Seconds())
	}
	return t, err
}

// protect refuses outputs that are among the files of the run.
func (o *rankOptions) protect(r *ranking.Run) error {
	outputs := o.named(&ranking.Table{}, nil)
	if o.hours != "" {
		paths := hoursPaths(o.hours, r.Files)
		for i, f := range r.Files {
			if r.Shard.Takes(i) {
				outputs = append(outputs, output{path: paths[f.Name], inNew: true})
			}
		}
	}
	return checkOutputs(outputs, o.force, append(pathsOf(r.Files), o.job)...)
}

func pathsOf(files []ranking.File) []string {
	var paths []string
	for _, f := range files {
		paths = append(paths, f.Path)
	}
	return paths
}

// spendMemory lets garbage pile up, which saves a sixth of the processor time,
// but not beyond what the workers need and a machine has to spare.
func spendMemory(workers int) {
	const garbagePercent, least, perWorker = 400, 200 << 20, 40 << 20
	debug.SetGCPercent(garbagePercent)
	debug.SetMemoryLimit(max(least, int64(workers)*perWorker))
}

func (o *rankOptions) plan(args []string) (*ranking.Run, error) {
	if o.jobs < 1 {
		return nil, usagef("--jobs %d: at least 1", o.jobs)
	}
	r := &ranking.Run{Version: version.Text(), Workers: o.jobs, Shard: ranking.Whole}
	var err error
	if o.shard != "" {
		if r.Shard, err = ranking.ParseShard(o.shard); err != nil {
			return nil, usageError{fmt.Errorf("--shard: %w", err)}
		}
	}
	for _, text := range o.vary {
		a, err := ranking.ParseAxis(text)
		if err != nil {
			return nil, usageError{fmt.Errorf("--vary: %w", err)}
		}
		r.Axes = append(r.Axes, a)
	}
	if o.hours != "" && len(o.vary) > 0 {
		return nil, hint.With(usagef("--hours does not go with --vary: the hours of all combinations would fill the disk"), "run the combination you want with --set")
	}
	if r.Weather, err = o.weatherFlags.options(); err != nil {
		return nil, err
	}
	if r.Job, err = o.jobFlags.buildForMany(o.err); err != nil {
		return nil, err
	}
	if r.Files, o.passed, err = o.sites(o.err, args, r.Job); err != nil {
		return nil, err
	}
	return r, o.protect(r)
}

func (o *rankOptions) writer() writer { return writer{force: o.force, standard: o.out} }

// keepHours writes the hours of a site, whole or not at all.
func (o *rankOptions) keepHours(path string, rows []ranking.Row, seasons []*season.Season) error {
	w := writer{force: o.force, patient: true}
	return w.file(path, func(w io.Writer) error { return ranking.WriteHours(w, rows, seasons) })
}

// hoursPaths are the files for the hours of all sites of a run, by the names of
// their weather files. Two sites never share one: names that would be the same,
// also to systems that take capital and small letters for one, are told apart
// by a part of their SHA-256.
func hoursPaths(folder string, files []ranking.File) map[string]string {
	plain := func(f ranking.File) string {
		return strings.NewReplacer("/", "-", "\\", "-").Replace(strings.TrimPrefix(f.Name, "/"))
	}
	uses := map[string]int{}
	for _, f := range files {
		uses[strings.ToLower(plain(f))]++
	}
	paths := map[string]string{}
	for _, f := range files {
		name := plain(f)
		if uses[strings.ToLower(name)] > 1 || len(name) > longestBase {
			name = fmt.Sprintf("%.*s-%.4x", longestBase, name, sha256.Sum256([]byte(f.Name)))
		}
		paths[f.Name] = filepath.Join(folder, name+".parquet")
	}
	return paths
}

// stopped says what an interrupted run has done.
func (o *rankOptions) stopped(t *ranking.Table, r *ranking.Run) error {
	done, kept := t.Sites()+len(t.Left), "nothing was written"
	if o.hours != "" {
		kept = fmt.Sprintf("the hours of %s stand in %s, no table was written", several(t.Sites(), "site"), o.hours)
	}
	return fmt.Errorf("stopped after %s of %s files; %s", count(done), count(r.Mine()), kept)
}

// write writes the tables and the workbook, all or none. A table without rows
// has no workbook.
func (o *rankOptions) write(t *ranking.Table) error {
	sys, err := o.rankUnits(t)
	if err != nil {
		return err
	}
	if len(t.Rows) == 0 {
		o.output = ""
	}
	return o.writer().files(o.named(t, (&manysites.Book{Table: t, Units: sys}).Write))
}

// statedUnits is the unit system of --units, SI where there is none.
func (o *rankOptions) statedUnits() (units.System, error) {
	if o.units == "" {
		return units.SI, nil
	}
	sys, err := units.ParseSystem(o.units)
	if err != nil {
		return 0, usageError{fmt.Errorf("--units: %w", err)}
	}
	return sys, nil
}

// rankUnits is the unit system people see: as stated, else that of the United
// States if all sites are there.
func (o *rankOptions) rankUnits(t *ranking.Table) (units.System, error) {
	if o.units != "" {
		return o.statedUnits()
	}
	for i := range t.Rows {
		if !weather.InUnitedStates(t.Rows[i].Country) {
			return units.SI, nil
		}
	}
	return units.IP, nil
}
