package sheet

import (
	"github.com/evapbook/evapbook/internal/look"
	"github.com/evapbook/evapbook/internal/xlsx"
)

var (
	Title   = xlsx.Style{Bold: true, Size: look.Title, Color: look.Leaf}
	Section = xlsx.Style{Bold: true, Size: look.Head, Color: look.Leaf, Border: xlsx.Under(xlsx.Thin, look.Leaf)}
	Text    = xlsx.Style{Size: look.Text, Color: look.Ink, Wrap: true, VAlign: xlsx.Top}
	Line    = xlsx.Style{Size: look.Text, Color: look.Ink}
	Quiet   = xlsx.Style{Size: look.Small, Color: look.Quiet, VAlign: xlsx.Middle}
	Small   = xlsx.Style{Size: look.Small, Color: look.Quiet, Wrap: true, VAlign: xlsx.Top}
	Warn    = xlsx.Style{Size: look.Text, Color: look.Ink, Fill: look.AlarmFill, Wrap: true, VAlign: xlsx.Top}
	Link    = xlsx.Style{Size: look.Small, Color: look.Link, Underline: true}

	band     = xlsx.Style{Bold: true, Size: look.Small, Color: look.Paper, Fill: look.Leaf}
	bandRest = xlsx.Style{Size: look.Small, Color: look.Paper, Fill: look.Leaf}
	Head     = xlsx.Style{Bold: true, Size: look.Small, Color: look.Ink, Fill: look.Sand, Wrap: true, HAlign: xlsx.Centre, VAlign: xlsx.Middle}
	unit     = xlsx.Style{Size: look.Small, Color: look.Quiet, Fill: look.Sand, HAlign: xlsx.Centre}
	eq       = xlsx.Style{Size: look.Small, Italic: true, Color: look.Quiet, Fill: look.Sand, HAlign: xlsx.Centre, Border: xlsx.Under(xlsx.Thin, look.Rule)}

	Label  = xlsx.Style{Size: look.Text, Color: look.Ink, Border: xlsx.Under(xlsx.Hair, look.Rule), VAlign: xlsx.Middle}
	Symbol = xlsx.Style{Size: look.Text, Color: look.Quiet, Border: xlsx.Under(xlsx.Hair, look.Rule), VAlign: xlsx.Middle, HAlign: xlsx.Left, Indent: 1}
	Input  = xlsx.Style{Size: look.Text, Color: look.Ink, Fill: look.InputFill, Border: xlsx.Box(xlsx.Thin, look.InputEdge), Unlocked: true, HAlign: xlsx.Right, VAlign: xlsx.Middle}
)

// Centred is a number under a centred heading.
func Centred(format string) xlsx.Style {
	s := Number(format)
	s.HAlign = xlsx.Centre
	return s
}

// Number is a table number in the given format.
func Number(format string) xlsx.Style {
	return xlsx.Style{Size: look.Text, Color: look.Ink, NumFmt: format, HAlign: xlsx.Right, Border: xlsx.Under(xlsx.Hair, look.Rule), VAlign: xlsx.Middle}
}
