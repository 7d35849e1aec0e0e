package xlsx

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
)

// template is a formula with its references looked up, ready to be written for
// any row of a grid.
type template struct {
	pieces []piece
	// first and last are the rows of the grid, counted from 0, for which every
	// reference stays inside its own grid.
	first, last int

	// Of a formula in a grid: whether other rows may share it, whether a row has
	// it already, and its number among the shared ones, 0 before there are two.
	shareable bool
	used      bool
	shared    int
}

// piece is text, followed by a row number if moving.
type piece struct {
	text   string
	xml    []byte // the text, escaped
	moving bool
	base   int // row number on the sheet in row 0 of the grid
}

// scope is where a formula stands.
type scope struct {
	sheet  *Sheet
	grid   *Grid // nil outside grids
	column int   // of the grid
	// outside wants the sheet's name in every reference, as names and charts do.
	outside bool
}

// token is what may stand between brackets.
//
//	[key]  [key@-1]  [Grid.key]  [Grid.key:]  [Grid.key#0]  [Grid.key#0:23]
var token = regexp.MustCompile(`^(?:([A-Za-z_]\w*)\.)?([A-Za-z_]\w*)(?:@([+-]?\d+)|(:)|#(-?\d+)(?::(-?\d+))?)?$`)

// compile looks up the references of a formula.
func (p *plan) compile(src string, sc scope) (*template, error) {
	t := &template{last: math.MaxInt}
	var lit strings.Builder
	flush := func(moving bool, base int) {
		if lit.Len() > 0 || moving {
			s := lit.String()
			t.pieces = append(t.pieces, piece{s, appendEscaped(nil, s), moving, base})
			lit.Reset()
		}
	}
	for i := 0; i < len(src); {
		switch src[i] {
		case '"':
			end := skipString(src, i)
			if end < 0 {
				return nil, fmt.Errorf("has a text without closing quote")
			}
			lit.WriteString(src[i:end])
			i = end
		case '[':
			n := strings.IndexByte(src[i:], ']')
			if n < 0 {
				return nil, fmt.Errorf("has '[' without ']'")
			}
			text, moving, base, err := p.reference(src[i+1:i+n], sc, t)
			if err != nil {
				return nil, err
			}
			lit.WriteString(text)
			if moving {
				flush(true, base)
			}
			i += n + 1
		default:
			n := wordLen(src[i:])
			lit.WriteString(p.sheetWord(src[i:i+n], src[i+n:]))
			i += n
		}
	}
	flush(false, 0)
	return t, nil
}

// reference translates what stands between brackets.
func (p *plan) reference(src string, sc scope, t *template) (text string, moving bool, base int, err error) {
	m := token.FindStringSubmatch(src)
	if m == nil {
		return "", false, 0, fmt.Errorf("[%s] is not a reference; write [key], [key@-1], [Grid.key], [Grid.key:], [Grid.key#0] or [Grid.key#0:23]", src)
	}
	if ref, ok := p.marked(m, sc); ok {
		return ref, false, 0, nil
	}
	g, owner, err := p.find(m[1], sc)
	if err != nil {
		return "", false, 0, err
	}
	c := g.column(m[2])
	if c < 0 {
		return "", false, 0, fmt.Errorf("[%s]: %s has no column %q", src, p.gridName(g), m[2])
	}
	sheet := ""
	if owner != sc.sheet || sc.outside {
		sheet = owner.quoted() + "!"
	}
	col := g.Col + c
	switch {
	case m[4] == ":" || m[5] != "":
		text, err = fixedReference(g, col, m[5], m[6], m[4] == ":")
		if err == nil && g == sc.grid && c == sc.column && m[4] == ":" {
			err = fmt.Errorf("refers to its own cell")
		}
		if err != nil {
			err = fmt.Errorf("[%s] %w", src, err)
		}
		return sheet + text, false, 0, err
	case sc.grid == nil:
		return "", false, 0, fmt.Errorf("[%s] means the same row, and there is none here; write [%s:] or [%s#0]", src, src, src)
	}
	off, _ := strconv.Atoi(m[3])
	if g == sc.grid && c == sc.column && off == 0 {
		return "", false, 0, fmt.Errorf("[%s] refers to its own cell", src)
	}
	t.first, t.last = max(t.first, -off), min(t.last, g.Rows-1-off)
	return sheet + colName(col), true, g.Row + off, nil
}

