package weather

import (
	"errors"
	"math"
	"slices"
	"time"
)

// layout declares how the rows of one tabular format are read.
type layout struct {
	columns   []column
	missing   []float64                        // numbers that stand for "not measured" in any column
	clean     func(key, cell string) string    // rewrites a cell before it is read; may be nil
	strict    bool                             // rows longer than the headings are an error
	end       func(fields []string) bool       // the table ends before this row; may be nil
	skip      func(*record) bool               // rows that are no observations; may be nil
	rank      func(*record) int                // reports of one hour: the lowest wins; may be nil
	stamp     func(*record) (time.Time, error) // when the row was
	stampAt   string                           // key of the column to blame for a bad stamp
	stampHint string                           // what to do about it
	unitOf    func(*table) map[string]unit     // units only the data can tell; may be nil
	source    string                           // heading of the column that says where the dry bulb is from; may be empty
}

// column is one wanted column: its key in record and how the file heads it.
type column struct {
	key      string
	headings []heading // in order of preference
	need     bool
	repeats  bool      // the heading may occur twice, the first counts
	missing  []float64 // numbers that stand for "not measured" in this column
	wrong    string    // signs in the field behind it that say the value is wrong
}

// heading is one spelling of a column's heading and the unit it implies.
type heading struct {
	name string
	unit unit
}

// record is one row as gocsv fills it; the tags are the keys of columns.
type record struct {
	Date     string `csv:"date"`
	Clock    string `csv:"clock"`
	Type     string `csv:"type"`
	Year     whole  `csv:"year"`
	Month    whole  `csv:"month"`
	Day      whole  `csv:"day"`
	Hour     whole  `csv:"hour"`
	Minute   whole  `csv:"minute"`
	DryBulb  number `csv:"dry bulb"`
	RelHum   number `csv:"relative humidity"`
	DewPoint number `csv:"dew point"`
	WetBulb  number `csv:"wet bulb"`
	Pressure number `csv:"pressure"`
	GHI      number `csv:"irradiance"`
}

// quantityKeys are the keys of the measured columns in record.
var quantityKeys = [quantities]string{
	"dry bulb", "relative humidity", "dew point", "wet bulb", "pressure", "irradiance",
}

func (r *record) values() [quantities]number {
	return [quantities]number{r.DryBulb, r.RelHum, r.DewPoint, r.WetBulb, r.Pressure, r.GHI}
}

// observations is what a reader takes from a file, in file order and SI.
type observations struct {
	file       string
	source     Source
	parts      []part // the files it was joined from, in order of time; nil for one
	station    Station
	hourEnding bool // stamps close the hour they label
	mayJoin    bool // months may come from different years
	reports    bool // reports at any minute, perhaps several in an hour
	utc        bool // stamps are UTC, not local standard time
	guessed    bool // as in document
	rows       []observation
	notes      []Note
	outliers   []outlier
}

// observation is one row in SI; what is missing is NaN.
type observation struct {
	line   int
	rank   int
	filled bool // the dry bulb was not observed, by the file's own flag
	time   time.Time
	values [quantities]float64
}

// read takes the rows that follow the heading line.
func (l *layout) read(s *scanner, headings []string, headingLine int) ([]observation, error) {
	var numbers numberStyle
	if l.clean == nil && (s.comma == ';' || s.comma == '\t') {
		semicolons := *l
		semicolons.clean = numbers.clean
		l = &semicolons
	}
	t, err := l.pick(s, headings, headingLine)
	if err != nil {
		return nil, err
	}
	var out []observation
	all := len(s.text)
	for more := true; more; {
		if more, err = t.load(l.block()); err != nil {
			return nil, err
		}
		records, err := t.decode()
		if err != nil {
			return nil, err
		}
		first := len(out) == 0
		out = l.convert(t, records, out)
		if read := all - len(s.text); first && more && read > 0 { // make room for the rest once
			out = slices.Grow(out, len(out)*(len(s.text)/read+1))
		}
	}
	if err := t.wrong.err(); err != nil {
		if more := s.doc.besides(out); more != nil {
			err = errors.Join(err, more)
		}
		return nil, err
	}
	if err := numbers.check(); err != nil {
		return nil, fileError(s.name, "use one decimal sign in the whole file", "%v", err)
	}
	if t.rejected > 0 {
		s.doc.notes = append(s.doc.notes, Note{Kind: NoteRejected, Count: t.rejected})
	}
	if err := t.oneStation(headingLine); err != nil {
		return nil, err
	}
	if len(out) == 0 {
		return nil, &Error{File: s.name, Line: s.line, Text: "no data rows after the headings", Hint: "the file may be cut short"}
	}
	return out, nil
}

// blockRows is how many rows are held as text at a time, so that the memory
// taken does not grow with what is only passing through.
const blockRows = 4096

// block is the number of rows to read at once: all where the units are told
// from all values.
func (l *layout) block() int {
	if l.unitOf != nil {
		return math.MaxInt
	}
	return blockRows
}

// convert appends records as observations in SI and checks every value.
func (l *layout) convert(t *table, records []record, out []observation) []observation {
	var units map[string]unit
	if l.unitOf != nil {
		units = l.unitOf(t)
	}
	read := t.quantityReaders(l, units)
	for i := range records {
		r := &records[i]
		if l.skip != nil && l.skip(r) {
			continue
		}
		at, err := l.stamp(r)
		if err != nil {
			t.wrong.add(t.errorAt(i, t.position(l.stampAt), err.Error(), l.stampHint))
			continue
		}
		o := observation{line: t.lines[i], time: at}
		if t.sourceAt >= 0 {
			o.filled = filledFlag(t.sources[i])
		}
		if l.rank != nil {
			o.rank = l.rank(r)
		}
		for q, v := range r.values() {
			o.values[q] = read[q].si(float64(v))
			if !quantity(q).possible(o.values[q]) {
				t.scan.doc.outliers = append(t.scan.doc.outliers, t.impossible(i, quantity(q), o.values[q]))
				o.values[q] = math.NaN()
			}
		}
		out = append(out, o)
	}
	return out
}

// quantityReader turns the number of one column into SI.
type quantityReader struct {
	present bool
	unit    unit
	missing []float64
}

func (q *quantityReader) si(v float64) float64 {
	if !q.present {
		return math.NaN()
	}
	for _, m := range q.missing {
		if v == m {
			return math.NaN()
		}
	}
	if q.unit != nil {
		return q.unit(v)
	}
	return v
}

func (t *table) quantityReaders(l *layout, units map[string]unit) [quantities]quantityReader {
	var out [quantities]quantityReader
	for q, key := range quantityKeys {
		if p := t.position(key); p >= 0 {
			out[q] = quantityReader{true, t.picked[p].unit, t.picked[p].missing}
			if u, ok := units[key]; ok {
				out[q].unit = u
			}
		}
	}
	return out
}
