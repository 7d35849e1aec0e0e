package weather

import (
	"strings"
)

// SURFRAD: NOAA's surface radiation network, one day of one station in a file:
// the station's name, a line with its place, then rows of 48 fields between
// blanks every minute (every three before 2009), UTC, -9999.9 missing. A quality
// digit follows each value: 1 is outside what is physically possible, 2
// improbable; values with 1 are not used. No headings. SOLRAD has other fields
// and is not read.
// Source: NOAA Global Monitoring Laboratory, README_SURFRAD.
//
// Longitudes are printed without a sign, degrees west: all stations are in the
// United States. The pressure is the station's.
var surfradLayout = layout{
	columns: []column{
		{key: "year", headings: []heading{{"year", nil}}, need: true},
		{key: "month", headings: []heading{{"month", nil}}, need: true},
		{key: "day", headings: []heading{{"day", nil}}, need: true},
		{key: "hour", headings: []heading{{"hour", nil}}, need: true},
		{key: "minute", headings: []heading{{"min", nil}}, need: true},
		{key: "irradiance", headings: []heading{{"dw_solar", nil}}, wrong: "1"},
		{key: "dry bulb", headings: []heading{{"temp", nil}}, need: true, wrong: "1"},
		{key: "relative humidity", headings: []heading{{"rh", percent}}, wrong: "1"},
		{key: "pressure", headings: []heading{{"pressure", hectopascal}}, wrong: "1"},
	},
	missing: []float64{-9999.9},
	stamp:   hourBeginningStamp,
	stampAt: "min",
}

// surfradFields in the order of the rows; each from dw_solar on is followed by
// its quality digit.
var surfradFields = func() []string {
	out := []string{"year", "jday", "month", "day", "hour", "min", "dt", "zen"}
	for _, f := range []string{"dw_solar", "uw_solar", "direct_n", "diffuse", "dw_ir", "dw_casetemp", "dw_dometemp", "uw_ir", "uw_casetemp", "uw_dometemp",
		"uvb", "par", "netsolar", "netir", "totalnet", "temp", "rh", "windspd", "winddir", "pressure"} {
		out = append(out, f, "qc_"+f)
	}
	return out
}()

func isSURFRAD(head []string) bool {
	if len(head) < 3 {
		return false
	}
	place := strings.Fields(head[1])
	return len(place) >= 5 && place[3] == "m" && place[4] == "version" && len(strings.Fields(head[2])) == len(surfradFields)
}

func readSURFRAD(doc *document) (*observations, error) {
	s := newScanner(doc, ' ')
	name, _ := s.rawLine()
	text, line := s.rawLine()
	place := strings.Fields(text)
	west := headerNumber(place[1])
	if west > 0 {
		west = -west
	}
	station := Station{
		Name: strings.TrimSpace(name), Country: "US", UTCOffset: unknownStation().UTCOffset,
		Latitude: headerNumber(place[0]), Longitude: west, Elevation: headerNumber(place[2]),
	}
	if err := station.check(doc.name, line); err != nil {
		return nil, err
	}
	rows, err := surfradLayout.read(s, surfradFields, line)
	if err != nil {
		return nil, err
	}
	return &observations{file: doc.name, station: station, utc: true, rows: rows}, nil
}
