package places

import "strings"

// stationForms are the short forms in the names of stations.
var stationForms = map[string]string{
	"ap": "airport", "arpt": "airport", "intl": "international", "int": "international", "internat": "international", "muni": "municipal", "mun": "municipal", "municipa": "municipal",
	"rgnl": "regional", "reg": "regional", "regl": "regional", "co": "county", "cnty": "county", "fld": "field", "mem": "memorial",
}

// stationKey is a station's name as people write it, what stands in brackets
// left off.
func stationKey(name []string) string {
	out := make([]string, len(name))
	for i, w := range name {
		if long, ok := stationForms[w]; ok {
			w = long
		}
		if long, ok := shortForms[w]; ok {
			w = long
		}
		out[i] = w
	}
	return strings.Join(out, " ")
}

func bare(s *Station) []string {
	name, _, _ := strings.Cut(s.Name, "[")
	return words(name)
}

// stationOf is the station a query names: its whole name, else the first whose
// name begins with the words.
func stationOf(q query) *Station {
	k := stationKey(q.name)
	var begins *Station
	all := catalogue()
	for i := range all {
		s := &all[i]
		if q.state != "" && q.state != s.State {
			continue
		}
		name := stationKey(bare(s))
		if name == k || stationKey(words(s.Name)) == k {
			return s
		}
		if begins == nil && strings.HasPrefix(name+" ", k+" ") {
			begins = s
		}
	}
	return begins
}
