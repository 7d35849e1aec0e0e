package officetest

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestTolerance(t *testing.T) {
	for name, c := range map[string]struct {
		a, b any
		same bool
	}{
		"equal":                  {2.0, 2.0, true},
		"below the relative":     {1e6, 1e6 + 5e-4, true},
		"above the relative":     {1e6, 1e6 + 5e-3, false},
		"small but real":         {1e-9, 1.1e-9, false},
		"both below the floor":   {5e-13, 0.0, true},
		"one above the floor":    {5e-12, 0.0, false},
		"opposite signs":         {1.0, -1.0, false},
		"not a number":           {math.NaN(), math.NaN(), false},
		"infinite":               {math.Inf(1), 1e308, false},
		"true and 1":             {true, 1.0, true},
		"false and 1":            {false, 1.0, false},
		"texts":                  {"a", "a", true},
		"texts in other letters": {"a", "A", false},
		"text and number":        {"1", 1.0, false},
		"empty and 0":            {nil, 0.0, false},
		"empty":                  {nil, nil, true},
		"same error":             {CellError("#N/A"), CellError("#N/A"), true},
		"error and its text":     {"#N/A", CellError("#N/A"), false},
	} {
		_, same := DefaultTolerance.equal(c.a, c.b)
		assert.Equal(t, c.same, same, name)
		_, same = DefaultTolerance.equal(c.b, c.a)
		assert.Equal(t, c.same, same, name+", the other way round")
	}
}

// A formula that the program did not take for one is a failure, whatever its value.
func TestCompareAbsentFormula(t *testing.T) {
	b := &Book{Sheets: []*Sheet{{Name: "My sheet", Cells: []Cell{
		{Ref: Ref{1, 1}, HasFormula: true, Formula: "1+1", Value: 2.0},
		{Ref: Ref{1, 2}, Value: 3.0},
	}}}}
	r := Compare(b, "nothing", Results{}, DefaultTolerance)
	assert.Equal(t, 1, r.Formulas())
	assert.Equal(t, "'My sheet'!A1: file says 2, worked out (no formula here), formula =1+1", r.Failures()[0].String())
}

func TestFunctions(t *testing.T) {
	assert.Equal(t, []string{"IF", "SUM", "_xlfn.CONCAT"}, functions(`IF(SUM(A1:A3)>0,"MAX(1)",_xlfn.CONCAT(In_x,(1)))`))
}
