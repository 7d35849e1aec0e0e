package weather

import (
	"fmt"
	"strings"
	"time"
)

// EPW: eight header lines of which LOCATION is the first and DATA PERIODS the
// last, then rows of 35 fields without headings, known by position.
// Source: US Department of Energy, Auxiliary Programs, chapter on the weather
// file format, data dictionary. The minute field (0 or 60) carries nothing.
//
// Temperature, humidity and pressure are values at the hour shown, irradiance
// is the mean of the hour before it.
var epwLayout = layout{
	columns: []column{
		{key: "year", headings: []heading{{"year", nil}}, need: true},
		{key: "month", headings: []heading{{"month", nil}}, need: true},
		{key: "day", headings: []heading{{"day", nil}}, need: true},
		{key: "hour", headings: []heading{{"hour", nil}}, need: true},
		{key: "dry bulb", headings: []heading{{"dry bulb temperature (C)", nil}}, need: true, missing: []float64{99.9}},
		{key: "dew point", headings: []heading{{"dew point temperature (C)", nil}}, missing: []float64{99.9}},
		{key: "relative humidity", headings: []heading{{"relative humidity (%)", percent}}, missing: []float64{999}},
		{key: "pressure", headings: []heading{{"atmospheric station pressure (Pa)", nil}}, missing: []float64{999999}},
		{key: "irradiance", headings: []heading{{"global horizontal radiation (Wh/m2)", nil}}, missing: []float64{9999}},
	},
	stamp:   hourEndingStamp,
	stampAt: "hour",
	source:  "data source and uncertainty flags", // two signs a field, the dry bulb's first
}

// epwFields names the fields up to the last one used; empty names are not read.
var epwFields = []string{
	"year", "month", "day", "hour", "", "data source and uncertainty flags",
	"dry bulb temperature (C)", "dew point temperature (C)", "relative humidity (%)",
	"atmospheric station pressure (Pa)", "", "", "", "global horizontal radiation (Wh/m2)",
}

func isEPW(head []string) bool {
	rest, ok := strings.CutPrefix(strings.ToUpper(head[0]), "LOCATION")
	return ok && strings.IndexAny(rest, ",;\t") == 0
}

// hourEndingStamp reads hours 1 to 24.
func hourEndingStamp(r *record) (time.Time, error) {
	if r.Hour == 0 {
		return time.Time{}, fmt.Errorf("hour 0: hours run from 1 to 24 in this format")
	}
	return civil(int(r.Year), int(r.Month), int(r.Day), int(r.Hour), 0)
}

func readEPW(doc *document) (*observations, error) {
	s := newScanner(doc, ',')
	place, line := s.rawLine()
	station, err := epwStation(doc.name, strings.Split(place, string(rune(s.comma))), line)
	if err != nil {
		return nil, err
	}
	if err := skipToDataPeriods(s); err != nil {
		return nil, err
	}
	rows, err := epwLayout.read(s, epwFields, s.line)
	if err != nil {
		return nil, err
	}
	return &observations{file: doc.name, station: station, hourEnding: true, mayJoin: true, rows: rows}, nil
}

// epwStation reads LOCATION: city, state, country, source, station number,
// latitude, longitude, UTC offset, elevation.
func epwStation(file string, f []string, line int) (Station, error) {
	if len(f) < 10 {
		return Station{}, &Error{File: file, Line: line, Text: "the LOCATION line needs ten fields", Hint: "city, state, country, source, station, latitude, longitude, UTC offset, elevation"}
	}
	st := Station{
		Name:      strings.TrimSpace(f[1]),
		Country:   strings.TrimSpace(f[3]),
		Latitude:  degrees(f[6]),
		Longitude: degrees(f[7]),
		UTCOffset: headerNumber(f[8]),
		Elevation: headerNumber(f[9]),
	}
	if state := strings.TrimSpace(f[2]); state != "" && state != "-" {
		st.Name += ", " + state
		st.State = usState(st.Country, state)
	}
	return st, st.check(file, line)
}

// skipToDataPeriods passes the header. Its lines hold commas and quotes in free
// text and their number varies, so the last one is found by name.
func skipToDataPeriods(s *scanner) error {
	for s.text != "" {
		text, line := s.rawLine()
		f := strings.Split(text, string(rune(s.comma)))
		if _, ok := digits(f[0]); ok {
			return &Error{File: s.name, Line: line, Text: "data begins before a DATA PERIODS line", Hint: "the header of an EPW file ends with DATA PERIODS; restore it"}
		}
		if !strings.EqualFold(strings.TrimSpace(f[0]), "DATA PERIODS") {
			continue
		}
		if len(f) > 2 && strings.TrimSpace(f[2]) != "1" {
			return &Error{File: s.name, Line: line, Column: 3, Heading: "DATA PERIODS", Text: fmt.Sprintf("%s records an hour; one is needed", clip(f[2], 10)), Hint: "average the file to hourly steps"}
		}
		return nil
	}
	return &Error{File: s.name, Line: s.line, Text: "the file ends before the DATA PERIODS line", Hint: "it may be cut short"}
}
