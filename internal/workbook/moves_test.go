package workbook

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/internal/evaluator"
	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/workbook/costs"
	"github.com/evapbook/evapbook/internal/workbook/figures"
)

// nudges are the changes of inputs that are nothing or at a limit; all others
// go up by 3 %, whole numbers by 3.
var nudges = map[string]float64{
	"site.lapse_rate": 5, "house.design_load": 9000, "price.sewer": 2, "price.escalation": 0.02, "cooler.pad_condition": 0.97, "house.humidity_limit": 0.6,
	"site.warmer": 1, "cooler.duct_gain": 1, "house.moving_air": 1, "price.season_last": 6,
}

// onlyWith are inputs that count only beside another.
var onlyWith = map[string]changes{
	"cooler.cycles":   {"cooler.water_care": "bleed"},
	"site.lapse_rate": {"site.altitude": 2000.0},

	"house.moving_air": {"cooler.kind": "direct", "cooler.effectiveness": 0.5}, // so that hours stay too warm

	"price.season_first": {"price.season_electricity": 0.5}, "price.season_last": {"price.season_electricity": 0.5},
	"price.peak_from": {"price.peak_electricity": 0.9}, "price.peak_to": {"price.peak_electricity": 0.9},
	"price.direct_installed": {"cooler.kind": "direct"}, "price.indirect_installed": {"cooler.kind": "indirect"},
}

// Each numeric input, changed alone, moves a headline figure of the engine,
// and the workbook follows to the same figures as soon as it is typed. A
// number that stands in a formula in place of an input would stay behind.
func TestEveryInputMovesTheBook(t *testing.T) {
	t.Parallel()
	series := asSampled.readSome(t, fourWeeks)
	for i := range series.Hours { // so that the clearness of the sky counts
		if i%3 == 0 {
			series.Hours[i].GHI = math.NaN()
		}
	}
	start := changes{"cooler.kind": "two-stage", "cooler.water_care": "purge"}
	base := compute(t, series, units.IP, start)
	s, err := evaluator.New(readBook(t, writeBook(t, base)))
	require.NoError(t, err)
	usual := headlines(base)
	for _, in := range job.Inputs() {
		if !in.Numeric() {
			continue
		}
		t.Run(in.Key, func(t *testing.T) {
			also, alone, before := onlyWith[in.Key], nudge(in, base.Season.Job), usual
			if also != nil {
				before = headlines(compute(t, series, units.IP, start.with(also)))
			}
			after := compute(t, series, units.IP, start.with(also).with(alone))
			assert.NotEqual(t, before, headlines(after), "it moves nothing")
			cells := alone.with(also).cells(units.IP, base.Season.Job)
			require.NoError(t, s.Reset())
			require.NoError(t, s.Set(cells))
			require.NoError(t, s.Recalculate())
			follows(t, s, after)
		})
	}
}

// Each word that an input can be is typed once, with one of every other such
// input, and the workbook follows to the engine's figures. Dear peak hours let
// days and clocks count.
func TestEveryChoiceMovesTheBook(t *testing.T) {
	t.Parallel()
	series, start := asSampled.readSome(t, fourWeeks), changes{"price.peak_electricity": 0.9, "price.season_first": 3.0}
	base := compute(t, series, units.SI, start)
	s, err := evaluator.New(readBook(t, writeBook(t, base)))
	require.NoError(t, err)
	most := 0
	for _, in := range job.Inputs() {
		most = max(most, len(in.Choices))
	}
	usual := headlines(base)
	for i := range most {
		words := changes{}
		for _, in := range job.Inputs() {
			if n := len(in.Choices); n > 0 {
				words[in.Key] = in.Choices[i%n]
			}
		}
		after := compute(t, series, units.SI, start.with(words))
		assert.NotEqual(t, usual, headlines(after), "%v moves nothing", words)
		require.NoError(t, s.Reset())
		require.NoError(t, s.Set(words.cells(units.SI, base.Season.Job)))
		require.NoError(t, s.Recalculate())
		follows(t, s, after)
	}
}

func nudge(in job.Input, j *job.Job) changes {
	v, ok := nudges[in.Key]
	switch {
	case ok:
	case in.Whole:
		v = in.SI(j) + 3
	default:
		v = in.SI(j) * 1.03
	}
	return changes{in.Key: v}
}

// with adds changes to others.
func (c changes) with(more changes) changes {
	all := changes{}
	for _, m := range []changes{c, more} {
		for k, v := range m {
			all[k] = v
		}
	}
	return all
}

// headlines are the headline figures and all of money by defined name.
func headlines(c *figures.Case) map[string]any {
	all := map[string]any{}
	for _, f := range c.Figures() {
		if _, date := f.Value.(time.Time); !date && !f.AtWriting {
			all[f.Name()] = f.Value
		}
	}
	for _, s := range costs.StudyScalars(c) {
		all[s.Name] = s.Value
	}
	for i := range c.Money.Options {
		all["M_"+[...]string{"cooler", "refrigerated", "both"}[i]+"_present"] = c.Money.Options[i].Present
	}
	return all
}

// follows checks the named cells of the open book against the engine.
func follows(t *testing.T, s *evaluator.Workbook, c *figures.Case) {
	want := headlines(c)
	var names []string
	for name := range want {
		names = append(names, name)
	}
	got, err := s.Names(names...)
	require.NoError(t, err)
	for name, w := range want {
		switch w := w.(type) {
		case int:
			assert.InDelta(t, w, got[name], 1e-9, name)
		case float64:
			if g, ok := got[name].(float64); !ok || math.Abs(g-w) > 1e-6*math.Max(1e-3, math.Abs(w)) {
				t.Errorf("%s: the workbook says %v, the engine %v", name, got[name], w)
			}
		default:
			assert.EqualValues(t, w, got[name], name)
		}
	}
}
