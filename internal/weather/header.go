package weather

import "strings"

// headFields cuts a heading line for detection, without quotes and blanks.
func headFields(line string) []string {
	s := scanner{text: line, line: 1, comma: separator(line)}
	fields, _, ok, err := s.next()
	if !ok || err != nil { // a quote left open: detection can do without
		fields = strings.Split(line, string(rune(s.comma)))
	}
	for i := range fields {
		fields[i] = strings.Trim(fields[i], `" `)
	}
	return fields
}

// hasHeadings tells whether a line holds all the given headings.
func hasHeadings(line string, want ...string) bool {
	seen := map[string]bool{}
	for _, f := range headFields(line) {
		seen[strings.ToLower(f)] = true
	}
	for _, w := range want {
		if !seen[strings.ToLower(w)] {
			return false
		}
	}
	return true
}

// pairs joins names with the values below them.
func pairs(names, values []string) map[string]string {
	out := map[string]string{}
	for i, n := range names {
		if i < len(values) && n != "" {
			out[strings.ToLower(n)] = strings.TrimSpace(values[i])
		}
	}
	return out
}

// firstRow reads the next record, or the first of the station asked for, by
// heading without moving on. Formats that
// repeat the station's place on every row are asked this way.
func (s *scanner) firstRow(headings []string) map[string]string {
	look := *s
	look.buf = nil
	at := stationColumn(headings)
	for {
		fields, _, ok, err := look.next()
		if err != nil || !ok {
			return map[string]string{}
		}
		if s.doc.station == "" || at < 0 || at >= len(fields) || isStation(fields[at], s.doc.station) {
			return pairs(headings, fields)
		}
	}
}

// stationTable reads the headings of a file whose rows repeat their station,
// and that station as the first row has it.
func (s *scanner) stationTable() (headings []string, line int, station Station, err error) {
	if headings, line, err = s.heading("the headings"); err != nil {
		return nil, 0, Station{}, err
	}
	station = stationOf(s.firstRow(headings))
	return headings, line, station, station.check(s.name, line+1)
}

// stationOf makes a station of named values; names are tried in turn.
func stationOf(v map[string]string) Station {
	get := func(names ...string) string {
		for _, n := range names {
			if s := v[n]; s != "" && s != "-" {
				return s
			}
		}
		return ""
	}
	st := Station{
		Name:      get("name", "station_name", "city", "station"),
		Latitude:  degrees(get("latitude", "lat")),
		Longitude: degrees(get("longitude", "lon")),
		Elevation: headerNumber(get("elevation")),
		UTCOffset: headerNumber(get("local time zone", "time zone")),
		Country:   get("country"),
		State:     usState(get("country"), get("state")),
	}
	if m := stateInName.FindStringSubmatch(st.Name); m != nil && st.Country == "" {
		st.Country, st.State = "US", m[1]
	}
	return st
}
