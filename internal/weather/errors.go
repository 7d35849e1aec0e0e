package weather

import (
	"fmt"
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
}

// Error gives file:line:column, the heading, the flaw and the hint on one line.
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
	if e.Hint != "" {
		fmt.Fprintf(&b, " (hint: %s)", e.Hint)
	}
	return strings.Map(printable, b.String())
}

// Errors are several flaws of one file, found in one run.
type Errors struct {
	First []*Error // the first few
	Count int      // of all
}

// joinErrors is one error, or the first few with the number of all.
func joinErrors(all []*Error) error {
	if len(all) == 1 {
		return all[0]
	}
	return &Errors{all[:min(len(all), placesNamed)], len(all)}
}

// Error gives each of the first flaws on a line of its own, hints that repeat
// once, and counts the others: five lines at most.
func (e *Errors) Error() string {
	var lines []string
	hint := ""
	for _, one := range e.First {
		shown := *one
		if shown.Hint == hint {
			shown.Hint = ""
		} else {
			hint = shown.Hint
		}
		lines = append(lines, shown.Error())
	}
	if more := e.Count - len(e.First); more > 0 {
		lines = append(lines, fmt.Sprintf("%s: and %d more like these", e.First[0].File, more))
	}
	return strings.Join(lines, "\n")
}

// Unwrap gives the first flaws.
func (e *Errors) Unwrap() []error {
	var all []error
	for _, one := range e.First {
		all = append(all, one)
	}
	return all
}

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
