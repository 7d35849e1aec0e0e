package xlsx

import (
	"fmt"
	"strings"
	"unicode/utf16"
)

// Limits of the file format. Source: ECMA-376 part 1 and the published limits
// of the common programs.
const (
	maxText    = 32_767 // characters in a cell, as UTF-16 units
	maxFormula = 8_192  // characters in a formula
	maxNesting = 64     // levels of parentheses
	maxLiteral = 255    // characters of a text in a formula; a longer one is a repair prompt in Excel
)

// AllowedFunctions are the worksheet functions formulas may use: of those that
// Excel 2010 and later, LibreOffice, Google Sheets and Numbers share and that
// need no _xlfn. prefix in the file, the ones our books do use. The tests work
// them out in package evaluator; a new one comes there first, with cases on
// which LibreOffice and Gnumeric agree.
var AllowedFunctions = words(`
	ABS AND ATAN AVERAGE AVERAGEIFS COUNT COUNTIF COUNTIFS EXP FIXED IF IFERROR INDEX ISBLANK ISNUMBER
	LARGE LN LOG10 MATCH MAX MEDIAN MIN MOD OR PERCENTILE ROUND ROUNDUP ROWS SLOPE SQRT
	SUM SUMIFS SUMPRODUCT`)

// newFunctions need a prefix in the file, or fail in one of the programs.
var newFunctions = words(`
	AGGREGATE BYCOL BYROW CONCAT DAYS FILTER FORECAST.LINEAR IFNA IFS ISOWEEKNUM LAMBDA LET MAXIFS MINIFS
	NORM.S.INV PERCENTILE.EXC PERCENTILE.INC QUARTILE.INC RANDARRAY RANK.EQ SEQUENCE SORT SORTBY STDEV.P STDEV.S
	SWITCH TEXTJOIN UNIQUE VAR.P VAR.S XLOOKUP XMATCH`)

func words(s string) map[string]bool {
	m := map[string]bool{}
	for _, w := range strings.Fields(s) {
		m[w] = true
	}
	return m
}

// vocabulary is what formulas may refer to, in lower case.
type vocabulary struct{ sheets, names map[string]bool }

// check says what is wrong with a finished formula.
func (v *vocabulary) check(f string) error {
	switch {
	case f == "":
		return fmt.Errorf("is empty")
	case strings.HasPrefix(f, "="):
		return fmt.Errorf("begins with '='; leave it out")
	case utf16Len(f) > maxFormula:
		return fmt.Errorf("has %d characters; the limit is %d", utf16Len(f), maxFormula)
	}
	depth, braces := 0, 0
	for i := 0; i < len(f); {
		n, err := v.step(f, i, &depth, &braces)
		if err != nil {
			return err
		}
		i += n
	}
	if depth != 0 || braces != 0 {
		return fmt.Errorf("has unbalanced parentheses or braces")
	}
	return nil
}

// step checks the piece at f[i] and returns its length.
func (v *vocabulary) step(f string, i int, depth, braces *int) (int, error) {
	switch c := f[i]; {
	case c == '"':
		end := skipString(f, i)
		if end < 0 {
			return 0, fmt.Errorf("has a text without closing quote")
		}
		if n := utf16Len(f[i+1 : end-1]); n > maxLiteral {
			return 0, fmt.Errorf("has a text of %d characters; in a formula the limit is %d: join shorter ones with &", n, maxLiteral)
		}
		return end - i, nil
	case c == '\'':
		n := strings.Index(f[i+1:], "'!")
		if n < 0 || !v.sheets[strings.ToLower(f[i+1:i+1+n])] {
			return 0, fmt.Errorf("has %q outside a text that quotes no sheet of the book", '\'')
		}
		return n + 2, nil
	case c == '(':
		*depth++
		if *depth > maxNesting {
			return 0, fmt.Errorf("is nested deeper than %d levels", maxNesting)
		}
	case c == ')':
		*depth--
		if *depth < 0 {
			return 0, fmt.Errorf("has unbalanced parentheses or braces")
		}
	case c == '{':
		*braces++
	case c == '}':
		*braces--
	case c == '#', c == '[', c == ']', c == '@', c == '`', c < ' ' && c != '\n', c >= 0x80:
		return 0, fmt.Errorf("has %q outside a text", rune(c))
	case c >= '0' && c <= '9', c == '.':
		return numberLen(f[i:]), nil
	case isWordStart(c):
		n := 1
		for i+n < len(f) && isWordPart(f[i+n]) {
			n++
		}
		return n, v.word(f[i:i+n], f[i+n:])
	}
	return 1, nil
}

