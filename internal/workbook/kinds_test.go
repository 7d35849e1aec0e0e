package workbook

import (
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/data/sample"
	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/psychro"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/weather"
	"github.com/evapbook/evapbook/internal/workbook/figures"
	"github.com/evapbook/evapbook/internal/years"
)

// row is one hour of the sample's file as text turns it into other files.
type row struct {
	time     time.Time
	dry, rel float64 // °C, 0..1
	hPa, ghi float64
}

// otherWeather is the sample with its hours written another way.
type otherWeather struct {
	columns string                  // headings after the time
	cells   func(r row) []string    // below them; nil leaves the hour out
	years   int                     // from 2023 on, each a degree warmer; 0 is one
	head    map[string]string       // lines about the station put in place of the sample's
	change  func(s *weather.Series) // of the series read
}

// rows are the sample's hours.
var rows = sync.OnceValue(func() (all []row) {
	r, _ := sample.Open()
	text, err := io.ReadAll(r)
	if err != nil {
		panic(err)
	}
	for line := range strings.Lines(string(text)) {
		cells := strings.Split(strings.TrimSpace(line), ",")
		at, err := time.Parse("2006-01-02 15:04", cells[0])
		if err != nil {
			continue // the head
		}
		var v [4]float64
		for i := range v {
			if v[i], err = strconv.ParseFloat(cells[i+1], 64); err != nil {
				panic(err)
			}
		}
		all = append(all, row{at, v[0], v[1] / 100, v[2], v[3]})
	}
	return all
})

func everyHour(row) bool { return true }

// fourWeeks are the hours of four weeks, two with frost and two of summer: enough
// to meet every branch of every formula, and soon opened by an office program.
func fourWeeks(r row) bool {
	return r.time.Day() > 10 && r.time.Day() <= 24 && (r.time.Month() == time.March || r.time.Month() == time.July)
}

// july has an hour in every row, where fourWeeks has months without any.
func july(r row) bool { return r.time.Month() == time.July }

// hours are those that the books of the proofs are about: the whole year, or under
// -short, which asks for an answer in seconds, four weeks.
func hours() func(row) bool {
	if testing.Short() {
		return fourWeeks
	}
	return everyHour
}

// wholeYear skips, loudly, what only a whole year shows.
func wholeYear(t testing.TB) {
	t.Helper()
	if testing.Short() {
		t.Skip("SKIPPED: -short leaves out what takes a whole year of hours")
	}
}

// readSome is read with some of the hours.
func (o otherWeather) readSome(t testing.TB, which func(row) bool) *weather.Series {
	t.Helper()
	var b strings.Builder
	for _, l := range [][2]string{{"station", "Ostrel Flat (invented)"}, {"country", "US"}, {"latitude", "42.8"}, {"longitude", "-118.4"}, {"elevation_m", "1480"}, {"utc_offset_h", "-8"}} {
		if v, ok := o.head[l[0]]; ok {
			l[1] = v
		}
		fmt.Fprintf(&b, "# %s: %s\n", l[0], l[1])
	}
	b.WriteString("time," + o.columns + "\n")
	for year := range max(1, o.years) {
		for _, r := range rows() {
			if !which(r) {
				continue
			}
			r.time = r.time.AddDate(year, 0, 0)
			r.dry += float64(year)
			if cells := o.cells(r); cells != nil {
				b.WriteString(r.time.Format("2006-01-02 15:04") + "," + strings.Join(cells, ",") + "\n")
			}
		}
	}
	s, err := weather.Read(strings.NewReader(b.String()), "other.csv", weather.Options{AllowGaps: true})
	require.NoError(t, err)
	if o.change != nil {
		o.change(s)
	}
	return s
}

// halves are values with others exactly half a degree away, the edge of what counts
// as coincident.
func halves(x float64) string  { return tenths(math.Round(2*x) / 2) }
func tenths(x float64) string  { return strconv.FormatFloat(x, 'f', 1, 64) }
func integer(x float64) string { return strconv.FormatFloat(math.Round(x), 'f', 0, 64) }

