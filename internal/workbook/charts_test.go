package workbook

import (
	"archive/zip"
	"encoding/xml"
	"io"
	"math"
	"path"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/internal/climate"
	"github.com/evapbook/evapbook/internal/money"
	"github.com/evapbook/evapbook/internal/officetest"
	"github.com/evapbook/evapbook/internal/season"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/workbook/figures"
)

// drawn charts as the file has them. Source: ECMA-376 part 1, 21.2.
type (
	chartPart struct {
		Title []string `xml:"chart>title>tx>rich>p>r>t"`
		Plot  struct {
			Groups []chartGroup `xml:",any"`
		} `xml:"chart>plotArea"`
	}
	// chartGroup is a kind of chart with its series, or an axis.
	chartGroup struct {
		XMLName  xml.Name
		Grouping struct {
			Val string `xml:"val,attr"`
		} `xml:"grouping"`
		Series []chartSeries `xml:"ser"`
		Title  []string      `xml:"title>tx>rich>p>r>t"`
		Place  struct {
			Val string `xml:"val,attr"`
		} `xml:"axPos"`
	}
	chartSeries struct {
		Name    string      `xml:"tx>v"`
		NameRef string      `xml:"tx>strRef>f"`
		Named   []string    `xml:"tx>strRef>strCache>pt>v"`
		Cat     chartValues `xml:"cat"`
		X       chartValues `xml:"xVal"`
		Val     chartValues `xml:"val"`
		Y       chartValues `xml:"yVal"`
	}
	chartValues struct {
		Number chartRef `xml:"numRef"`
		Text   chartRef `xml:"strRef"`
	}
	chartRef struct {
		Range  string       `xml:"f"`
		Count  chartCount   `xml:"numCache>ptCount"`
		Points []chartPoint `xml:"numCache>pt"`
		Texts  []chartPoint `xml:"strCache>pt"`
	}
	chartCount struct {
		N int `xml:"val,attr"`
	}
	chartPoint struct {
		At int    `xml:"idx,attr"`
		V  string `xml:"v"`
	}
	relationsPart struct {
		All []struct {
			ID     string `xml:"Id,attr"`
			Type   string `xml:"Type,attr"`
			Target string `xml:"Target,attr"`
		} `xml:"Relationship"`
	}
)

// ref is the range of values that are there.
func (v chartValues) ref() chartRef {
	if v.Number.Range != "" {
		return v.Number
	}
	return v.Text
}

func (r chartRef) points() []chartPoint {
	return append(append([]chartPoint(nil), r.Points...), r.Texts...)
}

// chartOn is a chart and the sheet it lies on.
type chartOn struct {
	sheet string
	chartPart
}

// chartsOf reads all charts of a book, sheet by sheet.
func chartsOf(t *testing.T, file string) (all []chartOn) {
	t.Helper()
	z, err := zip.OpenReader(file)
	require.NoError(t, err)
	defer z.Close()
	var book bookPart
	readPart(t, z, "xl/workbook.xml", &book)
	for i, s := range book.Sheets {
		sheet := "xl/worksheets/sheet" + strconv.Itoa(i+1) + ".xml"
		for _, drawing := range targets(t, z, sheet, "/drawing") {
			for _, chart := range targets(t, z, drawing, "/chart") {
				c := chartOn{sheet: s.Name}
				readPart(t, z, chart, &c.chartPart)
				all = append(all, c)
			}
		}
	}
	return all
}

// targets are the parts of a kind that a part refers to, in the order of the file.
func targets(t *testing.T, z *zip.ReadCloser, part, kind string) (out []string) {
	t.Helper()
	f, err := z.Open(path.Join(path.Dir(part), "_rels", path.Base(part)+".rels"))
	if err != nil {
		return nil // it refers to nothing
	}
	defer f.Close()
	text, err := io.ReadAll(f)
	require.NoError(t, err)
	var r relationsPart
	require.NoError(t, xml.Unmarshal(text, &r))
	for _, rel := range r.All {
		if strings.HasSuffix(rel.Type, kind) {
			target := rel.Target
			if !strings.HasPrefix(target, "/") {
				target = path.Join(path.Dir(part), target)
			}
			out = append(out, strings.TrimPrefix(target, "/"))
		}
	}
	return out
}

// rangeOf splits a range such as Months!$B$8:$B$19.
func rangeOf(t *testing.T, text string) (sheet string, from, to officetest.Ref) {
	t.Helper()
	sheet, cells, ok := strings.Cut(strings.ReplaceAll(text, "$", ""), "!")
	require.True(t, ok, text)
	first, last, ok := strings.Cut(cells, ":")
	if !ok {
		last = first
	}
	from, err := officetest.ParseRef(first)
	require.NoError(t, err, text)
	to, err = officetest.ParseRef(last)
	require.NoError(t, err, text)
	return strings.Trim(sheet, "'"), from, to
}

