package weather

import (
	"math"
	"strings"
)

// NASA POWER hourly CSV: a header between -BEGIN HEADER- and -END HEADER-, then
// the parameters in the order asked for. -999 is missing.
// Source: NASA Langley Research Center, POWER hourly API documentation.
//
// Values are hourly means. The clock is local solar time (LST), which leads or
// trails standard time by up to half an hour, or UTC; the header says which.
// The elevation is the mean of a grid cell. T2MWET is the mean of temperature
// and dew point, no wet bulb, and is not read.
var powerLayout = layout{
	columns: []column{
		{key: "year", headings: []heading{{"YEAR", nil}}, need: true},
		{key: "month", headings: []heading{{"MO", nil}}, need: true},
		{key: "day", headings: []heading{{"DY", nil}}, need: true},
		{key: "hour", headings: []heading{{"HR", nil}}, need: true},
		{key: "dry bulb", headings: []heading{{"T2M", nil}}, need: true},
		{key: "dew point", headings: []heading{{"T2MDEW", nil}}},
		{key: "relative humidity", headings: []heading{{"RH2M", percent}}},
		{key: "pressure", headings: []heading{{"PS", kilopascal}}},
		{key: "irradiance", headings: []heading{{"ALLSKY_SFC_SW_DWN", nil}}},
	},
	missing: []float64{-999},
	stamp:   hourBeginningStamp,
	stampAt: "hour",
}

const powerBegin, powerEnd = "-BEGIN HEADER-", "-END HEADER-"

func isPower(head []string) bool {
	return strings.HasPrefix(head[0], powerBegin) || hasHeadings(head[0], "YEAR", "MO", "DY", "HR")
}

func readPower(doc *document) (*observations, error) {
	s := newScanner(doc, ',')
	o := &observations{file: doc.name, station: unknownStation()}
	if strings.HasPrefix(s.text, powerBegin) {
		if err := o.powerHeader(s); err != nil {
			return nil, err
		}
	} else {
		o.notes = append(o.notes, Note{Kind: NoteHeaderRemoved, Line: 1})
	}
	headings, line, err := s.heading("the headings")
	if err != nil {
		return nil, err
	}
	o.rows, err = powerLayout.read(s, headings, line)
	return o, err
}

func (o *observations) powerHeader(s *scanner) error {
	for s.text != "" {
		text, line := s.rawLine()
		f := strings.Fields(text)
		switch {
		case strings.HasPrefix(text, powerEnd):
			o.powerClock(line)
			return o.station.check(o.file, line)
		case strings.HasPrefix(text, "Dates") && len(f) > 0:
			o.utc = f[len(f)-1] == "UTC"
		case strings.HasPrefix(text, "Location:"):
			o.station.Latitude = valueAfter(f, "Latitude")
			o.station.Longitude = valueAfter(f, "Longitude")
		case strings.HasPrefix(text, "Elevation"):
			o.station.Elevation = valueAfter(f, "=")
		}
	}
	return &Error{File: o.file, Line: s.line, Text: "the file ends before " + powerEnd, Hint: "it may be cut short"}
}

// powerClock states what local solar time means for the sun: noon at noon.
func (o *observations) powerClock(line int) {
	if !o.utc && !math.IsNaN(o.station.Longitude) {
		o.station.UTCOffset = o.station.Longitude / 15
		o.notes = append(o.notes, Note{Kind: NoteSolarTime, Line: line})
	}
}

// valueAfter is the number in the field that follows a name, NaN if none.
func valueAfter(fields []string, name string) float64 {
	for i, f := range fields {
		if f == name && i+1 < len(fields) {
			return headerNumber(fields[i+1])
		}
	}
	return math.NaN()
}
