package weather

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"unicode"
)

// Error is a flaw in a weather file: where it is, what it is, and what to do.
type Error struct {
	File    string // name as given by the user
	Line    int    // 1-based, 0 if the flaw concerns the whole file
	Column  int    // 1-based field number in the line, 0 if not known
	Heading string // column heading as the file prints it, may be empty
	Text    string // what is wrong, lower case, without full stop
	Hint    string // what to do about it, may be empty

	// Unsaid: nothing is wrong with the file, it leaves out what an option can say.
	Unsaid bool
}

// Error gives file:line:column, the heading and the flaw on one line, without
// the hint.
func (e *Error) Error() string {
	var b strings.Builder
	b.WriteString(e.File)
	if e.Line > 0 {
		fmt.Fprintf(&b, ":%d", e.Line)
		if e.Column > 0 {
			fmt.Fprintf(&b, ":%d", e.Column)
		}
	}
	b.WriteString(": ")
	if e.Heading != "" {
		fmt.Fprintf(&b, "column %q: ", e.Heading)
	}
	b.WriteString(e.Text)
	return strings.Map(printable, b.String())
}

// Advice is the hint, by which package hint finds it.
func (e *Error) Advice() string { return strings.Map(printable, e.Hint) }

// flaws are those that refuse a file: the first few by line, and the number of
// all.
type flaws struct {
	first []*Error
	count int
}

func (f *flaws) add(e *Error) {
	f.count++
	at, _ := slices.BinarySearchFunc(f.first, e.Line+1, func(have *Error, line int) int { return have.Line - line })
	f.first = slices.Insert(f.first, at, e)
	f.first = f.first[:min(len(f.first), placesNamed)]
}

// err is nil, the one flaw, or the first few joined with the number of the
// others: with at most two hints, six lines to read.
func (f *flaws) err() error {
	switch f.count {
	case 0:
		return nil
	case 1:
		return f.first[0]
	}
	var errs []error
	hints := map[string]bool{}
	for _, e := range f.first {
		if hints[e.Hint] = true; len(hints) > mostHints {
			bare := *e
			bare.Hint = ""
			e = &bare
		}
		errs = append(errs, e)
	}
	if more := f.count - len(f.first); more > 0 {
		errs = append(errs, fileError(f.first[0].File, "", "and %d more like these", more))
	}
	return errors.Join(errs...)
}

// mostHints are the different hints that several flaws have between them.
const mostHints = 2

// printable keeps what a damaged file puts into a message from reaching a
// terminal as line ends or control sequences.
func printable(r rune) rune {
	if unicode.IsControl(r) {
		return ' '
	}
	return r
}

// listed names things in a message: the first six and how many more.
func listed(names []string) string {
	const most = 6
	text := strings.Join(names[:min(len(names), most)], ", ")
	if more := len(names) - most; more > 0 {
		text += fmt.Sprintf(" and %d more", more)
	}
	return text
}

// fileError is a flaw that concerns the whole file.
func fileError(file, hint, format string, args ...any) *Error {
	return &Error{File: file, Text: fmt.Sprintf(format, args...), Hint: hint}
}

// unsaid is an error of a file that leaves out what an option can say.
func unsaid(file, hint, text string) *Error {
	return &Error{File: file, Text: text, Hint: hint, Unsaid: true}
}