// wetBulb and dewPoint of an hour, °C.
func (r row) wetBulb() float64 { return r.must(psychro.Air.WetBulb) }

func (r row) must(of func(psychro.Air) (float64, error)) float64 {
	a, err := psychro.FromRelHum(r.dry, r.rel, r.hPa*100)
	if err != nil {
		panic(err)
	}
	v, err := of(a)
	if err != nil {
		panic(err)
	}
	return v
}

func (r row) dewPoint() float64 { return r.must(psychro.Air.DewPoint) }

func (r row) usual() []string {
	return []string{tenths(r.dry), tenths(r.rel * 100), tenths(r.hPa), integer(r.ghi)}
}

const usualColumns = "temperature_c,relative_humidity_pct,pressure_hpa,ghi_wm2"

// The weather of the books: what files give and what they lack.
var (
	asSampled       = otherWeather{columns: usualColumns, cells: row.usual}
	dewPointWeather = otherWeather{columns: "temperature_c,dew_point_c,pressure_hpa,ghi_wm2", cells: func(r row) []string {
		return []string{tenths(r.dry), integer(math.Min(r.dry, r.dewPoint())), tenths(r.hPa), integer(r.ghi)}
	}}
	// wholeDegrees has many hours whose wick is at exactly 0 °C.
	wholeDegrees = otherWeather{columns: "temperature_c,wet_bulb_c,pressure_hpa,ghi_wm2", cells: func(r row) []string {
		return []string{integer(r.dry), integer(math.Min(math.Round(r.dry), r.wetBulb())), tenths(r.hPa), integer(r.ghi)}
	}}
	fahrenheitWetBulb = otherWeather{columns: "temperature_f,wet_bulb_f,ghi_wm2", cells: func(r row) []string {
		dry := math.Round(r.dry*1.8 + 32)
		return []string{integer(dry), integer(math.Min(dry, r.wetBulb()*1.8+32)), integer(r.ghi)}
	}}
	noPressure   = otherWeather{columns: "temperature_c,relative_humidity_pct,ghi_wm2", cells: func(r row) []string { u := r.usual(); return []string{halves(r.dry), u[1], u[3]} }}
	noIrradiance = otherWeather{columns: "temperature_c,relative_humidity_pct,pressure_hpa", cells: func(r row) []string { return r.usual()[:3] }}
	withGaps     = otherWeather{columns: usualColumns, cells: gaps}
	wetWithGaps  = otherWeather{columns: wholeDegrees.columns, cells: func(r row) []string {
		if u := gaps(r); u == nil || u[0] == "" || u[1] == "" {
			return nil
		}
		return wholeDegrees.cells(r)
	}}
	southern   = otherWeather{columns: usualColumns, cells: shortWinter, head: map[string]string{"latitude": "-33.5", "longitude": "150.2", "country": "AU", "utc_offset_h": "10"}}
	threeYears = otherWeather{columns: usualColumns, cells: row.usual, years: 3}
	// saturatedZero begins with hours that nothing holds.
	saturatedZero = otherWeather{columns: usualColumns, cells: func(r row) []string {
		if d := r.time.YearDay(); (d == 1 || r.time.Month() == time.March && r.time.Day() == 11) && r.time.Hour() < 6 {
			r.dry, r.rel = 36, 0.6
		} else if r.time.Hour()%6 == 0 && r.dry < 8 {
			r.dry, r.rel = 0, 1
		}
		return r.usual()
	}}
)

// shortWinter is the sample half a year later, as a place south of the equator
// has it, with frost from 17 to 30 June only and its hottest day early in
// summer: half a year from that day is the beginning of June.
func shortWinter(r row) []string {
	all, hour := rows(), (r.time.YearDay()-1)*24+r.time.Hour()
	other := all[(hour+182*24)%len(all)]
	other.time = r.time
	switch month, day := r.time.Month(), r.time.Day(); {
	case month == time.December && day == 2:
		other.dry += 15
	case month != time.June || day < 17:
		other.dry = math.Max(other.dry, 0.5)
	}
	return other.usual()
}

