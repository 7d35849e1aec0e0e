package weather

import (
	"errors"
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
)

// number is a cell that holds a decimal number; an empty cell is NaN. gocsv by
// itself would read an empty cell as 0, "1,234" as 1.234 and accept "inf".
type number float64

// UnmarshalCSV implements gocsv.TypeUnmarshaller.
func (n *number) UnmarshalCSV(s string) error {
	s = strings.TrimSpace(s)
	if s == "" {
		*n = number(math.NaN())
		return nil
	}
	if !decimal(s) {
		return notANumber(s)
	}
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		return notANumber(s)
	}
	*n = number(v)
	return nil
}

// decimal tells whether s is written with digits, sign, point and exponent only.
func decimal(s string) bool {
	for i := 0; i < len(s); i++ {
		switch c := s[i]; {
		case c >= '0' && c <= '9', c == '.', c == '-', c == '+', c == 'e', c == 'E':
		default:
			return false
		}
	}
	return true
}

var (
	errDecimalComma = errors.New("decimal comma")
	errThousands    = errors.New("thousands separator")
)

// thousands is a number written like 1,013.2, 1.013,2 or 1 013; 1,013 could be
// a decimal comma as well.
var thousands = regexp.MustCompile(`^[-+]?\d{1,3}((,\d{3})+(\.\d+)?|(\.\d{3})+,\d+|([ \x{a0}\x{202f}']\d{3})+([.,]\d+)?)$`)

func notANumber(s string) error {
	if thousands.MatchString(s) {
		return fmt.Errorf("%q is not a number: %w", clip(s, 30), errThousands)
	}
	if strings.Count(s, ",") == 1 && decimal(strings.Replace(s, ",", ".", 1)) {
		return fmt.Errorf("%q is not a number: %w", clip(s, 30), errDecimalComma)
	}
	return fmt.Errorf("%q is not a number", clip(s, 30))
}

// whole is a cell that holds a whole number of a date: 8, 08 or 8.0.
type whole int

// UnmarshalCSV implements gocsv.TypeUnmarshaller.
func (w *whole) UnmarshalCSV(s string) error {
	s = strings.TrimSuffix(strings.TrimSpace(s), ".0")
	v, ok := digits(s)
	if !ok {
		return fmt.Errorf("%q is not a whole number", clip(s, 30))
	}
	*w = whole(v)
	return nil
}

// digits reads one to eight decimal digits.
func digits(s string) (int, bool) {
	if s == "" || len(s) > 8 {
		return 0, false
	}
	v := 0
	for i := 0; i < len(s); i++ {
		if s[i] < '0' || s[i] > '9' {
			return 0, false
		}
		v = 10*v + int(s[i]-'0')
	}
	return v, true
}

// degrees reads a latitude or longitude of a header line, in which a comma can
// only be a decimal comma.
func degrees(s string) float64 { return headerNumber(strings.Replace(s, ",", ".", 1)) }

// headerNumber reads a number of a header line; what it cannot read is NaN. A
// comma is a decimal comma where it can be no thousands separator.
func headerNumber(s string) float64 {
	var n number
	if strings.Count(s, ",") == 1 && !thousands.MatchString(strings.TrimSpace(s)) {
		s = strings.Replace(s, ",", ".", 1)
	}
	if n.UnmarshalCSV(s) != nil {
		return math.NaN()
	}
	return float64(n)
}
