package weather

import (
	"strings"
	"time"
)

// ISD-Lite: hourly extract of NOAA's Integrated Surface Database, columns
// between blanks, no headings, no station, UTC, tenths, -9999 missing. A missing
// hour has no row. The pressure is sea-level pressure and not used.
//
// A stamp closes its hour: the values are those observed in the ten minutes
// before it or on it, so the report of 12:53 stands at 13.
// Source: NOAA NCEI, isd-lite-format document and ISD-Lite technical document
// (20 June 2006), "Observation Selection".
var isdLiteLayout = layout{
	columns: []column{
		{key: "year", headings: []heading{{"year", nil}}, need: true},
		{key: "month", headings: []heading{{"month", nil}}, need: true},
		{key: "day", headings: []heading{{"day", nil}}, need: true},
		{key: "hour", headings: []heading{{"hour", nil}}, need: true},
		{key: "dry bulb", headings: []heading{{"air temperature (0.1 C)", tenth}}, need: true},
		{key: "dew point", headings: []heading{{"dew point temperature (0.1 C)", tenth}}},
	},
	missing: []float64{-9999},
	stamp:   hourBeginningStamp,
	stampAt: "hour",
}

var isdLiteFields = []string{"year", "month", "day", "hour", "air temperature (0.1 C)", "dew point temperature (0.1 C)"}

func isISDLite(head []string) bool {
	f := strings.Fields(head[0])
	if len(f) != 12 || strings.ContainsAny(head[0], ",;\t") || len(f[0]) != 4 {
		return false
	}
	for _, s := range f {
		if _, ok := digits(strings.TrimPrefix(s, "-")); !ok {
			return false
		}
	}
	return true
}

// hourBeginningStamp reads hours 0 to 23.
func hourBeginningStamp(r *record) (time.Time, error) {
	return civil(int(r.Year), int(r.Month), int(r.Day), int(r.Hour), int(r.Minute))
}

func readISDLite(doc *document) (*observations, error) {
	s := newScanner(doc, ' ')
	rows, err := isdLiteLayout.read(s, isdLiteFields, 1)
	if err != nil {
		return nil, err
	}
	return &observations{file: doc.name, station: unknownStation(), utc: true, hourEnding: true, rows: rows}, nil
}
