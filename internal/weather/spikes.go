package weather

import (
	"math"
	"slices"
	"time"
)

// The jump test on dry bulb. A spike is a run of hours that the dry bulb jumps
// to and comes back from: the first and the last step go opposite ways, and
// every hour between stays off by half the smaller step. It is one
//   - of up to spikeHours hours where both steps reach spikeCertain;
//   - of up to spikeHours hours where both reach spikeStep, and of up to
//     plateauHours where both reach spikeCertain, if the season contradicts too:
//     an hour lies beyond the outer fences of the hours within spikeDays days.
//
// A front survives for it does not come back, a thunderstorm for it comes back
// slowly, a foehn because the season knows its warmth.
//
// Where the publisher filled hours in between a wrong value and sound ones, the
// jump has become a slide. So the observed hours are tested by themselves too:
// a run of up to plateauHours that jumps by spikeCertain both ways over gaps of
// up to slideGap is one if every hour of it is out of season, also among the
// same hours of the days around; so are the slideBeside filled hours beside it, and
// more of them while they are out of season too.
//
// Sources: the form (out and back within three reports, half the threshold
// inside) is the spike check of HadISD: Dunn et al., Climate of the Past 8
// (2012) 1649-1679. The step is the tolerance of WMO-No. 305, Guide on the
// Global Data-processing System (1993), VI.21, for three hours, 9 °C, asked of
// one. The fences are those of Tukey, Exploratory Data Analysis (1977): 1.5
// times the distance of the quartiles beyond them. The lengths and spikeCertain
// are our own marks, set on 1,082 stations of the TMY3 set (docs/weather.md).
const (
	spikeStep    = 9.0  // K
	spikeCertain = 15.0 // K
	spikeHours   = 6
	plateauHours = 24
	spikeDays    = 15
	spikeGap     = 4  // hours: a step over a longer gap is no jump
	slideGap     = 48 // hours, where they were filled in
	slideBeside  = 12
	fence        = 1.5
)

// spikes lists the hours of a dry bulb, °C by the hour with NaN for missing,
// that jump out and back, and those that slide to such hours. filled are the
// hours that were not observed; ring says that the end joins the beginning.
func spikes(dryBulb []float64, filled []bool, ring bool) []int {
	t := slices.Clone(dryBulb)
	all := everySpike(t, ring, jump{gap: spikeGap, least: spikeStep, is: isSpike})
	if slices.Contains(filled, true) {
		observed := slices.Clone(t)
		for i := range observed {
			if filled[i] {
				observed[i] = math.NaN()
			}
		}
		is := func(_ []float64, run []int, _ float64, ring bool) bool {
			return outOfSeason(t, run, ring, 1) == len(run) && outOfSeason(t, run, ring, 24) == len(run)
		}
		for _, i := range everySpike(observed, ring, jump{gap: slideGap, least: spikeCertain, is: is}) {
			all = append(all, i)
			all = append(all, filledBeside(t, filled, i, ring)...)
		}
	}
	slices.Sort(all)
	return slices.Compact(all)
}

// filledBeside are the filled hours on both sides of a spike: the nearest, and
// those beyond as long as they are out of season too.
func filledBeside(t []float64, filled []bool, spike int, ring bool) (beside []int) {
	for _, step := range [2]int{-1, 1} {
		for k := spike + step; k >= 0 && k < len(t) && filled[k] && !math.IsNaN(t[k]); k += step {
			if (k-spike)*step > slideBeside && outOfSeason(t, []int{k}, ring, 24) == 0 {
				break
			}
			beside = append(beside, k)
		}
	}
	return beside
}

// jump is what counts as a spike: steps of at least so many K over gaps of at
// most so many hours, and what else there is to ask of a run.
type jump struct {
	gap   int
	least float64
	is    func(t []float64, run []int, smaller float64, ring bool) bool
}

