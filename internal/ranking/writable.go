package ranking

import (
	"fmt"
	"math"
	"reflect"
	"strings"
	"unicode"
	"unicode/utf8"
)

// longestCell is what a spreadsheet's cell holds, in UTF-16 units; and no file
// name or reason needs near as much.
const longestCell = 32767

// shown is a text of a file's name as tables and terminals can have it: one
// line, UTF-8, no control characters, not too long.
func shown(text string) string {
	text = strings.Map(func(r rune) rune {
		if unicode.IsControl(r) || unicode.Is(unicode.Cf, r) {
			return ' '
		}
		return r
	}, strings.ToValidUTF8(text, "\uFFFD"))
	const longest = 4096
	if r := []rune(text); len(r) > longest {
		return string(r[:longest-1]) + "…"
	}
	return text
}

// writable tells whether every value can stand in a cell, so that a site that
// cannot is left out now and does not end the run when the tables are written.
func writable(rows []Row) error {
	for i := range rows {
		v := reflect.ValueOf(rows[i])
		for k := range v.NumField() - 1 { // the last are the varied inputs, checked when stated
			if err := fits(v.Field(k)); err != nil {
				return fmt.Errorf("%s cannot be written: %w", column(v.Type().Field(k)), err)
			}
		}
	}
	return nil
}

func column(f reflect.StructField) string {
	name, _, _ := strings.Cut(f.Tag.Get("csv"), ",")
	return name
}

func fits(v reflect.Value) error {
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() {
			return fits(v.Elem())
		}
	case reflect.Float64:
		if x := v.Float(); math.IsNaN(x) || math.IsInf(x, 0) {
			return fmt.Errorf("%g is not a number", x)
		}
	case reflect.String:
		text := v.String()
		switch {
		case !utf8.ValidString(text):
			return fmt.Errorf("the text is not UTF-8")
		case strings.ContainsFunc(text, func(r rune) bool { return unicode.IsControl(r) || r == 0xFFFE || r == 0xFFFF }):
			return fmt.Errorf("the text has control characters")
		case len(text) > longestCell:
			return fmt.Errorf("the text has %d bytes", len(text))
		}
	}
	return nil
}
