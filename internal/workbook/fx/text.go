// Package fx holds the text of the formulas: the equations of docs/model.md as
// cells write them, each beside the Go value that only cells compute. References
// stand in brackets, as package xlsx has them. The engine computes the same
// another way; neither is made from the other, and the two are compared.
package fx

import (
	"math"
	"strconv"
	"strings"
)

// Fill puts cell references into a formula: fill("X+Y", "X", "[t]", …).
func Fill(formula string, pairs ...string) string {
	return strings.NewReplacer(pairs...).Replace(formula)
}

// Num writes a number into a formula with all its digits: whole ones in full,
// small ones with an exponent.
func Num(v float64) string {
	if v == math.Trunc(v) && math.Abs(v) < 1e15 {
		return strconv.FormatFloat(v, 'f', 0, 64)
	}
	s := strconv.FormatFloat(v, 'G', -1, 64)
	return strings.NewReplacer("E+0", "E", "E+", "E", "E-0", "E-").Replace(s)
}

// signed writes a number with its sign, to follow another term.
func signed(v float64) string {
	if v < 0 {
		return Num(v)
	}
	return "+" + Num(v)
}

func round(v float64, digits int) float64 {
	p := math.Pow10(digits)
	return math.Round(v*p) / p
}

// Quote is a text as a formula holds it.
func Quote(s string) string { return `"` + strings.ReplaceAll(s, `"`, `""`) + `"` }

// Flag is 1 for true, as cells hold it.
func Flag(b bool) int {
	if b {
		return 1
	}
	return 0
}
