package workbook

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/internal/climate"
	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/money"
	"github.com/evapbook/evapbook/internal/officetest"
	"github.com/evapbook/evapbook/internal/season"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/workbook/figures"
)

// drawing is what a chart has to show: for each series its points in order,
// worked out here from the hours, and the titles of its axes.
type drawing struct {
	sheet, title string // the title may go on
	axes         string // "across | up"
	series       map[string]func(i int) float64
	names        []string            // of the points across, nil: not looked at
	across       func(i int) float64 // of charts over numbers
}

// outcomesOf counts the hours of an outcome that lie in the i-th group.
func outcomesOf(c *figures.Case, in func(hour, i int) bool) map[string]func(i int) float64 {
	all := map[string]func(i int) float64{}
	for name, o := range outcomeWords {
		all[name] = func(i int) float64 {
			n := 0
			for h := range c.Season.Hours {
				if c.Season.Hours[h].Outcome == o && in(h, i) {
					n++
				}
			}
			return float64(n)
		}
	}
	return all
}

// outcomeWords are what people read for the outcomes that need cooling.
var outcomeWords = map[string]season.Outcome{
	"open windows hold": season.Vent, "the cooler holds": season.Evap, "too damp": season.Damp, "too warm": season.Warm,
}

// ways gives each way of cooling its values.
func ways(of func(w money.Way, i int) float64) map[string]func(i int) float64 {
	all := map[string]func(i int) float64{}
	for w, name := range map[money.Way]string{money.Cooler: "Cooler", money.Refrigerated: "Refrigeration", money.Both: "Both together"} {
		all[name] = func(i int) float64 { return of(w, i) }
	}
	return all
}

// axisSign is the sign of the currency as axes of money have it.
func axisSign(c *figures.Case) string {
	if s := c.Season.Job.Price.Currency; s != "" {
		return ", " + s
	}
	return ""
}

// optionDrawings are those of the sheet Options: each option with its name and
// as the case of a book of its own, then the other ways of the book c.
func optionDrawings(c *figures.Case, names []string, options []*figures.Case) []drawing {
	outcomes := map[string]func(i int) float64{}
	for name, o := range outcomeWords {
		outcomes[name] = func(i int) float64 { return float64(options[i].Season.Totals.Hours[o]) }
	}
	cost := func(of func(o *money.Option) float64) func(i int) float64 {
		return func(i int) float64 {
			if i < len(options) {
				return of(&options[i].Money.Options[money.Cooler])
			}
			return of(&c.Money.Options[int(money.Refrigerated)+i-len(options)])
		}
	}
	return []drawing{
		{sheet: "Options", title: "Hours that need cooling, by option", axes: " | hours", names: names, series: outcomes},
		{sheet: "Options", title: "Running cost a year, by option", axes: " | cost a year" + axisSign(c),
			names: append(slices.Clone(names), "Refrigeration", "Both together"), series: map[string]func(i int) float64{
				"energy": cost(func(o *money.Option) float64 { return o.Energy }),
				"water":  cost(func(o *money.Option) float64 { return o.WaterCost }),
				"care":   cost(func(o *money.Option) float64 { return o.Care })}},
	}
}

