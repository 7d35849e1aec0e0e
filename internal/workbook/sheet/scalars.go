package sheet

import (
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/xlsx"
)

// Scalar is one named cell: a value that formulas elsewhere refer to by name.
type Scalar struct {
	Name, Label string
	Kind        units.Kind
	Eq          int
	Formula     string // empty: a constant
	Value       any
	Note        string // source, or why
}

// Scalars writes named cells as lines of label, value, unit, equation, note.
func (p *Page) Scalars(list []Scalar) {
	for _, s := range list {
		u := s.Kind.Unit(units.SI)
		p.SetRow(p.Row, 1,
			xlsx.Cell{Value: s.Label, Style: Label},
			xlsx.Cell{Value: s.Value, Formula: s.Formula, Style: Number(u.Format), Name: s.Name},
			xlsx.Cell{Value: u.Symbol, Style: Symbol},
			xlsx.Cell{Value: Equation(s.Eq), Style: Quiet},
			xlsx.Cell{Value: s.Name, Style: Quiet},
			xlsx.Cell{Value: s.Note, Style: Quiet},
		)
		p.Row++
	}
}
