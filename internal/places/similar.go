package places

import (
	"cmp"
	"slices"
	"strings"

	"github.com/evapbook/evapbook/internal/spelling"
)

// suggestions is how many similar names are named.
const suggestions = 5

// similar lists the towns spelt most like a text, or beginning with it, the
// nearest spelling first and among these the most populous. A state, where one
// was typed, is kept to.
func similar(text string) []string {
	queries := queriesOf(text)
	slices.Reverse(queries) // the reading with a state first
	for _, q := range queries {
		if names := similarTo(q); len(names) > 0 {
			return names
		}
	}
	return nil
}

func similarTo(q query) []string {
	type match struct {
		town  *Town
		steps int
	}
	var found []match
	k := key(q.name)
	most := len(k)/4 + 1
	all := gazetteer()
	for i := range all {
		t := &all[i]
		if q.state != "" && q.state != t.State {
			continue
		}
		steps := most
		if begins := len(k) > 2 && strings.HasPrefix(t.key, k); !begins {
			if d := len(t.key) - len(k); d > most || d < -most {
				continue
			}
			if steps = spelling.Distance(k, t.key); steps > most {
				continue
			}
		}
		found = append(found, match{t, steps})
	}
	slices.SortStableFunc(found, func(a, b match) int {
		return cmp.Or(cmp.Compare(a.steps, b.steps), cmp.Compare(b.town.Population, a.town.Population))
	})
	var names []string
	for _, m := range found {
		if name := m.town.Full(); !slices.Contains(names, name) && len(names) < suggestions {
			names = append(names, name)
		}
	}
	return names
}
