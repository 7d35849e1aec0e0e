package xlsx

import (
	"fmt"
	"io"
	"slices"
	"strconv"
)

// rowWriter formats the rows of one sheet. The rows are formatted by hand
// because the library knows no cached values outside its streams, which lose
// other things; and because it is several times faster.
type rowWriter struct {
	plan  *plan
	sheet *sheetPlan
	ids   []int // style numbers in the file
	out   io.Writer
	buf   []byte

	shared int // formulas shared so far on the sheet
}

// chunk is how much is handed on at once, in bytes.
const chunk = 1 << 18

// write writes the content of sheetData.
func (w *rowWriter) write() error {
	w.buf = make([]byte, 0, chunk+1<<16)
	next := 0 // cell
	for _, span := range w.sheet.spans() {
		for row := span.from; row <= span.to; row++ {
			first := next
			for next < len(w.sheet.cells) && w.sheet.cells[next].row == row {
				next++
			}
			if err := w.row(row, w.sheet.cells[first:next]); err != nil {
				return err
			}
			if len(w.buf) >= chunk {
				if err := w.flush(); err != nil {
					return err
				}
			}
		}
	}
	return w.flush()
}

func (w *rowWriter) flush() error {
	_, err := w.out.Write(w.buf)
	w.buf = w.buf[:0]
	return err
}

// span is a run of rows with something in them.
type span struct{ from, to int }

// spans are the rows to write, in order.
func (s *sheetPlan) spans() []span {
	var all []span
	for _, c := range s.cells {
		if n := len(all); n == 0 || all[n-1].to != c.row {
			all = append(all, span{c.row, c.row})
		}
	}
	for row := range s.heights {
		all = append(all, span{row, row})
	}
	for _, g := range s.grids {
		if g.Rows > 0 {
			all = append(all, span{g.Row, g.last()})
		}
	}
	slices.SortFunc(all, func(a, b span) int { return a.from - b.from })
	var merged []span
	for _, x := range all {
		if n := len(merged); n > 0 && x.from <= merged[n-1].to+1 {
			merged[n-1].to = max(merged[n-1].to, x.to)
			continue
		}
		merged = append(merged, x)
	}
	return merged
}

// row writes one row: cells and grids, by column.
func (w *rowWriter) row(row int, cells []placed) error {
	w.buf = append(w.buf, `<row r="`...)
	w.buf = strconv.AppendInt(w.buf, int64(row), 10)
	w.buf = append(w.buf, '"')
	if h, ok := w.sheet.heights[row]; ok {
		w.buf = append(w.buf, ` ht="`...)
		w.buf = strconv.AppendFloat(w.buf, h, 'g', -1, 64)
		w.buf = append(w.buf, `" customHeight="1"`...)
	}
	w.buf = append(w.buf, '>')
	var digits [8]byte
	num := strconv.AppendInt(digits[:0], int64(row), 10)
	for _, g := range w.across(row) {
		for len(cells) > 0 && cells[0].col < g.Col {
			w.cell(&cells[0], num)
			cells = cells[1:]
		}
		if err := w.gridRow(g, row-g.Row, num); err != nil {
			return err
		}
	}
	for i := range cells {
		w.cell(&cells[i], num)
	}
	w.buf = append(w.buf, "</row>"...)
	return nil
}

// across are the grids a row passes through, from left to right.
func (w *rowWriter) across(row int) []*gridPlan {
	if len(w.sheet.grids) == 1 { // nothing to sort or copy
		if g := w.sheet.grids[0]; row < g.Row || row > g.last() {
			return nil
		}
		return w.sheet.grids
	}
	var all []*gridPlan
	for _, g := range w.sheet.grids {
		if row >= g.Row && row <= g.last() {
			all = append(all, g)
		}
	}
	slices.SortFunc(all, func(a, b *gridPlan) int { return a.Col - b.Col })
	return all
}

func (w *rowWriter) cell(c *placed, row []byte) {
	w.put(colName(c.col), row, w.ids[c.style], &c.value, written{template: c.formula})
}

func (w *rowWriter) gridRow(g *gridPlan, i int, row []byte) error {
	for k := range g.columns {
		c := &g.columns[k]
		v, err := toValue(c.value(i))
		var f *template
		if err == nil && v.kind != blank {
			f, err = w.plan.formulaAt(w.sheet, g, k, i)
		}
		if err != nil {
			return fmt.Errorf("xlsx: %s!%s%s (column %s, row %d of the data): %w", w.sheet.Name, c.letters, row, c.Key, i, err)
		}
		formula := written{template: f, row: i}
		if f != nil && f.shareable {
			formula = w.share(g, c, f, i)
		}
		w.put(c.letters, row, w.ids[c.style], &v, formula)
	}
	return nil
}

// written is a formula as it goes into one cell.
type written struct {
	*template        // nil for a cell without a formula
	row       int    // of the grid
	shared    int    // number of the formula shared, from 1; 0 if written out
	ref       string // the cells that share it, in the first of them
}

// share numbers a formula in the first row that shares it and refers to it in the
// others. What stands in one row alone, as at the top of a column that looks at
// the row before, is written out; so is the first of several that differ by row.
func (w *rowWriter) share(g *gridPlan, c *columnPlan, t *template, i int) written {
	f := written{template: t, row: i}
	switch {
	case !t.used:
		t.used = true
		return f
	case t.shared == 0:
		w.shared++
		t.shared = w.shared
		f.ref = c.letters + strconv.Itoa(g.Row+i) + ":" + c.letters + strconv.Itoa(g.last())
	}
	f.shared = t.shared
	return f
}

// append appends the <f> element; ECMA-376 part 1, 18.3.1.40 f.
func (f *written) append(b []byte) []byte {
	if f.shared == 0 {
		return append(f.appendXML(append(b, "<f>"...), f.row), "</f>"...)
	}
	b = append(b, `<f t="shared"`...)
	if f.ref != "" {
		b = append(append(append(b, ` ref="`...), f.ref...), '"')
	}
	b = strconv.AppendInt(append(b, ` si="`...), int64(f.shared-1), 10)
	if f.ref == "" {
		return append(b, `"/>`...)
	}
	return append(f.appendXML(append(b, `">`...), f.row), "</f>"...)
}

// put writes one cell.
func (w *rowWriter) put(letters string, row []byte, style int, v *value, f written) {
	empty := v.kind == blank || v.kind == text && v.str == "" && f.template == nil
	if empty && style == 0 {
		return
	}
	b := append(w.buf, `<c r="`...)
	b = append(append(b, letters...), row...)
	if style != 0 {
		b = append(b, `" s="`...)
		b = strconv.AppendInt(b, int64(style), 10)
	}
	switch {
	case empty:
		w.buf = append(b, `"/>`...)
		return
	case v.kind == truth:
		b = append(b, `" t="b">`...)
	case v.kind == text && f.template == nil:
		w.buf = appendInline(append(b, `" t="inlineStr">`...), v.str)
		return
	case v.kind == text:
		b = append(b, `" t="str">`...)
	default:
		b = append(b, `">`...)
	}
	if f.template != nil {
		b = f.append(b)
	}
	b = append(b, "<v>"...)
	if v.kind == text {
		b = appendText(b, v.str)
	} else {
		b = v.appendNumber(b, f.template != nil)
	}
	w.buf = append(b, "</v></c>"...)
}

func appendInline(b []byte, s string) []byte {
	if spaced(s) {
		b = append(b, `<is><t xml:space="preserve">`...)
	} else {
		b = append(b, "<is><t>"...)
	}
	return append(appendText(b, s), "</t></is></c>"...)
}
