package xlsx

// Book is a workbook: its sheets in tab order, its names and its properties.
// Build one with literals and [Book.AddSheet], then call [Book.Write]. A Book is
// not changed by writing and may be written again.
type Book struct {
	Title, Subject, Creator, Keywords, Description string

	// Font is the typeface of every cell, "Calibri" when empty. Readers that find
	// no typeface fall back to a serif one.
	Font string
	// FontSize is in points; 0 means 11. The programs take the height of plain
	// rows from it: 20 pixels at 11 points, which is what to place charts by.
	FontSize float64

	// Palette holds up to six colours, RRGGBB. They become the accents of the
	// theme and colour the chart series that name no colour of their own.
	Palette []string

	// RecalcOnLoad asks the program that opens the book to work everything out
	// again. It then also asks to save on closing.
	RecalcOnLoad bool

	// Values leaves all formulas out and keeps their cached results: a smaller
	// book that looks the same. Formulas are then not checked either, so that
	// they may refer to sheets that were left out.
	Values bool

	Sheets []*Sheet
	Names  []Name
}

// Name is a name of the whole workbook for a cell, a range or a constant.
type Name struct {
	Name string
	// Ref is a template ("[Hours.t:]"), a reference with sheet and dollar signs
	// ("Inputs!$B$4") or a constant ("0.622").
	Ref     string
	Comment string
}

// AddSheet appends an empty sheet and returns it.
func (b *Book) AddSheet(name string) *Sheet {
	s := &Sheet{Name: name}
	b.Sheets = append(b.Sheets, s)
	return s
}

func (b *Book) font() string {
	if b.Font == "" {
		return "Calibri"
	}
	return b.Font
}

func (b *Book) fontSize() float64 {
	if b.FontSize == 0 {
		return 11
	}
	return b.FontSize
}

// colour is the palette's n-th colour, counted round.
func (b *Book) colour(n int) string {
	p := b.Palette
	if len(p) == 0 {
		p = defaultPalette
	}
	return p[n%len(p)]
}

// defaultPalette can be told apart with the common kinds of colour blindness.
// Source: Okabe and Ito, "Color Universal Design" (2008), without black and the
// yellow, which is too pale for a line on white.
var defaultPalette = []string{"0072B2", "D55E00", "009E73", "E69F00", "56B4E9", "CC79A7"}
