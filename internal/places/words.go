package places

import (
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// words cuts a name as people type it into plain lower-case words: no accents,
// no points, apostrophes closed up, common short forms written out.
func words(text string) []string {
	var b strings.Builder
	for _, r := range norm.NFD.String(strings.ToLower(text)) {
		switch {
		case unicode.Is(unicode.Mn, r), r == '\'', r == '’', r == '`', r == '.' && endsInLetter(b.String()):
			if r == '.' {
				b.WriteByte(' ')
			}
		case unicode.IsLetter(r), unicode.IsDigit(r):
			b.WriteRune(r)
		case r == '&':
			b.WriteString(" and ")
		default:
			b.WriteByte(' ')
		}
	}
	return strings.Fields(b.String())
}

func endsInLetter(s string) bool { return s != "" && s[len(s)-1] != ' ' }

// shortForms are written out in names of towns, wherever they stand.
var shortForms = map[string]string{
	"st": "saint", "ste": "sainte", "ft": "fort", "mt": "mount", "mtn": "mountain", "mtns": "mountains",
	"pt": "point", "spgs": "springs", "spg": "spring", "hts": "heights", "jct": "junction", "lk": "lake", "vly": "valley", "cyn": "canyon",
}

// compass letters are written out at the beginning of a name.
var compass = map[string]string{"n": "north", "s": "south", "e": "east", "w": "west"}

// key closes words up, short forms written out, so that "La Crosse" and
// "LaCrosse", "St. George" and "Saint George" are one name.
func key(name []string) string {
	var b strings.Builder
	for i, w := range name {
		if long, ok := shortForms[w]; ok {
			w = long
		}
		if long, ok := compass[w]; ok && i == 0 && len(name) > 1 {
			w = long
		}
		b.WriteString(w)
	}
	return b.String()
}

func keyOf(name string) string { return key(words(name)) }
