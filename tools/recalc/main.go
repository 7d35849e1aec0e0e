// Command recalc works every formula of a workbook out afresh in LibreOffice
// and compares the results with the values in the file.
//
//	go run ./tools/recalc out/season.xlsx
//	go run ./tools/recalc -gnumeric -readers out/season.xlsx
//	go run ./tools/recalc -set In_fan=0.5 -show Out_water out/season.xlsx
//
// Exit status 1 when a cell differs or a reader reads something else.
package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"strconv"
	"strings"
	"time"

	"github.com/evapbook/evapbook/internal/officetest"
)

func main() {
	if err := run(os.Args[1:], os.Stdout); err != nil {
		fmt.Fprintln(os.Stderr, "recalc:", err)
		os.Exit(1)
	}
}

// list is a flag that may be given several times.
type list []string

func (l *list) String() string     { return strings.Join(*l, ",") }
func (l *list) Set(s string) error { *l = append(*l, s); return nil }

func run(args []string, out io.Writer) error {
	flags := flag.NewFlagSet("recalc", flag.ExitOnError)
	gnumeric := flags.Bool("gnumeric", false, "work the formulas out in Gnumeric, too")
	readers := flags.Bool("readers", false, "read the file with openpyxl and SheetJS, too")
	var sets, shows list
	flags.Var(&sets, "set", "`name=value` or Sheet!A1=value: change an input after the comparison; repeatable")
	flags.Var(&shows, "show", "`name` or Sheet!A1:B9 to print after the changes; repeatable")
	flags.Parse(args)
	if flags.NArg() != 1 {
		return errors.New("give one workbook; hint: go run ./tools/recalc out/season.xlsx")
	}
	path := flags.Arg(0)
	err := libreOffice(out, path, sets, shows)
	if *gnumeric {
		err = errors.Join(err, timed(out, func() error { return secondEngine(out, path) }))
	}
	if *readers {
		err = errors.Join(err, timed(out, func() error { return otherReaders(out, path) }))
	}
	return err
}

// timed prints how long f takes.
func timed(out io.Writer, f func() error) error {
	start := time.Now()
	err := f()
	fmt.Fprintf(out, "  (%.1f s)\n", time.Since(start).Seconds())
	return err
}

func libreOffice(out io.Writer, path string, sets, shows []string) (err error) {
	var s *officetest.Session
	if err := timed(out, func() error { s, err = officetest.Open(path); return err }); err != nil {
		return err
	}
	defer func() { err = errors.Join(err, s.Close()) }()
	err = timed(out, func() error {
		report, err := s.Check(officetest.DefaultTolerance)
		return verdict(out, report, err)
	})
	if err != nil || len(sets)+len(shows) == 0 {
		return err
	}
	return timed(out, func() error { return experiment(out, s, sets, shows) })
}

func verdict(out io.Writer, r *officetest.Report, err error) error {
	if err != nil {
		return err
	}
	fmt.Fprint(out, r)
	if n := len(r.Failures()); n > 0 {
		return fmt.Errorf("%d of %d formula cells differ in %s", n, r.Formulas(), r.Program)
	}
	if r.Formulas() == 0 {
		return errors.New("no formula cells, nothing compared")
	}
	return nil
}

// experiment changes inputs and prints what comes of it.
func experiment(out io.Writer, s *officetest.Session, sets, shows []string) error {
	cells := map[string]any{}
	for _, set := range sets {
		ref, value, ok := strings.Cut(set, "=")
		if !ok {
			return fmt.Errorf("-set %s: want name=value", set)
		}
		cells[ref] = inputValue(value)
	}
	if err := s.Set(cells); err != nil {
		return err
	}
	if err := s.Recalculate(); err != nil {
		return err
	}
	for _, ref := range shows {
		rows, err := s.Range(ref)
		if err != nil {
			return err
		}
		for _, row := range rows {
			fmt.Fprintf(out, "%s: %v\n", ref, row)
		}
	}
	return nil
}

func inputValue(s string) any {
	if x, err := strconv.ParseFloat(s, 64); err == nil {
		return x
	}
	switch s {
	case "TRUE", "true":
		return true
	case "FALSE", "false":
		return false
	}
	return s
}

func secondEngine(out io.Writer, path string) error {
	report, err := officetest.CheckGnumeric(path, officetest.DefaultTolerance)
	return verdict(out, report, err)
}

// otherReaders sets what openpyxl and SheetJS read against our own reading.
func otherReaders(out io.Writer, path string) error {
	b, err := officetest.ReadBook(path)
	if err != nil {
		return err
	}
	samples := b.Sample(2000)
	own := b.Reading(samples)
	for _, s := range own.Sheets {
		fmt.Fprintf(out, "read %-20s %6d rows %4d columns %8d formulas %8d numbers %8d texts\n",
			s.Name, s.Rows, s.Columns, s.Formulas, s.Numbers, s.Texts)
	}
	readers := []struct {
		name string
		read func(string, []string) (*officetest.Reading, error)
	}{{"openpyxl", officetest.OpenPyXL}, {"SheetJS", officetest.SheetJS}}
	for _, r := range readers {
		start := time.Now()
		other, err := r.read(path, samples)
		if err != nil {
			return err
		}
		if d := own.Differences(other, officetest.DefaultTolerance); len(d) > 0 {
			return fmt.Errorf("%s reads %d things otherwise: %s", r.name, len(d), strings.Join(d[:min(10, len(d))], "; "))
		}
		fmt.Fprintf(out, "%s agrees on sheets, counts, sums and %d sampled values (%.1f s)\n", r.name, len(samples), time.Since(start).Seconds())
	}
	return nil
}
