package weather

import (
	"fmt"
	"strings"
	"time"
)

// PVGIS typical year: header lines with a colon, a table of the years the
// months come from, then rows in UTC until a blank line and a legend.
// Source: European Commission Joint Research Centre, PVGIS user manual.
var pvgisLayout = layout{
	columns: []column{
		{key: "clock", headings: []heading{{"time(UTC)", nil}}, need: true},
		{key: "dry bulb", headings: []heading{{"T2m", nil}}, need: true},
		{key: "relative humidity", headings: []heading{{"RH", percent}}},
		{key: "pressure", headings: []heading{{"SP", nil}}},
		{key: "irradiance", headings: []heading{{"G(h)", nil}}},
	},
	end:     func(f []string) bool { return f[0] == "" || f[0][0] < '0' || f[0][0] > '9' },
	stamp:   pvgisStamp,
	stampAt: "clock",
}

func isPVGIS(head []string) bool { return strings.HasPrefix(head[0], "Latitude (decimal degrees)") }

// pvgisStamp reads 20180101:0000.
func pvgisStamp(r *record) (time.Time, error) {
	d, c, _ := strings.Cut(strings.TrimSpace(r.Clock), ":")
	day, okD := digits(d)
	clock, okC := digits(c)
	if !okD || !okC || len(d) != 8 || len(c) != 4 {
		return time.Time{}, fmt.Errorf("%q is not a time of the form YYYYMMDD:HHMM", clip(r.Clock, 30))
	}
	return civil(day/10000, day/100%100, day%100, clock/100, clock%100)
}

func readPVGIS(doc *document) (*observations, error) {
	s := newScanner(doc, ',')
	o := &observations{file: doc.name, station: unknownStation(), utc: true, mayJoin: true}
	for !strings.HasPrefix(s.text, "time(") {
		if s.text == "" {
			return nil, &Error{File: doc.name, Line: s.line, Text: "the file ends before the heading time(UTC)", Hint: "it may be cut short"}
		}
		text, line := s.rawLine()
		name, value, _ := strings.Cut(text, ":")
		switch {
		case strings.HasPrefix(name, "Latitude"):
			o.station.Latitude = degrees(value)
		case strings.HasPrefix(name, "Longitude"):
			o.station.Longitude = degrees(value)
		case strings.HasPrefix(name, "Elevation"):
			o.station.Elevation = headerNumber(value)
		}
		if err := o.station.check(doc.name, line); err != nil {
			return nil, err
		}
	}
	headings, line, err := s.heading("the headings")
	if err != nil {
		return nil, err
	}
	o.rows, err = pvgisLayout.read(s, headings, line)
	return o, err
}
