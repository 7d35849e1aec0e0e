package weather

import (
	"strings"
	"time"
)

// ISD global-hourly: NOAA's Integrated Surface Database as CSV, one row a
// report, UTC. Values are groups such as "+0154,1": sign, tenths, quality code.
// Source: NOAA NCEI, Federal Climate Complex Data Documentation for Integrated
// Surface Data, mandatory data section and group MA1.
//
// SLP is sea-level pressure and not used; the station pressure, where there is
// any, is the second value of MA1. There is no relative humidity.
var isdLayout = layout{
	columns: []column{
		{key: "clock", headings: []heading{{"DATE", nil}}, need: true},
		{key: "type", headings: []heading{{"REPORT_TYPE", nil}}},
		{key: "dry bulb", headings: []heading{{"TMP", tenth}}, need: true},
		{key: "dew point", headings: []heading{{"DEW", tenth}}},
		{key: "pressure", headings: []heading{{"MA1", isdPressure}}},
	},
	rank:    reportRank,
	stamp:   func(r *record) (time.Time, error) { return parseStamp(r.Clock) },
	stampAt: "clock",
}

// isdPressure turns tenths of hPa into Pa.
func isdPressure(v float64) float64 { return v * 10 }

func isISD(head []string) bool { return hasHeadings(head[0], "DATE", "TMP", "DEW") }

func readISD(doc *document) (*observations, error) {
	s := newScanner(doc, ',')
	headings, line, station, err := s.stationTable()
	if err != nil {
		return nil, err
	}
	o := &observations{file: doc.name, station: station, reports: true, utc: true}
	rejected := 0
	l := isdLayout
	l.clean = func(key, cell string) string { return isdCell(key, cell, &rejected) }
	o.rows, err = l.read(s, headings, line)
	if rejected > 0 {
		o.notes = append(o.notes, Note{Kind: NoteRejected, Count: rejected})
	}
	return o, err
}

// isdCell takes the value out of a group: the first for TMP and DEW, the
// second for MA1. Quality 2, 3, 6 and 7 is suspect or wrong; all nines are
// missing.
func isdCell(key, cell string, rejected *int) string {
	if key == "clock" || key == "type" || cell == "" {
		return cell
	}
	parts := strings.Split(cell, ",")
	at := 0
	if key == "pressure" {
		at = 2
	}
	if len(parts) < at+2 {
		return cell // not a group; the number reader will say so
	}
	value := strings.TrimSpace(parts[at])
	if strings.Trim(value, "+9") == "" {
		return ""
	}
	if strings.Contains("2367", strings.TrimSpace(parts[at+1])) {
		*rejected++
		return ""
	}
	return value
}