// drawings are those of the book of several years.
func drawings(c *figures.Case) []drawing {
	show := func(k units.Kind, v float64) float64 { return k.Unit(c.Units).FromSI(v) }
	hours, days, months, table := c.Season.Climate.Hours, c.Season.Climate.Days, c.Season.Months, c.Years.Rows
	month := func(h, i int) bool { return int(hours[h].Start.Month()) == i+1 }
	most := func(start float64, in func(h, i int) bool, of func(h int) float64) func(i int) float64 {
		return func(i int) float64 {
			best := start
			for h := range hours {
				if in(h, i) && !hours[h].Missing {
					best = max(best, of(h))
				}
			}
			return show(units.Temperature, best)
		}
	}
	day := func(h, i int) bool { return hours[h].Day == i }
	dry := func(h int) float64 { return hours[h].Air.T }
	supply := func(h int) float64 { return c.Season.Hours[h].Supply.T }
	byYear := map[string]func(i int) float64{}
	for name, o := range outcomeWords {
		byYear[name] = func(i int) float64 { return float64(table[i].Hours[o]) }
	}
	options := func(of func(o *money.Option) float64) func(i int) float64 {
		return func(i int) float64 { return of(&c.Money.Options[i]) }
	}
	cost := map[string]func(i int) float64{
		"energy": options(func(o *money.Option) float64 { return o.Energy }),
		"water":  options(func(o *money.Option) float64 { return o.WaterCost }),
		"care":   options(func(o *money.Option) float64 { return o.Care }),
	}
	sign := axisSign(c)
	// Charts of the season begin with the first month that needs cooling.
	from := slices.IndexFunc(months[:], func(m season.Month) bool { return m.Hours.Need() > 0 })
	start := slices.IndexFunc(days, func(d climate.Day) bool { return int(d.Date.Month()) == from+1 })
	later := func(of func(i int) float64, by int) func(i int) float64 {
		return func(i int) float64 { return of(i + by) }
	}
	kWh := func(a, b, both float64, w money.Way) float64 { return [...]float64{a, b, both}[w] }
	return []drawing{
		{sheet: "Answer", title: "Hours that need cooling, by month", axes: " | hours", series: outcomesOf(c, month)},
		{sheet: "Months", title: "Hours that need cooling, by month", axes: " | hours", series: outcomesOf(c, month)},
		{sheet: "Answer", title: "Running cost a year", axes: " | cost a year" + sign, series: cost},
		{sheet: "Money", title: "Running cost a year", axes: " | cost a year" + sign, series: cost},
		{sheet: "Money", title: "Cost up to and with each year", axes: "years from today | cost in all" + sign,
			series: ways(func(w money.Way, i int) float64 { return c.Money.Options[w].Cumulative[min(i, c.Money.Years)] }),
			across: func(i int) float64 { return float64(min(i, c.Money.Years)) }},
		{sheet: "Months", title: "Hottest of each month", axes: " | °F", series: map[string]func(i int) float64{
			"highest outdoors": later(most(-99, month, dry), from), "warmest supply with water": later(most(-99, month, supply), from)}},
		{sheet: "Months", title: "Energy by month", axes: " | kWh", series: ways(func(w money.Way, i int) float64 { m := &months[i]; return kWh(m.CoolerKWh, m.RefKWh, m.BothKWh, w) })},
		{sheet: "Months", title: "Degree-days to 65 °F", axes: " | °F·d", series: map[string]func(i int) float64{
			"cooling": func(i int) float64 { return show(units.DegreeDays, months[i].Cooling) },
			"heating": func(i int) float64 { return show(units.DegreeDays, months[i].Heating) }}},
		{sheet: "Months", title: "Every day", axes: " | °F", series: map[string]func(i int) float64{
			"lowest":         func(i int) float64 { return show(units.Temperature, days[i+start].Min) },
			"range outdoors": func(i int) float64 { return (days[i+start].Max - days[i+start].Min) * 1.8 },
			"warmest supply": later(most(-99, day, supply), start)}},
		{sheet: "Years", title: "Hours that need cooling, by year", axes: " | hours", series: byYear},
		{sheet: "Years", title: "Share of the hours", axes: " | share of the hours", series: map[string]func(i int) float64{"held": func(i int) float64 { return table[i].Coverage }}},
		{sheet: "Years", title: "Energy by year", axes: " | kWh", series: ways(func(w money.Way, i int) float64 { r := &table[i]; return kWh(r.CoolerKWh, r.RefKWh, r.BothKWh, w) })},
		{sheet: "Years", title: "Water by year", axes: " | gal", series: map[string]func(i int) float64{"water": func(i int) float64 { return show(units.Volume, table[i].Water) }}},
	}
}

