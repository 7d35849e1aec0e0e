package weather

import (
	"math"
	"strings"
)

// NSRDB: National Solar Radiation Database CSV. Line 1 names, line 2 values of
// the place, line 3 headings in the order asked for.
// Source: NREL developer network, NSRDB data download documentation.
//
// Stamps are in Time Zone of line 2: 0 means UTC even where Local Time Zone
// differs. The minute is 30 or 0; values are at the time shown. Typical years
// change the year within a month; 29 February is dropped.
var nsrdbLayout = layout{
	columns: []column{
		{key: "year", headings: []heading{{"Year", nil}}, need: true},
		{key: "month", headings: []heading{{"Month", nil}}, need: true},
		{key: "day", headings: []heading{{"Day", nil}}, need: true},
		{key: "hour", headings: []heading{{"Hour", nil}}, need: true},
		{key: "minute", headings: []heading{{"Minute", nil}}},
		{key: "dry bulb", headings: []heading{{"Temperature", nil}, {"tdry", nil}}, need: true},
		{key: "dew point", headings: []heading{{"Dew Point", nil}, {"tdew", nil}}},
		{key: "relative humidity", headings: []heading{{"Relative Humidity", percent}, {"rh", percent}}},
		{key: "pressure", headings: []heading{{"Pressure", hectopascal}, {"pres", hectopascal}}},
		{key: "irradiance", headings: []heading{{"GHI", nil}}},
	},
	missing: []float64{-9999},
	stamp:   hourBeginningStamp,
	stampAt: "hour",
}

func isNSRDB(head []string) bool {
	return len(head) > 2 && hasHeadings(head[0], "Source", "Latitude", "Time Zone") && hasHeadings(head[2], "Year", "Temperature")
}

// isSAM knows the arrangement that NREL's System Advisor Model reads: the same
// three lines with short names. Its twet, made by NASA POWER's rule, is the mean
// of temperature and dew point and is not read.
func isSAM(head []string) bool {
	return len(head) > 2 && hasHeadings(head[0], "Source", "Latitude", "Time Zone") && hasHeadings(head[2], "year", "tdry")
}

func readNSRDB(doc *document) (*observations, error) {
	s := newScanner(doc, ',')
	names, _, err := s.heading("the names of line 1")
	if err != nil {
		return nil, err
	}
	values, line, err := s.heading("the values of line 2")
	if err != nil {
		return nil, err
	}
	place := pairs(names, values)
	o := &observations{file: doc.name, station: stationOf(place), mayJoin: true}
	if o.station.Name == "" {
		o.station.Name = strings.TrimSpace(place["source"] + " " + place["location id"])
	}
	if err := o.station.check(doc.name, line); err != nil {
		return nil, err
	}
	stamps := headerNumber(place["time zone"])
	switch {
	case stamps == o.station.UTCOffset || math.IsNaN(stamps):
	case stamps == 0:
		o.utc = true
	default:
		return nil, &Error{File: doc.name, Line: line, Text: "Time Zone is neither 0 nor Local Time Zone", Hint: "download it in local time or in UTC"}
	}
	headings, line, err := s.heading("the headings")
	if err != nil {
		return nil, err
	}
	o.rows, err = nsrdbLayout.read(s, headings, line)
	return o, err
}
