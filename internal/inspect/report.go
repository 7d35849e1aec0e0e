// Package inspect says what a weather file is, what is in it, what is missing and
// how far it can be trusted.
package inspect

import (
	"math"
	"time"

	"github.com/evapbook/evapbook/internal/psychro"
	"github.com/evapbook/evapbook/internal/weather"
)

// Report is what is found in a file; its JSON names are fixed. Values are in SI
// as named.
type Report struct {
	File       string              `json:"file"`
	Format     string              `json:"format"`
	KnownBy    string              `json:"format_known_by"`
	SHA256     string              `json:"sha256"`
	Station    string              `json:"station"`
	Country    string              `json:"country,omitempty"`
	Latitude   *float64            `json:"latitude"`
	Longitude  *float64            `json:"longitude"`
	Elevation  *float64            `json:"elevation_m"`
	UTCOffset  *float64            `json:"utc_offset_h"`
	HourEnding bool                `json:"hour_ending"`
	First      string              `json:"first"`
	Last       string              `json:"last"`
	Typical    bool                `json:"typical_year"`
	Hours      int                 `json:"hours"`
	Usable     int                 `json:"hours_with_temperature_and_humidity"`
	Humidity   string              `json:"humidity_from"`
	Spare      string              `json:"humidity_not_used,omitempty"`
	Disagree   *int                `json:"humidity_disagreements,omitempty"` // hours over 5 points apart
	Ranges     map[string]*extent  `json:"ranges"`
	Months     map[string][]*share `json:"months"` // share of the hours of each month that are there, January first
	Years      []yearReport        `json:"years"`
	LongestGap *gap                `json:"longest_gap,omitempty"`
	Needs      []Need              `json:"needs"`
	Notes      []string            `json:"notes"`
	Verdict    string              `json:"verdict"` // good, usable or doubtful, and why
	LeftOut    int                 `json:"hours_left_out"`

	Named string `json:"-"` // how write is told of it, where it is no file
}

// share is a number from 0 to 1, null where the file does not reach.
type share = float64

// extent is the range of one quantity and how many hours lack it.
type extent struct {
	Unit    string  `json:"unit"`
	Min     float64 `json:"min"`
	Max     float64 `json:"max"`
	Mean    float64 `json:"mean"`
	MinAt   string  `json:"min_at"`
	MaxAt   string  `json:"max_at"`
	Missing int     `json:"missing"`
}

// yearReport is one cooling year of the file.
type yearReport struct {
	Year      string `json:"year"`
	Hours     int    `json:"hours"`
	WarmValid int    `json:"warm_half_year_valid"`
	WarmHours int    `json:"warm_half_year_hours"`
	Whole     bool   `json:"whole"`
}

// gap is a run of hours without temperature or humidity.
type gap struct {
	Hours int    `json:"hours"`
	From  string `json:"from"`
	Warm  bool   `json:"in_warm_half_year"`
}

// Need is something the file does not say, and the option that gives it.
type Need struct {
	Of     Subject `json:"-"`
	What   string  `json:"what"`
	Option string  `json:"option"`
	Must   bool    `json:"must"` // write refuses the file without it
}

// Subject is what a need is about.
type Subject int

// The subjects.
const (
	Zone Subject = iota
	Position
	Elevation
	Gaps
)

const stampForm = "2006-01-02 15:04"

var humidityWords = map[weather.Humidity][2]string{
	weather.RelHum: {"relative humidity", "%"}, weather.DewPoint: {"dew point", "°C"}, weather.WetBulb: {"wet bulb", "°C"},
}

// quantities of a series, in the order inspect lists them; the humidity that is
// used has the name of its kind.
var quantities = []struct {
	name, unit string
	of         func(h *weather.Hour) float64
}{
	{"dry bulb", "°C", func(h *weather.Hour) float64 { return h.DryBulb }},
	{"", "", func(h *weather.Hour) float64 { return h.Humidity }},
	{"station pressure", "hPa", func(h *weather.Hour) float64 { return h.Pressure / 100 }},
	{"irradiance", "W/m²", func(h *weather.Hour) float64 { return h.GHI }},
}

// Describe looks through a series. zoneless says that the file's stamps are UTC
// and its time zone is not known, so that it was read in UTC.
func Describe(s *weather.Series, zoneless bool) *Report {
	st := s.Station
	if zoneless {
		st.UTCOffset = math.NaN()
	}
	r := &Report{
		File: s.Source.Name, Format: s.Source.Format, KnownBy: s.Source.By, SHA256: s.Source.SHA256,
		Station: st.Name, Country: st.Country, HourEnding: s.HourEnding,
		Latitude: orNull(st.Latitude), Longitude: orNull(st.Longitude), Elevation: orNull(st.Elevation), UTCOffset: orNull(st.UTCOffset),
		First: s.Hours[0].Time.Format(stampForm), Last: s.Hours[len(s.Hours)-1].Time.Format(stampForm),
		Typical: s.Typical, Hours: len(s.Hours), Humidity: humidityWords[s.Humidity][0],
		Ranges: map[string]*extent{}, Months: map[string][]*share{}, Notes: []string{}, Needs: []Need{},
	}
	if s.Spare != nil {
		r.Spare = humidityWords[s.SpareKind][0]
		if n, ok := s.HumidityDisagreement(psychro.SaturationPressure); ok {
			r.Disagree = &n
		}
	}
	r.quantities(s)
	r.years(s)
	r.gaps(s)
	r.needs(s, zoneless)
	r.judge(s, zoneless)
	for _, n := range s.Notes {
		if !zoneless || n.Kind != weather.NoteWarmestHour { // in UTC of course
			r.Notes = append(r.Notes, n.String())
		}
	}
	return r
}

