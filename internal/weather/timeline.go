package weather

import (
	"fmt"
	"math"
	"time"
)

// timeline is the observations on an unbroken row of hours. A key counts hours:
// since 1970 for real years, within a leap year for typical ones.
type timeline struct {
	typical bool
	keys    []int
	rows    []observation
}

// start is when the hour of a row begins.
func (o *observations) start(i int) time.Time {
	if o.hourEnding {
		return o.rows[i].time.Add(-time.Hour)
	}
	return o.rows[i].time
}

// Years of weather. Spreadsheet programs know no dates before 1900, and those of
// its first months wrongly.
const (
	firstYear = 1901
	lastYear  = 2200
)

// order checks that the rows go forward in time and gives each its key. Rows
// of several years that pass once through the calendar are a typical year.
func (o *observations) order() (*timeline, error) {
	n := len(o.rows)
	epoch, inYear := make([]int, n), make([]int, n)
	sameYear := true
	for i := range o.rows {
		start := o.start(i)
		epoch[i], inYear[i] = epochHour(start), yearHour(start)
		sameYear = sameYear && start.Year() == o.start(0).Year()
		if y := start.Year(); y < firstYear || y > lastYear {
			return nil, &Error{File: o.file, Line: o.rows[i].line, Text: fmt.Sprintf("the year %04d is none of weather that was measured or foreseen", y), Hint: fmt.Sprintf("correct the stamps; years from %d to %d are read", firstYear, lastYear)}
		}
	}
	flaw := firstNotAfter(epoch)
	if o.mayJoin && !sameYear {
		joined := firstNotAfter(inYear)
		if joined == n {
			return &timeline{true, inYear, o.rows}, nil
		}
		flaw = max(flaw, joined)
	}
	if flaw < n {
		return nil, o.orderError(flaw, epoch[flaw] == epoch[flaw-1])
	}
	return &timeline{false, epoch, o.rows}, nil
}

// firstNotAfter is the first index whose key does not exceed the one before.
func firstNotAfter(keys []int) int {
	for i := 1; i < len(keys); i++ {
		if keys[i] <= keys[i-1] {
			return i
		}
	}
	return len(keys)
}

func (o *observations) orderError(i int, same bool) error {
	const form = "2006-01-02 15:04"
	here, before := o.rows[i], o.rows[i-1]
	e := &Error{File: o.file, Line: here.line}
	if same {
		e.Text = fmt.Sprintf("second row for the hour of %s, the first is on line %d", here.time.Format(form), before.line)
		e.Hint = "keep one row an hour; average data of shorter steps first"
		if clockChange(here.time) {
			e.Text += ", as clocks show when daylight-saving time ends"
			e.Hint = "download it again in local standard time or in UTC"
		}
		return e
	}
	e.Text = fmt.Sprintf("time goes back from %s on line %d to %s", before.time.Format(form), before.line, here.time.Format(form))
	e.Hint = "sort the rows by time and remove what was pasted twice"
	return e
}

// complete inserts empty rows for hours the file skips, so that every day from
// the first to the last has all its hours.
func (o *observations) complete(t *timeline) (*timeline, error) {
	first, last := t.keys[0], t.keys[len(t.keys)-1]
	if span := last - first + 1; span > 20*len(t.keys)+2*leapHours {
		return nil, fileError(o.file, "check the years of the first and the last row", "%d rows are spread over %d days", len(t.keys), span/24)
	}
	if t.gapless() {
		for i, key := range t.keys {
			t.rows[i].time = o.stampOf(t.at(key, o.start(i).Year()))
		}
		return t, nil
	}
	leap := o.hasLeapDay(t)
	room := len(t.keys) + 72
	out := &timeline{typical: t.typical, keys: make([]int, 0, room), rows: make([]observation, 0, room)}
	add := func(key int, row observation, year int) {
		row.time = o.stampOf(t.at(key, year))
		out.keys = append(out.keys, key)
		out.rows = append(out.rows, row)
	}
	next := first - hourOfDay(first)
	for i, key := range t.keys {
		year := o.start(max(i-1, 0)).Year()
		if key-next == 24 && t.isLeapDay(next) {
			if !t.typical {
				o.notes = append(o.notes, Note{Kind: NoteNoLeapDay, Line: t.rows[i].line})
			}
			next = key
		}
		for ; next < key; next++ {
			if !t.typical || leap || !t.isLeapDay(next) {
				add(next, emptyRow(), year)
			}
		}
		add(key, t.rows[i], o.start(i).Year())
		next = key + 1
	}
	for ; hourOfDay(next) != 0; next++ {
		add(next, emptyRow(), o.start(len(o.rows)-1).Year())
	}
	return out, nil
}

// gapless tells whether whole days stand there hour by hour already.
func (t *timeline) gapless() bool {
	n := len(t.keys)
	return hourOfDay(t.keys[0]) == 0 && n%24 == 0 && t.keys[n-1]-t.keys[0] == n-1
}

// stampOf is the stamp of an hour that begins at start.
func (o *observations) stampOf(start time.Time) time.Time {
	if o.hourEnding {
		return start.Add(time.Hour)
	}
	return start
}

// at turns a key into the beginning of its hour.
func (t *timeline) at(key, year int) time.Time {
	if t.typical {
		return atYearHour(year, key)
	}
	return fromEpochHour(key)
}

func (t *timeline) isLeapDay(key int) bool {
	if !t.typical {
		key = yearHour(fromEpochHour(key))
	}
	return key >= leapDayStart && key < leapDayEnd
}

func (o *observations) hasLeapDay(t *timeline) bool {
	for _, k := range t.keys {
		if t.isLeapDay(k) {
			return true
		}
	}
	return false
}

func emptyRow() observation {
	var o observation
	for q := range o.values {
		o.values[q] = math.NaN()
	}
	return o
}