// drawing is what a chart has to show: for each series its points in order,
// worked out here from the hours, and the titles of its axes.
type drawing struct {
	sheet, title string // the title may go on
	axes         string // "across | up"
	series       map[string]func(i int) float64
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
	sign := "" // of the currency, on axes of money
	if s := c.Season.Job.Price.Currency; s != "" {
		sign = ", " + s
	}
	// Charts of the season begin with the first month that needs cooling.
	from := slices.IndexFunc(months[:], func(m season.Month) bool { return m.Hours.Need() > 0 })
	start := slices.IndexFunc(days, func(d climate.Day) bool { return int(d.Date.Month()) == from+1 })
	later := func(of func(i int) float64, by int) func(i int) float64 {
		return func(i int) float64 { return of(i + by) }
	}
	kWh := func(a, b, both float64, w money.Way) float64 { return [...]float64{a, b, both}[w] }
	return []drawing{
		{"Answer", "Hours that need cooling, by month", " | hours", outcomesOf(c, month)},
		{"Months", "Hours that need cooling, by month", " | hours", outcomesOf(c, month)},
		{"Answer", "Running cost a year", " | cost a year" + sign, cost},
		{"Money", "Running cost a year", " | cost a year" + sign, cost},
		{"Money", "Cost up to and with each year", "years from today | cost in all" + sign, ways(func(w money.Way, i int) float64 { return c.Money.Options[w].Cumulative[i] })},
		{"Months", "Hottest of each month", " | °F", map[string]func(i int) float64{
			"highest outdoors": later(most(-99, month, dry), from), "warmest supply with water": later(most(-99, month, supply), from)}},
		{"Months", "Energy by month", " | kWh", ways(func(w money.Way, i int) float64 { m := &months[i]; return kWh(m.CoolerKWh, m.RefKWh, m.BothKWh, w) })},
		{"Months", "Degree-days to 65 °F", " | °F·d", map[string]func(i int) float64{
			"cooling": func(i int) float64 { return show(units.DegreeDays, months[i].Cooling) },
			"heating": func(i int) float64 { return show(units.DegreeDays, months[i].Heating) }}},
		{"Months", "Every day", " | °F", map[string]func(i int) float64{
			"lowest":         func(i int) float64 { return show(units.Temperature, days[i+start].Min) },
			"range outdoors": func(i int) float64 { return (days[i+start].Max - days[i+start].Min) * 1.8 },
			"warmest supply": later(most(-99, day, supply), start)}},
		{"Years", "Hours that need cooling, by year", " | hours", byYear},
		{"Years", "Share of the hours", " | share of the hours", map[string]func(i int) float64{"held": func(i int) float64 { return table[i].Coverage }}},
		{"Years", "Energy by year", " | kWh", ways(func(w money.Way, i int) float64 { r := &table[i]; return kWh(r.CoolerKWh, r.RefKWh, r.BothKWh, w) })},
		{"Years", "Water by year", " | gal", map[string]func(i int) float64{"water": func(i int) float64 { return show(units.Volume, table[i].Water) }}},
	}
}

// Each chart draws what it says: series by their names, worked out here from
// the hours and not from the cells, and axes in the unit of the values.
func TestChartsDrawWhatTheySay(t *testing.T) {
	wholeYear(t)
	t.Parallel()
	k := bookKinds[len(bookKinds)-1]
	c := k.compute(t, everyHour)
	drawn := chartsOf(t, writeBook(t, c))
	for _, want := range drawings(c) {
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
			points := s.Val.ref().points()
			require.NotEmpty(t, points, s.Name)
			for _, p := range points {
				got, err := strconv.ParseFloat(p.V, 64)
				require.NoError(t, err)
				require.InDelta(t, value(p.At), got, 1e-6*max(1, math.Abs(got)), "point %d of %s", p.At, s.Name)
			}
		}
	}
	assert.Len(t, seen, len(w.series), "series")
	assert.Equal(t, w.axes, axes["b"]+" | "+axes["l"], "titles of the axes")
}

// Of every chart the points kept in the file are the values of the cells it
// names, and there is one for each: a chart whose range is a row off, or whose
// cache is another column's, fails.
func TestChartPointsAreTheCells(t *testing.T) {
	t.Parallel()
	which := []bookKind{bookKinds[1]}
	if !testing.Short() {
		which = append(which, bookKinds[len(bookKinds)-1]) // of several years
	}
	for _, k := range which {
		file := writeBook(t, k.compute(t, hours()))
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
