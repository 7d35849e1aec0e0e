package climate

import "math"

// The warmest quarter, whose middle is midsummer. A single hottest day will not
// do: of the 1,009 stations within the program 61 have theirs more than 45 days
// from the peak of the year's first harmonic, some in spring or autumn, none the
// middle of its quarter. The span is our own choice.
const (
	Quarter     = 91 // days
	QuarterSeen = 46 // days of it that have weather, at least
)

// EqualMeans is the difference of means in K up to which they count as equal:
// sums of the same numbers in another order are.
const EqualMeans = 1e-9

// fullYear is the number of days from which a file is taken as a closed circle.
const fullYear = 360

// midsummer is the middle day of the Quarter with the highest mean, of equal ones
// the first. A file too short for a circle has its hottest day instead, and so
// has one that holds no such quarter.
func midsummer(days []Day) int {
	best, highest := -1, math.Inf(-1)
	if len(days) >= fullYear {
		for middle := range days {
			if m := quarterMean(days, middle); m > highest+EqualMeans {
				best, highest = middle, m
			}
		}
	}
	if best < 0 {
		return hottest(days, func(i int) int { return i })
	}
	return best
}

// quarterMean is the mean of the daily means about a day, the last day followed
// by the first; NaN where too few of them have weather.
func quarterMean(days []Day, middle int) float64 {
	sum, n := 0.0, 0
	for k := -(Quarter / 2); k <= Quarter/2; k++ {
		if d := &days[(middle+k+len(days))%len(days)]; d.Valid > 0 {
			sum, n = sum+d.Mean, n+1
		}
	}
	if n < QuarterSeen {
		return math.NaN()
	}
	return sum / float64(n)
}

// hottest is the day with the highest mean, of equal ones the first in the given
// order; -1 where no day has weather.
func hottest(days []Day, order func(i int) int) int {
	highest, best := math.Inf(-1), -1
	for i := range days {
		if days[i].Valid > 0 {
			highest = max(highest, days[i].Mean)
		}
	}
	for i := range days {
		if days[i].Valid > 0 && days[i].Mean >= highest-EqualMeans && (best < 0 || order(i) < order(best)) {
			best = i
		}
	}
	return best
}

// seasonPosition counts days from midsummer. A whole year closes into a circle
// cut half a year from it, so that both hemispheres have their season in one
// piece.
func seasonPosition(i, midsummer, n int) int {
	if n < fullYear {
		return i - midsummer
	}
	half := n / 2
	return (i-midsummer+half+n)%n - half
}

// Circle is the number of days after which the year begins again; 0 for a file
// that is too short for it.
func (c *Climate) Circle() int {
	if len(c.Days) < fullYear {
		return 0
	}
	return len(c.Days)
}

// UntilMidsummer is the number of days from a day to the next midsummer. In a
// closed year that is 1 or more for every day, in a shorter file 0 or less for
// those that come after it.
func (c *Climate) UntilMidsummer(day int) int {
	if s := c.Days[day].Season; s < 0 {
		return -s
	}
	return c.Circle() - c.Days[day].Season
}

// SinceMidsummer is the number of days from the last midsummer to a day, 1 or
// more in a closed year, in a shorter file 0 or less for those before it.
func (c *Climate) SinceMidsummer(day int) int {
	if s := c.Days[day].Season; s > 0 {
		return s
	}
	return c.Circle() + c.Days[day].Season
}

// FrostFree is the number of days between the last freeze and the first; false
// where there is none on one of the sides.
func (c *Climate) FrostFree() (days int, ok bool) {
	last, first := c.Calendar.LastFreeze, c.Calendar.FirstFreeze
	if last < 0 || first < 0 {
		return 0, false
	}
	return c.UntilMidsummer(last) + c.SinceMidsummer(first) - 1, true
}
