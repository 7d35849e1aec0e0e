package evaluator

import (
	"math"
	"slices"
	"strconv"
	"strings"
)

// function is one worksheet function: what it works out of its arguments, or,
// for one that gives a reference, which.
type function struct {
	least, most int // arguments
	work        func(c *calculation, args []node) value
	area        func(c *calculation, args []node) (area, value)
}

const many = math.MaxInt

// functions are those our books may use. Set in init: they call formulas that
// call functions.
var functions map[string]*function

func init() {
	functions = map[string]*function{
		"ABS":   ofNumber(math.Abs),
		"ATAN":  ofNumber(math.Atan),
		"EXP":   ofNumber(math.Exp),
		"LN":    ofNumber(logarithm(math.Log)),
		"LOG10": ofNumber(logarithm(math.Log10)),
		"SQRT":  ofNumber(math.Sqrt),

		"MOD":     ofNumbers(modulo),
		"ROUND":   ofNumbers(func(x, digits float64) value { return numberOf(round(x, digits, math.Round)) }),
		"ROUNDUP": ofNumbers(func(x, digits float64) value { return numberOf(round(x, digits, awayFromZero)) }),
		"FIXED":   ofNumbers(fixed),

		"IF":       {least: 2, most: 3, work: choose},
		"IFERROR":  {least: 2, most: 2, work: ifError},
		"AND":      {least: 1, most: many, work: logical(func(all, b bool) bool { return all && b }, true)},
		"OR":       {least: 1, most: many, work: logical(func(any, b bool) bool { return any || b }, false)},
		"ISNUMBER": {least: 1, most: 1, work: is(number)},
		"ISBLANK":  {least: 1, most: 1, work: is(blank)},

		"SUM":        {least: 1, most: many, work: sum},
		"AVERAGE":    {least: 1, most: many, work: average},
		"COUNT":      {least: 1, most: many, work: count},
		"MAX":        {least: 1, most: many, work: extreme(func(a, b float64) bool { return a > b })},
		"MIN":        {least: 1, most: many, work: extreme(func(a, b float64) bool { return a < b })},
		"MEDIAN":     {least: 1, most: many, work: median},
		"PERCENTILE": {least: 2, most: 2, work: percentile},
		"LARGE":      {least: 2, most: 2, work: large},
		"SLOPE":      {least: 2, most: 2, work: slope},
		"SUMPRODUCT": {least: 1, most: many, work: sumProduct},
		"COUNTIF":    {least: 2, most: 2, work: countIfs},
		"COUNTIFS":   {least: 2, most: many, work: countIfs},
		"SUMIFS":     {least: 3, most: many, work: sumIfs},
		"AVERAGEIFS": {least: 3, most: many, work: averageIfs},

		"MATCH": {least: 2, most: 3, work: match},
		"INDEX": {least: 2, most: 3, area: index},
		"ROWS":  {least: 1, most: 1, work: rows},
	}
}

// ofNumber is a function of one number; where it has no value, #NUM!.
func ofNumber(f func(float64) float64) *function {
	return &function{least: 1, most: 1, work: func(c *calculation, args []node) value {
		v := args[0].eval(c).toNumber()
		if v.kind == failure {
			return v
		}
		return numberOf(f(v.num))
	}}
}

// ofNumbers is a function of two numbers.
func ofNumbers(f func(x, y float64) value) *function {
	return &function{least: 2, most: 2, work: func(c *calculation, args []node) value {
		x, y, bad := numbers(args[0].eval(c), args[1].eval(c))
		if bad.kind == failure {
			return bad
		}
		return f(x, y)
	}}
}

func logarithm(f func(float64) float64) func(float64) float64 {
	return func(x float64) float64 {
		if x <= 0 {
			return math.NaN()
		}
		return f(x)
	}
}

// modulo has the sign of the divisor.
func modulo(x, y float64) value {
	if y == 0 {
		return errDiv
	}
	return numberOf(x - y*math.Floor(x/y))
}

// round rounds to decimal places, fifteen digits of the number counting: 1.005
// is meant as half of the last place although binary64 has less.
func round(x, digits float64, to func(float64) float64) float64 {
	scale := math.Pow(10, math.Trunc(digits))
	scaled, _ := strconv.ParseFloat(strconv.FormatFloat(x*scale, 'e', 14, 64), 64)
	return to(scaled) / scale
}

func awayFromZero(x float64) float64 { return math.Copysign(math.Ceil(math.Abs(x)), x) }

// fixed writes a number with decimal places and commas between thousands.
func fixed(x, digits float64) value {
	if digits < 0 {
		panic(unsupported("FIXED with digits before the point"))
	}
	s := strconv.FormatFloat(math.Abs(round(x, digits, math.Round)), 'f', int(digits), 64)
	whole, decimals, _ := strings.Cut(s, ".")
	for i := len(whole) - 3; i > 0; i -= 3 {
		whole = whole[:i] + "," + whole[i:]
	}
	if decimals != "" {
		whole += "." + decimals
	}
	if x < 0 && strings.Trim(whole, "0.,") != "" {
		whole = "-" + whole
	}
	return textOf(whole)
}

// choose is IF: only the branch taken is worked out.
func choose(c *calculation, args []node) value {
	condition := args[0].eval(c).toBool()
	switch {
	case c.waits() || condition.kind == failure:
		return condition
	case condition.num == 1:
		return args[1].eval(c)
	case len(args) == 3:
		return args[2].eval(c)
	}
	return boolOf(false)
}

func ifError(c *calculation, args []node) value {
	v := args[0].eval(c)
	if c.waits() || v.kind != failure {
		return v
	}
	return args[1].eval(c)
}

// logical is AND or OR: of references only numbers and booleans count.
func logical(join func(so, b bool) bool, start bool) func(c *calculation, args []node) value {
	return func(c *calculation, args []node) value {
		so, counted := start, false
		var bad value
		see := func(v value) bool {
			if v = v.toBool(); v.kind == failure {
				bad = v
				return false
			}
			so, counted = join(so, v.num == 1), true
			return true
		}
		for _, n := range args {
			a, err, isRef := c.areaOf(n)
			switch {
			case err.kind == failure:
				return err
			case isRef:
				c.cells(a, func(v value) bool { return v.kind == blank || v.kind == text || see(v) })
			default:
				see(n.eval(c))
			}
			if bad.kind == failure {
				return bad
			}
		}
		if !counted {
			return errValue
		}
		return boolOf(so)
	}
}

// is tells of which kind a value is.
func is(k kind) func(c *calculation, args []node) value {
	return func(c *calculation, args []node) value { return boolOf(args[0].eval(c).kind == k) }
}

// Functions are the names of the functions there are.
func Functions() []string {
	var all []string
	for name := range functions {
		all = append(all, name)
	}
	slices.Sort(all)
	return all
}
