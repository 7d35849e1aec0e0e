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
	spikeGap     = 4 // hours: a step over a longer gap is no jump
	fence        = 1.5
)

// spikes lists the hours of a dry bulb, °C by the hour with NaN for missing,
// that jump out and back. ring says that the end joins the beginning.
func spikes(dryBulb []float64, ring bool) []int {
	t := slices.Clone(dryBulb)
	var all []int
	for {
		found := spikesOnce(t, ring)
		if len(found) == 0 {
			slices.Sort(all)
			return all
		}
		for _, i := range found { // a slide of bad filling may stand beside it
			t[i] = math.NaN()
		}
		all = append(all, found...)
	}
}

func spikesOnce(t []float64, ring bool) (found []int) {
	before := -1 // the valid hour before hour i
	for i := 0; i < len(t); i++ {
		if math.IsNaN(t[i]) {
			continue
		}
		if before >= 0 && i-before <= spikeGap && math.Abs(t[i]-t[before]) >= spikeStep {
			if run, smaller := excursion(t, before, i); run != nil && isSpike(t, run, smaller, ring) {
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
func excursion(t []float64, before, i int) (run []int, smaller float64) {
	up := t[i] > t[before]
	run = []int{i}
	for k := i + 1; k < len(t); k++ {
		last := run[len(run)-1]
		if k-last > spikeGap {
			return nil, 0
		}
		if math.IsNaN(t[k]) {
			continue
		}
		if step := t[k] - t[last]; math.Abs(step) >= spikeStep && (step > 0) != up {
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
	return outOfSeason(t, run, ring)
}

// outOfSeason tells whether a run reaches beyond the fences of the weeks around.
func outOfSeason(t []float64, run []int, ring bool) bool {
	window := make([]float64, 0, 48*spikeDays+1)
	for k := run[0] - 24*spikeDays; k <= run[0]+24*spikeDays; k++ {
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
	low, high := first-fence*(third-first), third+fence*(third-first)
	for _, r := range run {
		if t[r] < low || t[r] > high {
			return true
		}
	}
	return false
}

// A spell in the wrong unit: whole days in a row that stand far from those of
// the weeks before and after, and among them if read in the other unit. Our own
// marks: warm spells of Alaska's winter reach 25 K above those weeks for one or
// two days, no more (the stations of docs/weather.md); nowhere is summer 20 K
// too cold for three.
const (
	spellDays      = 3
	spellWarm      = 25.0 // K above, where °F stand for °C
	spellCold      = 20.0 // K below, where °C stand for °F
	spellSummer    = 20.0 // °C that the weeks around have at least in the latter case
	spellFrom      = 20   // days away the comparison begins
	spellTo        = 45   // and ends
	spellAgreement = 0.25 // of the distance may remain in the other unit
)

// spell is a run of days in the wrong unit.
type spell struct {
	from, to int // hours, to exclusive
	is       string
}

// wrongUnit finds the first and all further spells of a dry bulb by the hour
// that begins at midnight.
func wrongUnit(dryBulb []float64, ring bool) (spells []spell) {
	means := dailyMeans(dryBulb)
	run := spell{from: -1}
	flush := func(day int) {
		if run.from >= 0 && day-run.from >= spellDays {
			spells = append(spells, spell{run.from * 24, day * 24, run.is})
		}
		run.from = -1
	}
	for day := range means {
		is := unitOfDay(means, day, ring)
		if is != run.is {
			flush(day)
		}
		if is != "" && run.from < 0 {
			run = spell{from: day, is: is}
		}
		run.is = is
	}
	flush(len(means))
	return spells
}

// unitOfDay is the unit in which a day would fit the weeks around, "" where it
// does as it is.
func unitOfDay(means []float64, day int, ring bool) string {
	if math.IsNaN(means[day]) {
		return ""
	}
	around := make([]float64, 0, 2*(spellTo-spellFrom+1))
	for d := spellFrom; d <= spellTo; d++ {
		for _, k := range [2]int{day - d, day + d} {
			if ring {
				k = (k + len(means)) % len(means)
			}
			if k >= 0 && k < len(means) && !math.IsNaN(means[k]) {
				around = append(around, means[k])
			}
		}
	}
	if len(around) < spellTo-spellFrom {
		return ""
	}
	slices.Sort(around)
	usual := around[len(around)/2]
	off := means[day] - usual
	fits := func(in float64) bool { return math.Abs(in-usual) <= spellAgreement*math.Abs(off) }
	switch {
	case off >= spellWarm && fits(fahrenheit(means[day])):
		return "°F"
	case off <= -spellCold && usual >= spellSummer && fits(means[day]*1.8+32):
		return "°C"
	}
	return ""
}

func dailyMeans(hours []float64) []float64 {
	means := make([]float64, len(hours)/24)
	for d := range means {
		sum, n := 0.0, 0.0
		for _, v := range hours[24*d : 24*d+24] {
			if !math.IsNaN(v) {
				sum += v
				n++
			}
		}
		means[d] = sum / n
	}
	return means
}

// closesToARing tells whether hours that begin at from are one whole year, whose
// end joins its beginning.
func closesToARing(n int, typical bool, from, to time.Time) bool {
	return n >= 360*24 && n <= aYear && (typical || yearHour(from) == 0 && yearHour(to) >= leapHours-24)
}
