package places

import (
	"cmp"
	"fmt"
	"regexp"
	"slices"
	"strings"
)

// Find is the place a person means: a town by name, with or without its state,
// a station by number or name, or coordinates. The most populous town of a name
// is taken and the others are named. An unknown name is an *UnknownError.
func Find(text string) (*Place, error) {
	text = strings.TrimSpace(text)
	if s, ok := ByNumber(text); ok {
		return atStation(s), nil
	}
	if lat, lon, ok := Coordinates(text); ok {
		return At(lat, lon)
	}
	for _, q := range queriesOf(text) {
		if found := townsOf(q); len(found) > 0 {
			return &Place{
				Name: found[0].Full(), Latitude: found[0].Latitude, Longitude: found[0].Longitude, Elevation: found[0].Elevation,
				Town: found[0], Others: found[1:],
			}, nil
		}
	}
	for _, q := range queriesOf(text) {
		if s := stationOf(q); s != nil {
			return atStation(s), nil
		}
	}
	return nil, &UnknownError{Text: text, Similar: similar(text)}
}

func atStation(s *Station) *Place {
	return &Place{Name: s.Full(), Latitude: s.Latitude, Longitude: s.Longitude, Elevation: s.Elevation, Station: s}
}

// query is a way to read what was typed.
type query struct {
	name  []string // words
	state string   // two letters, or empty for any
}

// ending is what addresses end in: a postal code and the country.
var ending = regexp.MustCompile(`(?i)[\s,]*(\b\d{5}(-\d{4})?)?[\s,]*(\b(u\.?s\.?a?\.?|united states( of america)?))?[\s,]*$`)

// queriesOf lists the ways to read a text, the likeliest first: with the state
// behind a comma; as a name without a state; with the state behind a blank.
func queriesOf(text string) []query {
	text = strings.ToValidUTF8(clip(text), "")
	if cut := ending.ReplaceAllString(text, ""); len(words(cut)) > 0 {
		text = cut
	}
	if at := strings.LastIndex(text, ","); at >= 0 {
		if state, ok := StateOf(text[at+1:]); ok && len(words(text[:at])) > 0 {
			// "Hill Street 12, Bend, OR": the town stands last
			town := text[strings.LastIndex(text[:at], ",")+1 : at]
			return []query{{words(town), state}}
		}
	}
	all := words(text)
	if len(all) == 0 {
		return nil
	}
	out := []query{{all, ""}}
	if name, state := splitState(all); state != "" {
		out = append(out, query{name, state})
	}
	return out
}

// longestText is the longest text looked at; no town's name is longer.
const longestText = 120

func clip(text string) string {
	if len(text) > longestText {
		return text[:longestText]
	}
	return text
}

// variants are other ways to write a name: official lists add or leave out a
// word that people do not.
func variants(name []string) []string {
	k := key(name)
	out := []string{k, k + "city", k + "town"}
	for _, word := range []string{"city", "town", "village"} {
		if cut := strings.TrimSuffix(k, word); cut != k && cut != "" {
			out = append(out, cut)
		}
		if cut := strings.TrimPrefix(k, word+"of"); cut != k && cut != "" {
			out = append(out, cut)
		}
	}
	return out
}

// townsOf lists the towns a query names, the most populous first. The first
// variant that any town has is taken.
func townsOf(q query) []*Town {
	all := gazetteer()
	for _, k := range variants(q.name) {
		var found []*Town
		for i := range all {
			if t := &all[i]; (t.key == k || plain(t) == k) && (q.state == "" || q.state == t.State) {
				found = append(found, t)
			}
		}
		if len(found) > 0 {
			slices.SortStableFunc(found, func(a, b *Town) int { return cmp.Compare(b.Population, a.Population) })
			return found
		}
	}
	return nil
}

// plain is the key of a town without what its name has in brackets.
func plain(t *Town) string {
	name, _, cut := strings.Cut(t.Name, " (")
	if !cut {
		return t.key
	}
	return keyOf(name)
}

// UnknownError is a text that names no place.
type UnknownError struct {
	Text    string
	Similar []string // the nearest spellings, the nearest first
}

func (e *UnknownError) Error() string {
	return fmt.Sprintf("no town and no station is called %q", clip(e.Text))
}

// Advice says what may have been meant.
func (e *UnknownError) Advice() string {
	const small = "places of fewer than 500 people are not listed; their coordinates will do, as 44.06,-121.31"
	if len(e.Similar) == 0 {
		return "write a town and its state, as Bend, OR; " + small
	}
	return "did you mean " + strings.Join(e.Similar, "; ") + "? " + small
}
