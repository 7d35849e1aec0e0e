// Package readback takes the inputs out of a workbook that somebody may have
// edited, so that it can be written anew.
//
// Cells are found by their defined names, never by their place: the file may
// have been renamed, saved by another program, or given more rows. An input
// that still follows its rule (its cell holds the rule's name) or still has its
// declared default stays unstated. What is on the sheets besides the inputs is
// not looked at, and text typed where a number belongs is read with its unit
// as on the command line.
package readback

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"github.com/evapbook/evapbook/internal/hint"
	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/workbook/given"
	"github.com/evapbook/evapbook/internal/xlsx"
)

// Book is what a workbook says of its inputs.
type Book struct {
	Job     *job.Job     // with the inputs that were stated in it
	Units   units.System // of the workbook
	Weather Weather

	// Notes name what could not be read and was left at its default, because
	// the workbook does not have it.
	Notes []string
}

// Weather is where the workbook's weather came from.
type Weather struct {
	File   string // name of the file
	Path   string // as it was given; empty for the built-in sample
	Flags  []string
	SHA256 string // of the file, lower-case hex
}

// Read reads a workbook written by evapbook. Inputs whose cells hold something
// that is not possible are errors, all reported at once with sheet and cell.
func Read(path string) (*Book, error) {
	r, err := xlsx.OpenReader(path)
	if err != nil {
		return nil, hint.With(fmt.Errorf("%s: not a workbook that can be read: %w", path, err), "save it as .xlsx")
	}
	defer r.Close()
	b, err := guarded(r)
	if err != nil {
		return nil, errors.Join(inFile(path, err)...)
	}
	return b, nil
}

// guarded reads a file that may be damaged with a library that trusts it: a
// panic of that library is a damaged file, here and nowhere else.
func guarded(r *xlsx.Reader) (b *Book, err error) {
	defer func() {
		if p := recover(); p != nil {
			b, err = nil, hint.With(fmt.Errorf("damaged workbook (%v)", p), "open it in a spreadsheet program and save it anew as .xlsx")
		}
	}()
	return read(r)
}

// inFile puts the name of the file before each error.
func inFile(path string, err error) []error {
	var all []error
	for _, e := range hint.Parts(err) {
		all = append(all, fmt.Errorf("%s: %w", path, e))
	}
	return all
}

type reader struct {
	*xlsx.Reader
	book    *Book
	station string
	place   string
	values  bool // the workbook has no formulas
}

func read(x *xlsx.Reader) (*Book, error) {
	if !known(x) {
		return nil, hint.With(errors.New("has no input cells of evapbook"), "give a workbook that evapbook write made")
	}
	r := &reader{Reader: x, book: &Book{Job: job.New()}}
	if err := r.source(); err != nil {
		return nil, err
	}
	var errs []error
	for _, in := range job.Inputs() {
		if err := r.input(in); err != nil {
			errs = append(errs, err)
		}
	}
	if len(errs) == 0 {
		errs = append(errs, r.options())
	}
	return r.book, errors.Join(errs...)
}

// known tells whether there is an input at all. Where the sheet was deleted their
// names are left, and refer to nothing.
func known(x *xlsx.Reader) bool {
	for _, in := range job.Inputs() {
		if _, err := x.Cell("In_" + in.CellName()); !errors.Is(err, xlsx.ErrNoCell) {
			return true
		}
	}
	return false
}

// text is the text of a named cell, empty where there is none.
func (r *reader) text(name string) string {
	c, err := r.Cell(name)
	if err != nil {
		return ""
	}
	s, _ := c.Value.(string)
	return strings.TrimSpace(s)
}

// source reads the cells that say where the figures came from.
func (r *reader) source() error {
	sys, err := units.ParseSystem(r.text(given.SourceUnits))
	if err != nil {
		return hint.With(fmt.Errorf("does not say its units: the cell named %s is gone or changed", given.SourceUnits), "put si or ip there")
	}
	r.book.Units = sys
	r.station, r.place = r.text(given.SourceStation), r.text(given.SourcePlace)
	r.values = r.text(given.SourceKind) == given.ValuesOnly
	r.book.Weather = Weather{
		File: r.text(given.SourceFile), Path: r.text(given.SourcePath),
		Flags: strings.Fields(r.text(given.SourceFlags)), SHA256: r.text(given.SourceSHA256),
	}
	return nil
}

