package xlsx

import (
	"fmt"
	"math"
	"reflect"
	"regexp"
	"strconv"
	"strings"
	"time"
	"unicode/utf8"
)

// kind is what a cell holds.
type kind uint8

const (
	blank kind = iota
	number
	text
	truth
)

// value is a cell's value in the file's terms.
type value struct {
	kind  kind
	exact bool // written in full even when cached
	num   float64
	str   string
}

// cachedDigits are the digits of cached results. Programs keep 15, but a cell
// worked out anew from others that were not is then still right to 1e-9, and
// processors that round differently write the same book.
const cachedDigits = 12

// toValue turns a Go value into a cell's.
func toValue(v any) (value, error) {
	switch v := v.(type) {
	case nil:
		return value{}, nil
	case float64:
		return numeric(v)
	case int:
		return value{kind: number, num: float64(v)}, nil
	case string:
		return textual(v)
	case bool:
		return truthful(v), nil
	case time.Time:
		return value{kind: number, num: serial(v), exact: true}, nil
	}
	switch r := reflect.ValueOf(v); r.Kind() {
	case reflect.Float64:
		return numeric(r.Float())
	case reflect.Float32: // through its decimal form, so that 0.1 stays 0.1
		f, err := strconv.ParseFloat(strconv.FormatFloat(r.Float(), 'g', -1, 32), 64)
		if err != nil {
			return value{}, err
		}
		return numeric(f)
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64:
		return value{kind: number, num: float64(r.Int())}, nil
	case reflect.Uint, reflect.Uint8, reflect.Uint16, reflect.Uint32, reflect.Uint64:
		return value{kind: number, num: float64(r.Uint())}, nil
	case reflect.String:
		return textual(r.String())
	case reflect.Bool:
		return truthful(r.Bool()), nil
	}
	return value{}, fmt.Errorf("cannot hold a %T", v)
}

// The range of numbers the programs keep. Source: published limits of Excel.
const (
	largest  = 9.99999999999999e307
	smallest = 2.2250738585072014e-308
)

func numeric(v float64) (value, error) {
	switch a := math.Abs(v); {
	case math.IsNaN(v) || a > largest:
		return value{}, fmt.Errorf("%v is not a number a cell can hold; give nil for a missing one", v)
	case a < smallest:
		v = 0 // also minus zero
	}
	return value{kind: number, num: v}, nil
}

func truthful(v bool) value {
	if v {
		return value{kind: truth, num: 1}
	}
	return value{kind: truth}
}

func textual(s string) (value, error) {
	if len(s) > maxText && utf16Len(s) > maxText {
		return value{}, fmt.Errorf("the text has %d characters; a cell holds %d", utf16Len(s), maxText)
	}
	if !utf8.ValidString(s) {
		return value{}, fmt.Errorf("the text is not UTF-8")
	}
	for _, r := range s {
		if r < ' ' && r != '\n' && r != '\t' || r == 0xFFFE || r == 0xFFFF {
			return value{}, fmt.Errorf("the text has the control character %U", r)
		}
	}
	return value{kind: text, str: s}, nil
}

// serial counts days from 1899-12-30 on the wall clock. Source: ECMA-376 part 1,
// 18.17.4.1. It is exact to a rounding of the last bit: with 15 digits the HOUR
// of every third full hour comes out one too small.
func serial(t time.Time) float64 {
	wall := time.Date(t.Year(), t.Month(), t.Day(), t.Hour(), t.Minute(), t.Second(), t.Nanosecond(), time.UTC)
	seconds := wall.Unix() - epoch
	days := math.Floor(float64(seconds) / 86400)
	return days + (float64(seconds)-days*86400+float64(wall.Nanosecond())/1e9)/86400
}

var epoch = time.Date(1899, 12, 30, 0, 0, 0, 0, time.UTC).Unix()

// appendNumber writes constants in the shortest form that reads back exactly,
// cached results with cachedDigits digits.
func (v *value) appendNumber(b []byte, cached bool) []byte {
	if math.Abs(v.num) < 1e12 {
		if i := int64(v.num); float64(i) == v.num {
			return strconv.AppendInt(b, i, 10)
		}
	}
	if cached && !v.exact {
		return strconv.AppendFloat(b, v.num, 'g', cachedDigits, 64)
	}
	return strconv.AppendFloat(b, v.num, 'g', -1, 64)
}

// escapedByReaders is text that readers would turn into a control character.
var escapedByReaders = regexp.MustCompile(`_(x[0-9A-Fa-f]{4}_)`)

// appendText appends text for a cell.
func appendText(b []byte, s string) []byte {
	if strings.Contains(s, "_x") {
		s = escapedByReaders.ReplaceAllString(s, "_x005F_$1")
	}
	return appendEscaped(b, s)
}

// appendEscaped appends s with the characters escaped that XML reserves between
// tags.
func appendEscaped(b []byte, s string) []byte {
	from := 0
	for i := 0; i < len(s); i++ {
		var e string
		switch s[i] {
		case '&':
			e = "&amp;"
		case '<':
			e = "&lt;"
		case '>':
			e = "&gt;"
		default:
			continue
		}
		b = append(append(b, s[from:i]...), e...)
		from = i + 1
	}
	return append(b, s[from:]...)
}

// spaced says whether XML readers would trim or join the blanks of a text.
func spaced(s string) bool {
	return s != "" && (s[0] <= ' ' || s[len(s)-1] <= ' ' || strings.ContainsAny(s, "\n\t") || strings.Contains(s, "  "))
}
