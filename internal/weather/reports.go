package weather

import (
	"slices"
	"time"
)

// sortReports puts reports, whose stamps are real dates, in the order of time.
func (o *observations) sortReports() {
	byTime := func(a, b observation) int { return a.time.Compare(b.time) }
	if !o.reports || slices.IsSortedFunc(o.rows, byTime) {
		return
	}
	slices.SortStableFunc(o.rows, byTime)
	o.notes = append(o.notes, Note{Kind: NoteSorted})
}

// onePerHour keeps one report of each clock hour: the best ranked, and among
// equals the last.
func (o *observations) onePerHour() {
	if !o.reports {
		return
	}
	kept := o.rows[:0:0]
	for _, r := range o.rows {
		// A report made on the hour closes it, as in ISD-Lite (see there); the first
		// of the file opens the first day.
		if r.time.Minute() == 0 && r.time.After(o.rows[0].time) {
			r.time = r.time.Add(-time.Minute)
		}
		n := len(kept)
		if n == 0 || epochHour(kept[n-1].time) != epochHour(r.time) {
			kept = append(kept, r)
			continue
		}
		if r.rank <= kept[n-1].rank {
			kept[n-1] = r
		}
	}
	if dropped := len(o.rows) - len(kept); dropped > 0 {
		o.notes = append(o.notes, Note{Kind: NoteFurtherReports, Count: dropped})
	}
	o.rows = kept
}
