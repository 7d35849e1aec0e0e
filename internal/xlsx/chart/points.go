package chart

// Points are the cells that a reference points to and what they show.
type Points struct {
	Ref    string // with its sheet, as the file writes it
	Format string // number format of the first cell that has one
	Values []Value
}

// Value is what one cell shows: for a number and a truth value its digits.
type Value struct {
	Kind  ValueKind
	Shown string
}

// ValueKind is what a cell holds.
type ValueKind int

// Kinds of values.
const (
	Blank ValueKind = iota
	Number
	Text
	Truth
)

// numbers says whether all that is there is numbers.
func (p *Points) numbers() bool {
	for _, v := range p.Values {
		if v.Kind != Number && v.Kind != Blank {
			return false
		}
	}
	return true
}
