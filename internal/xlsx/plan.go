package xlsx

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"
)

// plan is a book prepared for writing: names looked up, styles numbered,
// formulas translated. Making it finds every fault that does not depend on the
// values in the grids.
type plan struct {
	book   *Book
	sheets []*sheetPlan
	byName map[string]*sheetPlan // lower case
	byKey  map[string]*sheetPlan // lower case
	grids  map[string]*Grid      // lower case
	owners map[*Grid]*Sheet
	words  vocabulary
	names  []Name // the book's and those of cells, references translated
	styles []Style
	number map[Style]int // place in styles
	faults []error
}

// sheetPlan is one sheet prepared.
type sheetPlan struct {
	*Sheet
	cells []placed // by row, then column; header cells of grids among them
	find  map[at]int
	grids []*gridPlan // by row, then column
}

// placed is a cell with its place.
type placed struct {
	at
	style   int
	value   value
	formula *template
	link    string
}

// gridPlan is a grid prepared.
type gridPlan struct {
	*Grid
	columns []columnPlan
}

type columnPlan struct {
	*GridColumn
	letters string
	style   int
	formula *template
	seen    map[string]*template // of FormulaAt
}

// maxFaults is how many faults are named at once.
const maxFaults = 20

// Check reports what would keep the book from being written or opened, up to
// twenty faults at once, each with sheet and cell. It does not call the value
// functions of the grids; [Book.Write] reports values that are not numbers.
func (b *Book) Check() error {
	_, err := b.plan()
	return err
}

func (b *Book) plan() (*plan, error) {
	p := &plan{
		book:   b,
		byName: map[string]*sheetPlan{},
		byKey:  map[string]*sheetPlan{},
		grids:  map[string]*Grid{},
		owners: map[*Grid]*Sheet{},
		number: map[Style]int{},
	}
	p.words = vocabulary{sheets: map[string]bool{}, names: map[string]bool{}}
	p.checkBook()
	for _, s := range b.Sheets {
		p.register(s)
	}
	p.collectNames()
	for _, s := range p.sheets {
		p.gatherCells(s)
		p.gatherGrids(s)
		p.checkSheet(s)
	}
	p.translateNames()
	if len(p.faults) > maxFaults {
		more := len(p.faults) - maxFaults
		p.faults = append(p.faults[:maxFaults:maxFaults], fmt.Errorf("and %d more faults", more))
	}
	return p, errors.Join(p.faults...)
}

func (p *plan) fault(format string, args ...any) {
	p.faults = append(p.faults, fmt.Errorf("xlsx: "+format, args...))
}

func (s *Sheet) fault(format string, args ...any) {
	s.faults = append(s.faults, fmt.Errorf("xlsx: sheet "+s.Name+": "+format, args...))
}

// register enters a sheet and its grids, so that formulas anywhere can mean them.
func (p *plan) register(s *Sheet) {
	sp := &sheetPlan{Sheet: s, find: map[at]int{}}
	p.sheets = append(p.sheets, sp)
	p.faults = append(p.faults, s.faults...)
	low := strings.ToLower(s.Name)
	if why := badSheetName(s.Name); why != "" {
		p.fault("sheet name %q %s", s.Name, why)
	}
	if p.words.sheets[low] {
		p.fault("two sheets are called %q", s.Name)
	}
	p.words.sheets[low] = true
	p.byName[low] = sp
	if key := strings.ToLower(s.key()); p.byKey[key] != nil {
		p.fault("two sheets have the key %q", key)
	} else {
		p.byKey[key] = sp
	}
	for _, g := range s.Grids {
		p.owners[g] = s
		name := p.gridName(g)
		if !wordPattern.MatchString(name) {
			p.fault("sheet %s: grid name %q has to be letters, digits and underscores", s.Name, name)
		}
		if p.grids[strings.ToLower(name)] != nil {
			p.fault("sheet %s: two grids are called %q", s.Name, name)
		}
		p.grids[strings.ToLower(name)] = g
	}
}

func (p *plan) gridName(g *Grid) string {
	if g.Name != "" {
		return g.Name
	}
	return p.owners[g].key()
}

