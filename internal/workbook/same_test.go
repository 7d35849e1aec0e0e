package workbook

import (
	"math"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/internal/officetest"
	"github.com/evapbook/evapbook/internal/season"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/workbook/figures"
	"github.com/evapbook/evapbook/internal/xlsx"
)

// laidOut finds columns of tables in a book that was laid out, by "Grid.key".
func laidOut(t *testing.T, b *xlsx.Book) func(key string) []any {
	return func(key string) []any {
		name, col, _ := strings.Cut(key, ".")
		for _, s := range b.Sheets {
			for _, g := range s.Grids {
				if g.Name != name {
					continue
				}
				for k := range g.Columns {
					if g.Columns[k].Key != col {
						continue
					}
					all := make([]any, g.Rows)
					for i := range all {
						all[i] = g.Columns[k].Value(i)
					}
					return all
				}
			}
		}
		require.Fail(t, "no column "+key)
		return nil
	}
}

func sumOf(values []any) (sum float64) {
	for _, v := range values {
		switch v := v.(type) {
		case float64:
			if !math.IsNaN(v) {
				sum += v
			}
		case int:
			sum += float64(v)
		}
	}
	return sum
}

func countOf(values []any, word string) (n float64) {
	for _, v := range values {
		if v == word {
			n++
		}
	}
	return n
}

// A figure that several sheets show is the same on all of them: hours by
// outcome, water and energy, by hour, day, month and bin, and in all. They are
// summed here, from what the sheets show in their own units.
func TestSameFigureOnEverySheet(t *testing.T) {
	for _, k := range []bookKind{bookKinds[0], bookKinds[1], bookKinds[9]} {
		t.Run(k.name, func(t *testing.T) {
			t.Parallel()
			c := k.compute(t, hours())
			b, err := book(c)
			require.NoError(t, err)
			values := laidOut(t, b)
			for o, total := range map[season.Outcome]string{season.Vent: "hours.vent", season.Evap: "hours.evap", season.Damp: "hours.damp", season.Warm: "hours.warm"} {
				want, word := figureOf(t, c, total), o.String()
				assert.InDelta(t, want, sumOf(values("Months."+word)), 0, "Months, %s", word)
				assert.InDelta(t, want, sumOf(values("Days."+word)), 0, "Days, %s", word)
				assert.InDelta(t, want, sumOf(values("Bins."+word)), 0, "Bins, %s", word)
				assert.InDelta(t, want, countOf(values("Hours.outcome"), word), 0, "Hours, %s", word)
				assert.InDelta(t, want, countOf(values("Working.outcome"), word), 0, "Working, %s", word)
			}
			for _, x := range []struct {
				total string
				kind  units.Kind
				shown []string // in the unit people see
				steps []string // in SI
			}{
				{"water.evaporated_l", units.Volume, []string{"Months.evaporated", "Bins.evaporated", "Hours.evaporated"}, []string{"Days.evaporated", "Working.evaporated"}},
				{"water.total_l", units.Volume, []string{"Months.water"}, []string{"Days.water"}},
				{"energy.cooler_kwh", units.Energy, []string{"Months.cooler_kwh", "Bins.cooler_kwh", "Hours.cooler_kwh"}, []string{"Days.cooler_kwh", "Working.cooler_kwh"}},
				{"energy.refrigerated_kwh", units.Energy, []string{"Months.ref_kwh", "Bins.ref_kwh", "Hours.ref_kwh"}, []string{"Days.ref_kwh", "Working.ref_kwh"}},
			} {
				want := figureOf(t, c, x.total)
				require.Positive(t, want, x.total)
				for _, key := range x.shown {
					assert.InEpsilon(t, x.kind.Unit(c.Units).FromSI(want), sumOf(values(key)), 1e-9, key)
				}
				for _, key := range x.steps {
					assert.InEpsilon(t, want, sumOf(values(key)), 1e-9, key)
				}
			}
			written := readBook(t, writeBook(t, c))
			sameNames(t, written)
			sameOption(t, c, written)
		})
	}
}

func figureOf(t *testing.T, c *figures.Case, path string) float64 {
	t.Helper()
	for _, f := range c.Figures() {
		if f.Path == path {
			return sumOf([]any{f.Value})
		}
	}
	require.Fail(t, "no figure "+path)
	return 0
}

// sameNames: cells that show a named figure as it is show its value, whichever
// sheet they are on.
func sameNames(t *testing.T, b *officetest.Book) {
	named := map[string]any{}
	for _, n := range b.Names {
		sheet, ref, ok := strings.Cut(strings.ReplaceAll(n.Refers, "$", ""), "!")
		if s := b.Sheet(strings.Trim(sheet, "'")); ok && s != nil {
			for i := range s.Cells {
				if s.Cells[i].Ref.String() == ref {
					named[n.Name] = s.Cells[i].Value
				}
			}
		}
	}
	shown := map[string]int{}
	for _, s := range b.Sheets {
		for _, c := range s.Cells {
			if want, ok := named[c.Formula]; ok {
				shown[s.Name]++
				if number, ok := want.(float64); ok && number != 0 {
					// Results of formulas are kept with fewer digits than inputs.
					assert.InEpsilon(t, number, c.Value, 1e-11, "%s!%s shows %s", s.Name, c.Ref, c.Formula)
				} else {
					assert.Equal(t, want, c.Value, "%s!%s shows %s", s.Name, c.Ref, c.Formula)
				}
			}
		}
	}
	for _, name := range []string{"Answer", "Options", "Totals"} {
		require.Positive(t, shown[name], name)
	}
}

// liveOption is a figure of the option shown: a name, or its amount in the unit of
// the book, while the kind is the book's.
var liveOption = regexp.MustCompile(`^IF\(In_cooler_kind="([\w-]+)",(.*),[^,]*\)$`)

// sameOption: the column of the option that the book shows has the figures of the
// book, in the unit people see.
func sameOption(t *testing.T, c *figures.Case, b *officetest.Book) {
	kinds := map[string]units.Kind{"Out_water_total_l": units.Volume, "Out_water_peak_day_l": units.Volume}
	want := map[string]float64{}
	for _, f := range c.Figures() {
		if v, ok := f.Value.(float64); ok {
			want["Out_"+strings.ReplaceAll(f.Path, ".", "_")] = v
		} else if v, ok := f.Value.(int); ok {
			want["Out_"+strings.ReplaceAll(f.Path, ".", "_")] = float64(v)
		}
	}
	shown := 0
	for _, cell := range b.Sheet("Options").Cells {
		m := liveOption.FindStringSubmatch(cell.Formula)
		if m == nil || m[1] != string(c.Season.Job.Cooler.Kind) {
			continue
		}
		name := regexp.MustCompile(`Out_\w+`).FindString(m[2])
		v, ok := want[name]
		if _, isUnit := kinds[name]; !ok || m[2] != name && !isUnit {
			continue // a difference or a text of several names
		}
		shown++
		if kind, isUnit := kinds[name]; isUnit {
			v = kind.Unit(c.Units).FromSI(v)
		}
		assert.InDelta(t, v, cell.Value, 1e-9*math.Abs(v), "Options!%s shows %s", cell.Ref, name)
	}
	require.GreaterOrEqual(t, shown, 12)
}
