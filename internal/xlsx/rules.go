package xlsx

// Validation limits what can be typed into cells. Exactly one of List, From,
// Decimal, Whole, TextUpTo and Formula is given, or none for a prompt alone.
type Validation struct {
	Range string // "B4", "B4:B9", several with blanks between

	List     []string // choices; together at most 255 characters, none with a comma
	From     string   // choices in cells: "[Lists.kind:]" or "Lists!$A$2:$A$9"
	Decimal  *Limits
	Whole    *Limits
	TextUpTo int    // the longest text, in characters
	Formula  string // allowed where true; references are as seen from the first cell

	Blank bool // an empty cell is allowed too
	Warn  bool // warn rather than refuse

	// Titles have at most 32 characters, texts at most 255.
	ErrorTitle, Error   string
	PromptTitle, Prompt string
}

// Limits is a closed interval; an infinite end is open.
type Limits struct{ Min, Max float64 }

// CondFormat colours cells by their values. Exactly one of Scale, Is and
// When is given.
type CondFormat struct {
	Range string // "B4:M27", several with blanks between
	Scale []Stop // two or three
	Is    *Comparison
	When  string // formula; references are as seen from the first cell
	// Style is used by Is and When: text colour, bold, italic, fill, border, format.
	Style Style
}

// StopKind says what a [Stop] stands at.
type StopKind string

// Places for a [Stop].
const (
	AtMin        StopKind = "min"
	AtMax        StopKind = "max"
	AtNumber     StopKind = "num"
	AtPercentile StopKind = "percentile"
)

// Stop is one colour of a scale.
type Stop struct {
	Kind  StopKind
	Value float64
	Color string // RRGGBB
}

// Comparison compares a cell with a formula or number: Op is one of
// = <> < <= > >= and between, which also uses Value2.
type Comparison struct {
	Op            string
	Value, Value2 string
}
