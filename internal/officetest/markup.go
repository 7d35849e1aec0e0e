package officetest

import (
	"bytes"
	"fmt"
	"strconv"
	"strings"
)

// markup walks through the tags of an XML document held in memory. It knows
// what the parts of an .xlsx file need and no more: no DTD, and prefixes of
// names are dropped. encoding/xml takes 20 s for a season's formulas, this
// well under one.
type markup struct {
	rest []byte

	// The tag last found by next.
	name    []byte
	attrs   []byte
	opening bool // <a> or <a/>
	closing bool // </a> or <a/>
}

// next moves to the next tag and gives the text before it, still with
// entities; ok is false at the end.
func (m *markup) next() (text []byte, ok bool) {
	for {
		i := bytes.IndexByte(m.rest, '<')
		if i < 0 {
			return nil, false
		}
		if text == nil {
			text = m.rest[:i]
		}
		m.rest = m.rest[i+1:]
		if len(m.rest) > 0 && (m.rest[0] == '?' || m.rest[0] == '!') {
			m.skip()
			continue
		}
		return text, m.tag()
	}
}

// skip passes a declaration or a comment.
func (m *markup) skip() {
	end := ">"
	if bytes.HasPrefix(m.rest, []byte("!--")) {
		end = "-->"
	}
	_, m.rest, _ = bytes.Cut(m.rest, []byte(end))
}

func (m *markup) tag() bool {
	i := tagEnd(m.rest)
	if i < 0 {
		return false
	}
	tag := m.rest[:i]
	m.rest = m.rest[i+1:]
	m.opening, m.closing = true, false
	if len(tag) > 0 && tag[0] == '/' {
		m.opening, m.closing, tag = false, true, tag[1:]
	} else if len(tag) > 0 && tag[len(tag)-1] == '/' {
		m.closing, tag = true, tag[:len(tag)-1]
	}
	m.name, m.attrs = tag, nil
	if j := bytes.IndexAny(tag, " \t\r\n"); j >= 0 {
		m.name, m.attrs = tag[:j], tag[j:]
	}
	if j := bytes.IndexByte(m.name, ':'); j >= 0 {
		m.name = m.name[j+1:]
	}
	return true
}

// tagEnd finds the '>' that ends a tag; one inside quotes does not.
func tagEnd(b []byte) int {
	var quote byte
	for i, c := range b {
		switch {
		case quote != 0:
			if c == quote {
				quote = 0
			}
		case c == '"' || c == '\'':
			quote = c
		case c == '>':
			return i
		}
	}
	return -1
}

// is says whether the tag opens the named element.
func (m *markup) is(name string) bool { return m.opening && string(m.name) == name }

// ends says whether the tag closes the named element.
func (m *markup) ends(name string) bool { return m.closing && string(m.name) == name }

// attr gives an attribute of the tag by its name, with the prefix if it has
// one; "" where it is absent.
func (m *markup) attr(name string) string {
	rest := m.attrs
	for len(rest) > 0 {
		eq := bytes.IndexByte(rest, '=')
		if eq < 0 || eq+1 >= len(rest) {
			return ""
		}
		key, after := bytes.TrimSpace(rest[:eq]), bytes.TrimLeft(rest[eq+1:], " \t\r\n")
		if len(after) == 0 {
			return ""
		}
		end := bytes.IndexByte(after[1:], after[0])
		if end < 0 {
			return ""
		}
		if string(key) == name {
			return unescape(after[1 : end+1])
		}
		rest = after[end+2:]
	}
	return ""
}

// content gives the text of the element just opened and moves past its end.
// Elements inside count only where keep is nil or says so.
func (m *markup) content(keep func(name []byte) bool) (string, error) {
	if m.closing {
		return "", nil
	}
	element := string(m.name)
	var whole strings.Builder
	counts := keep == nil
	for {
		text, ok := m.next()
		if !ok {
			return "", fmt.Errorf("<%s> does not end", element)
		}
		if counts {
			whole.WriteString(unescape(text))
		}
		if m.ends(element) {
			return whole.String(), nil
		}
		counts = keep == nil || m.opening && !m.closing && keep(m.name)
	}
}

var entities = map[string]string{"amp": "&", "lt": "<", "gt": ">", "quot": `"`, "apos": "'"}

// unescape replaces the entities of a text.
func unescape(b []byte) string {
	if bytes.IndexByte(b, '&') < 0 {
		return string(b)
	}
	var s strings.Builder
	for {
		before, after, found := bytes.Cut(b, []byte("&"))
		s.Write(before)
		if !found {
			return s.String()
		}
		name, rest, ended := bytes.Cut(after, []byte(";"))
		if !ended {
			s.WriteByte('&')
			s.Write(after)
			return s.String()
		}
		s.WriteString(entity(string(name)))
		b = rest
	}
}

func entity(name string) string {
	if s, ok := entities[name]; ok {
		return s
	}
	digits, base := strings.TrimPrefix(name, "#"), 10
	if strings.HasPrefix(digits, "x") {
		digits, base = digits[1:], 16
	}
	if n, err := strconv.ParseInt(digits, base, 32); err == nil && strings.HasPrefix(name, "#") {
		return string(rune(n))
	}
	return "&" + name + ";"
}
