package officetest

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// A column of kilowatts in which one hour is nearly in balance: rounding of the
// terms passes, anything more is found, and no column lends its size to another.
func TestRemainderOfASum(t *testing.T) {
	const left = -4.4e-5 // W
	for name, c := range map[string]struct {
		rows   int
		result float64
		same   bool
	}{
		"rounding of kilowatts":             {tableRows, left + 4.6e-14, true},
		"five times what rounding can do":   {tableRows, left + 5e-9, false},
		"the same in a column of few cells": {tableRows - 1, left + 4.6e-14, false},
	} {
		s := &Sheet{Name: "Hours"}
		got := Results{"Hours": {}}
		for row := 1; row <= c.rows; row++ {
			at, v := Ref{row, 1}, 1e4
			got["Hours"][at] = v
			if row == 7 {
				v, got["Hours"][at] = left, c.result
			}
			s.Cells = append(s.Cells, Cell{Ref: at, HasFormula: true, Value: v})
		}
		beside := Ref{1, 2}
		s.Cells = append(s.Cells, Cell{Ref: beside, HasFormula: true, Value: left})
		got["Hours"][beside] = left
		r := Compare(&Book{Sheets: []*Sheet{s}}, "another", got, DefaultTolerance)
		assert.Equal(t, c.same, len(r.Failures()) == 0, name)

		got["Hours"][Ref{7, 1}], got["Hours"][beside] = left, left+4.6e-14
		r = Compare(&Book{Sheets: []*Sheet{s}}, "another", got, DefaultTolerance)
		assert.Len(t, r.Failures(), 1, name+", beside the long column")
	}
}
