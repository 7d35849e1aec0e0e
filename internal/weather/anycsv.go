package weather

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"
)

// Any other CSV: a heading line, rows below it, and columns that the user names
// or that bear common names. Dates may be in any usual form, in one column or
// two; units and time zone are read from the headings.
//
// Stamps without a word about the zone are taken as local standard time that
// opens its hour; hours that run from 1 to 24 close it.
type anyCSV struct {
	doc     *document
	scan    *scanner
	names   []ColumnName
	guessed bool
	stamps  stamps
	numbers numberStyle
	legend  map[string]string // units that lines above the headings give to them
	out     *observations
}

// isAnyCSV looks for a heading line with a row below it.
func isAnyCSV(head []string) bool { return headingLine(head, nil) >= 0 }

// headingLine is the index of the line that holds the stated headings, or else
// of the first line whose common names give time and temperature, or else of the
// first that could be headings; -1 if there is none.
func headingLine(head []string, names []ColumnName) int {
	first := -1
	for i, line := range head {
		f := headFields(line)
		if strings.HasPrefix(line, "#") || len(f) < 2 || i+1 == len(head) || !wordsOnly(f) {
			continue
		}
		if len(names) > 0 {
			if hasAll(f, names) {
				return i
			}
		} else if g := guessColumns(f); hasKey(g, "time", "date", "year") && hasKey(g, "temperature") {
			return i
		}
		if first < 0 && strings.ContainsAny(head[i+1], "0123456789") {
			first = i
		}
	}
	return first
}

// wordsOnly tells headings from data: two or more fields with letters, none a
// number.
func wordsOnly(fields []string) bool {
	n := 0
	for _, f := range fields {
		switch {
		case f == "":
		case decimal(strings.ReplaceAll(f, ",", ".")) && strings.ContainsAny(f, "0123456789"):
			return false
		default:
			n++
		}
	}
	return n >= 2
}

func hasAll(fields []string, names []ColumnName) bool {
	for _, n := range names {
		if !slices.ContainsFunc(fields, func(f string) bool { return strings.EqualFold(f, n.Heading) }) {
			return false
		}
	}
	return true
}

func hasKey(names []ColumnName, keys ...string) bool {
	return slices.ContainsFunc(names, func(n ColumnName) bool { return slices.Contains(keys, n.Key) })
}

func readAnyCSV(doc *document) (*observations, error) {
	a := &anyCSV{doc: doc, names: doc.columns, guessed: len(doc.columns) == 0, legend: map[string]string{}}
	a.out = &observations{file: doc.name, station: unknownStation(), mayJoin: true}
	doc.guessed = true
	headings, line, err := a.headings()
	if err != nil {
		return nil, err
	}
	a.names = addColumns(doc.columns, guessColumns(headings))
	if err := a.complete(headings, line); err != nil {
		return nil, err
	}
	l, err := a.layout(headings, line)
	if err != nil {
		return nil, err
	}
	if err := a.lookAtDates(headings, l, line); err != nil {
		return nil, err
	}
	if a.out.rows, err = l.read(a.scan, headings, line); err != nil {
		return nil, err
	}
	return a.out, a.finish()
}

// headings moves to the heading line, taking what the lines above it say about
// the station on the way.
func (a *anyCSV) headings() ([]string, int, error) {
	a.scan = newScanner(a.doc, ',')
	head := firstLines(a.doc.text, headLines)
	at := headingLine(head, a.names)
	if at < 0 {
		return nil, 0, &Error{File: a.doc.name, Line: 1, Text: "no line of headings was found", Hint: "name columns only in a file whose first lines hold headings"}
	}
	for range at {
		line, n := a.scan.rawLine()
		known, err := a.metadata(line, n)
		if err != nil {
			return nil, 0, err
		}
		if !known && strings.HasPrefix(line, "#") {
			if err := a.out.comment(line, n); err != nil {
				return nil, 0, err
			}
		}
	}
	a.scan.comma = separator(head[at])
	return a.scan.heading("the headings")
}

// complete checks that time, temperature and a humidity are named, and lists
// all headings where they are not.
func (a *anyCSV) complete(headings []string, line int) error {
	var missing []string
	if !slices.ContainsFunc(a.names, func(n ColumnName) bool {
		return strings.HasPrefix(n.Key, "time") || strings.HasPrefix(n.Key, "date") || n.Key == "year"
	}) {
		missing = append(missing, "time")
	}
	has := func(qs ...quantity) bool {
		return slices.ContainsFunc(a.names, func(n ColumnName) bool {
			r, err := n.role()
			return err == nil && r.measured && slices.Contains(qs, r.quantity)
		})
	}
	if !has(dryBulb) {
		missing = append(missing, "temperature")
	}
	if !has(relHum, dewPoint, wetBulb) {
		missing = append(missing, "humidity")
	}
	quoted := make([]string, 0, len(headings))
	for _, h := range headings {
		if h != "" {
			quoted = append(quoted, fmt.Sprintf("%q", h))
		}
	}
	seen := clip(strings.Join(quoted, ", "), 500)
	for _, n := range a.names {
		if !hasAll(headings, []ColumnName{n}) {
			return &Error{File: a.doc.name, Line: line, Text: fmt.Sprintf("no column is headed %q; the headings are %s", clip(n.Heading, 60), seen), Hint: "write headings as the file does, after one of the keys time, date, hour, temperature, relative_humidity, dew_point, wet_bulb, pressure, ghi"}
		}
	}
	if len(missing) == 0 {
		return nil
	}
	return &Error{File: a.doc.name, Line: line,
		Text: fmt.Sprintf("cannot tell which column holds %s; the headings are %s", strings.Join(missing, ", "), seen),
		Hint: "name the columns, as in --columns 'time=Date,temperature_c=Temp,relative_humidity=RH'; " + a.unsaid()}
}

