package officetest

import "math"

// tableRows is how many numbers a column of formulas has at least if every row
// of it is taken to hold the same quantity: hours, not days or figures.
const tableRows = 1000

// remainder is what some hundred operations in binary64 can come to, as a share
// of the largest number among them; see [DefaultTolerance].
const remainder = 1e-13

// remainders gives, by column, the difference that rounding alone can leave
// between two programs. A supply of -4e-5 °C is what remains of tens of kelvins,
// a load of -4e-5 W of kilowatts: such a number's size says nothing of the terms
// it is left over from, that of the column's largest does. Short columns, which
// may mix quantities, have none.
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
			largest[col] = remainder * v
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