// everySpike takes the spikes out of t until there is none.
func everySpike(t []float64, ring bool, j jump) (all []int) {
	for {
		found := spikesOnce(t, ring, j)
		if len(found) == 0 {
			return all
		}
		for _, i := range found { // a slide of bad filling may stand beside it
			t[i] = math.NaN()
		}
		all = append(all, found...)
	}
}

func spikesOnce(t []float64, ring bool, j jump) (found []int) {
	before := -1 // the valid hour before hour i
	for i := 0; i < len(t); i++ {
		if math.IsNaN(t[i]) {
			continue
		}
		if before >= 0 && i-before <= j.gap && math.Abs(t[i]-t[before]) >= j.least {
			if run, smaller := j.excursion(t, before, i); run != nil && j.is(t, run, smaller, ring) {
				found = append(found, run...)
				i = run[len(run)-1]
				continue // the hour before stays the last sound one
			}
		}
		before = i
	}
	return found
}

// excursion is the run of valid hours from i on that comes back by a step
// opposite to that from hour before to i, and the smaller of the two; nil if
// there is none.
func (j *jump) excursion(t []float64, before, i int) (run []int, smaller float64) {
	up := t[i] > t[before]
	run = []int{i}
	for k := i + 1; k < len(t); k++ {
		last := run[len(run)-1]
		if k-last > j.gap {
			return nil, 0
		}
		if math.IsNaN(t[k]) {
			continue
		}
		if step := t[k] - t[last]; math.Abs(step) >= j.least && (step > 0) != up {
			smaller = min(math.Abs(t[i]-t[before]), math.Abs(step))
			if !staysOff(t, before, k, run, up, smaller/2) {
				return nil, 0
			}
			return run, smaller
		}
		if len(run) == plateauHours {
			return nil, 0
		}
		run = append(run, k)
	}
	return nil, 0
}

// staysOff tells whether each hour of a run is off both its neighbours by half
// the smaller step.
func staysOff(t []float64, before, after int, run []int, up bool, half float64) bool {
	if len(run) == 1 {
		return true
	}
	base := max(t[before], t[after])
	if !up {
		base = min(t[before], t[after])
	}
	for _, r := range run {
		if off := t[r] - base; math.Abs(off) < half || (off > 0) != up {
			return false
		}
	}
	return true
}

func isSpike(t []float64, run []int, smaller float64, ring bool) bool {
	switch short := len(run) <= spikeHours; {
	case short && smaller >= spikeCertain:
		return true
	case !short && smaller < spikeCertain:
		return false
	}
	return outOfSeason(t, run, ring, 1) > 0
}

// outOfSeason is how many hours of a run lie beyond the fences of the weeks
// around each: of every hour there or, with a step of 24, of those of the same
// clock hour.
func outOfSeason(t []float64, run []int, ring bool, step int) (beyond int) {
	for _, r := range run {
		if low, high := fences(t, r, ring, step); t[r] < low || t[r] > high {
			beyond++
		}
	}
	return beyond
}

// fences are those of the hours within spikeDays days of one, each step hours.
func fences(t []float64, middle int, ring bool, step int) (low, high float64) {
	window := make([]float64, 0, 48*spikeDays/step+1)
	for k := middle - 24*spikeDays; k <= middle+24*spikeDays; k += step {
		at := k
		if ring {
			at = (k + len(t)) % len(t)
		}
		if at >= 0 && at < len(t) && !math.IsNaN(t[at]) {
			window = append(window, t[at])
		}
	}
	slices.Sort(window)
	first, third := window[len(window)/4], window[3*len(window)/4]
	return first - fence*(third-first), third + fence*(third-first)
}

// closesToARing tells whether hours that begin at from are one whole year, whose
// end joins its beginning.
func closesToARing(n int, typical bool, from, to time.Time) bool {
	return n >= 360*24 && n <= aYear && (typical || yearHour(from) == 0 && yearHour(to) >= leapHours-24)
}
