package evaluator

import (
	"fmt"

	"github.com/evapbook/evapbook/internal/officetest"
)

// calculation works formulas out one by one. One that meets a cell not yet
// worked out notes it in needed and is taken up again afterwards: a chain of
// any length takes a longer list, not a deeper stack.
type calculation struct {
	cell   *formula
	needed []*formula
	list   []*formula // those waiting for the ones after them
}

// waits says whether what was worked out so far counts for nothing.
func (c *calculation) waits() bool { return len(c.needed) > 0 }

func (c *calculation) read(s *sheet, row, col int) value {
	own := s.at(row, col)
	if own == nil {
		return value{}
	}
	if own.formula != nil && own.formula.state != done {
		c.needed = append(c.needed, own.formula)
	}
	return own.value
}

// Recalculate works every formula out from scratch.
func (w *Workbook) Recalculate() error {
	for _, f := range w.formulas {
		if !f.typedOver {
			f.state = stale
			f.sheet.waiting++
		}
	}
	var c calculation
	for _, f := range w.formulas {
		if f.state == stale {
			if err := c.finish(f); err != nil {
				return err
			}
		}
	}
	return nil
}

// finish works a formula out, and before it what it needs.
func (c *calculation) finish(f *formula) error {
	c.list = append(c.list[:0], f)
	for len(c.list) > 0 {
		f := c.list[len(c.list)-1]
		if f.state == done {
			c.list = c.list[:len(c.list)-1]
			continue
		}
		f.state = working
		v, err := c.once(f)
		if err != nil {
			return err
		}
		if !c.waits() {
			f.keep(v)
			continue
		}
		for _, n := range c.needed {
			if n.state == working {
				return fmt.Errorf("evaluator: %s waits for itself", n.place())
			}
		}
		c.list = append(c.list, c.needed...)
	}
	return nil
}

// once tries a formula. A complaint while cells are still needed may come of
// what stands in them now; the formula is taken up again.
func (c *calculation) once(f *formula) (v value, err error) {
	c.cell, c.needed = f, c.needed[:0]
	defer func() {
		if r := recover(); r != nil {
			complaint, ok := r.(unsupported)
			if !ok {
				panic(r)
			}
			if !c.waits() {
				err = fmt.Errorf("evaluator: %s: %s", f.place(), complaint)
			}
		}
	}()
	return f.eval(c), nil
}

// keep puts the result into the cell; a reference to an empty cell gives 0.
func (f *formula) keep(v value) {
	if v.kind == blank {
		v = value{kind: number}
	}
	f.sheet.at(f.row, f.col).value = v
	f.state = done
	f.sheet.waiting--
}

func (f *formula) place() string {
	return f.sheet.name + "!" + officetest.Ref{Row: f.row, Col: f.col}.String()
}
