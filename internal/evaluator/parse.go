package evaluator

import (
	"fmt"
	"strconv"
	"strings"
)

// parser reads one formula by precedence, from the loosest binding: comparison,
// &, + and -, * and /, ^, sign, %, and the colon between references. A sign
// binds closer than ^: -2^2 is 4. Source: ISO/IEC 29500-1, 18.17.2.
type parser struct {
	book *Workbook
	home *sheet // of references without a sheet
	row  int    // of the cell the formula stands in; references count from it
	col  int
	rest string
}

// parse compiles a formula that stands in a cell.
func (w *Workbook) parse(home *sheet, row, col int, formula string) (n node, err error) {
	p := parser{w, home, row, col, formula}
	defer func() {
		if r := recover(); r != nil {
			complaint, ok := r.(unsupported)
			if !ok {
				panic(r)
			}
			err = fmt.Errorf("%s in =%.120s", complaint, formula)
		}
	}()
	n = p.comparison()
	if p.space(); p.rest != "" {
		p.fail("%q is left over", p.rest)
	}
	return n, nil
}

// unsupported is the complaint about a formula that cannot be worked out here.
type unsupported string

func (p *parser) fail(format string, args ...any) { panic(unsupported(fmt.Sprintf(format, args...))) }

func (p *parser) space() { p.rest = strings.TrimLeft(p.rest, " \n") }

// accept takes one of the operators if it comes next, the longer ones first.
func (p *parser) accept(operators ...string) string {
	p.space()
	for _, o := range operators {
		if strings.HasPrefix(p.rest, o) {
			p.rest = p.rest[len(o):]
			return o
		}
	}
	return ""
}

func (p *parser) expect(token string) {
	if p.accept(token) == "" {
		p.fail("%q is missing before %q", token, p.rest)
	}
}

func (p *parser) comparison() node {
	return p.binary((*parser).joined, "<=", ">=", "<>", "<", ">", "=")
}
func (p *parser) joined() node  { return p.binary((*parser).sum, "&") }
func (p *parser) sum() node     { return p.binary((*parser).product, "+", "-") }
func (p *parser) product() node { return p.binary((*parser).power, "*", "/") }
func (p *parser) power() node {
	n := p.signed()
	if p.accept("^") == "" {
		return n
	}
	n = &binary{operation["^"], n, p.signed()}
	if p.accept("^") != "" {
		p.fail("a power of a power without parentheses, on which programs differ,")
	}
	return n
}

// binary reads operands of the next closer binding with operators between
// them, from left to right.
func (p *parser) binary(operand func(*parser) node, operators ...string) node {
	left := operand(p)
	for {
		o := p.accept(operators...)
		if o == "" {
			return left
		}
		left = &binary{operation[o], left, operand(p)}
	}
}

func (p *parser) signed() node {
	switch p.accept("-", "+") {
	case "-":
		return &negative{p.signed()}
	case "+":
		return p.signed()
	}
	n := p.ranged()
	for p.accept("%") != "" {
		n = &binary{operation["/"], n, constant{num: 100, kind: number}}
	}
	return n
}

// ranged reads references joined by a colon.
func (p *parser) ranged() node {
	n := p.operand()
	for p.accept(":") != "" {
		n = &span{n, p.operand()}
	}
	return n
}

func (p *parser) operand() node {
	p.space()
	if p.rest == "" {
		p.fail("an operand is missing at the end")
	}
	switch c := p.rest[0]; {
	case c == '(':
		p.rest = p.rest[1:]
		n := p.comparison()
		p.expect(")")
		return n
	case c == '"':
		return constant(textOf(p.quoted('"')))
	case c == '\'':
		return p.onSheet(p.quoted('\''))
	case c >= '0' && c <= '9' || c == '.':
		return p.number()
	case isLetter(c) || c == '$':
		return p.word()
	}
	p.fail("%q cannot be worked out here", p.rest)
	return nil
}

