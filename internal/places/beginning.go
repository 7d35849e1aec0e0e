package places

import (
	"cmp"
	"slices"
	"strings"
)

// Beginning lists up to n towns whose names begin with what was typed so far,
// the most populous first. A state behind a comma is kept to.
func Beginning(text string, n int) []*Town {
	name, state, _ := strings.Cut(text, ",")
	k := keyOf(name)
	if k == "" {
		return nil
	}
	state = strings.ToUpper(strings.TrimSpace(state))
	if letters, ok := StateOf(state); ok {
		state = letters
	}
	var found []*Town
	all := gazetteer()
	for i := range all {
		if t := &all[i]; strings.HasPrefix(t.key, k) && strings.HasPrefix(t.State, state) {
			found = append(found, t)
		}
	}
	slices.SortStableFunc(found, func(a, b *Town) int { return cmp.Compare(b.Population, a.Population) })
	return found[:min(n, len(found))]
}