func (r *Report) quantities(s *weather.Series) {
	for _, q := range quantities {
		name, unit, scale := q.name, q.unit, 1.0
		if name == "" {
			name, unit = humidityWords[s.Humidity][0], humidityWords[s.Humidity][1]
			if s.Humidity == weather.RelHum {
				scale = 100
			}
		}
		r.Months[name] = monthShares(s, q.of)
		if e := extentOf(s.Hours, q.of, scale); e != nil {
			e.Unit = unit
			r.Ranges[name] = e
		}
	}
}

// extentOf is nil where no hour has the quantity.
func extentOf(hours []weather.Hour, of func(*weather.Hour) float64, scale float64) *extent {
	e := &extent{Min: math.Inf(1), Max: math.Inf(-1)}
	n := 0
	for i := range hours {
		v := of(&hours[i]) * scale
		if math.IsNaN(v) {
			e.Missing++
			continue
		}
		if v < e.Min {
			e.Min, e.MinAt = v, hours[i].Time.Format(stampForm)
		}
		if v > e.Max {
			e.Max, e.MaxAt = v, hours[i].Time.Format(stampForm)
		}
		e.Mean += v
		n++
	}
	if n == 0 {
		return nil
	}
	e.Mean /= float64(n)
	return e
}

// monthShares is the share of the hours of each calendar month, all years
// together, that have the quantity. A month is as long as it is in the years the
// file touches; nil where the file does not touch the month.
func monthShares(s *weather.Series, of func(*weather.Hour) float64) []*share {
	var have, want [12]float64
	counted := map[int]bool{}
	for i := range s.Hours {
		t := s.Start(i)
		m := int(t.Month()) - 1
		if key := t.Year()*12 + m; !counted[key] && !s.Typical {
			counted[key] = true
			want[m] += float64(24 * daysOfMonth(t))
		}
		if s.Typical {
			want[m]++
		}
		if !math.IsNaN(of(&s.Hours[i])) {
			have[m]++
		}
	}
	out := make([]*share, 12)
	for m := range out {
		if want[m] > 0 {
			v := min(1, have[m]/want[m])
			out[m] = &v
		}
	}
	return out
}

// daysOfMonth counts February as 28 days: files often leave 29 February out.
func daysOfMonth(t time.Time) int {
	if t.Month() == time.February {
		return 28
	}
	return time.Date(t.Year(), t.Month()+1, 0, 0, 0, 0, 0, time.UTC).Day()
}

func (r *Report) years(s *weather.Series) {
	for _, y := range s.Years() {
		r.Years = append(r.Years, yearReport{y.Label, len(y.Series.Hours), y.Valid, y.Want, y.Whole()})
	}
}

func (r *Report) gaps(s *weather.Series) {
	run := 0
	for i := range s.Hours {
		h := &s.Hours[i]
		if !math.IsNaN(h.DryBulb) && !math.IsNaN(h.Humidity) {
			r.Usable++
			run = 0
			continue
		}
		run++
		if r.LongestGap == nil || run > r.LongestGap.Hours {
			from := s.Hours[i-run+1].Time
			warm := (from.Month() >= time.April && from.Month() <= time.September) == (math.IsNaN(s.Station.Latitude) || s.Station.Latitude >= 0)
			r.LongestGap = &gap{run, from.Format(stampForm), warm}
		}
	}
}

// needs lists what the file does not say.
func (r *Report) needs(s *weather.Series, zoneless bool) {
	add := func(of Subject, must bool, what, option string) {
		r.Needs = append(r.Needs, Need{of, what, option, must})
	}
	noSun := r.Ranges["irradiance"] == nil || r.Ranges["irradiance"].Missing > 0
	if zoneless {
		add(Zone, true, "the stamps are UTC and the station's time zone is not known", "--utc-offset HOURS")
	}
	if r.Latitude == nil || r.Longitude == nil {
		add(Position, noSun, "where the station is (the sun is worked out from it)", "--latitude DEGREES --longitude DEGREES")
	}
	if r.UTCOffset == nil && !zoneless {
		add(Zone, noSun, "how far standard time is from UTC (the sun is worked out from it)", "--utc-offset HOURS")
	}
	if r.Elevation == nil {
		add(Elevation, false, "the station's elevation; without it the house is taken to stand as high as the station", "--elevation HEIGHT, such as 1342m")
	}
	whole := false
	for _, y := range r.Years {
		whole = whole || y.Whole
	}
	if !whole {
		add(Gaps, true, "a tenth or more of the warm half-year is missing", "another file, or --allow-gaps")
	}
}

func orNull(v float64) *float64 {
	if math.IsNaN(v) {
		return nil
	}
	return &v
}
