package workbook

import (
	"math"
	"strconv"
	"strings"

	"github.com/evapbook/evapbook/internal/units"
)

// A sentence is text with live numbers in it: its pieces give both the words
// cached in the cell and the formula that writes them anew.
type sentence struct {
	words   strings.Builder
	formula []string
}

// say adds plain text.
func (s *sentence) say(text string) *sentence {
	s.words.WriteString(text)
	for runes := []rune(text); len(runes) > 0; {
		n := min(len(runes), longestLiteral)
		s.formula = append(s.formula, quote(string(runes[:n])))
		runes = runes[n:]
	}
	return s
}

// longestLiteral is how much text stands in one piece in a formula. Excel
// takes 255 characters; doubled quotes and rare letters count twice.
const longestLiteral = 120

// number adds a live number with the given decimals.
func (s *sentence) number(expr string, v float64, decimals int) *sentence {
	s.words.WriteString(fixed(v, decimals))
	s.formula = append(s.formula, "FIXED("+expr+","+strconv.Itoa(decimals)+")")
	return s
}

// word adds a live text.
func (s *sentence) word(expr, text string) *sentence {
	s.words.WriteString(text)
	s.formula = append(s.formula, expr)
	return s
}

// percent adds a live share as a whole percentage.
func (s *sentence) percent(expr string, v float64) *sentence {
	return s.number(expr+"*100", v*100, 0).say(" %")
}

// quantity adds a live quantity in SI with its unit as people see it.
func (s *sentence) quantity(sys units.System, kind units.Kind, expr string, v float64, decimals int) *sentence {
	u := kind.Unit(sys)
	return s.number(displayFormula(u, expr), display(u, v).(float64), decimals).say(" " + u.Symbol)
}

// when adds a piece that is there only while a condition holds.
func (s *sentence) when(condition string, holds bool, piece *sentence) *sentence {
	words, formula := piece.done()
	if holds {
		s.words.WriteString(words)
	}
	s.formula = append(s.formula, "IF("+condition+","+formula+`,"")`)
	return s
}

// done is the cached text and the formula.
func (s *sentence) done() (string, string) {
	return s.words.String(), strings.Join(s.formula, "&")
}

func quote(s string) string { return `"` + strings.ReplaceAll(s, `"`, `""`) + `"` }

// fixed is a number as the FIXED function writes it: rounded half away from
// zero, with thousands separators.
func fixed(v float64, decimals int) string {
	p := math.Pow10(decimals)
	text := strconv.FormatFloat(math.Abs(math.Round(v*p)/p), 'f', decimals, 64)
	whole, frac, _ := strings.Cut(text, ".")
	for i := len(whole) - 3; i > 0; i -= 3 {
		whole = whole[:i] + "," + whole[i:]
	}
	if frac != "" {
		whole += "." + frac
	}
	if v < 0 && strings.Trim(whole, "0.,") != "" {
		whole = "-" + whole
	}
	return whole
}
