package units

import (
	"math"
	"strconv"
	"strings"
)

// significant digits that Text keeps: enough that reading it back changes
// nothing visible, few enough to hide the rounding of a conversion.
const significant = 12

// Text writes a value in SI as a person would state it in a system, such as
// "5430 ft"; Parse reads it back.
func (k Kind) Text(si float64, sys System) string {
	u := k.Unit(sys)
	return join(number(tidy(u.FromSI(si))), u.Symbol)
}

// Show writes a value in SI for reading, rounded as in the spreadsheet, with
// thousands separators, such as "1,655 m" or "80.0 %".
func (k Kind) Show(si float64, sys System) string {
	u := k.Unit(sys)
	v := u.FromSI(si)
	if strings.HasSuffix(u.Format, "%") {
		return u.round(100*v) + " %"
	}
	return join(u.round(v), u.Symbol)
}

// A share from NearlyAll on would read 100 % when rounded, one below HardlyAny 0 %.
const (
	NearlyAll = 0.995
	HardlyAny = 0.005
)

// Percent writes a share as a whole percentage, such as "89 %". What is not quite
// all or nothing never reads 100 or 0 %.
func Percent(share float64) string {
	switch {
	case share >= NearlyAll && share < 1:
		return "over 99 %"
	case share > 0 && share < HardlyAny:
		return "under 1 %"
	}
	return Count.Show(math.Round(100*share), SI) + " %" // halves up, as spreadsheets do
}

// Number writes a value in SI for a form that has the unit beside it: four
// significant digits, all digits of whole numbers, such as "1,655".
func (k Kind) Number(si float64, sys System) string { return limit(k.Unit(sys).FromSI(si)) }

// Digits is the largest number of decimal places Format shows.
func (u Unit) Digits() int {
	_, decimals, _ := strings.Cut(u.Format, ".")
	return strings.Count(decimals, "0") + strings.Count(decimals, "#")
}

// round writes v as Format shows it.
func (u Unit) round(v float64) string {
	text := strconv.FormatFloat(math.Abs(v), 'f', u.Digits(), 64)
	if _, decimals, _ := strings.Cut(u.Format, "."); strings.Contains(decimals, "#") {
		text = strings.TrimSuffix(strings.TrimRight(text, "0"), ".")
	}
	if strings.Contains(u.Format, ",") {
		text = group(text)
	}
	if v < 0 && strings.Trim(text, "0.,") != "" {
		return "-" + text
	}
	return text
}

// Range writes an allowed range for reading, such as "-1,410 to 14,700 ft": three
// significant digits, rounded inward, so that both ends are allowed.
func (k Kind) Range(low, high float64, sys System) string {
	u := k.Unit(sys)
	return join(limit(0-short(0-u.FromSI(low)))+" to "+limit(short(u.FromSI(high))), u.Symbol)
}

// short is v with three significant digits, never more than v but for the rounding
// of a conversion.
func short(v float64) float64 {
	if v == 0 {
		return 0
	}
	step := math.Pow(10, math.Floor(math.Log10(math.Abs(v)))-2)
	return math.Floor(v/step+1e-9) * step
}

func limit(v float64) string {
	r, err := strconv.ParseFloat(strconv.FormatFloat(v, 'e', 3, 64), 64)
	if err != nil || math.Abs(v) >= 1000 {
		r = math.Round(v)
	}
	if r < 0 {
		return "-" + group(number(-r))
	}
	return group(number(r))
}

// group puts a comma between thousands.
func group(text string) string {
	whole, decimals, found := strings.Cut(text, ".")
	for i := len(whole) - 3; i > 0; i -= 3 {
		whole = whole[:i] + "," + whole[i:]
	}
	if found {
		return whole + "." + decimals
	}
	return whole
}

func join(num, symbol string) string {
	if symbol == "" {
		return num
	}
	return num + " " + symbol
}

// tidy rounds to the significant digits of Text.
func tidy(v float64) float64 {
	r, err := strconv.ParseFloat(strconv.FormatFloat(v, 'e', significant-1, 64), 64)
	if err != nil || r == 0 {
		return 0
	}
	return r
}

// number writes v without an exponent where a person would not use one.
func number(v float64) string {
	if a := math.Abs(v); a != 0 && (a < 1e-7 || a >= 1e15) {
		return strconv.FormatFloat(v, 'g', -1, 64)
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}
