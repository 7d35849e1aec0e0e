package weather

import (
	"slices"
	"time"
)

// toLocal moves UTC stamps to the station's standard time. A file of one whole
// UTC year is turned like a ring: the few hours that fall into the neighbouring
// year stand in for those missing at the other end, so that it stays one year.
func (o *observations) toLocal() error {
	offset, from, ok := o.station.zone()
	if !ok {
		if !o.utc {
			return nil
		}
		return unsaid(o.file, "state the station's UTC offset in hours, as in --utc-offset -7", "the stamps are UTC and the file does not tell the station's time zone")
	}
	if from != "" {
		o.notes = append(o.notes, Note{Kind: NoteOffsetEstimated, Value: offset, Of: from})
	}
	o.station.UTCOffset = offset
	if !o.utc {
		return nil
	}
	shift := time.Duration(offset * float64(time.Hour))
	if shift == 0 {
		return nil
	}
	if o.parts == nil && o.wholeYear() {
		o.turn(shift)
		o.notes = append(o.notes, Note{Kind: NoteTurned, Value: offset})
		return nil
	}
	for i := range o.rows {
		o.rows[i].time = o.rows[i].time.Add(shift)
	}
	o.notes = append(o.notes, Note{Kind: NoteMoved, Value: offset})
	return nil
}

// wholeYear tells whether the rows pass once through the calendar, from
// 1 January to 31 December.
func (o *observations) wholeYear() bool {
	first, last := o.rows[0].time, o.rows[len(o.rows)-1].time
	if yearHour(first) >= 24 || yearHour(last) < leapHours-24 {
		return false
	}
	for i := 1; i < len(o.rows); i++ {
		if yearHour(o.rows[i].time) < yearHour(o.rows[i-1].time) {
			return false
		}
		if !o.mayJoin && o.rows[i].time.Year() != first.Year() {
			return false
		}
	}
	return true
}

// turn shifts stamps within the year, without 29 February if the file has none.
func (o *observations) turn(shift time.Duration) {
	leap := slices.ContainsFunc(o.rows, func(r observation) bool { return r.time.Month() == time.February && r.time.Day() == 29 })
	year := leapHours
	if !leap {
		year -= 24
	}
	place := make(map[int]int, len(o.rows)) // line to minute of the year
	var closes time.Duration                // from the beginning of an hour to its stamp
	if o.hourEnding {
		closes = time.Hour
	}
	middle := o.rows[len(o.rows)/2].time.Year()
	for i := range o.rows {
		t := o.rows[i].time.Add(-closes)
		in := middle
		if o.mayJoin {
			in = t.Year()
		}
		h := yearHour(t)
		if !leap && h >= leapDayEnd {
			h -= 24
		}
		m := h*60 + t.Minute() + int(shift/time.Minute)
		m = (m + year*60) % (year * 60)
		place[o.rows[i].line] = m
		h = m / 60
		if !leap && h >= leapDayStart {
			h += 24
		}
		o.rows[i].time = atYearHour(in, h).Add(time.Duration(m%60)*time.Minute + closes)
	}
	slices.SortStableFunc(o.rows, func(a, b observation) int { return place[a.line] - place[b.line] })
}
