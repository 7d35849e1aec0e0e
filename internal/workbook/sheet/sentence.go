package sheet

import (
	"math"
	"strconv"
	"strings"

	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/workbook/fx"
)

// A sentence is text with live numbers in it: its pieces give both the words
// cached in the cell and the formula that writes them anew.
type Sentence struct {
	words   strings.Builder
	formula []string
}

// Say adds plain text.
func (s *Sentence) Say(text string) *Sentence {
	s.words.WriteString(text)
	for runes := []rune(text); len(runes) > 0; {
		n := min(len(runes), longestLiteral)
		s.formula = append(s.formula, fx.Quote(string(runes[:n])))
		runes = runes[n:]
	}
	return s
}

// longestLiteral is how much text stands in one piece in a formula. Excel
// takes 255 characters; doubled quotes and rare letters count twice.
const longestLiteral = 120

// Number adds a live number with the given decimals.
func (s *Sentence) Number(expr string, v float64, decimals int) *Sentence {
	s.words.WriteString(Fixed(v, decimals))
	s.formula = append(s.formula, "FIXED("+expr+","+strconv.Itoa(decimals)+")")
	return s
}

// Word adds a live text.
func (s *Sentence) Word(expr, text string) *Sentence {
	s.words.WriteString(text)
	s.formula = append(s.formula, expr)
	return s
}

// Percent adds a live share as a whole percentage.
func (s *Sentence) Percent(expr string, v float64) *Sentence {
	return s.Number(expr+"*100", v*100, 0).Say(" %")
}

// Share adds a live share of hours as a whole percentage; what is not quite all
// or nothing never reads 100 or 0 %.
func (s *Sentence) Share(expr string, v float64) *Sentence {
	s.words.WriteString(strings.TrimSuffix(units.Percent(v), " %"))
	s.formula = append(s.formula, fx.Fill(`IF(AND({x}>={all},{x}<1),"over 99",IF(AND({x}>0,{x}<{any}),"under 1",FIXED(100*{x},0)))`,
		"{x}", expr, "{all}", fx.Num(units.NearlyAll), "{any}", fx.Num(units.HardlyAny)))
	return s.Say(" %")
}

// Quantity adds a live quantity in SI with its unit as people see it.
func (s *Sentence) Quantity(sys units.System, kind units.Kind, expr string, v float64, decimals int) *Sentence {
	u := kind.Unit(sys)
	return s.Number(DisplayFormula(u, expr), Display(u, v).(float64), decimals).Say(" " + Spoken(u))
}

// Spoken is the symbol of a unit as people outside the trade read it: a difference
// of temperatures is in degrees for them, not in kelvins.
func Spoken(u units.Unit) string { return strings.Replace(u.Symbol, "K", "°C", 1) }

// Chain adds another sentence.
func (s *Sentence) Chain(more *Sentence) *Sentence {
	words, formula := more.Done()
	s.words.WriteString(words)
	s.formula = append(s.formula, formula)
	return s
}

// Amount adds a live sum of money, the sign of its currency before it.
func (s *Sentence) Amount(sign, expr string, v float64) *Sentence {
	return s.Word("In_price_currency", sign).Number(expr, v, 0)
}

// With adds another sentence.
func (s *Sentence) With(piece *Sentence) *Sentence {
	words, formula := piece.Done()
	return s.Word(formula, words)
}

// When adds a piece that is there only while a condition holds.
func (s *Sentence) When(condition string, holds bool, piece *Sentence) *Sentence {
	words, formula := piece.Done()
	if holds {
		s.words.WriteString(words)
	}
	s.formula = append(s.formula, "IF("+condition+","+formula+`,"")`)
	return s
}

// Done is the cached text and the formula.
func (s *Sentence) Done() (string, string) {
	return s.words.String(), strings.Join(s.formula, "&")
}

// Fixed is a number as the FIXED function writes it: rounded half away from
// zero, with thousands separators.
func Fixed(v float64, decimals int) string {
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
