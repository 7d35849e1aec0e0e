package weather

import (
	"math"
	"time"
)

// average turns rows of a regular step shorter than an hour into hourly means.
// Rows that merely repeat an hour are left for order to find.
func (o *observations) average() {
	step := o.step()
	if o.reports || step == 0 {
		return
	}
	begin := func(r *observation) int { // the clock hour in which the row's step lies
		if o.hourEnding {
			return epochHour(r.time.Add(-step))
		}
		return epochHour(r.time)
	}
	kept := o.rows[:0:0]
	for i := 0; i < len(o.rows); {
		end := i + 1
		for end < len(o.rows) && begin(&o.rows[end]) == begin(&o.rows[i]) {
			end++
		}
		hour := meanOf(o.rows[i:end], int(time.Hour/step))
		hour.time = fromEpochHour(begin(&o.rows[i]))
		if o.hourEnding {
			hour.time = hour.time.Add(time.Hour)
		}
		kept = append(kept, hour)
		i = end
	}
	o.notes = append(o.notes, Note{Kind: NoteAveraged, Count: len(o.rows), Value: step.Minutes()})
	o.rows = kept
}

// step is the distance of the rows where it is regular and whole minutes that go
// into an hour several times; 0 otherwise.
func (o *observations) step() time.Duration {
	if len(o.rows) < 3 {
		return 0
	}
	step := o.rows[1].time.Sub(o.rows[0].time)
	if step < time.Minute || step >= time.Hour || step%time.Minute != 0 || time.Hour%step != 0 {
		return 0
	}
	regular := 0
	for i := 1; i < len(o.rows); i++ {
		switch d := o.rows[i].time.Sub(o.rows[i-1].time); {
		case d == step:
			regular++
		case d >= 0 && d < step:
			return 0
		}
	}
	const mostly = 0.9 // months joined from several years and gaps break the step
	if float64(regular) < mostly*float64(len(o.rows)-1) {
		return 0
	}
	return step
}

// meanOf is the mean of the rows of one hour; a quantity of which less than half
// the steps are there is missing.
func meanOf(rows []observation, steps int) observation {
	out := emptyRow()
	out.line = rows[0].line
	for q := range out.values {
		sum, n := 0.0, 0
		for i := range rows {
			if v := rows[i].values[q]; !math.IsNaN(v) {
				sum += v
				n++
			}
		}
		if n > 0 && 2*n >= steps {
			out.values[q] = sum / float64(n)
		}
	}
	return out
}
