package weather

import (
	"fmt"
	"math"
	"strings"
	"time"
)

// Plain CSV is this project's own format: units in the headings, one row an
// hour, and optional leading lines "# key: value" about the station.
//
//	# station: Anytown
//	# latitude: 41.2
//	# longitude: -100.5
//	# elevation_m: 1480
//	# utc_offset_h: -7
//	# country: US
//	# time: hour-ending
//	time,temperature_c,relative_humidity_pct,pressure_hpa,ghi_wm2
//	2023-07-01 14:00,33.4,21,851.0,902
//
// Without the time line the stamp opens its hour. An empty cell is a missing
// value. Commas, semicolons or tabs separate.
var plainLayout = layout{
	columns: []column{
		{key: "clock", headings: []heading{{"time", nil}}, need: true},
		{key: "dry bulb", headings: []heading{{"temperature_c", nil}, {"temperature_f", fahrenheit}}, need: true},
		{key: "relative humidity", headings: []heading{{"relative_humidity_pct", percent}}},
		{key: "dew point", headings: []heading{{"dew_point_c", nil}, {"dew_point_f", fahrenheit}}},
		{key: "wet bulb", headings: []heading{{"wet_bulb_c", nil}, {"wet_bulb_f", fahrenheit}}},
		{key: "pressure", headings: []heading{{"pressure_hpa", hectopascal}, {"pressure_pa", nil}, {"pressure_inhg", inchOfMercury}}},
		{key: "irradiance", headings: []heading{{"ghi_wm2", nil}}},
	},
	stampAt:   "clock",
	stampHint: "write times as 2023-07-01 14:00; to have others told, such as 07/01/2023 2:00 PM, head the columns Time, Temp (C) and RH (%)",
	strict:    true,
}

// isPlain looks past the comment lines for a heading line with a temperature
// or humidity column of ours, so that a file that lacks another gets a message
// about columns.
func isPlain(head []string) bool {
	for _, line := range head {
		if strings.HasPrefix(line, "#") || strings.TrimSpace(line) == "" {
			continue
		}
		for _, f := range strings.Split(line, string(rune(separator(line)))) {
			switch strings.ToLower(strings.Trim(f, `" `)) {
			case "temperature_c", "temperature_f", "relative_humidity_pct", "dew_point_c", "dew_point_f":
				return true
			}
		}
		return false
	}
	return false
}

// separator guesses the field separator from a heading line: the one that occurs
// most often outside quotes.
func separator(headings string) byte {
	var n [3]int
	inQuotes := false
	for i := 0; i < len(headings); i++ {
		switch c := headings[i]; {
		case c == '"':
			inQuotes = !inQuotes
		case inQuotes:
		case c == ',':
			n[0]++
		case c == ';':
			n[1]++
		case c == '\t':
			n[2]++
		}
	}
	best := 0
	for k := range n {
		if n[k] > n[best] {
			best = k
		}
	}
	return ",;\t"[best]
}

func readPlain(doc *document) (*observations, error) {
	s := newScanner(doc, ',')
	o := &observations{file: doc.name, station: unknownStation(), mayJoin: true}
	doc.guessed = true
	for {
		line, rest, _ := strings.Cut(s.text, "\n")
		if !strings.HasPrefix(line, "#") && strings.TrimSpace(line) != "" {
			s.comma = separator(line)
			break
		}
		if err := o.comment(line, s.line); err != nil {
			return nil, err
		}
		s.text = rest
		s.line++
	}
	headings, line, err := s.heading("the headings")
	if err != nil {
		return nil, err
	}
	l := plainLayout
	var numbers numberStyle
	var clock stamps
	l.stamp = clock.plainStamp
	if s.comma != ',' {
		l.clean = numbers.clean
	}
	if o.rows, err = l.read(s, headings, line); err != nil {
		return nil, err
	}
	if err := numbers.check(); err != nil {
		return nil, fileError(doc.name, "use one decimal sign in the whole file", "%v", err)
	}
	return o, o.settle(&clock)
}

// plainStamp reads stamps of our own form; those that end in Z or an offset are
// that clock.
func (s *stamps) plainStamp(r *record) (time.Time, error) {
	if _, _, zoned := cutZone(strings.TrimSpace(r.Clock)); zoned {
		return s.read("", r.Clock)
	}
	s.plain++
	return parseStamp(r.Clock)
}

// comment takes one "# key: value" line; other comments are ignored. A
// spreadsheet may have padded the line with separators.
func (o *observations) comment(text string, line int) error {
	text = strings.TrimRight(strings.TrimLeft(text, "# "), ",;\t\r ")
	key, value, ok := strings.Cut(text, ":")
	if !ok {
		return nil
	}
	value = strings.TrimSpace(value)
	key = strings.ToLower(strings.TrimSpace(key))
	number := map[string]*float64{
		"latitude": &o.station.Latitude, "longitude": &o.station.Longitude,
		"elevation_m": &o.station.Elevation, "utc_offset_h": &o.station.UTCOffset,
	}[key]
	switch {
	case number != nil:
		before := *number
		*number = headerNumber(value)
		if math.IsNaN(*number) {
			return &Error{File: o.file, Line: line, Heading: key, Text: fmt.Sprintf("%q is not a number", clip(value, 30)), Hint: "write a plain number such as 41.2"}
		}
		if e := stoodBefore(before, *number); e != "" {
			return &Error{File: o.file, Line: line, Heading: key, Text: e, Hint: "keep the line that is right"}
		}
	case key == "station":
		o.station.Name = value
	case key == "country":
		o.station.Country = value
	case key == "state":
		o.station.State = usState("US", value)
	case key == "time":
		return o.timeLabel(value, line)
	}
	return o.station.check(o.file, line)
}

// stoodBefore says that a header states a number twice, and differently.
func stoodBefore(before, now float64) string {
	if math.IsNaN(before) || before == now {
		return ""
	}
	return fmt.Sprintf("stands twice, as %g and as %g", before, now)
}

func (o *observations) timeLabel(value string, line int) error {
	switch value {
	case "hour-ending":
		o.hourEnding = true
	case "hour-beginning":
	default:
		return &Error{File: o.file, Line: line, Heading: "time", Text: fmt.Sprintf("%q is not known", clip(value, 30)), Hint: "write hour-ending or hour-beginning"}
	}
	return nil
}
