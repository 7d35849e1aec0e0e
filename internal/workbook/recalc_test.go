package workbook

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/data/sample"
	"github.com/evapbook/evapbook/internal/evaluator"
	"github.com/evapbook/evapbook/internal/officetest"
	"github.com/evapbook/evapbook/internal/season"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/weather"
	"github.com/evapbook/evapbook/internal/workbook/figures"
)

// readShared reads a real weather file; where it is not there the test says so
// and is skipped.
func readShared(t testing.TB, file string) *weather.Series {
	t.Helper()
	path := filepath.Join("..", "..", "..", "shared", "weather", file)
	if _, err := os.Stat(path); err != nil {
		if os.Getenv(officetest.NoSkip) == "1" {
			t.Fatalf("%v (%s=1: not skipped)", err, officetest.NoSkip)
		}
		t.Skipf("SKIPPED: no real weather file %s beside the repository", file)
	}
	s, err := weather.Open(path, weather.Options{})
	require.NoError(t, err)
	return s
}

func readSample(t testing.TB) *weather.Series {
	t.Helper()
	r, name := sample.Open()
	s, err := weather.Read(r, name, weather.Options{})
	require.NoError(t, err)
	return s
}

// compute runs the engine on the defaults with changes.
func compute(t testing.TB, s *weather.Series, sys units.System, c changes) *figures.Case {
	t.Helper()
	out, err := figures.Compute(s, resolved(t, s, c), sys, "test")
	require.NoError(t, err)
	return out
}

// writeBook writes a case into a temporary file.
func writeBook(t testing.TB, c *figures.Case) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "book.xlsx")
	f, err := os.Create(path)
	require.NoError(t, err)
	require.NoError(t, Write(f, c))
	require.NoError(t, f.Close())
	return path
}

func readBook(t testing.TB, path string) *officetest.Book {
	t.Helper()
	b, err := officetest.ReadBook(path)
	require.NoError(t, err)
	return b
}

// As written, each formula worked out from the file is the engine's value
// beside it to a billionth, in books of every kind. Under -short they are books
// of four weeks, so that a wrong formula shows in seconds.
func TestFormulasAsWritten(t *testing.T) {
	for _, k := range bookKinds {
		t.Run(k.name, func(t *testing.T) {
			t.Parallel()
			if k.years { // a year of four weeks is none
				wholeYear(t)
			}
			proved(t, k.compute(t, hours()))
		})
	}
	for _, k := range realSites {
		t.Run(k.name, func(t *testing.T) {
			t.Parallel()
			wholeYear(t)
			proved(t, compute(t, readShared(t, k.file), k.units, nil))
		})
	}
}

// proved works the formulas of a case's book out.
func proved(t *testing.T, c *figures.Case) {
	t.Helper()
	w, err := evaluator.New(readBook(t, writeBook(t, c)))
	require.NoError(t, err)
	report, err := w.Check(officetest.DefaultTolerance)
	require.NoError(t, err)
	require.Greater(t, report.Formulas(), 80*c.Season.Climate.Valid, "the book has a formula in every cell of every hour")
	agrees(t, report)
}

func agrees(t *testing.T, report *officetest.Report) {
	t.Helper()
	sheet, largest := report.Largest()
	t.Logf("%s: %d formulas, largest relative difference %.1e on %s", report.Program, report.Formulas(), largest, sheet)
	if n := len(report.Failures()); n > 0 {
		t.Errorf("%d of %d formula cells differ\n%v", n, report.Formulas(), report)
	}
}

// The real sites: a cold high desert, a hot low one and a hot high one; two
// file formats; both unit systems.
var realSites = []struct {
	name, file string
	units      units.System
	seed       uint64
}{
	{"Boise TMY3", "tmy3-boise-id.csv", units.IP, 1},
	{"Phoenix EPW", "epw-phoenix-az.epw", units.SI, 2},
	{"Albuquerque TMY3", "tmy3-albuquerque-nm.csv", units.IP, 3},
}

// changedTolerance is what editing a cell may differ from running again: a
// millionth, as the promise says. Cells below the floor are differences of
// equal numbers.
var changedTolerance = officetest.Tolerance{Relative: 1e-6, Floor: 1e-9}

// calculator is an open workbook in which inputs can be changed.
type calculator interface {
	Reset() error
	Set(cells map[string]any) error
	Recalculate() error
	Names(names ...string) (map[string]any, error)
}

