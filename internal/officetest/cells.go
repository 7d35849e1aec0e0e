package officetest

import (
	"fmt"
	"strconv"
)

// sheetCells reads the cells of one worksheet.
func (p parts) sheetCells(name string, shared []string) ([]Cell, error) {
	text, err := p.read(name)
	if err != nil {
		return nil, err
	}
	r := cellReader{markup: markup{rest: text}, shared: shared}
	for !r.is("sheetData") {
		if _, ok := r.next(); !ok {
			return nil, nil
		}
	}
	for !r.ends("sheetData") {
		if _, ok := r.next(); !ok {
			return nil, fmt.Errorf("<sheetData> does not end")
		}
		switch {
		case r.is("row"):
			if err := r.row(); err != nil {
				return nil, err
			}
		case r.is("c"):
			if err := r.cell(); err != nil {
				return nil, err
			}
		}
	}
	return r.cells, nil
}

// cellReader reads the <sheetData> of one worksheet.
type cellReader struct {
	markup
	shared []string
	at     Ref // the cell last read; rows and cells without a reference follow on
	cells  []Cell
}

func (r *cellReader) row() error {
	r.at.Row++
	r.at.Col = 0
	if n := r.attr("r"); n != "" {
		row, err := strconv.Atoi(n)
		if err != nil {
			return fmt.Errorf("row %q is not a number", n)
		}
		r.at.Row = row
	}
	return nil
}

func (r *cellReader) cell() error {
	r.at.Col++
	if ref := r.attr("r"); ref != "" {
		at, ok := parseRef([]byte(ref))
		if !ok {
			return fmt.Errorf("cell %q is not a reference", ref)
		}
		r.at = at
	}
	kind := r.attr("t")
	c := Cell{Ref: r.at}
	if r.closing { // <c .../>: a style only
		return nil
	}
	text, err := r.inside(&c)
	if err != nil {
		return fmt.Errorf("cell %s: %w", c.Ref, err)
	}
	if text == "" && !c.HasFormula {
		return nil
	}
	if c.Value, err = r.value(kind, text); err != nil {
		return fmt.Errorf("cell %s: %w", c.Ref, err)
	}
	r.cells = append(r.cells, c)
	return nil
}

// inside reads the elements of a cell up to its end and gives the text of its value.
func (r *cellReader) inside(c *Cell) (value string, err error) {
	for err == nil {
		if _, ok := r.next(); !ok {
			return "", fmt.Errorf("does not end")
		}
		switch {
		case r.is("f"):
			c.HasFormula = true
			if group, ok := r.sharedGroup(); ok {
				c.Shared = group + 1
			}
			c.Formula, err = r.content(nil)
		case r.is("v"):
			value, err = r.content(nil)
		case r.is("is"):
			value, err = r.content(isText)
		case r.ends("c"):
			return value, nil
		}
	}
	return "", err
}

// value reads the text of a value by the cell's type. Source: ECMA-376 part 1,
// 18.18.11 ST_CellType.
func (r *cellReader) value(kind, text string) (any, error) {
	switch kind {
	case "", "n":
		if text == "" {
			return nil, nil
		}
		n, err := strconv.ParseFloat(text, 64)
		if err != nil {
			return nil, fmt.Errorf("value %q is not a number", text)
		}
		return n, nil
	case "b":
		return text == "1" || text == "true", nil
	case "e":
		return CellError(text), nil
	case "s":
		i, err := strconv.Atoi(text)
		if err != nil || i < 0 || i >= len(r.shared) {
			return nil, fmt.Errorf("shared text %q of %d", text, len(r.shared))
		}
		return emptyNil(r.shared[i]), nil
	case "str", "inlineStr", "d":
		return emptyNil(text), nil
	}
	return nil, fmt.Errorf("type %q", kind)
}

// emptyNil gives nil for an empty text; see the package comment.
func emptyNil(s string) any {
	if s == "" {
		return nil
	}
	return s
}

// sharedGroup is the group a formula is shared in. Source: ECMA-376 part 1,
// 18.3.1.40 f.
func (r *cellReader) sharedGroup() (int, bool) {
	if r.attr("t") != "shared" {
		return 0, false
	}
	group, err := strconv.Atoi(r.attr("si"))
	return group, err == nil
}
