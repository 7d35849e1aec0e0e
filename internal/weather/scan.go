package weather

import (
	"fmt"
	"strings"
)

// scanner cuts text into records of fields. It follows RFC 4180 with the
// leniency spreadsheets need: a quote inside an unquoted field is literal, rows
// may be longer or shorter than the heading line, blank rows are skipped.
type scanner struct {
	doc    *document
	name   string // for messages
	text   string
	line   int  // number of the next line
	comma  byte // field separator; ' ' means runs of blanks
	enough int  // fields wanted of a line without quotes; 0 means all
	buf    []string
}

// newScanner reads a document from its first line. Where a format has commas, a
// copy saved again with semicolons or tabs is read as what it is.
func newScanner(doc *document, comma byte) *scanner {
	s := &scanner{doc: doc, name: doc.name, text: doc.text, line: 1, comma: comma}
	if comma == ',' {
		s.comma = separator(strings.Join(firstLines(doc.text, headLines), "\n"))
	}
	return s
}

// next returns the fields of the next record and the line it starts on; ok is
// false at the end. The slice is reused by the following call.
func (s *scanner) next() (fields []string, line int, ok bool, err error) {
	for s.text != "" {
		row, rest, _ := strings.Cut(s.text, "\n")
		line = s.line
		if strings.IndexByte(row, '"') >= 0 && s.comma != ' ' {
			fields, err = s.quoted()
		} else {
			s.text = rest
			s.line++
			fields = s.split(strings.TrimSuffix(row, "\r"))
		}
		if err != nil || !blank(fields) {
			return fields, line, err == nil, err
		}
	}
	return nil, s.line, false, nil
}

// split cuts a line without quotes.
func (s *scanner) split(row string) []string {
	s.buf = s.buf[:0]
	if s.comma == ' ' {
		s.buf = append(s.buf, strings.Fields(row)...)
		return s.buf
	}
	for {
		i := strings.IndexByte(row, s.comma)
		if i < 0 {
			s.buf = append(s.buf, row)
			return s.buf
		}
		s.buf = append(s.buf, row[:i])
		row = row[i+1:]
		if len(s.buf) == s.enough {
			return s.buf
		}
	}
}

// quoted cuts a record in which quotes occur; it may run over several lines.
func (s *scanner) quoted() ([]string, error) {
	start := s.line
	s.buf = s.buf[:0]
	for {
		var field string
		var more bool
		if strings.HasPrefix(s.text, `"`) {
			var closed bool
			field, closed = s.quotedField()
			if !closed {
				return nil, &Error{File: s.name, Line: start, Column: len(s.buf) + 1, Text: "quoted field is never closed", Hint: "the file may be cut short"}
			}
			var tail string
			tail, more = s.bareField()
			field += tail // text after the closing quote, as spreadsheets read it
		} else {
			field, more = s.bareField()
		}
		s.buf = append(s.buf, field)
		if !more {
			return s.buf, nil
		}
	}
}

// quotedField takes a field in quotes off the text, without its separator.
func (s *scanner) quotedField() (field string, closed bool) {
	rest, end := s.text[1:], 0
	for {
		i := strings.IndexByte(rest[end:], '"')
		if i < 0 {
			return "", false
		}
		end += i
		if !strings.HasPrefix(rest[end+1:], `"`) {
			break
		}
		end += 2
	}
	s.line += strings.Count(rest[:end], "\n")
	s.text = rest[end+1:]
	return strings.ReplaceAll(rest[:end], `""`, `"`), true
}

// bareField takes text up to the next separator or line end, and the separator.
func (s *scanner) bareField() (field string, more bool) {
	i := strings.IndexAny(s.text, string(rune(s.comma))+"\n")
	if i < 0 {
		field, s.text = s.text, ""
		s.line++
		return strings.TrimSuffix(field, "\r"), false
	}
	field, sep := s.text[:i], s.text[i]
	s.text = s.text[i+1:]
	if sep == '\n' {
		s.line++
		return strings.TrimSuffix(field, "\r"), false
	}
	return field, true
}

func blank(fields []string) bool {
	for _, f := range fields {
		if strings.TrimSpace(f) != "" {
			return false
		}
	}
	return true
}

// heading takes one record and copies it, for lines that are kept.
func (s *scanner) heading(what string) ([]string, int, error) {
	fields, line, ok, err := s.next()
	if err != nil {
		return nil, 0, err
	}
	if !ok {
		return nil, 0, &Error{File: s.name, Line: line, Text: fmt.Sprintf("the file ends before %s", what), Hint: "it may be cut short"}
	}
	out := make([]string, len(fields))
	for i, f := range fields {
		out[i] = strings.TrimSpace(f)
	}
	return out, line, nil
}

// rawLine takes one line as it is, for headers that are not CSV.
func (s *scanner) rawLine() (text string, line int) {
	text, s.text, _ = strings.Cut(s.text, "\n")
	s.line++
	return strings.TrimSuffix(text, "\r"), s.line - 1
}
