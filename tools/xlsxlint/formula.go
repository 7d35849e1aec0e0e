package main

import (
	"regexp"
	"strconv"
	"strings"

	"github.com/evapbook/evapbook/internal/xlsx"
)

var (
	cellRef   = regexp.MustCompile(`^\$?([A-Z]{1,3})\$?(\d{1,7})$`)
	quoted    = regexp.MustCompile(`"(?:[^"]|"")*"`)
	call      = regexp.MustCompile(`([A-Za-z_][A-Za-z0-9_.]*)\(`)
	sheetRef  = regexp.MustCompile(`'((?:[^']|'')+)'!|([A-Za-z_][A-Za-z0-9_.]*)!`)
	word      = regexp.MustCompile(`[A-Za-z_\\][A-Za-z0-9_.\\]*`)
	name      = regexp.MustCompile(`^[\p{L}_\\][\p{L}\p{N}_.\\?]*$`)
	columnRef = regexp.MustCompile(`^[A-Za-z]{1,3}$|^[eE]\d*$`) // or the exponent of a number
	notAName  = regexp.MustCompile(`(?i)^(r|c|r\d*c\d*|true|false)$`)
)

// cell reads a reference such as $B$7.
func cell(s string) (col, row int, ok bool) {
	m := cellRef.FindStringSubmatch(s)
	if m == nil {
		return 0, 0, false
	}
	for _, letter := range m[1] {
		col = col*26 + int(letter-'A'+1)
	}
	row, _ = strconv.Atoi(m[2])
	return col, row, col <= 16384 && row >= 1 && row <= 1048576
}

func validName(n string) bool {
	_, _, isCell := cell(strings.ToUpper(n))
	return !isCell && name.MatchString(n) && !notAName.MatchString(n) && len(n) <= 255
}

// sheetsOf: every sheet that a reference names is there.
func (l *lint) sheetsOf(at, ref string) {
	for _, m := range sheetRef.FindAllStringSubmatch(ref, -1) {
		if s := strings.ReplaceAll(m[1], "''", "'") + m[2]; !l.sheets[strings.ToLower(s)] {
			l.say("%s: no sheet %q", at, s)
		}
	}
}

// formula: of a length that is allowed, whole, and of words that mean something.
func (l *lint) formula(at, f string) {
	if strings.HasPrefix(f, "=") {
		l.say("%s: the formula begins with =", at)
	}
	if len(f) > 8192 {
		l.say("%s: the formula has more than 8192 characters", at)
	}
	bare := quoted.ReplaceAllString(f, `""`)
	if strings.Count(bare, `"`)%2 != 0 {
		l.say("%s: a quotation mark too many in %s", at, f)
	}
	if !balanced(bare) {
		l.say("%s: parentheses do not match in %s", at, f)
	}
	for _, m := range call.FindAllStringSubmatch(bare, -1) {
		if !xlsx.AllowedFunctions[strings.ToUpper(m[1])] {
			l.say("%s: function %s is not one that all programs share", at, m[1])
		}
	}
	l.sheetsOf(at, bare)
	rest := call.ReplaceAllString(sheetRef.ReplaceAllString(bare, ""), "(")
	if strings.ContainsAny(rest, "[{") {
		return // tables and arrays, which have words of their own
	}
	for _, n := range word.FindAllString(strings.NewReplacer("$", "", `""`, "").Replace(rest), -1) {
		if _, _, ok := cell(strings.ToUpper(n)); !ok && !l.names[strings.ToLower(n)] && !strings.EqualFold(n, "TRUE") && !strings.EqualFold(n, "FALSE") && !columnRef.MatchString(n) {
			l.say("%s: unknown name %s", at, n)
		}
	}
}

func balanced(f string) bool {
	depth := 0
	for _, c := range f {
		switch c {
		case '(':
			depth++
		case ')':
			depth--
		}
		if depth < 0 {
			return false
		}
	}
	return depth == 0
}

// box is a range of cells, ends included.
type box struct{ col1, row1, col2, row2 int }

func (a box) meets(b box) bool {
	return a.col1 <= b.col2 && b.col1 <= a.col2 && a.row1 <= b.row2 && b.row1 <= a.row2
}

func rangeOf(s string) (b box, ok bool) {
	first, last, two := strings.Cut(s, ":")
	if !two {
		last = first
	}
	var ok1, ok2 bool
	b.col1, b.row1, ok1 = cell(first)
	b.col2, b.row2, ok2 = cell(last)
	return b, ok1 && ok2
}
