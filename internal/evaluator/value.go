package evaluator

import (
	"math"
	"strconv"
	"strings"

	"github.com/evapbook/evapbook/internal/officetest"
)

type kind uint8

// Kinds of value. The order of number and text is that in which worksheets
// sort and compare them.
const (
	blank kind = iota
	number
	text
	boolean
	failure
)

// value is what a cell holds or a formula gives. num is the number, or 1 and 0
// of a boolean; str the text, or the error as shown.
type value struct {
	num  float64
	str  string
	kind kind
}

// Errors as cells show them.
var (
	errDiv   = value{kind: failure, str: "#DIV/0!"}
	errNA    = value{kind: failure, str: "#N/A"}
	errNum   = value{kind: failure, str: "#NUM!"}
	errRef   = value{kind: failure, str: "#REF!"}
	errValue = value{kind: failure, str: "#VALUE!"}
)

func numberOf(x float64) value {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return errNum
	}
	return value{kind: number, num: x}
}

func textOf(s string) value { return value{kind: text, str: s} }

func boolOf(b bool) value {
	if b {
		return value{kind: boolean, num: 1}
	}
	return value{kind: boolean}
}

// valueOf turns what a cell of a file holds into a value.
func valueOf(v any) value {
	switch v := v.(type) {
	case float64:
		return value{kind: number, num: v}
	case int:
		return value{kind: number, num: float64(v)}
	case bool:
		return boolOf(v)
	case string:
		return textOf(v)
	case officetest.CellError:
		return value{kind: failure, str: string(v)}
	}
	return value{}
}

// plain is the value as package office has it: an empty text is nil.
func (v value) plain() any {
	switch v.kind {
	case number:
		return v.num
	case boolean:
		return v.num == 1
	case failure:
		return officetest.CellError(v.str)
	case text:
		if v.str != "" {
			return v.str
		}
	}
	return nil
}

// toNumber is the value as arithmetic takes it: blank is 0, TRUE 1, a text
// that is a number that number, any other #VALUE!.
func (v value) toNumber() value {
	switch v.kind {
	case number, failure:
		return v
	case text:
		x, err := strconv.ParseFloat(strings.TrimSpace(v.str), 64)
		if err != nil {
			return errValue
		}
		return numberOf(x)
	}
	return value{kind: number, num: v.num}
}

// toText is the value as & takes it: numbers in the general format, which has
// 15 digits. LibreOffice makes 1 of TRUE, Excel makes TRUE.
func (v value) toText() value {
	switch v.kind {
	case text, failure:
		return v
	case number:
		return textOf(general(v.num))
	case boolean:
		panic(unsupported("a logical value as text, on which programs differ"))
	}
	return textOf("")
}

// general writes a number with up to 15 digits, with an exponent only where
// it would otherwise need more than 20 places.
func general(x float64) string {
	s := strconv.FormatFloat(x, 'G', 15, 64)
	mantissa, exponent, ok := strings.Cut(s, "E")
	if !ok {
		return s
	}
	e, _ := strconv.Atoi(exponent)
	if places := max(e, -e) + len(mantissa); places <= 20 {
		rounded, _ := strconv.ParseFloat(s, 64)
		return strconv.FormatFloat(rounded, 'f', -1, 64)
	}
	return s
}

// toBool is the value as a condition.
func (v value) toBool() value {
	switch v.kind {
	case boolean, failure:
		return v
	case text:
		return errValue
	}
	return boolOf(v.num != 0)
}

// compare orders two values that are no errors: numbers before texts; texts
// without regard to capitals; blank is the 0, "" or FALSE of the other side. A
// boolean is a number to LibreOffice and greater than any text to Excel.
func compare(a, b value) int {
	a, b = likeOther(a, b), likeOther(b, a)
	if a.kind != b.kind {
		if a.kind == boolean || b.kind == boolean {
			panic(unsupported("a logical value beside one that is none, on which programs differ"))
		}
		return int(a.kind) - int(b.kind)
	}
	if a.kind == text {
		return strings.Compare(strings.ToLower(a.str), strings.ToLower(b.str))
	}
	switch {
	case a.num < b.num:
		return -1
	case a.num > b.num:
		return 1
	}
	return 0
}

func likeOther(v, other value) value {
	if v.kind == blank {
		v.kind = other.kind
	}
	return v
}
