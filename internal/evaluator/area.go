package evaluator

// area is a rectangle of cells.
type area struct {
	sheet      *sheet
	row, col   int
	rows, cols int
}

// areaOf gives the cells a part refers to; ok is false where it is no
// reference, bad where it gives an error.
func (c *calculation) areaOf(n node) (a area, bad value, ok bool) {
	switch n := n.(type) {
	case *ref:
		row, col := n.at(c)
		return area{n.sheet, row, col, 1, 1}, bad, true
	case *span:
		return c.between(n)
	case *call:
		if n.area != nil {
			a, bad = n.area(c, n.args)
			return a, bad, true
		}
	}
	return a, bad, false
}

// between is the smallest area with both ends of a range in it.
func (c *calculation) between(s *span) (area, value, bool) {
	a, bad, isA := c.areaOf(s.from)
	if bad.kind == failure {
		return area{}, bad, true
	}
	b, bad, isB := c.areaOf(s.to)
	if bad.kind == failure {
		return area{}, bad, true
	}
	if !isA || !isB || a.sheet != b.sheet {
		panic(unsupported("a colon does not join two cells of one sheet"))
	}
	row, col := min(a.row, b.row), min(a.col, b.col)
	return area{a.sheet, row, col, max(a.row+a.rows, b.row+b.rows) - row, max(a.col+a.cols, b.col+b.cols) - col}, value{}, true
}

// mustArea is areaOf for arguments that have to be references.
func (c *calculation) mustArea(n node) (area, value) {
	a, bad, ok := c.areaOf(n)
	if !ok {
		panic(unsupported("an argument is not a range"))
	}
	return a, bad
}

// cells visits the cells of an area row by row, until visit says false. Where
// formulas among them still have to be worked out it notes those and visits
// nothing; ok says whether all were at hand.
func (c *calculation) cells(a area, visit func(v value) bool) (ok bool) {
	if !c.ready(a) {
		return false
	}
	for row := a.row; row < a.row+a.rows; row++ {
		for col := a.col; col < a.col+a.cols; col++ {
			if !visit(a.sheet.value(row, col)) {
				return true
			}
		}
	}
	return true
}

// ready notes the cells of an area that have still to be worked out.
func (c *calculation) ready(a area) bool {
	if a.sheet.waiting == 0 {
		return true
	}
	before := len(c.needed)
	for row := a.row + a.rows - 1; row >= a.row; row-- { // the first is then worked out first
		for col := a.col + a.cols - 1; col >= a.col; col-- {
			if f := a.sheet.formula(row, col); f != nil && f.state != done {
				c.needed = append(c.needed, f)
			}
		}
	}
	return len(c.needed) == before
}

// values visits what arguments hold, as SUM and its kin take them: of
// references the cells that are numbers, of other arguments the value as a
// number. The first error ends it. Logical values are refused: in ranges
// LibreOffice counts them, Excel does not.
func (c *calculation) values(args []node, visit func(x float64)) (bad value) {
	for _, n := range args {
		a, err, ok := c.areaOf(n)
		switch {
		case err.kind == failure:
			return err
		case ok:
			c.cells(a, func(v value) bool {
				if v.kind == number {
					visit(v.num)
				}
				if v.kind == failure {
					bad = v
				}
				refuseLogical(v)
				return bad.kind != failure
			})
		default:
			v := n.eval(c)
			refuseLogical(v)
			v = v.toNumber()
			if v.kind == failure {
				return v
			}
			visit(v.num)
		}
		if bad.kind == failure {
			return bad
		}
	}
	return bad
}

func refuseLogical(v value) {
	if v.kind == boolean {
		panic(unsupported("a logical value among numbers, on which programs differ"))
	}
}

// matrix are values in rows, for functions that work on whole arrays.
type matrix struct {
	rows, cols int
	values     []value
}

func (m *matrix) at(row, col int) value {
	if m.rows == 1 {
		row = 0
	}
	if m.cols == 1 {
		col = 0
	}
	return m.values[row*m.cols+col]
}

// matrixOf works a part out for each cell of the ranges in it.
func (c *calculation) matrixOf(n node) matrix {
	switch n := n.(type) {
	case *binary:
		a, b := c.matrixOf(n.a), c.matrixOf(n.b)
		return combine(a, b, n.operation)
	case *negative:
		m := c.matrixOf(n.x)
		for i := range m.values {
			m.values[i] = negated(m.values[i])
		}
		return m
	case *span:
		a, bad, _ := c.areaOf(n)
		if bad.kind == failure {
			return matrix{1, 1, []value{bad}}
		}
		m := matrix{a.rows, a.cols, make([]value, 0, a.rows*a.cols)}
		if !c.cells(a, func(v value) bool { m.values = append(m.values, v); return true }) {
			m.values = m.values[:cap(m.values)]
		}
		return m
	}
	return matrix{1, 1, []value{n.eval(c)}}
}

// combine applies an operator cell by cell; a single row or column counts for all.
func combine(a, b matrix, operation func(a, b value) value) matrix {
	m := matrix{rows: max(a.rows, b.rows), cols: max(a.cols, b.cols)}
	for _, each := range []matrix{a, b} {
		if each.rows != 1 && each.rows != m.rows || each.cols != 1 && each.cols != m.cols {
			panic(unsupported("ranges of unlike sizes meet"))
		}
	}
	m.values = make([]value, 0, m.rows*m.cols)
	for row := range m.rows {
		for col := range m.cols {
			m.values = append(m.values, operation(a.at(row, col), b.at(row, col)))
		}
	}
	return m
}
