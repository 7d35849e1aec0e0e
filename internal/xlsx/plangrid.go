package xlsx

import (
	"fmt"
	"slices"
)

// gatherGrids prepares the grids of a sheet.
func (p *plan) gatherGrids(s *sheetPlan) {
	for i, g := range s.Sheet.Grids {
		if !p.checkGrid(s, g) {
			continue
		}
		for _, o := range s.Sheet.Grids[:i] {
			if o.box().overlaps(g.box()) {
				p.fault("sheet %s: grids %s and %s overlap", s.Name, p.gridName(o), p.gridName(g))
			}
		}
		gp := &gridPlan{Grid: g, columns: make([]columnPlan, len(g.Columns))}
		for c := range g.Columns {
			gp.columns[c] = p.columnPlan(s, g, c)
		}
		s.grids = append(s.grids, gp)
	}
	slices.SortStableFunc(s.grids, func(a, b *gridPlan) int {
		return at{a.Row, a.Col}.compare(at{b.Row, b.Col})
	})
}

// checkGrid says whether a grid can be laid out.
func (p *plan) checkGrid(s *sheetPlan, g *Grid) bool {
	name := s.Name + ": grid " + p.gridName(g)
	if g.Row < 1 || g.Col < 1 || g.Rows < 0 || len(g.Columns) == 0 || g.last() > maxRows || g.lastCol() > maxCols {
		p.fault("sheet %s does not fit a sheet: row %d, column %d, %d rows of %d columns", name, g.Row, g.Col, g.Rows, len(g.Columns))
		return false
	}
	seen := map[string]bool{}
	for _, c := range g.Columns {
		if !wordPattern.MatchString(c.Key) {
			p.fault("sheet %s: column key %q has to be letters, digits and underscores", name, c.Key)
		}
		if seen[c.Key] {
			p.fault("sheet %s: column key %q is given twice", name, c.Key)
		}
		seen[c.Key] = true
		if len(c.Header) != g.headerRows() {
			p.fault("sheet %s: column %s has %d header cells, the first has %d", name, c.Key, len(c.Header), g.headerRows())
		}
		if c.Value == nil && (c.Formula != "" || c.FormulaAt != nil) {
			p.fault("sheet %s: column %s has a formula and no values to cache beside it", name, c.Key)
		}
	}
	if g.Filter && (g.headerRows() == 0 || g.Rows == 0) {
		p.fault("sheet %s: a filter needs a header row and data", name)
	}
	for _, c := range s.cells {
		if (box{g.Row, g.Col, g.last(), g.lastCol()}).contains(c.row, c.col) {
			p.fault("%s!%s is set and is also part of grid %s", s.Name, cellRef(c.row, c.col), p.gridName(g))
		}
	}
	return true
}

func (p *plan) columnPlan(s *sheetPlan, g *Grid, c int) columnPlan {
	col := &g.Columns[c]
	where := s.Name + "!" + colName(g.Col+c)
	out := columnPlan{GridColumn: col, letters: colName(g.Col + c), style: p.style(col.Style, where), seen: map[string]*template{}}
	sc := scope{sheet: s.Sheet, grid: g, column: c}
	if p.book.Values {
		return out
	}
	if col.FormulaAt == nil && col.Formula != "" && g.Rows > 0 {
		var err error
		if out.formula, err = p.columnFormula(col.Formula, sc); err != nil {
			p.fault("%s (column %s): formula %q %w", where, col.Key, col.Formula, err)
		} else {
			out.formula.used = true // by more rows than one: shared from the first
		}
	}
	return out
}

// columnFormula translates a formula of a column and checks it where it is
// shortest and where it is longest: in the first and the last row it fits.
func (p *plan) columnFormula(src string, sc scope) (*template, error) {
	t, err := p.compile(src, sc)
	if err != nil {
		return nil, err
	}
	t.last = min(t.last, sc.grid.Rows-1)
	if t.first > t.last {
		return nil, fmt.Errorf("refers to rows outside the grid from every row")
	}
	if err := p.words.check(t.text(t.last)); err != nil {
		return nil, err
	}
	t.shareable = sc.grid.Shared && t.stays()
	return t, nil
}

// formulaAt is the translated formula of row i, or nil for a plain value.
func (p *plan) formulaAt(s *sheetPlan, g *gridPlan, c, i int) (*template, error) {
	col := &g.columns[c]
	t := col.formula
	if p.book.Values {
		return nil, nil
	}
	if col.FormulaAt != nil {
		src := col.FormulaAt(i)
		if src == "" {
			return nil, nil
		}
		var known bool
		if t, known = col.seen[src]; !known {
			var err error
			if t, err = p.columnFormula(src, scope{sheet: s.Sheet, grid: g.Grid, column: c}); err != nil {
				return nil, fmt.Errorf("formula %q %w", src, err)
			}
			col.seen[src] = t
		}
	}
	if t == nil {
		return nil, nil
	}
	if err := t.covers(i); err != nil {
		return nil, fmt.Errorf("formula %q %w", t.text(i), err)
	}
	return t, nil
}