// unsaid lists the options for what neither the lines above the headings nor the
// command line say about the station, so that all is asked for at once.
func (a *anyCSV) unsaid() string {
	st := a.out.station
	a.doc.stated.override(&st)
	var options []string
	for _, v := range []struct {
		option string
		value  float64
	}{{"--latitude", st.Latitude}, {"--longitude", st.Longitude}, {"--elevation", st.Elevation}, {"--utc-offset", st.UTCOffset}} {
		if math.IsNaN(v.value) {
			options = append(options, v.option)
		}
	}
	if len(options) == 0 {
		return "dew_point, pressure and ghi may be named too"
	}
	return "not known either: " + strings.Join(options, " ")
}

// layout declares the columns; each named heading must be there.
func (a *anyCSV) layout(headings []string, line int) (*layout, error) {
	l := &layout{strict: true, stampAt: "clock", stamp: func(r *record) (time.Time, error) { return a.stamps.read(r.Date, r.Clock) }}
	parts := hasKey(a.names, "year")
	if parts {
		l.stampAt, l.stamp = "hour", a.stamps.readParts
	}
	if a.scan.comma != ',' {
		l.clean = a.numbers.clean
	} else {
		l.clean = missingWord
	}
	for _, n := range a.names {
		r, err := n.role()
		if err != nil {
			return nil, fileError(a.doc.name, "", "%v", err)
		}
		flaw := func(text, hint string) error {
			return &Error{File: a.doc.name, Line: line, Heading: n.Heading, Text: text, Hint: hint}
		}
		var u unit
		if r.measured {
			var what string
			if u, what = a.unitOf(n, r); what == "" {
				return nil, flaw("no unit for "+limits[r.quantity].name, "add it, as in "+unitHint[r.quantity])
			}
			a.note(Note{Kind: NoteColumn, Of: limits[r.quantity].name, Other: fmt.Sprintf("%q in %s", n.Heading, what)})
		} else if err := a.clock(n, r); err != nil {
			return nil, flaw(err.Error(), "download it in local standard time or in UTC")
		}
		if r.key == "hour" && !parts {
			r.key = "clock"
		}
		if r.key == "date" && !hasKey(a.names, "hour", "time") {
			r.key = "clock"
		}
		l.columns = append(l.columns, column{key: r.key, headings: []heading{{n.Heading, u}}, need: true})
	}
	a.remarkUnused(headings)
	return l, nil
}

// clock takes what key and heading say about the stamps.
func (a *anyCSV) clock(n ColumnName, r role) error {
	utc, offset, fixed, err := headingZone(n.Heading)
	if err != nil && !r.local {
		return err
	}
	text := strings.ToLower(n.Heading)
	a.out.hourEnding = a.out.hourEnding || r.ending || strings.Contains(text, "ending")
	a.out.utc = a.out.utc || r.utc || utc && !r.local
	if fixed && math.IsNaN(a.out.station.UTCOffset) {
		a.out.station.UTCOffset = offset
	}
	a.note(Note{Kind: NoteTimeColumn, Other: strconv.Quote(n.Heading)})
	return nil
}

// remarkUnused says why a column that looks useful is not used.
func (a *anyCSV) remarkUnused(headings []string) {
	if !a.guessed {
		return
	}
	for _, h := range headings {
		c := cutHeading(h)
		switch {
		case strings.Contains(c.name, "wetbulb"):
			a.note(Note{Kind: NoteWetBulbUnused, Other: strconv.Quote(h)})
		case strings.Contains(c.name, "pressure") && !hasKey(a.names, "pressure") && !strings.Contains(c.name, "vapo"):
			a.note(Note{Kind: NotePressureUnused, Other: strconv.Quote(h)})
		}
	}
}

func (a *anyCSV) note(n Note) { a.out.notes = append(a.out.notes, n) }

// lookAtDates goes through the dates once to tell day from month.
func (a *anyCSV) lookAtDates(headings []string, l *layout, line int) error {
	name := ""
	for _, c := range l.columns {
		if c.key == "date" || c.key == "clock" && name == "" {
			name = c.headings[0].name
		}
	}
	at := slices.IndexFunc(headings, func(h string) bool { return strings.EqualFold(h, name) })
	if at < 0 {
		return nil // pick names what is missing
	}
	look := *a.scan
	look.buf, look.enough = nil, at+1
	err := a.stamps.look(func(yield func(string) bool) {
		for {
			fields, _, ok, err := look.next()
			if err != nil || !ok || len(fields) > at && !yield(fields[at]) {
				return
			}
		}
	})
	if err != nil {
		return &Error{File: a.doc.name, Line: line, Column: at + 1, Heading: name, Text: err.Error(), Hint: "write dates as 2023-07-01"}
	}
	return nil
}

// finish settles the zone once all stamps are read.
func (a *anyCSV) finish() error {
	s := &a.stamps
	if err := a.numbers.check(); err != nil {
		return fileError(a.doc.name, "use one decimal sign in the whole file", "%v", err)
	}
	if s.hour24 && !s.hour0 && !a.out.hourEnding {
		a.out.hourEnding = true
		a.note(Note{Kind: NoteHoursTo24})
	}
	return a.out.settle(s)
}

// settle makes the clock that stamps name that of the file.
func (o *observations) settle(s *stamps) error {
	if s.zoned == 0 {
		return nil
	}
	if s.plain > 0 {
		return fileError(o.file, "use one form of time", "some stamps name a time zone, others do not")
	}
	o.utc = true
	if math.IsNaN(o.station.UTCOffset) {
		o.station.UTCOffset = s.standard()
	}
	return nil
}