// input states one input from its cell, unless it is left alone.
func (r *reader) input(in job.Input) error {
	c, err := r.Cell("In_" + in.CellName())
	if errors.Is(err, xlsx.ErrNoCell) {
		r.book.Notes = append(r.book.Notes, fmt.Sprintf("%s is not in the workbook (%v); its default is taken", in.Key, err))
		return nil
	}
	if err == nil && r.driven(in, c) {
		c, err = r.Cell(given.OptionValue(0, in))
	}
	if err == nil {
		err = r.state(in, c)
	}
	if err != nil {
		return fmt.Errorf("%s!%s: %w", c.Sheet, c.Ref, err)
	}
	return nil
}

func (r *reader) state(in job.Input, c xlsx.Found) error {
	if !in.Numeric() {
		if c.Value == nil && in.Choices != nil {
			return hint.With(fmt.Errorf("%s: is empty", in.Key), "choose one of %s", strings.Join(in.Choices, ", "))
		}
		if words := r.words(in, c); words != "" {
			return r.book.Job.Set(in.Key, words)
		}
		return nil
	}
	if strings.EqualFold(c.Formula, given.RuleName(in)) {
		return nil
	}
	switch v := c.Value.(type) {
	case nil:
		return r.empty(in)
	case float64:
		return r.number(in, v)
	case string:
		if strings.HasPrefix(v, "#") {
			return hint.With(fmt.Errorf("%s: shows %s", in.Key, v), "its formula fails; type a value")
		}
		if n, err := units.Parse(units.Plain, v); err == nil { // 0x1p2 and inf are no numbers for people
			return r.number(in, n)
		}
		return r.book.Job.Set(in.Key, v)
	}
	return fmt.Errorf("%s: %v is not a number", in.Key, c.Value)
}

// sameNumber is the relative difference up to which a number in a cell is the
// round one that a person stated: two conversions change the last digits.
const sameNumber = 1e-14

// number states a number as the workbook shows it. Where it is round in one of
// the unit systems it is taken as stated there.
func (r *reader) number(in job.Input, v float64) error {
	if r.leftAlone(in, v) {
		return nil
	}
	if text, ok := r.round(in, v); ok {
		return r.book.Job.Set(in.Key, text)
	}
	return r.book.Job.SetSI(in.Key, in.Kind.Unit(r.book.Units).ToSI(v))
}

// round is a number as a person stated it, if it is round in a unit system.
func (r *reader) round(in job.Input, v float64) (string, bool) {
	si := in.Kind.Unit(r.book.Units).ToSI(v)
	for _, sys := range []units.System{r.book.Units, units.SI, units.IP} {
		text := in.Kind.Text(si, sys)
		if round, err := units.Parse(in.Kind, text); err == nil && math.Abs(round-si) <= sameNumber*math.Abs(si) {
			return text, true
		}
	}
	return in.Kind.Text(si, r.book.Units), false
}

func (r *reader) empty(in job.Input) error {
	advice := "type a value within " + in.Range(r.book.Units)
	if in.Rule != nil {
		advice = "type =" + given.RuleName(in) + " to leave it to its rule: " + in.Rule.Text
	}
	return hint.With(fmt.Errorf("%s: is empty", in.Key), "%s", advice)
}

// leftAlone tells whether a number is the declared default, or what the rule
// gives in a workbook that has no formulas to tell by.
func (r *reader) leftAlone(in job.Input, v float64) bool {
	near := func(a, b float64) bool { return math.Abs(a-b) <= 1e-9*math.Abs(b) }
	if in.Rule != nil {
		rule, err := r.Cell(given.RuleName(in))
		n, ok := rule.Value.(float64)
		return r.values && err == nil && ok && near(v, n)
	}
	d, err := units.Parse(in.Kind, in.Default)
	return err == nil && near(in.Kind.Unit(r.book.Units).ToSI(v), d)
}

// words is a text or choice that differs from what it is anyway.
func (r *reader) words(in job.Input, c xlsx.Found) string {
	text := ""
	if c.Value != nil {
		text = strings.TrimSpace(fmt.Sprint(c.Value))
	}
	name := in.Key == "site.name" && (text == r.station || text == r.place)
	ruled := in.Rule != nil && in.Rule.Word != nil && text == r.text(given.RuleName(in))
	if text == in.Default || name || ruled {
		return ""
	}
	return text
}
