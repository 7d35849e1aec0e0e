package office

import "math"

// tableRows is how many numbers a column of formulas has at least if every row
// of it is taken to hold the same quantity: hours, not days or figures.
const tableRows = 1000

// sumRounding is what the four roundings of a sum of five terms can come to, as a
// share of its largest term: half a unit in the last place each, on both sides.
const sumRounding = 4 * 0x1p-52

// remainders gives, by column, the difference that rounding alone can leave
// between two programs. A load of -4e-5 W is what remains of terms of kilowatts,
// which are known to 1e-12 W only; its size says nothing of theirs, that of the
// column's largest number does. Short columns, which may mix quantities, have none.
func remainders(s *Sheet) map[int]float64 {
	largest, numbers := map[int]float64{}, map[int]int{}
	for i := range s.Cells {
		c := &s.Cells[i]
		if v, ok := c.Value.(float64); ok && c.HasFormula {
			numbers[c.Ref.Col]++
			largest[c.Ref.Col] = math.Max(largest[c.Ref.Col], math.Abs(v))
		}
	}
	for col, v := range largest {
		if numbers[col] < tableRows {
			delete(largest, col)
		} else {
			largest[col] = sumRounding * v
		}
	}
	return largest
}

// within says whether two values are numbers that differ by at most rest.
func within(a, b any, rest float64) bool {
	x, isX := a.(float64)
	y, isY := b.(float64)
	return isX && isY && math.Abs(x-y) <= rest // not for NaN
}
