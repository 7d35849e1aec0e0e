package weather

import (
	"fmt"
	"slices"
	"strings"
)

// stationHeadings are how files that may hold several stations head the column
// that tells them apart, in order of preference.
var stationHeadings = []string{"station", "station_id", "stationid", "station id", "station number", "wban", "usaf"}

// stationColumn is the field that names the station of each row, -1 if none.
func stationColumn(headings []string) int {
	for _, want := range stationHeadings {
		for i, h := range headings {
			if strings.EqualFold(strings.TrimSpace(h), want) {
				return i
			}
		}
	}
	return -1
}

// wanted tells whether a row is of the station asked for, and keeps count of
// those there are.
func (t *table) wanted(station string) bool {
	n := len(t.stations)
	if n == 0 || t.stations[n-1] != station {
		if at := slices.Index(t.stations, station); at < 0 {
			t.stations = append(t.stations, strings.Clone(station))
		} else { // the next row is most likely of the same one
			t.stations[at], t.stations[n-1] = t.stations[n-1], t.stations[at]
		}
	}
	return t.scan.doc.station == "" || isStation(station, t.scan.doc.station)
}

func isStation(cell, want string) bool { return strings.EqualFold(strings.Trim(cell, `" `), want) }

// oneStation refuses a file of several stations of which none was chosen, and a
// choice that is not there.
func (t *table) oneStation(line int) error {
	want := t.scan.doc.station
	names := make([]string, len(t.stations))
	for i, s := range t.stations {
		names[i] = strings.Trim(s, `" `)
	}
	slices.Sort(names)
	flaw := func(text, hint string) error {
		return &Error{File: t.scan.name, Line: line, Column: t.stationAt + 1, Heading: t.headings[t.stationAt], Text: text, Hint: hint}
	}
	switch {
	case t.stationAt < 0 || len(names) == 0:
		return nil
	case want == "" && len(names) > 1:
		return flaw(fmt.Sprintf("the file holds %d stations: %s", len(names), listed(names)), "choose one, as in --station "+names[0])
	case want != "" && !slices.ContainsFunc(names, func(n string) bool { return isStation(n, want) }):
		return flaw(fmt.Sprintf("no row is of station %s; the file has %s", clip(want, 40), listed(names)), "name the station as the file does")
	}
	return nil
}