// collectNames enters all names of the book before any formula is looked at.
func (p *plan) collectNames() {
	p.names = slices.Clone(p.book.Names)
	for _, s := range p.sheets {
		for _, k := range s.places() {
			if n := s.Sheet.cells[k].Name; n != "" {
				p.names = append(p.names, Name{Name: n, Ref: s.key() + "!" + box{k.row, k.col, k.row, k.col}.fixed()})
			}
		}
	}
	for _, n := range p.names {
		p.enterName(n.Name)
	}
}

func (p *plan) enterName(name string) {
	if why := badName(name); why != "" {
		p.fault("name %q %s", name, why)
	}
	low := strings.ToLower(name)
	if p.words.names[low] {
		p.fault("name %q is given twice (capitals do not tell names apart)", name)
	}
	p.words.names[low] = true
}

func (p *plan) translateNames() {
	for i := range p.names {
		n := &p.names[i]
		ref, err := p.translate(n.Ref, scope{outside: true})
		if err != nil {
			p.fault("name %s: %q %w", n.Name, n.Ref, err)
		}
		// A reference without dollar signs moves with the cell that uses it.
		if sheet, cells, ok := strings.Cut(ref, "!"); ok {
			if b, plain := parseBox(cells); plain && b.fixed() != cells {
				p.fault("name %s: write %s!%s, with dollar signs", n.Name, sheet, b.fixed())
			}
		}
		n.Ref = ref
	}
}

// translate is the finished text of a formula that stands in one place.
func (p *plan) translate(src string, sc scope) (string, error) {
	t, err := p.compile(src, sc)
	if err != nil {
		return "", err
	}
	f := t.text(0)
	return f, p.words.check(f)
}

// places are the set cells in order.
func (s *Sheet) places() []at {
	all := make([]at, 0, len(s.cells))
	for k := range s.cells {
		all = append(all, k)
	}
	slices.SortFunc(all, at.compare)
	return all
}

func (a at) compare(b at) int { return cmp.Or(a.row-b.row, a.col-b.col) }

// gatherCells prepares the cells set one by one and the headers of grids.
func (p *plan) gatherCells(s *sheetPlan) {
	for _, k := range s.places() {
		p.place(s, k, s.Sheet.cells[k])
	}
	for _, g := range s.Sheet.Grids {
		rows := g.headerRows()
		for c := range g.Columns {
			for r, cell := range g.Columns[c].Header {
				k := at{g.Row - rows + r, g.Col + c}
				if k.row < 1 {
					p.fault("sheet %s: grid %s has %d header rows above row %d", s.Name, p.gridName(g), rows, g.Row)
					return
				}
				if _, taken := s.Sheet.cells[k]; taken {
					p.fault("%s!%s is set and is also a header of a grid", s.Name, cellRef(k.row, k.col))
				}
				p.place(s, k, cell)
			}
		}
	}
	slices.SortStableFunc(s.cells, func(a, b placed) int { return a.at.compare(b.at) })
	for i, c := range s.cells {
		s.find[c.at] = i
	}
}

// place prepares one cell.
func (p *plan) place(s *sheetPlan, k at, c Cell) {
	where := s.Name + "!" + cellRef(k.row, k.col)
	out := placed{at: k, style: p.style(c.Style, where), link: c.Link}
	var err error
	if out.value, err = toValue(c.Value); err != nil {
		p.fault("%s: %w", where, err)
	}
	if c.Formula != "" && !p.book.Values {
		if out.value.kind == blank {
			p.fault("%s: formula %q has no cached value beside it", where, c.Formula)
		}
		if out.formula, err = p.compile(c.Formula, scope{sheet: s.Sheet}); err == nil {
			err = p.words.check(out.formula.text(0))
		}
		if err != nil {
			p.fault("%s: formula %q %w", where, c.Formula, err)
		}
	}
	p.checkLink(where, c.Link)
	s.cells = append(s.cells, out)
}

// style numbers a style.
func (p *plan) style(s Style, where string) int {
	if n, ok := p.number[s]; ok {
		return n
	}
	if err := s.check(); err != nil {
		p.fault("%s: %w", where, err)
	}
	n := len(p.styles)
	p.styles = append(p.styles, s)
	p.number[s] = n
	return n
}
