package evaluator

import (
	"fmt"
	"strings"

	"github.com/evapbook/evapbook/internal/officetest"
)

// A Workbook is a book whose formulas can be worked out. Not for use by several
// goroutines at once.
type Workbook struct {
	book   *officetest.Book
	sheets []*sheet
	byName map[string]*sheet // in lower case
	names  map[string]*named // as written: Gnumeric tells capitals apart

	formulas []*formula
	changed  []former // cells as they were before Set, first to last
}

// sheet holds its cells by column, then row, both from 0.
type sheet struct {
	name    string
	columns [][]cell
	waiting int // formulas that have still to be worked out
}

// cell holds a value, and the formula that gives it.
type cell struct {
	value   value
	formula *formula
}

// formula is a compiled formula in its cell. Cells that share one differ in how
// far they stand below and to the right of the cell where it is written out.
type formula struct {
	node
	sheet        *sheet
	row, col     int
	down, across int
	state        state
	typedOver    bool
}

type state uint8

const (
	stale   state = iota
	working       // its value waits for others
	done
)

// named is a defined name, compiled when first used.
type named struct {
	text string
	node node
}

// former is a cell as it was before a change.
type former struct {
	sheet    *sheet
	row, col int
	cell     cell
}

// Open reads a workbook and compiles its formulas.
func Open(path string) (*Workbook, error) {
	b, err := officetest.ReadBook(path)
	if err != nil {
		return nil, err
	}
	return New(b)
}

// New compiles the formulas of a book already read. All formulas count as
// worked out, to the values in the file, until [Workbook.Recalculate].
func New(b *officetest.Book) (*Workbook, error) {
	w := &Workbook{book: b, byName: map[string]*sheet{}, names: map[string]*named{}}
	for _, n := range b.Names {
		w.names[n.Name] = &named{text: n.Refers}
	}
	for _, s := range b.Sheets {
		own := &sheet{name: s.Name}
		own.size(s.Cells)
		w.sheets = append(w.sheets, own)
		w.byName[strings.ToLower(s.Name)] = own
	}
	for i, s := range b.Sheets {
		if err := w.compile(w.sheets[i], s.Cells); err != nil {
			return nil, fmt.Errorf("evaluator: %w", err)
		}
	}
	return w, nil
}

// size makes room for the cells.
func (s *sheet) size(cells []officetest.Cell) {
	var depth []int
	for i := range cells {
		at := cells[i].Ref
		for len(depth) < at.Col {
			depth = append(depth, 0)
		}
		depth[at.Col-1] = max(depth[at.Col-1], at.Row)
	}
	s.columns = make([][]cell, len(depth))
	for i, n := range depth {
		s.columns[i] = make([]cell, n)
	}
}

// compile fills a sheet and compiles its formulas; a shared one once, where it
// is written out.
func (w *Workbook) compile(s *sheet, cells []officetest.Cell) error {
	shared := map[int]*formula{}
	room := make([]formula, len(cells))
	for i := range cells {
		from := &cells[i]
		at := from.Ref
		own := &s.columns[at.Col-1][at.Row-1]
		own.value = valueOf(from.Value)
		if !from.HasFormula {
			continue
		}
		f := &room[i]
		*f = formula{sheet: s, row: at.Row, col: at.Col, state: done}
		if first := shared[from.Shared]; from.Formula == "" && from.Shared != 0 && first != nil {
			f.node, f.down, f.across = first.node, at.Row-first.row, at.Col-first.col
		} else {
			var err error
			if f.node, err = w.parse(s, at.Row, at.Col, from.Formula); err != nil {
				return fmt.Errorf("%s!%s: %w", s.name, at, err)
			}
			if from.Shared != 0 {
				shared[from.Shared] = f
			}
		}
		own.formula = f
		w.formulas = append(w.formulas, f)
	}
	return nil
}

func (w *Workbook) sheet(name string) *sheet { return w.byName[strings.ToLower(name)] }

// name compiles a defined name, once.
func (w *Workbook) name(name string) (node, error) {
	n := w.names[name]
	if n == nil {
		return nil, fmt.Errorf("there is no name %s", name)
	}
	if n.node == nil {
		var err error
		if n.node, err = w.parse(nil, 0, 0, n.text); err != nil {
			return nil, fmt.Errorf("name %s: %w", name, err)
		}
	}
	return n.node, nil
}

// at gives the cell at a place, nil where the sheet ends before it.
func (s *sheet) at(row, col int) *cell {
	if col > len(s.columns) || row > len(s.columns[col-1]) {
		return nil
	}
	return &s.columns[col-1][row-1]
}

func (s *sheet) value(row, col int) value {
	if c := s.at(row, col); c != nil {
		return c.value
	}
	return value{}
}

func (s *sheet) formula(row, col int) *formula {
	if c := s.at(row, col); c != nil {
		return c.formula
	}
	return nil
}
