package climate

import (
	"math"
	"slices"
)

// Coincidence is the half-width in K of the band over which coincident means
// are taken. The small excess keeps tenths of a degree on the edge inside it.
const Coincidence = 0.5 + 1e-9

// Condition is a design condition: a value exceeded in a stated share of the
// hours of the year, and the mean of the other temperature in those hours.
type Condition struct {
	Share      float64 // of the hours of the year
	Hours      int     // exceeded in so many hours
	Value      float64 // °C
	Coincident float64 // °C, mean over hours within 0.5 K
}

// Design holds the annual cooling design conditions of the file. Eq. 29.
//
// Method: hours sorted, the value exceeded in 35, 88 and 175 of 8,760. A
// typical year differs from a record of decades by 0.5 to 1 K.
// Source of the definitions: ASHRAE Handbook Fundamentals 2017 ch. 14.
type Design struct {
	DryBulb [3]Condition // 0.4, 1, 2 %, with mean coincident wet bulb
	WetBulb [3]Condition // 0.4, 1, 2 %, with mean coincident dry bulb
	GHI     float64      // W/m², mean over the hours at or above the 1 % dry bulb
}

// DesignShares are the three annual shares of design conditions.
var DesignShares = [3]float64{0.004, 0.01, 0.02}

// One is the index of the 1 % condition in DesignShares.
const One = 1

// ExceededHours is the number of hours that make up share of n hours.
func ExceededHours(share float64, n int) int { return int(math.Round(share * float64(n))) }

func (c *Climate) design() Design {
	var dry, wet []float64
	for i := range c.Hours {
		if h := &c.Hours[i]; !h.Missing {
			dry = append(dry, h.Air.T)
			wet = append(wet, h.WetBulb)
		}
	}
	var d Design
	for i, share := range DesignShares {
		d.DryBulb[i] = condition(share, dry, wet)
		d.WetBulb[i] = condition(share, wet, dry)
	}
	d.GHI = c.meanGHI(d.DryBulb[One].Value)
	return d
}

// Exceeded is the value that k of the others exceed, the one after the k
// largest: the smallest where there are no more than k. values must not be
// empty. Sorting all hours for it would take longer than their wet bulbs.
func Exceeded(values []float64, k int) float64 {
	k = min(k, len(values)-1)
	top := slices.Sorted(slices.Values(values[:k+1])) // the k+1 largest so far
	for _, v := range values[k+1:] {
		if !(v > top[0]) {
			continue
		}
		at, _ := slices.BinarySearch(top, v)
		copy(top, top[1:at])
		top[at-1] = v
	}
	return top[0]
}

func condition(share float64, values, others []float64) Condition {
	k := min(ExceededHours(share, len(values)), len(values)-1)
	c := Condition{Share: share, Hours: k, Value: Exceeded(values, k)}
	sum, n := 0.0, 0
	for i, v := range values {
		if math.Abs(v-c.Value) <= Coincidence {
			sum += others[i]
			n++
		}
	}
	c.Coincident = sum / float64(n)
	return c
}

// meanGHI is the mean irradiance of the hours at or above dry bulb t.
func (c *Climate) meanGHI(t float64) float64 {
	sum, n := 0.0, 0
	for i := range c.Hours {
		if h := &c.Hours[i]; !h.Missing && h.Air.T >= t {
			sum += h.GHI
			n++
		}
	}
	return sum / float64(n)
}