// gaps leaves single values empty, hours out, and a week in April missing.
func gaps(r row) []string {
	u := r.usual()
	switch {
	case r.time.Month() == time.April && r.time.Day() <= 7, r.time.YearDay()%40 == 3 && r.time.Hour() < 9:
		return nil
	case r.time.Hour() == 5 && r.time.Day()%9 == 1:
		u[0] = ""
	case r.time.Hour() == 14 && r.time.Day()%7 == 1:
		u[1] = ""
	case r.time.Hour()%7 == 3:
		u[2] = ""
	case r.time.Hour()%5 == 1:
		u[3] = ""
	}
	return u
}

// bookKind is one of the books whose formulas are proved.
type bookKind struct {
	name    string
	weather otherWeather
	units   units.System
	changes changes
	years   bool
}

// Prices by season and clock: within the year and the day, and over the new year
// and midnight. Of the books' four weeks, two lie in summer time.
var (
	summerTariff = changes{"price.season_electricity": 0.3, "price.peak_electricity": 0.6, "price.season_first": 3.0, "price.season_last": 9.0,
		"price.peak_from": 14.0, "price.peak_to": 20.0, "price.peak_days": "weekdays", "price.summer_time": "us"}
	southernTariff = changes{"price.season_electricity": 0.25, "price.peak_electricity": 0.5, "price.season_first": 11.0, "price.season_last": 7.0,
		"price.peak_from": 22.0, "price.peak_to": 7.0, "price.summer_time": "south"}
)

var bookKinds = []bookKind{
	{"relative humidity, direct", asSampled, units.IP, nil, false},
	{"dew point, two-stage, purge", dewPointWeather, units.SI, changes{"cooler.kind": "two-stage", "cooler.water_care": "purge", "site.altitude": 2000.0}, false},
	{"wet bulb in whole °C, indirect", wholeDegrees, units.SI, changes{"cooler.kind": "indirect", "cooler.water_care": "none"}, false},
	{"wet bulb in whole °C, direct", wholeDegrees, units.IP, nil, false},
	{"wet bulb in whole °F, no pressure", fahrenheitWetBulb, units.IP, changes{"cooler.kind": "two-stage"}, false},
	{"saturated at 0 °C, hot at the start", saturatedZero, units.SI, nil, false},
	{"no pressure, variable speed", noPressure, units.IP, changes{"cooler.drive": "variable", "ac.windows_open": "yes"}.with(summerTariff), false},
	{"no irradiance, house low down", noIrradiance, units.SI, changes{"site.altitude": 0.0, "house.design_load": 9000.0, "ac.capacity": 7000.0}, false},
	{"gaps", withGaps, units.IP, changes{"cooler.water_care": "purge", "cooler.drive": "one-speed", "house.humidity_limit": 0.6}, false},
	{"south of the equator", southern, units.SI, changes{"cooler.pad_condition": 0.8}.with(southernTariff), false},
	{"three years", threeYears, units.IP, changes{"cooler.kind": "two-stage"}, true},
}

// compute is the case of the book, over the whole year or some of its hours.
func (k bookKind) compute(t testing.TB, which func(row) bool) *figures.Case {
	t.Helper()
	s := k.weather.readSome(t, which)
	if !k.years {
		return compute(t, s, k.units, k.changes)
	}
	f, err := years.Gather([]*weather.Series{s})
	require.NoError(t, err)
	table, shown, err := years.Run(f, resolved(t, s, k.changes), "")
	require.NoError(t, err)
	c := compute(t, shown, k.units, k.changes)
	c.Years = table
	return c
}

// resolved is a job with the changes at the place of a weather file.
func resolved(t testing.TB, s *weather.Series, c changes) *job.Job {
	t.Helper()
	j := job.New()
	require.NoError(t, c.state(j))
	require.NoError(t, j.Resolve(s.Station.Name, s.Station.Elevation, s.Station.Region()))
	return j
}
