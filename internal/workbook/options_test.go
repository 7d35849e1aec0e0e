package workbook

import (
	"io"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/internal/evaluator"
	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/officetest"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/weather"
	"github.com/evapbook/evapbook/internal/workbook/figures"
)

// offered is a case of a job with two options, the named one shown.
func offered(t *testing.T, s *weather.Series, shown string) *figures.Case {
	t.Helper()
	j := job.New()
	require.NoError(t, j.Set("price.cooler_installed", "3100"))
	for _, text := range []string{"Two-stage, larger: cooler.kind=two-stage, cooler.airflow=5500 cfm, price.cooler_installed=5200", "Old pads: cooler.pad_condition=0.6"} {
		o, err := job.ParseOption(text)
		require.NoError(t, err)
		require.NoError(t, j.AddOption(o))
	}
	require.NoError(t, j.Show(shown))
	live, err := j.Live()
	require.NoError(t, err)
	require.NoError(t, live.Resolve(s.Place(), s.Station.Elevation, s.Station.Region()))
	c, err := figures.Compute(s, live, units.IP, "test")
	require.NoError(t, err)
	return c
}

// Choosing another option in the open workbook gives the figures of the
// workbook written for it; no column of options then says it is stale, until
// another input is changed.
func TestOptionShown(t *testing.T) {
	s := bookKinds[0].compute(t, fourWeeks).Series
	w, err := evaluator.New(readBook(t, writeBook(t, offered(t, s, job.AsEntered))))
	require.NoError(t, err)
	for _, shown := range []string{"Two-stage, larger", "Old pads", job.AsEntered} {
		c := offered(t, s, shown)
		again, err := evaluator.New(readBook(t, writeBook(t, c)))
		require.NoError(t, err)
		for _, book := range []*evaluator.Workbook{w, again} {
			require.NoError(t, book.Reset())
			require.NoError(t, book.Set(map[string]any{"Option_shown": shown}))
			require.NoError(t, book.Recalculate())
			follows(t, book, c)
		}
		got, err := w.Names("B_inputs_changed")
		require.NoError(t, err)
		assert.EqualValues(t, map[bool]int{true: 0, false: 1}[shown == job.AsEntered], got["B_inputs_changed"], shown)
	}
}

// As written, the formulas of a book with options are the engine's values.
func TestOptionsAsWritten(t *testing.T) {
	s := bookKinds[0].compute(t, fourWeeks).Series
	for _, shown := range []string{job.AsEntered, "Two-stage, larger"} {
		w, err := evaluator.New(readBook(t, writeBook(t, offered(t, s, shown))))
		require.NoError(t, err)
		report, err := w.Check(officetest.DefaultTolerance)
		require.NoError(t, err)
		agrees(t, report)
	}
}

// The light book for a customer has the options without the cells behind them.
func TestOptionsInALightBook(t *testing.T) {
	c := offered(t, bookKinds[0].compute(t, fourWeeks).Series, "Old pads")
	c.ValuesOnly, c.Light = true, true
	require.NoError(t, Write(io.Discard, c))
}
