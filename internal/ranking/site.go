package ranking

import (
	"cmp"
	"slices"
)

// Site is the rows of one site and combination, by kind as Kinds has them.
type Site [len(Kinds)]*Row

// Ranked gathers the rows of a table by site and combination: combinations in
// order, and within each the sites from the best carried by a direct cooler to
// the worst, in moving air, those without need hours last.
func (t *Table) Ranked() []Site {
	var sites []Site
	for i := 0; i+len(Kinds) <= len(t.Rows); i += len(Kinds) {
		var s Site
		for k := range s {
			s[k] = &t.Rows[i+k]
		}
		sites = append(sites, s)
	}
	slices.SortStableFunc(sites, func(a, b Site) int {
		return cmp.Or(cmp.Compare(a[0].Combination, b[0].Combination), cmp.Compare(orNone(b[0].MovingAir), orNone(a[0].MovingAir)),
			cmp.Compare(orNone(b[0].Held), orNone(a[0].Held)))
	})
	return sites
}

func orNone(v *float64) float64 {
	if v == nil {
		return -1
	}
	return *v
}

// What a site's season is carried by, from the simplest machine to none. A
// machine carries a season if in moving air it makes CarriesFrom of the hours
// that need cooling comfortable; where none does, the best may still do so in
// PartFrom. The bounds are this program's own, no source.
const (
	CarriesFrom = 0.95
	PartFrom    = 0.80
)

// Carriers are the values of Site.Carrier.
var Carriers = [...]string{"direct", "indirect", "two-stage", "in part", "poorly", "no need"}

// Carrier says which of Carriers the site is.
func (s Site) Carrier() string {
	best := -1.0
	for k, r := range s {
		if r.MovingAir == nil {
			return Carriers[5]
		}
		if *r.MovingAir >= CarriesFrom {
			return Carriers[k]
		}
		best = max(best, *r.MovingAir)
	}
	if best >= PartFrom {
		return Carriers[3]
	}
	return Carriers[4]
}
