package weather

import (
	"math"
	"strings"
	"time"
)

// TMY3: line 1 the station, line 2 the headings, then 8760 rows.
// Source: Wilcox and Marion, User's Manual for TMY3 Data Sets,
// NREL/TP-581-43156 (2008), tables 1-1 and 1-2.
//
// Temperature, humidity and pressure are values at the time shown; irradiance
// is the mean of the hour before it. 24:00 belongs to the day on its row.
var tmy3Layout = layout{
	columns: []column{
		{key: "date", headings: []heading{{"Date (MM/DD/YYYY)", nil}}, need: true},
		{key: "clock", headings: []heading{{"Time (HH:MM)", nil}}, need: true},
		{key: "dry bulb", headings: []heading{{"Dry-bulb (C)", nil}}, need: true},
		{key: "dew point", headings: []heading{{"Dew-point (C)", nil}}},
		{key: "relative humidity", headings: []heading{{"RHum (%)", percent}}},
		{key: "pressure", headings: []heading{{"Pressure (mbar)", hectopascal}}},
		{key: "irradiance", headings: []heading{{"GHI (W/m^2)", nil}}},
	},
	missing: []float64{-9900},
	stamp:   tmy3Stamp,
	stampAt: "date",
	source:  "Dry-bulb source",
}

// filledFlag tells whether a source flag of the TMY sets says that a value was
// not observed: A is data as received, B to F are interpolated, modelled or
// estimated; any other sign says nothing.
// Source: Wilcox and Marion (2008), table 1-4 (from memory), and the counts of
// the letters in the stations of docs/weather.md.
func filledFlag(sign byte) bool { return sign >= 'B' && sign <= 'F' }

func isTMY3(head []string) bool {
	return len(head) > 1 && strings.HasPrefix(strings.TrimLeft(head[1], `"`), "Date (MM/DD/YYYY)")
}

func tmy3Stamp(r *record) (time.Time, error) {
	year, month, day, err := parseUSDate(r.Date)
	if err != nil {
		return time.Time{}, err
	}
	hour, minute, err := parseClock(r.Clock)
	if err != nil {
		return time.Time{}, err
	}
	return civil(year, month, day, hour, minute)
}

func readTMY3(doc *document) (*observations, error) {
	s := newScanner(doc, ',')
	place, line, err := s.heading("the station line")
	if err != nil {
		return nil, err
	}
	station, err := tmy3Station(doc.name, place, line)
	if err != nil {
		return nil, err
	}
	headings, line, err := s.heading("the headings")
	if err != nil {
		return nil, err
	}
	rows, err := tmy3Layout.read(s, headings, line)
	if err != nil {
		return nil, err
	}
	return &observations{file: doc.name, station: station, hourEnding: true, mayJoin: true, rows: rows}, nil
}

// tmy3Station reads station number, name, state, UTC offset, latitude,
// longitude, elevation. Re-saved copies drop the quotes and pad the line, so a
// comma in the name shifts the rest: the state and four numbers are looked for
// from the end. Files made by others put more behind the elevation: where the
// end holds no four numbers, they are taken from the front.
func tmy3Station(file string, f []string, line int) (Station, error) {
	for len(f) > 0 && f[len(f)-1] == "" {
		f = f[:len(f)-1]
	}
	n := len(f)
	if n < 7 {
		return Station{}, &Error{File: file, Line: line, Text: "the station line needs number, name, state, UTC offset, latitude, longitude, elevation", Hint: "the first line of a TMY3 file was changed; restore it"}
	}
	st := Station{
		Name:      strings.Join(f[1:n-5], ", "),
		UTCOffset: headerNumber(f[n-4]),
		Latitude:  degrees(f[n-3]),
		Longitude: degrees(f[n-2]),
		Elevation: headerNumber(f[n-1]),
		Country:   "US",
	}
	if math.IsNaN(st.UTCOffset + st.Latitude + st.Longitude + st.Elevation) { // more fields behind: the station from the front
		front := f[3:7]
		st.Name, n = f[1], 7
		st.UTCOffset, st.Latitude, st.Longitude, st.Elevation = headerNumber(front[0]), degrees(front[1]), degrees(front[2]), headerNumber(front[3])
	}
	if state := f[n-5]; state != "" {
		st.Name += ", " + state
		st.State = usState(st.Country, state)
	}
	return st, st.check(file, line)
}