// quoted reads up to the closing quote; a doubled one stands for itself.
func (p *parser) quoted(quote byte) string {
	var b strings.Builder
	for i := 1; i < len(p.rest); i++ {
		if p.rest[i] != quote {
			b.WriteByte(p.rest[i])
			continue
		}
		if i+1 < len(p.rest) && p.rest[i+1] == quote {
			b.WriteByte(quote)
			i++
			continue
		}
		p.rest = p.rest[i+1:]
		return b.String()
	}
	p.fail("a quote is not closed")
	return ""
}

func (p *parser) number() node {
	n := 0
	for n < len(p.rest) {
		c := p.rest[n]
		exponent := (c == 'E' || c == 'e') && n > 0
		sign := (c == '+' || c == '-') && n > 0 && (p.rest[n-1] == 'E' || p.rest[n-1] == 'e')
		if !(c >= '0' && c <= '9' || c == '.' || exponent || sign) {
			break
		}
		n++
	}
	x, err := strconv.ParseFloat(p.rest[:n], 64)
	if err != nil {
		p.fail("%q is no number", p.rest[:n])
	}
	p.rest = p.rest[n:]
	return constant{num: x, kind: number}
}

func isLetter(c byte) bool {
	return c == '_' || c >= 'A' && c <= 'Z' || c >= 'a' && c <= 'z'
}

// take reads the longest run of letters, digits, dots and dollar signs.
func (p *parser) take() string {
	n := 0
	for n < len(p.rest) {
		if c := p.rest[n]; !isLetter(c) && c != '$' && c != '.' && !(c >= '0' && c <= '9') {
			break
		}
		n++
	}
	word := p.rest[:n]
	p.rest = p.rest[n:]
	return word
}

// word reads a function call, a reference, a logical constant or a name.
func (p *parser) word() node {
	w := p.take()
	switch {
	case strings.HasPrefix(p.rest, "("):
		return p.call(w)
	case strings.HasPrefix(p.rest, "!"):
		return p.onSheet(w)
	case strings.EqualFold(w, "TRUE"):
		return constant(boolOf(true))
	case strings.EqualFold(w, "FALSE"):
		return constant(boolOf(false))
	}
	if r := p.reference(p.home, w); r != nil {
		return r
	}
	n, err := p.book.name(w)
	if err != nil {
		p.fail("%v", err)
	}
	return n
}

func (p *parser) call(name string) node {
	f := functions[name]
	if f == nil {
		p.fail("the function %s is not one that books may use", name)
	}
	p.expect("(")
	c := &call{function: f}
	if p.accept(")") == "" {
		c.args = append(c.args, p.comparison())
		for p.accept(",") != "" {
			c.args = append(c.args, p.comparison())
		}
		p.expect(")")
	}
	if n := len(c.args); n < f.least || n > f.most {
		p.fail("%s has %d arguments", name, n)
	}
	return c
}

// onSheet reads the reference after a sheet's name.
func (p *parser) onSheet(name string) node {
	p.expect("!")
	s := p.book.sheet(name)
	if s == nil {
		p.fail("there is no sheet %q", name)
	}
	w := p.take()
	r := p.reference(s, w)
	if r == nil {
		p.fail("%s!%s is no cell", name, w)
	}
	if p.accept(":") == "" {
		return r
	}
	to := p.reference(s, p.take()) // the sheet counts for both ends
	if to == nil {
		p.fail("the range from %s!%s has no end", name, w)
	}
	return &span{r, to}
}

// reference reads a cell such as $B7; nil where the word is none.
func (p *parser) reference(s *sheet, w string) node {
	r := &ref{sheet: s}
	rest, fixed := strings.CutPrefix(w, "$")
	r.colMoves = !fixed
	i := 0
	for i < len(rest) && i < 3 && isLetter(rest[i]) && rest[i] != '_' {
		r.col = r.col*26 + int(rest[i]&^0x20-'A') + 1
		i++
	}
	rest, fixed = strings.CutPrefix(rest[i:], "$")
	r.rowMoves = !fixed
	row, err := strconv.Atoi(rest)
	if i == 0 || err != nil || row < 1 || rest[0] == '+' {
		return nil
	}
	r.row = row
	return r
}
