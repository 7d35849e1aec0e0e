package evaluator

import (
	"errors"
	"fmt"
	"strings"

	"github.com/evapbook/evapbook/internal/officetest"
)

// Program is what reports call this package.
const Program = "evaluator"

// Set changes cells. A key is a defined name or a reference "Sheet!B3"; a value
// is a number, a bool, a text, or nil to clear the cell; a formula in the cell
// is typed over. Other formulas follow at the next [Workbook.Recalculate].
func (w *Workbook) Set(cells map[string]any) error {
	for key, v := range cells {
		a, err := w.find(key)
		if err != nil {
			return err
		}
		own := a.sheet.at(a.row, a.col)
		if a.rows != 1 || a.cols != 1 || own == nil {
			return fmt.Errorf("evaluator: %s is not a cell of the sheet", key)
		}
		w.changed = append(w.changed, former{a.sheet, a.row, a.col, *own})
		if own.formula != nil {
			own.formula.typedOver = true
		}
		*own = cell{value: valueOf(v)}
	}
	return nil
}

// Reset puts back every cell that [Workbook.Set] changed. It cannot fail; the
// error makes a Workbook interchangeable with an officetest.Session.
func (w *Workbook) Reset() error {
	for i := len(w.changed) - 1; i >= 0; i-- {
		f := &w.changed[i]
		*f.sheet.at(f.row, f.col) = f.cell
		if f.cell.formula != nil {
			f.cell.formula.typedOver = false
		}
	}
	w.changed = w.changed[:0]
	return nil
}

// find gives the area of a name or of a reference with its sheet.
func (w *Workbook) find(key string) (a area, err error) {
	var n node
	if strings.Contains(key, "!") {
		n, err = w.parse(nil, 0, 0, key)
	} else {
		n, err = w.name(key)
	}
	if err != nil {
		return a, fmt.Errorf("evaluator: %w", err)
	}
	c := calculation{cell: &formula{}}
	a, _, ok := c.areaOf(n)
	if !ok {
		return a, fmt.Errorf("evaluator: %s is not a cell", key)
	}
	return a, nil
}

// Names gives the present values of defined names of one cell each.
func (w *Workbook) Names(names ...string) (map[string]any, error) {
	out := make(map[string]any, len(names))
	for _, name := range names {
		a, err := w.find(name)
		if err != nil {
			return nil, err
		}
		if a.rows != 1 || a.cols != 1 {
			return nil, fmt.Errorf("evaluator: %s is not one cell", name)
		}
		out[name] = a.sheet.value(a.row, a.col).plain()
	}
	return out, nil
}

// Range gives the present values of "Sheet!A1:B9", row by row.
func (w *Workbook) Range(ref string) ([][]any, error) {
	a, err := w.find(ref)
	if err != nil {
		return nil, err
	}
	out := make([][]any, a.rows)
	for i := range out {
		for k := range a.cols {
			out[i] = append(out[i], a.sheet.value(a.row+i, a.col+k).plain())
		}
	}
	return out, nil
}

// Formulas gives the present values of all formula cells.
func (w *Workbook) Formulas() officetest.Results {
	out := officetest.Results{}
	for _, f := range w.formulas {
		if f.typedOver {
			continue
		}
		cells := out[f.sheet.name]
		if cells == nil {
			cells = officetest.Values{}
			out[f.sheet.name] = cells
		}
		cells[officetest.Ref{Row: f.row, Col: f.col}] = f.sheet.value(f.row, f.col).plain()
	}
	return out
}

// Value gives the present value of a cell; ok is false where there is no formula.
func (w *Workbook) Value(sheet string, at officetest.Ref) (v any, ok bool) {
	s := w.sheet(sheet)
	if s == nil {
		return nil, false
	}
	own := s.at(at.Row, at.Col)
	if own == nil || own.formula == nil {
		return nil, false
	}
	return own.value.plain(), true
}

// Check works all formulas out afresh and compares them with the values in the
// file. Inputs changed by [Workbook.Set] are put back first.
func (w *Workbook) Check(t officetest.Tolerance) (*officetest.Report, error) {
	if err := errors.Join(w.Reset(), w.Recalculate()); err != nil {
		return nil, err
	}
	return officetest.Compare(w.book, Program, w, t), nil
}
