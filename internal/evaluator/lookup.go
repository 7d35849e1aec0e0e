package evaluator

// match gives the place of a value in a row or column, from 1. Type 0 looks
// for an equal one, 1 (usual) for the last not above it in rising values, -1
// for the last not below it in falling ones.
func match(c *calculation, args []node) value {
	wanted, kind := args[0].eval(c), value{kind: number, num: 1}
	if len(args) == 3 {
		kind = args[2].eval(c).toNumber()
	}
	a, bad := c.mustArea(args[1])
	for _, v := range []value{wanted, kind, bad} {
		if v.kind == failure {
			return v
		}
	}
	if a.rows > 1 && a.cols > 1 {
		return errNA
	}
	if wanted.kind == blank {
		wanted.kind = number
	}
	place, found := 0, 0
	c.cells(a, func(v value) bool {
		place++
		if v.kind != wanted.kind {
			return true
		}
		order := compare(v, wanted)
		switch {
		case kind.num == 0:
			if order == 0 {
				found = place
			}
			return found == 0
		case kind.num > 0 && order <= 0, kind.num < 0 && order >= 0:
			found = place
			return true
		}
		return false
	})
	if found == 0 {
		return errNA
	}
	return numberOf(float64(found))
}

// index is the cell at a row and column of an area; of a single column the row
// will do. Row or column 0, the whole of it in Excel, is refused: Gnumeric has none.
func index(c *calculation, args []node) (area, value) {
	a, bad := c.mustArea(args[0])
	if bad.kind == failure {
		return a, bad
	}
	row, col := args[1].eval(c).toNumber(), value{kind: number}
	switch {
	case len(args) == 3:
		col = args[2].eval(c).toNumber()
	case a.cols > 1:
		panic(unsupported("INDEX of several columns without a column, on which programs differ"))
	default:
		col.num = 1
	}
	switch {
	case row.kind == failure:
		return a, row
	case col.kind == failure:
		return a, col
	case c.waits():
		return area{a.sheet, a.row, a.col, 1, 1}, value{}
	case int(row.num) == 0 || int(col.num) == 0:
		panic(unsupported("INDEX of a whole row or column, on which programs differ"))
	case row.num < 0 || int(row.num) > a.rows || col.num < 0 || int(col.num) > a.cols:
		return a, errRef
	}
	return area{a.sheet, a.row + int(row.num) - 1, a.col + int(col.num) - 1, 1, 1}, value{}
}

func rows(c *calculation, args []node) value {
	a, bad := c.mustArea(args[0])
	if bad.kind == failure {
		return bad
	}
	return numberOf(float64(a.rows))
}
