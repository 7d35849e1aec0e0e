// Package hint lets an error carry what to do about it.
//
// The text of the error says what is wrong and where; the hint is kept beside
// it, through any number of wrappings, and is printed once, at the border. So
// nobody has to find it in a text again.
package hint

import (
	"errors"
	"fmt"
	"slices"
	"strings"
)

// Error is an error and what to do about it. Its text is the error's alone.
type Error struct {
	Err  error
	Hint string // lower case, without full stop
}

func (e *Error) Error() string { return e.Err.Error() }

// Unwrap is the error without its hint.
func (e *Error) Unwrap() error { return e.Err }

// Advice is the hint.
func (e *Error) Advice() string { return e.Hint }

// adviser is any error that knows a hint, of packages too that import nothing
// of ours.
type adviser interface {
	error
	Advice() string
}

// With is err with a hint, formatted as by [fmt.Sprintf].
func With(err error, format string, args ...any) error {
	return &Error{err, fmt.Sprintf(format, args...)}
}

// Of lists the hints in the tree of err, those of the innermost errors first.
func Of(err error) []string {
	var all []string
	switch e := err.(type) {
	case interface{ Unwrap() error }:
		all = Of(e.Unwrap())
	case interface{ Unwrap() []error }:
		for _, part := range e.Unwrap() {
			all = append(all, Of(part)...)
		}
	}
	if e, ok := err.(adviser); ok && e.Advice() != "" {
		all = append(all, e.Advice())
	}
	return all
}

// Text is err as people read it: what is wrong, then each hint on a line of its
// own. Of errors that were joined each is followed by its own hints; hints that
// several in a row share stand once, behind the last of them.
func Text(err error) string {
	if err == nil {
		return ""
	}
	var lines []string
	parts := Parts(err)
	for i, e := range parts {
		lines = append(lines, strings.TrimSpace(e.Error()))
		hints := Of(e)
		if i+1 < len(parts) && slices.Equal(hints, Of(parts[i+1])) {
			continue
		}
		for _, h := range hints {
			lines = append(lines, "hint: "+h)
		}
	}
	return strings.Join(lines, "\n")
}

// OneLine is err and its hints on one line, as a cell of a table has them.
func OneLine(err error) string {
	return strings.ReplaceAll(Text(err), "\n", "; ")
}

// Parts are the errors that [errors.Join] put together, and err itself where
// it is a single one. An error around joined ones that adds no text is looked through.
func Parts(err error) []error {
	for inner := err; inner != nil && inner.Error() == err.Error(); inner = errors.Unwrap(inner) {
		joined, ok := inner.(interface{ Unwrap() []error })
		if !ok {
			continue
		}
		var all []error
		for _, part := range joined.Unwrap() {
			all = append(all, Parts(part)...)
		}
		if len(all) > 0 && errors.Join(all...).Error() == err.Error() {
			return all
		}
	}
	return []error{err}
}
