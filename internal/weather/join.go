package weather

import (
	"math"
	"slices"
	"strings"
	"time"
)

// part is one file of a joined series, from the time its first row has.
type part struct {
	from   time.Time
	source Source
}

// The distance in degrees and metres up to which files are of one place.
const (
	nearDegrees = 0.2
	nearMetres  = 50
)

// longestOverlap is how long two files may hold the same hours and still be
// joined, as the last and the first day of two years in UTC.
const longestOverlap = 48 * time.Hour

// OpenAll reads several files, also those in a zip archive. Those of one place
// that follow one another in time are joined row by row before anything else is
// done, so that they give what one file with all the rows would: a year may
// begin in one file and end in the next. Files that cannot be joined (typical
// years, another format, the same months twice, other places) are series of
// their own, in the order given.
func OpenAll(paths []string, opt Options) ([]*Series, error) {
	var groups []*observations
	for _, path := range paths {
		files, err := openAllRows(path, opt)
		if err != nil {
			return nil, err
		}
		for _, raw := range files {
			opt.override(&raw.station)
			at := slices.IndexFunc(groups, func(g *observations) bool { return g.continues(raw) })
			if at < 0 {
				groups = append(groups, raw)
				continue
			}
			groups[at].join(raw)
		}
	}
	var all []*Series
	for _, g := range groups {
		s, err := assemble(g, opt)
		if err != nil {
			return nil, err
		}
		all = append(all, s)
	}
	return all, nil
}

// continues tells whether another file holds more of the same.
func (o *observations) continues(other *observations) bool {
	return o.source.Format == other.source.Format && o.utc == other.utc && o.hourEnding == other.hourEnding &&
		o.ascends() && other.ascends() && SamePlace(o.station, other.station) && o.overlap(other) <= longestOverlap
}

// ascends tells real years from typical ones, and spares those that a reader
// will have to refuse.
func (o *observations) ascends() bool {
	return o.reports || slices.IsSortedFunc(o.rows, func(a, b observation) int { return a.time.Compare(b.time) })
}

// overlap is how long other repeats what is there already.
func (o *observations) overlap(other *observations) time.Duration {
	from, to := other.extent()
	first, last := o.extent()
	if from.After(last) || to.Before(first) {
		return 0
	}
	here := 0
	for i := range o.rows {
		if t := o.rows[i].time; !t.Before(from) && !t.After(to) {
			here++
		}
	}
	return time.Duration(here) * time.Hour
}

func (o *observations) extent() (first, last time.Time) {
	first, last = o.rows[0].time, o.rows[0].time
	for i := range o.rows {
		if t := o.rows[i].time; t.Before(first) {
			first = t
		} else if t.After(last) {
			last = t
		}
	}
	return first, last
}

// join takes the rows of another file, in order of time.
func (o *observations) join(other *observations) {
	if o.parts == nil {
		first, _ := o.extent()
		o.parts = []part{{first, o.source}}
	}
	first, _ := other.extent()
	o.parts = append(o.parts, part{first, other.source})
	slices.SortStableFunc(o.parts, func(a, b part) int { return a.from.Compare(b.from) })
	o.rows = append(o.rows, other.rows...)
	slices.SortStableFunc(o.rows, func(a, b observation) int { return a.time.Compare(b.time) })
	o.outliers = append(o.outliers, other.outliers...)
	for _, n := range other.notes { // columns and encoding are the same each year
		if !slices.ContainsFunc(o.notes, func(have Note) bool { return have.Kind == n.Kind && have.Of == n.Of && have.Other == n.Other }) {
			o.notes = append(o.notes, n)
		}
	}
	how := o.samePlaceBy(other)
	at := slices.IndexFunc(o.notes, func(n Note) bool { return n.Kind == NoteJoined || n.Kind == NoteJoinedUnknown })
	if at < 0 {
		o.notes, at = append(o.notes, how), len(o.notes)
	}
	o.notes[at].Count = len(o.parts)
	if how.Kind == NoteJoinedUnknown {
		o.notes[at].Kind = how.Kind
	}
}

// SamePlace tells whether two stations may be one: what both state agrees. The
// number of a station, which stands for a name that is not there, is compared
// where no positions can be: stations keep their place longer than their number.
func SamePlace(a, b Station) bool {
	apart := func(x, y, limit float64) bool { return math.Abs(x-y) > limit } // false where unknown
	if !positioned(a, b) && a.Name != b.Name && numbered(a.Name) && numbered(b.Name) {
		return false
	}
	return !apart(a.Latitude, b.Latitude, nearDegrees) && !apart(a.Longitude, b.Longitude, nearDegrees) && !apart(a.Elevation, b.Elevation, nearMetres)
}

// CertainlySame tells whether two stations are one by what they state: their
// position, or a name or number that is the same.
func CertainlySame(a, b Station) bool {
	return SamePlace(a, b) && (positioned(a, b) || a.Name != "" && a.Name == b.Name)
}

// positioned tells whether both stations say where they are.
func positioned(a, b Station) bool {
	return !math.IsNaN(a.Latitude+b.Latitude) && !math.IsNaN(a.Longitude+b.Longitude)
}

func numbered(name string) bool { return name != "" && strings.Trim(name, "0123456789") == "" }

// samePlaceBy says what tells that two files are of one place.
func (o *observations) samePlaceBy(other *observations) Note {
	a, b := o.station, other.station
	switch {
	case positioned(a, b):
		return Note{Kind: NoteJoined, Of: "by their latitude and longitude"}
	case a.Name != "" && a.Name == b.Name:
		return Note{Kind: NoteJoined, Of: "by the station's name " + a.Name}
	case !math.IsNaN(a.Elevation + b.Elevation):
		return Note{Kind: NoteJoined, Of: "by their elevation"}
	}
	return Note{Kind: NoteJoinedUnknown}
}

// sourceAt is the file that an hour stands in.
func (s *Series) sourceAt(t time.Time) Source {
	source := s.Source
	for _, p := range s.parts {
		if !p.from.After(t) {
			source = p.source
		}
	}
	return source
}
