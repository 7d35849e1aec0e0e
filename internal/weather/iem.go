package weather

import (
	"strings"
	"time"
)

// IEM ASOS: airport reports from the Iowa Environmental Mesonet, tab- or
// comma-separated, after up to five #DEBUG lines. M is missing, T a trace.
// Source: Iowa State University, IEM ASOS download page.
//
// Stamps are UTC at the actual minute. alti and mslp are both sea-level based
// and are not read, so there is no station pressure.
var iemLayout = layout{
	columns: []column{
		{key: "clock", headings: []heading{{"valid", nil}}, need: true},
		{key: "dry bulb", headings: []heading{{"tmpf", fahrenheit}, {"tmpc", nil}}, need: true},
		{key: "dew point", headings: []heading{{"dwpf", fahrenheit}, {"dwpc", nil}}},
		{key: "relative humidity", headings: []heading{{"relh", percent}}},
	},
	clean: func(_, cell string) string {
		switch strings.TrimSpace(cell) {
		case "M", "T", "null":
			return ""
		}
		return cell
	},
	rank:    reportRank,
	stamp:   func(r *record) (time.Time, error) { return parseStamp(r.Clock) },
	stampAt: "clock",
}

func isIEM(head []string) bool {
	for _, line := range head {
		if !strings.HasPrefix(line, "#") {
			return hasHeadings(line, "station", "valid")
		}
	}
	return false
}

func readIEM(doc *document) (*observations, error) {
	s := newScanner(doc, ',')
	for strings.HasPrefix(s.text, "#") {
		text, line := s.rawLine()
		if _, zone, ok := strings.Cut(text, "Time Zone"); ok {
			zone = strings.Trim(zone, " ->")
			if zone != "UTC" && zone != "Etc/UTC" {
				return nil, &Error{File: doc.name, Line: line, Text: "stamps are clock time of " + clip(zone, 40) + ", with daylight-saving time", Hint: "download it in UTC"}
			}
		}
	}
	head, _, _ := strings.Cut(s.text, "\n")
	s.comma = separator(head)
	headings, line, station, err := s.stationTable()
	if err != nil {
		return nil, err
	}
	rows, err := iemLayout.read(s, headings, line)
	return &observations{file: doc.name, station: station, utc: true, reports: true, rows: rows}, err
}
