package xlsx

import (
	"fmt"
	"regexp"

	"github.com/xuri/excelize/v2"
)

// Style is how a cell looks. It is comparable: equal styles are stored once.
// Colours are RRGGBB.
type Style struct {
	NumFmt                  string // "0.0", "#,##0", "yyyy-mm-dd hh:mm"; empty is General
	Bold, Italic, Underline bool
	Size                    float64 // points; 0 is the book's
	Color                   string  // of the text; empty is black
	Fill                    string
	Border                  Border
	HAlign                  HAlign
	VAlign                  VAlign
	Wrap, Shrink            bool
	Indent                  int // steps of about three spaces; with HAlign Left or Right
	Unlocked                bool
}

// Border is the lines round a cell.
type Border struct{ Left, Right, Top, Bottom Edge }

// Edge is one line of a border; the zero value draws nothing.
type Edge struct {
	Style LineStyle
	Color string // empty is a mid grey
}

// LineStyle is the weight of a border line. The numbers are excelize's.
type LineStyle int

// Border lines.
const (
	NoLine LineStyle = 0
	Thin   LineStyle = 1
	Hair   LineStyle = 7
)

// HAlign is the place of text across a cell; empty puts numbers right, text left.
type HAlign string

// Places across a cell.
const (
	Left         HAlign = "left"
	Centre       HAlign = "center"
	Right        HAlign = "right"
	CentreAcross HAlign = "centerContinuous" // over the blank cells that follow, without a merge
)

// VAlign is the place of text up and down a cell; empty is the bottom.
type VAlign string

// Places up and down a cell.
const (
	Top    VAlign = "top"
	Middle VAlign = "center"
	Bottom VAlign = "bottom"
)

// Box is a border with the same line on all four sides.
func Box(style LineStyle, color string) Border {
	l := Edge{style, color}
	return Border{l, l, l, l}
}

// Under is a border with a line below only.
func Under(style LineStyle, color string) Border { return Border{Bottom: Edge{style, color}} }

var colourPattern = regexp.MustCompile(`^[0-9A-Fa-f]{6}$`)

func badColour(c string) bool { return c != "" && !colourPattern.MatchString(c) }

// check says what is wrong with a style.
func (s *Style) check() error {
	for _, c := range []string{s.Color, s.Fill, s.Border.Left.Color, s.Border.Right.Color, s.Border.Top.Color, s.Border.Bottom.Color} {
		if badColour(c) {
			return fmt.Errorf("colour %q is not of the form RRGGBB", c)
		}
	}
	return badNumFmt(s.NumFmt)
}

// excelize is the style in excelize's terms; for conditional formats the parts
// they cannot change are left out.
func (s *Style) excelize(b *Book, conditional bool) *excelize.Style {
	x := &excelize.Style{}
	x.Font = &excelize.Font{Bold: s.Bold, Italic: s.Italic, Color: s.Color}
	if s.Underline {
		x.Font.Underline = "single"
	}
	if s.Fill != "" {
		x.Fill = excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{s.Fill}}
	}
	x.Border = s.Border.excelize()
	if s.NumFmt != "" && s.NumFmt != "General" {
		x.CustomNumFmt = &s.NumFmt
	}
	if conditional {
		return x
	}
	x.Font.Family, x.Font.Size = b.font(), s.Size
	if s.Size == 0 {
		x.Font.Size = b.fontSize()
	}
	x.Alignment = &excelize.Alignment{
		Horizontal: string(s.HAlign), Vertical: string(s.VAlign), WrapText: s.Wrap,
		ShrinkToFit: s.Shrink, Indent: s.Indent,
	}
	if *x.Alignment == (excelize.Alignment{}) {
		x.Alignment = nil
	}
	if s.Unlocked {
		x.Protection = &excelize.Protection{Locked: false}
	}
	return x
}

func (b Border) excelize() []excelize.Border {
	var out []excelize.Border
	add := func(side string, l Edge) {
		if l.Style == NoLine {
			return
		}
		if l.Color == "" {
			l.Color = "A6A6A6"
		}
		out = append(out, excelize.Border{Type: side, Color: l.Color, Style: int(l.Style)})
	}
	add("left", b.Left)
	add("right", b.Right)
	add("top", b.Top)
	add("bottom", b.Bottom)
	return out
}
