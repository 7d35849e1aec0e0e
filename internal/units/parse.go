package units

import (
	"errors"
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"

	"github.com/evapbook/evapbook/internal/hint"
)

// quantity is a number in front and whatever follows it.
var quantity = regexp.MustCompile(`^([+-]?(?:[0-9][0-9,]*(?:\.[0-9]*)?|\.[0-9]+)(?:[eE][+-]?[0-9]+)?)\s*(.*)$`)

// currency is a sign or code of a currency beside an amount: "$3,500",
// "0.30 €/kWh", "USD 0.155/kWh". Cents have spellings of their own.
var currency = regexp.MustCompile(`(?i)(?:\b(?:a|au|us|c|ca|nz|mx))?\$|[€£¥₹₪₺]|\b(usd|aud|cad|nzd|eur|gbp|mxn|inr|zar)\b`)

// Currency is the sign or code of a currency that stands beside an amount,
// empty where there is none.
func Currency(text string) string { return strings.ToUpper(currency.FindString(text)) }

// priced tells the kinds whose values are sums of money.
func (k Kind) priced() bool { return k == Money || k == PricePerKWh || k == PricePerVolume }

// grouped is a number with well-formed thousands separators.
var grouped = regexp.MustCompile(`^[+-]?[0-9]{1,3}(,[0-9]{3})+(\.[0-9]*)?$`)

// Parse reads a value such as "5430ft", "78 °F" or "0.8" and returns it in
// SI. A kind that has units demands one, except with a zero that is the same
// in all of them; a kind without refuses it; a share may be written in percent. Errors say what is wrong and, on a second
// line, what to write instead.
func Parse(k Kind, text string) (float64, error) {
	text = strings.TrimSpace(strings.ReplaceAll(text, "−", "-"))
	if !k.Numeric() {
		return 0, fmt.Errorf("%s is not a quantity with a unit", k)
	}
	if k.priced() {
		text = strings.TrimSpace(currency.ReplaceAllString(text, ""))
	}
	m := quantity.FindStringSubmatch(text)
	if m == nil {
		return 0, notNumber(k, text)
	}
	v, err := parseNumber(m[1])
	if err != nil {
		return 0, err
	}
	si, err := k.convert(v, m[1], m[2])
	if err != nil {
		return 0, err
	}
	if math.IsInf(si, 0) || math.IsNaN(si) {
		return 0, fmt.Errorf("%q is too large a number", text)
	}
	return si, nil
}

func notNumber(k Kind, text string) error {
	if text == "" {
		return hint.With(errors.New("no value given"), "write for example %s", k.example("3"))
	}
	return hint.With(fmt.Errorf("%q does not start with a number", text), "write for example %s", k.example("3"))
}

func parseNumber(text string) (float64, error) {
	digits := text
	if strings.Contains(text, ",") {
		if !grouped.MatchString(text) {
			return 0, hint.With(fmt.Errorf("%q has a misplaced comma", text), "write decimals with a point, thousands as 5,430 or 5430")
		}
		digits = strings.ReplaceAll(text, ",", "")
	}
	v, err := strconv.ParseFloat(digits, 64)
	if err != nil {
		return 0, fmt.Errorf("%q is too large a number", text)
	}
	return v, nil
}

// convert applies the unit a person wrote; num is the number as written.
func (k Kind) convert(v float64, num, unit string) (float64, error) {
	e := k.entry()
	if k == Share && unit == "%" {
		return v / 100, nil
	}
	if unit == "" {
		if k.NeedsUnit() && (v != 0 || k.Unit(IP).Offset != 0) {
			return 0, hint.With(fmt.Errorf("%s has no unit", num), "write %s", k.example(num))
		}
		return v, nil
	}
	want := normal(unit)
	for _, s := range e.spellings {
		if s.is(want) {
			return v*s.scale + s.offset, nil
		}
	}
	if len(e.spellings) == 0 {
		return 0, hint.With(fmt.Errorf("%q has a unit, but a %s takes none", num+" "+unit, k), "write %s", num)
	}
	return 0, hint.With(fmt.Errorf("%q is not a unit of %s", unit, k), "use %s", list(k.Accepted()))
}

func (s spelling) is(want string) bool {
	if want == normal(s.symbol) {
		return true
	}
	for _, a := range strings.Fields(s.also) {
		if want == a {
			return true
		}
	}
	return false
}

var plainUnit = strings.NewReplacer(
	"²", "2", "³", "3", "^", "", "°", "", "º", "", "˚", "", "·", "", "*", "", "⋅", "", " per ", "/", " ", "", "\t", "", "\u00a0", "",
)

// normal strips what spellings of one unit differ in: case, spaces, degree
// signs, raised digits and multiplication dots.
func normal(unit string) string {
	u := strings.ToLower(plainUnit.Replace(" " + unit))
	u = strings.TrimPrefix(u, "deg")
	return strings.ReplaceAll(u, "degf", "f")
}

// Accepted lists the units a person may write for the kind, SI first.
func (k Kind) Accepted() []string {
	var all []string
	for _, s := range k.entry().spellings {
		all = append(all, s.symbol)
	}
	return all
}

// example shows how the number would be written: with the IP and the SI unit.
func (k Kind) example(num string) string {
	e := k.entry()
	switch {
	case k == Share:
		return "0.8"
	case len(e.spellings) == 0:
		return num
	}
	si := num + k.Unit(SI).Symbol
	if ip := num + k.Unit(IP).Symbol; ip != si {
		return ip + " or " + si
	}
	return si
}

// list joins words as "a, b or c".
func list(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	last := len(words) - 1
	return strings.Join(words[:last], ", ") + " or " + words[last]
}