// Changing inputs in the open workbook gives the figures that running the
// engine with those inputs gives, in every formula cell of the book. make recalc
// types more of them into whole years of real sites.
func TestChangedInputs(t *testing.T) {
	for _, k := range []struct {
		kind  bookKind
		cases int
		seed  uint64
	}{{bookKinds[0], 3, 4}, {bookKind{name: "wet bulb with gaps", weather: wetWithGaps, units: units.SI}, 3, 5}} {
		t.Run(k.kind.name, func(t *testing.T) {
			t.Parallel()
			base := k.kind.compute(t, fourWeeks)
			written := readBook(t, writeBook(t, base))
			w, err := evaluator.New(written)
			require.NoError(t, err)
			for n := range k.cases {
				c := draw(k.seed, n, base.Series.Station.Elevation)
				t.Run(fmt.Sprint(n+1), func(t *testing.T) {
					changedCase(t, w, func() (officetest.Outcome, error) { return w, nil }, evaluator.Program, base, written, c)
				})
			}
		})
	}
}

// recalcResult is what came of one set of changed inputs.
type recalcResult struct {
	changes changes
	report  *officetest.Report
	inputs  int     // cells changed
	seconds float64 // from the change to the last figure
}

// changedCase types the changes into the open workbook, written as base, and
// compares it with one written for them.
func changedCase(t *testing.T, s calculator, formulas func() (officetest.Outcome, error), program string, base *figures.Case, written *officetest.Book, c changes) recalcResult {
	fresh := compute(t, base.Series, base.Units, c)
	want := readBook(t, writeBook(t, fresh))
	for _, fault := range notLive(written, want) {
		t.Error(fault)
	}
	cells := c.cells(base.Units, base.Season.Job)
	start := time.Now()
	require.NoError(t, s.Reset())
	require.NoError(t, s.Set(cells))
	require.NoError(t, s.Recalculate())
	figures, err := s.Names("Out_hours_held", "B_inputs_changed")
	require.NoError(t, err)
	seconds := time.Since(start).Seconds()
	got, err := formulas()
	require.NoError(t, err)

	report := officetest.Compare(want, program, got, changedTolerance)
	flips := thresholdHours(fresh)
	nameShared(want, report)
	if n := len(report.Failures()); n > 0 {
		t.Errorf("%s: %d cells differ; hours within 1e-6 of a threshold: %v\n%v", c, n, flips, report)
	}
	require.EqualValues(t, c.differing(base.Season.Job), figures["B_inputs_changed"], "the line that counts changed inputs")
	return recalcResult{changes: c, report: report, inputs: len(cells), seconds: seconds}
}

// nameShared gives failures in cells that share a formula the one they share:
// that of the nearest cell above which has one written out.
func nameShared(b *officetest.Book, r *officetest.Report) {
	for i := range r.Sheets {
		s := &r.Sheets[i]
		for k := range s.Failures {
			d := &s.Failures[k]
			if d.Formula != "" {
				continue
			}
			above := officetest.Ref{}
			for _, c := range b.Sheet(s.Sheet).Cells {
				if c.Formula != "" && c.Ref.Col == d.Ref.Col && c.Ref.Row < d.Ref.Row && c.Ref.Row > above.Row {
					above, d.Formula = c.Ref, c.Formula
				}
			}
			d.Formula += " (filled down from " + above.String() + ")"
		}
	}
}

// thresholdHours lists the hours whose outcome hangs on less than a millionth.
func thresholdHours(c *figures.Case) (rows []int) {
	near := func(a, b float64) bool { return math.Abs(a-b) < 1e-6 }
	set, limit := c.Season.House.Setpoint, c.Season.House.HumidityLimit
	for i := range c.Season.Hours {
		h := &c.Season.Hours[i]
		if h.Outcome == season.Missing {
			continue
		}
		if near(h.Load.Sensible, 0) || near(h.Load.Sensible+h.Load.Leak, 0) || near(h.RefSensible, 0) || near(h.Evap.Full, h.Shut) || near(h.Vent.Full, set) || near(h.Vent.RelHum, limit) || near(h.Evap.Full, set) || near(h.Evap.RelHum, limit) {
			rows = append(rows, i)
		}
	}
	return rows
}
