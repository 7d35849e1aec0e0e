package weather

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// longestName is how many characters of a station's name are kept: the longest
// in use have some 60, and a page has room for no more.
const longestName = 120

// tidyNames makes what a file says in words fit for cells, CSV and terminals.
func (s *Series) tidyNames() {
	if name := tidy(s.Station.Name); utf8.RuneCountInString(name) > longestName {
		s.note(Note{Kind: NoteNameCut, Count: utf8.RuneCountInString(name), Want: longestName})
		s.Station.Name = string([]rune(name)[:longestName-1]) + "…"
	} else {
		s.Station.Name = name
	}
	s.Station.Country = shortened(tidy(s.Station.Country))
	s.Source.Name = shortened(tidy(s.Source.Name))
	for i := range s.Notes {
		n := &s.Notes[i]
		n.Of, n.Other = shortened(tidy(n.Of)), shortened(tidy(n.Other))
	}
}

// shortened keeps what fits of a text that is no station's name.
func shortened(text string) string {
	const longest = 255 // bytes a file name may have
	if r := []rune(text); len(r) > longest {
		return string(r[:longest-1]) + "…"
	}
	return text
}

// tidy replaces control characters, among them those that begin a terminal's
// commands, by blanks, and leaves out what has no shape of its own, such as
// marks that turn the direction of writing. What is not UTF-8 shows as �.
func tidy(text string) string {
	if plainASCII(text) {
		return strings.TrimSpace(text)
	}
	text = strings.Map(func(r rune) rune {
		switch {
		case unicode.IsControl(r), unicode.Is(unicode.Zl, r), unicode.Is(unicode.Zp, r):
			return ' '
		case unicode.Is(unicode.Cf, r), unicode.Is(unicode.Co, r), r == 0xFFFE, r == 0xFFFF:
			return -1
		}
		return r
	}, strings.ToValidUTF8(text, "\uFFFD"))
	return strings.TrimSpace(text)
}

func plainASCII(text string) bool {
	for i := range len(text) {
		if text[i] < ' ' || text[i] > '~' {
			return false
		}
	}
	return true
}