// word checks a function, sheet, name or cell; rest is what follows it.
func (v *vocabulary) word(w, rest string) error {
	switch up := strings.ToUpper(w); {
	case strings.HasPrefix(rest, "("):
		if AllowedFunctions[up] {
			return nil
		}
		if newFunctions[up] || strings.HasPrefix(up, "_XLFN.") {
			return fmt.Errorf("uses %s, which needs an _xlfn. prefix or fails in some programs", up)
		}
		return fmt.Errorf("uses %s, which is not among the allowed functions", up)
	case strings.HasPrefix(rest, "!"):
		if !v.sheets[strings.ToLower(w)] {
			return fmt.Errorf("refers to sheet %q, which does not exist", w)
		}
	case up == "TRUE", up == "FALSE", v.names[strings.ToLower(w)]:
	default:
		if _, _, ok := parseCell(w); ok || wholeColumn(w) {
			return nil
		}
		if strings.HasPrefix(w, "$") && strings.Trim(w, "$0123456789") == "" {
			return nil // rows, $1:$3
		}
		return fmt.Errorf("uses the name %s, which is not defined", w)
	}
	return nil
}

// wholeColumn allows $A:$B only with dollar signs, so that a misspelt name of up
// to three letters is still found.
func wholeColumn(w string) bool {
	return len(w) > 1 && len(w) <= 4 && w[0] == '$' && strings.Trim(w[1:], "ABCDEFGHIJKLMNOPQRSTUVWXYZ") == ""
}

// moves says whether a piece of formula has a cell or a range of rows that would
// move when filled down.
func moves(f string) bool {
	for i := 0; i < len(f); {
		switch c := f[i]; {
		case c == '"':
			i = skipString(f, i)
		case isWordStart(c) || c >= '0' && c <= '9':
			n := 1
			for i+n < len(f) && isWordPart(f[i+n]) {
				n++
			}
			w, call := f[i:i+n], i+n < len(f) && f[i+n] == '('
			if _, _, cell := parseCell(w); cell && !call && !strings.Contains(w[1:], "$") {
				return true
			}
			i += n
		default:
			i++
		}
	}
	return false
}

func isWordStart(c byte) bool {
	return c == '_' || c == '$' || c == '\\' || 'A' <= c && c <= 'Z' || 'a' <= c && c <= 'z'
}

func isWordPart(c byte) bool { return isWordStart(c) || c == '.' || '0' <= c && c <= '9' }

// numberLen is the length of a number such as 1.5E-3 at the start of s.
func numberLen(s string) int {
	n := 0
	for n < len(s) && (s[n] >= '0' && s[n] <= '9' || s[n] == '.') {
		n++
	}
	if n < len(s) && (s[n] == 'E' || s[n] == 'e') {
		m := n + 1
		if m < len(s) && (s[m] == '+' || s[m] == '-') {
			m++
		}
		for d := m; d < len(s) && s[d] >= '0' && s[d] <= '9'; d++ {
			n = d + 1
		}
	}
	return n
}

// skipString returns the place after the text that begins at f[i], or -1. A
// doubled quote stands for one.
func skipString(f string, i int) int {
	for i++; i < len(f); i++ {
		if f[i] != '"' {
			continue
		}
		if i+1 < len(f) && f[i+1] == '"' {
			i++
			continue
		}
		return i + 1
	}
	return -1
}

// utf16Len counts characters the way the programs do.
func utf16Len(s string) int {
	n := 0
	for _, r := range s {
		n += max(1, utf16.RuneLen(r))
	}
	return n
}