// Each chart draws what it says: series by their names, worked out here from
// the hours and not from the cells, and axes in the unit of the values.
func TestChartsDrawWhatTheySay(t *testing.T) {
	wholeYear(t)
	t.Parallel()
	k := bookKinds[len(bookKinds)-1]
	c := k.compute(t, everyHour)
	var kinds []*figures.Case
	for _, kind := range []string{"direct", "indirect", "two-stage"} {
		kinds = append(kinds, compute(t, c.Series, k.units, changes{"cooler.kind": kind}))
	}
	want := append(drawings(c), optionDrawings(c, []string{"Direct", "Indirect", "Two-stage"}, kinds)...)
	file := writeBook(t, c)
	areDrawn(t, chartsOf(t, file), want)
	t.Run("points", func(t *testing.T) { chartPointsAreTheCells(t, file) })
}

// The charts of stated options, of which one is shown by the book.
func TestOptionChartsDrawWhatTheySay(t *testing.T) {
	t.Parallel()
	s := bookKinds[0].compute(t, fourWeeks).Series
	names := []string{job.AsEntered, "Two-stage, larger", "Old pads"}
	var options []*figures.Case
	for _, name := range names {
		options = append(options, offered(t, s, name))
	}
	c := options[1]
	areDrawn(t, chartsOf(t, writeBook(t, c)), optionDrawings(c, names, options))
}

func areDrawn(t *testing.T, drawn []chartOn, all []drawing) {
	t.Helper()
	for _, want := range all {
		t.Run(want.sheet+", "+want.title, func(t *testing.T) {
			found := 0
			for i := range drawn {
				if d := &drawn[i]; d.sheet == want.sheet && strings.HasPrefix(strings.Join(d.Title, ""), want.title) {
					found++
					want.compare(t, d)
				}
			}
			require.Equal(t, 1, found, "charts of that title")
		})
	}
}

func (w drawing) compare(t *testing.T, d *chartOn) {
	axes := map[string]string{}
	seen := map[string]bool{}
	for _, g := range d.Plot.Groups {
		axes[g.Place.Val] += strings.Join(g.Title, "")
		for _, s := range g.Series {
			value := w.series[s.Name]
			require.NotNil(t, value, "a series %q is not looked for", s.Name)
			seen[s.Name] = true
			up := s.Val
			if w.across != nil {
				up = s.Y
				isDrawn(t, s.Name+" across", s.X, w.across)
			}
			isDrawn(t, s.Name, up, value)
			if w.names != nil {
				var names []string
				for _, p := range s.Cat.ref().points() {
					names = append(names, p.V)
				}
				assert.Equal(t, w.names, names, s.Name)
				assert.Len(t, up.ref().points(), len(names), s.Name)
			}
		}
	}
	assert.Len(t, seen, len(w.series), "series")
	assert.Equal(t, w.axes, axes["b"]+" | "+axes["l"], "titles of the axes")
}

// isDrawn compares the points kept in the file with what they have to be.
func isDrawn(t *testing.T, name string, drawn chartValues, value func(i int) float64) {
	t.Helper()
	points := drawn.ref().points()
	require.NotEmpty(t, points, name)
	for _, p := range points {
		got, err := strconv.ParseFloat(p.V, 64)
		require.NoError(t, err)
		require.InDelta(t, value(p.At), got, 1e-6*max(1, math.Abs(got)), "point %d of %s", p.At, name)
	}
}

// A book of one year has other charts on some sheets than that of several above.
func TestChartPointsAreTheCells(t *testing.T) {
	t.Parallel()
	chartPointsAreTheCells(t, writeBook(t, bookKinds[1].compute(t, fourWeeks)))
}

