package weather

import "fmt"

// onePerHour keeps one report of each clock hour: the best ranked, and among
// equals the last. Reports of one hour stand together in the file; time going
// back is left for order to find.
func (o *observations) onePerHour() {
	if !o.reports {
		return
	}
	kept := o.rows[:0:0]
	for _, r := range o.rows {
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
		o.notes = append(o.notes, Note{Text: fmt.Sprintf("%d further reports within an hour were not used", dropped)})
	}
	o.rows = kept
}
