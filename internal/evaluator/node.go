package evaluator

import "math"

// node is a part of a compiled formula.
type node interface {
	// eval gives its single value.
	eval(c *calculation) value
}

// constant is a number, text or boolean in a formula.
type constant value

func (k constant) eval(*calculation) value { return value(k) }

// ref is a cell; shared formulas move it where it is not fixed by a dollar sign.
type ref struct {
	sheet              *sheet
	row, col           int
	rowMoves, colMoves bool
}

func (r *ref) eval(c *calculation) value {
	row, col := r.at(c)
	return c.read(r.sheet, row, col)
}

func (r *ref) at(c *calculation) (row, col int) {
	row, col = r.row, r.col
	if r.rowMoves {
		row += c.cell.down
	}
	if r.colMoves {
		col += c.cell.across
	}
	return row, col
}

// span is a range between two references.
type span struct{ from, to node }

func (s *span) eval(*calculation) value {
	panic(unsupported("a range stands where one value is meant"))
}

// negative is a minus sign.
type negative struct{ x node }

func (n *negative) eval(c *calculation) value { return negated(n.x.eval(c)) }

func negated(v value) value {
	if v = v.toNumber(); v.kind == number {
		v.num = -v.num
	}
	return v
}

// binary is an operator between two parts.
type binary struct {
	operation func(a, b value) value
	a, b      node
}

func (b *binary) eval(c *calculation) value {
	return b.operation(b.a.eval(c), b.b.eval(c))
}

var operation = map[string]func(a, b value) value{
	"+": arithmetic(func(x, y float64) float64 { return x + y }),
	"-": arithmetic(func(x, y float64) float64 { return x - y }),
	"*": arithmetic(func(x, y float64) float64 { return x * y }),
	"/": divided,
	"^": powered,
	"&": joined,

	"=":  comparison(func(order int) bool { return order == 0 }),
	"<>": comparison(func(order int) bool { return order != 0 }),
	"<":  comparison(func(order int) bool { return order < 0 }),
	">":  comparison(func(order int) bool { return order > 0 }),
	"<=": comparison(func(order int) bool { return order <= 0 }),
	">=": comparison(func(order int) bool { return order >= 0 }),
}

// numbers gives both sides as numbers, or the first error.
func numbers(a, b value) (x, y float64, bad value) {
	if a.kind == number && b.kind == number {
		return a.num, b.num, bad
	}
	if a = a.toNumber(); a.kind == failure {
		return 0, 0, a
	}
	b = b.toNumber()
	if b.kind == failure {
		return 0, 0, b
	}
	return a.num, b.num, bad
}

func arithmetic(f func(x, y float64) float64) func(a, b value) value {
	return func(a, b value) value {
		x, y, bad := numbers(a, b)
		if bad.kind == failure {
			return bad
		}
		return numberOf(f(x, y))
	}
}

func divided(a, b value) value {
	x, y, bad := numbers(a, b)
	switch {
	case bad.kind == failure:
		return bad
	case y == 0:
		return errDiv
	}
	return numberOf(x / y)
}

func powered(a, b value) value {
	x, y, bad := numbers(a, b)
	switch {
	case bad.kind == failure:
		return bad
	case x == 0 && y == 0:
		return errNum
	case x == 0 && y < 0:
		return errDiv
	}
	return numberOf(math.Pow(x, y))
}

func joined(a, b value) value {
	if a = a.toText(); a.kind == failure {
		return a
	}
	if b = b.toText(); b.kind == failure {
		return b
	}
	return textOf(a.str + b.str)
}

func comparison(holds func(order int) bool) func(a, b value) value {
	return func(a, b value) value {
		switch {
		case a.kind == failure:
			return a
		case b.kind == failure:
			return b
		}
		return boolOf(holds(compare(a, b)))
	}
}

// call is a function with its arguments.
type call struct {
	*function
	args []node
}

func (k *call) eval(c *calculation) value {
	if k.area != nil { // a reference that the function gives
		a, bad := k.area(c, k.args)
		switch {
		case bad.kind == failure:
			return bad
		case a.rows != 1 || a.cols != 1:
			panic(unsupported("a range stands where one value is meant"))
		}
		return c.read(a.sheet, a.row, a.col)
	}
	return k.work(c, k.args)
}
