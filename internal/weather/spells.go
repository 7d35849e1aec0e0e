package weather

import (
	"math"
	"slices"
)

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
	around := make([]float64, 0, 2*(spellTo-spellFrom+1))
	run := spell{from: -1}
	flush := func(day int) {
		if run.from >= 0 && day-run.from >= spellDays {
			spells = append(spells, spell{run.from * 24, day * 24, run.is})
		}
		run.from = -1
	}
	for day := range means {
		is := unitOfDay(means, day, ring, around)
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
// does as it is. around is room for their means.
func unitOfDay(means []float64, day int, ring bool, around []float64) string {
	if math.IsNaN(means[day]) {
		return ""
	}
	colder, warmer := 0, 0
	around = around[:0]
	for d := spellFrom; d <= spellTo; d++ {
		for _, k := range [2]int{day - d, day + d} {
			if ring {
				k = (k + len(means)) % len(means)
			}
			if k >= 0 && k < len(means) && !math.IsNaN(means[k]) {
				around = append(around, means[k])
				if means[k] <= means[day]-spellWarm {
					colder++
				} else if means[k] >= means[day]+spellCold {
					warmer++
				}
			}
		}
	}
	if len(around) < spellTo-spellFrom || 2*max(colder, warmer) < len(around) { // the median is not that far
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
