package evaluator

import (
	"strconv"
	"strings"
)

// criterion is the condition of COUNTIF and its kin: an operator, and what a
// cell is compared with.
type criterion struct {
	holds func(order int) bool
	not   bool // "<>": true also of cells of another kind
	than  value
}

var criterionOperators = []struct {
	sign  string
	holds func(order int) bool
}{
	{"<=", func(o int) bool { return o <= 0 }}, {">=", func(o int) bool { return o >= 0 }}, {"<>", func(o int) bool { return o != 0 }},
	{"<", func(o int) bool { return o < 0 }}, {">", func(o int) bool { return o > 0 }}, {"=", func(o int) bool { return o == 0 }},
}

// criterionOf reads a criterion. A text may begin with an operator; what
// follows is a number if it reads as one. Wildcards are refused: our books
// have none.
func criterionOf(v value) criterion {
	equal := criterionOperators[len(criterionOperators)-1].holds
	if v.kind != text {
		if v.kind == blank {
			v.kind = number // an empty cell as criterion is 0
		}
		return criterion{holds: equal, than: v}
	}
	k, rest := criterion{holds: equal}, v.str
	for _, o := range criterionOperators {
		if after, ok := strings.CutPrefix(rest, o.sign); ok {
			k.holds, k.not, rest = o.holds, o.sign == "<>", after
			break
		}
	}
	if strings.ContainsAny(rest, "*?~") {
		panic(unsupported("a criterion with wildcards"))
	}
	if x, err := strconv.ParseFloat(rest, 64); err == nil {
		k.than = value{kind: number, num: x}
		return k
	}
	if rest == "" || strings.EqualFold(rest, "TRUE") || strings.EqualFold(rest, "FALSE") {
		panic(unsupported("a criterion for blank or logical cells"))
	}
	k.than = textOf(rest)
	return k
}

// meets says whether a cell meets the criterion; only one of the same kind can,
// but for "<>".
func (k *criterion) meets(v value) bool {
	if v.kind != k.than.kind {
		return k.not
	}
	if v.kind == number {
		switch {
		case v.num < k.than.num:
			return k.holds(-1)
		case v.num > k.than.num:
			return k.holds(1)
		}
		return k.holds(0)
	}
	return k.holds(compare(v, k.than))
}

// where visits the places, counted within the ranges, at which all pairs of
// range and criterion hold.
func (c *calculation) where(pairs []node, visit func(row, col int)) (bad value) {
	if len(pairs)%2 != 0 {
		panic(unsupported("a range without criterion"))
	}
	areas, criteria := make([]area, len(pairs)/2), make([]criterion, len(pairs)/2)
	for i := range areas {
		if areas[i], bad = c.mustArea(pairs[2*i]); bad.kind == failure {
			return bad
		}
		v := pairs[2*i+1].eval(c)
		if v.kind == failure {
			return v
		}
		if !c.ready(areas[i]) || len(c.needed) > 0 {
			continue
		}
		criteria[i] = criterionOf(v)
		if areas[i].rows != areas[0].rows || areas[i].cols != areas[0].cols {
			return errValue
		}
	}
	if len(c.needed) > 0 {
		return bad
	}
	for row := range areas[0].rows {
		for col := range areas[0].cols {
			all := true
			for i := range areas {
				if a := &areas[i]; !criteria[i].meets(a.sheet.value(a.row+row, a.col+col)) {
					all = false
					break
				}
			}
			if all {
				visit(row, col)
			}
		}
	}
	return bad
}

// whereNumbers visits the numbers of a range where the criteria hold.
func (c *calculation) whereNumbers(n node, pairs []node, visit func(x float64)) (bad value) {
	a, bad := c.mustArea(n)
	if bad.kind == failure || !c.ready(a) {
		return bad
	}
	err := c.where(pairs, func(row, col int) {
		v := a.sheet.value(a.row+row, a.col+col)
		if v.kind == number {
			visit(v.num)
		}
		if v.kind == failure && bad.kind != failure {
			bad = v
		}
	})
	if err.kind == failure {
		return err
	}
	return bad
}