// wordLen is the length of the word at the start of s, 1 if there is none.
func wordLen(s string) int {
	if !isWordStart(s[0]) {
		return 1
	}
	n := 1
	for n < len(s) && isWordPart(s[n]) {
		n++
	}
	return n
}

// sheetWord is a word of a formula; before a '!' it is the key of a sheet, and
// the file has the sheet's name there.
func (p *plan) sheetWord(w, rest string) string {
	if strings.HasPrefix(rest, "!") {
		if s := p.byKey[strings.ToLower(w)]; s != nil {
			return s.quoted()
		}
	}
	return w
}

// marked is a range of a sheet that was marked, [Sheet.key:].
func (p *plan) marked(m []string, sc scope) (string, bool) {
	s := p.byKey[strings.ToLower(m[1])]
	if s == nil || m[4] != ":" || p.grids[strings.ToLower(m[1])] != nil && p.grids[strings.ToLower(m[1])].column(m[2]) >= 0 {
		return "", false
	}
	b, ok := s.marks[m[2]]
	if !ok {
		return "", false
	}
	if s.Sheet == sc.sheet && !sc.outside {
		return b.fixed(), true
	}
	return s.quoted() + "!" + b.fixed(), true
}

// fixedReference is a cell, part of a column or all of it, with dollar signs.
// Rows count from 0, or back from -1, the last.
func fixedReference(g *Grid, col int, from, to string, all bool) (string, error) {
	if g.Rows < 1 {
		return "", fmt.Errorf("refers to a grid without rows")
	}
	if all {
		return box{g.Row, col, g.last(), col}.fixed(), nil
	}
	a, _ := strconv.Atoi(from)
	z := a
	if to != "" {
		z, _ = strconv.Atoi(to)
	}
	if a < 0 {
		a += g.Rows
	}
	if z < 0 {
		z += g.Rows
	}
	if a < 0 || z < a || z >= g.Rows {
		return "", fmt.Errorf("is outside the grid's %d rows", g.Rows)
	}
	return box{g.Row + a, col, g.Row + z, col}.fixed(), nil
}

// find is the grid a reference means: the named one, else the formula's own,
// else the sheet's, if there is but one.
func (p *plan) find(name string, sc scope) (*Grid, *Sheet, error) {
	if name != "" {
		g, ok := p.grids[strings.ToLower(name)]
		if !ok {
			return nil, nil, fmt.Errorf("there is no grid %q", name)
		}
		return g, p.owners[g], nil
	}
	switch {
	case sc.grid != nil:
		return sc.grid, sc.sheet, nil
	case sc.sheet != nil && len(sc.sheet.Grids) == 1:
		return sc.sheet.Grids[0], sc.sheet, nil
	}
	return nil, nil, fmt.Errorf("a reference outside a grid has to name the grid, as in [Grid.key:]")
}

// covers says whether the template can be written in row i.
func (t *template) covers(i int) error {
	if i < t.first || i > t.last {
		return fmt.Errorf("refers to a row outside the grid; give this row another formula by FormulaAt")
	}
	return nil
}

// text is the formula of row i.
func (t *template) text(i int) string {
	var b strings.Builder
	for _, p := range t.pieces {
		b.WriteString(p.text)
		if p.moving {
			b.WriteString(strconv.Itoa(p.base + i))
		}
	}
	return b.String()
}

// appendXML appends the formula of row i, escaped.
func (t *template) appendXML(b []byte, i int) []byte {
	for k := range t.pieces {
		p := &t.pieces[k]
		b = append(b, p.xml...)
		if p.moving {
			b = strconv.AppendInt(b, int64(p.base+i), 10)
		}
	}
	return b
}

// stays says whether the formula can be shared by filling down: all references
// are to its own sheet, and those that are written out have a dollar sign before
// the row, since filling down would move them.
func (t *template) stays() bool {
	for i := range t.pieces {
		if text := t.pieces[i].text; strings.Contains(text, "!") || moves(text) {
			return false
		}
	}
	return true
}
