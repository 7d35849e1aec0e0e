package reading

// Pads names a kind of pad; empty is not stated.
type Pads string

// The kinds of pad.
const (
	Aspen   Pads = "aspen"
	Rigid4  Pads = "rigid-4"
	Rigid6  Pads = "rigid-6"
	Rigid8  Pads = "rigid-8"
	Rigid12 Pads = "rigid-12"
)

// PadKinds lists the kinds of pad in the order offered.
var PadKinds = []Pads{Aspen, Rigid4, Rigid6, Rigid8, Rigid12}

// Band is what to accept of one kind of pad, measured at the pads.
type Band struct {
	Pads      Pads
	Name      string
	Low, High float64 // effectiveness in good order
	Typical   float64 // middle of the range, expected where none is stated
	Accept    float64 // lowest effectiveness to accept
	Life      float64 // years pads usually last
	Published bool    // whether Accept is published, as against common practice
	Source    string
}

const memoryRange = "range from memory, acceptance " + practice

// Bands lists the acceptance bands. The ranges of rigid pads agree with the
// relation of Dowdy and Karabash (ASHRAE Trans. 1987, as used by Camargo,
// Ebinuma and others 2003); lives: aspen one season, rigid 3 to 5 years and
// more (from memory).
var Bands = []Band{
	{Aspen, "aspen", 0.70, 0.80, 0.75, 0.70, 1, false, memoryRange},
	{Rigid4, "4 in (10 cm) rigid", 0.60, 0.70, 0.65, 0.60, 5, false, memoryRange},
	{Rigid6, "6 in (15 cm) rigid", 0.72, 0.80, 0.76, 0.75, 5, false, memoryRange},
	{Rigid8, "8 in (20 cm) rigid", 0.80, 0.87, 0.835, 0.75, 5, false, memoryRange},
	{Rigid12, "12 in (30 cm) rigid", 0.88, 0.93, 0.905, 0.85, 5, false, memoryRange},
}

// entry is the band of the pads; nil where none is stated.
func (p Pads) entry() *Band {
	for i := range Bands {
		if Bands[i].Pads == p {
			return &Bands[i]
		}
	}
	return nil
}

// Mark says whether the band is published or common practice.
func (b *Band) Mark() string {
	if b.Published {
		return "published"
	}
	return practice
}

// Old tells whether pads of so many years are past their usual life.
func (b *Band) Old(years float64) bool { return years > b.Life } // false for NaN