// chartPointsAreTheCells: of every chart the points kept in the file are the values
// of the cells it names, and there is one for each: a chart whose range is a row
// off, or whose cache is another column's, fails.
func chartPointsAreTheCells(t *testing.T, file string) {
	cells := map[string]map[officetest.Ref]any{}
	for _, s := range readBook(t, file).Sheets {
		cells[s.Name] = map[officetest.Ref]any{}
		for _, c := range s.Cells {
			cells[s.Name][c.Ref] = c.Value
		}
	}
	charts := chartsOf(t, file)
	require.Greater(t, len(charts), 12)
	for _, c := range charts {
		for _, g := range c.Plot.Groups {
			for _, s := range g.Series {
				for _, v := range []chartValues{s.Cat, s.X, s.Val, s.Y} {
					if r := v.ref(); r.Range != "" {
						pointsAreCells(t, c.sheet+", "+strings.Join(c.Title, "")+", "+s.Name, r, cells)
					}
				}
			}
		}
	}
}

func pointsAreCells(t *testing.T, where string, r chartRef, cells map[string]map[officetest.Ref]any) {
	sheet, from, to := rangeOf(t, r.Range)
	require.True(t, from.Row == to.Row || from.Col == to.Col, "%s: %s is one row or column", where, r.Range)
	kept := map[int]string{}
	for _, p := range r.points() {
		kept[p.At] = p.V
	}
	n := 0
	for row := from.Row; row <= to.Row; row++ {
		for col := from.Col; col <= to.Col; col++ {
			at := officetest.Ref{Row: row, Col: col}
			switch v := cells[sheet][at].(type) {
			case float64:
				got, err := strconv.ParseFloat(kept[n], 64)
				require.NoError(t, err, "%s: %s!%s is %v, the point %q", where, sheet, at, v, kept[n])
				require.InDelta(t, v, got, 1e-9*max(1, math.Abs(v)), "%s: %s!%s", where, sheet, at)
			case string:
				require.Equal(t, v, kept[n], "%s: %s!%s", where, sheet, at)
			}
			n++
		}
	}
}

// Each figure stands on Totals with the label and the unit of its entry in the
// list, beside its name and its value.
func TestFiguresHaveTheirLabels(t *testing.T) {
	t.Parallel()
	for _, k := range []bookKind{bookKinds[0], bookKinds[1]} {
		c := k.compute(t, fourWeeks)
		b := readBook(t, writeBook(t, c))
		places := map[string]string{}
		for _, n := range b.Names {
			places[n.Name] = n.Refers
		}
		cells := map[officetest.Ref]any{}
		for _, cell := range b.Sheet("Totals").Cells {
			cells[cell.Ref] = cell.Value
		}
		for _, f := range c.Figures() {
			require.NotEmpty(t, places[f.Name()], f.Name())
			sheet, at, _ := rangeOf(t, places[f.Name()])
			require.Equal(t, "Totals", sheet, f.Name())
			left, unit := officetest.Ref{Row: at.Row, Col: at.Col - 1}, officetest.Ref{Row: at.Row, Col: at.Col + 1}
			assert.Equal(t, f.Label, cells[left], f.Name())
			symbol, _ := cells[unit].(string)
			assert.Equal(t, f.Kind.Unit(units.SI).Symbol, symbol, "unit of %s", f.Name())
			assert.True(t, unitOfPath(f.Path, symbol), "%s in %q", f.Path, symbol)
		}
	}
}

// unitOfPath holds a figure's path, whose ending says its unit to other
// programs, against the symbol people see.
func unitOfPath(figure, symbol string) bool {
	for _, u := range []struct{ ending, symbol string }{{"_kwh", "kWh"}, {"_kw", "kW"}, {"_l", "L"}, {"_pa", "Pa"}, {"_m", "m"}, {"_c", "°C"}} {
		if strings.HasSuffix(figure, u.ending) {
			return symbol == u.symbol
		}
	}
	return true
}
