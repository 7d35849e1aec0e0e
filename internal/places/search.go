package places

import (
	"cmp"
	"slices"
	"strings"
)

// Search lists the places a text may mean: what Find takes and its others, then
// towns and stations whose names begin with or hold the words, the most
// populous first. An empty text lists all stations.
func Search(text string) []*Place {
	all := catalogue()
	if strings.TrimSpace(text) == "" {
		out := make([]*Place, len(all))
		for i := range all {
			out[i] = atStation(&all[i])
		}
		return out
	}
	var out []*Place
	have := map[any]bool{}
	add := func(p *Place) {
		var id any = p.Name
		if p.Town != nil {
			id = p.Town
		}
		if !have[id] {
			have[id] = true
			out = append(out, p)
		}
	}
	if p, err := Find(text); err == nil {
		add(p)
		for _, t := range p.Others {
			add(atTown(t))
		}
	}
	for _, q := range queriesOf(text) {
		for _, p := range holding(q) {
			add(p)
		}
	}
	return out
}

func atTown(t *Town) *Place {
	return &Place{Name: t.Full(), Latitude: t.Latitude, Longitude: t.Longitude, Elevation: t.Elevation, Town: t}
}

// holding lists towns, then stations, whose names hold what a query names.
func holding(q query) []*Place {
	var out []*Place
	k := key(q.name)
	if len(k) < 3 {
		return nil
	}
	towns := gazetteer()
	for i := range towns {
		if t := &towns[i]; strings.Contains(t.key, k) && (q.state == "" || q.state == t.State) {
			out = append(out, atTown(t))
		}
	}
	slices.SortStableFunc(out, func(a, b *Place) int {
		beginsA, beginsB := strings.HasPrefix(a.Town.key, k), strings.HasPrefix(b.Town.key, k)
		if beginsA != beginsB {
			if beginsA {
				return -1
			}
			return 1
		}
		return cmp.Compare(b.Town.Population, a.Town.Population)
	})
	stations := catalogue()
	for i := range stations {
		if s := &stations[i]; strings.Contains(key(bare(s)), k) && (q.state == "" || q.state == s.State) {
			out = append(out, atStation(s))
		}
	}
	return out
}
