package places

import "strings"

// states are the names of the states by their two letters.
var states = map[string]string{
	"AL": "alabama", "AK": "alaska", "AZ": "arizona", "AR": "arkansas", "CA": "california", "CO": "colorado", "CT": "connecticut",
	"DE": "delaware", "DC": "district of columbia", "FL": "florida", "GA": "georgia", "HI": "hawaii", "ID": "idaho", "IL": "illinois",
	"IN": "indiana", "IA": "iowa", "KS": "kansas", "KY": "kentucky", "LA": "louisiana", "ME": "maine", "MD": "maryland",
	"MA": "massachusetts", "MI": "michigan", "MN": "minnesota", "MS": "mississippi", "MO": "missouri", "MT": "montana",
	"NE": "nebraska", "NV": "nevada", "NH": "new hampshire", "NJ": "new jersey", "NM": "new mexico", "NY": "new york",
	"NC": "north carolina", "ND": "north dakota", "OH": "ohio", "OK": "oklahoma", "OR": "oregon", "PA": "pennsylvania",
	"RI": "rhode island", "SC": "south carolina", "SD": "south dakota", "TN": "tennessee", "TX": "texas", "UT": "utah",
	"VT": "vermont", "VA": "virginia", "WA": "washington", "WV": "west virginia", "WI": "wisconsin", "WY": "wyoming",
}

// stateWords are the ways to write a state, as words: letters, name, and the
// older short forms.
var stateWords = func() map[string]string {
	m := map[string]string{
		"ariz": "AZ", "calif": "CA", "colo": "CO", "n mex": "NM", "n m": "NM", "nev": "NV", "ore": "OR", "oreg": "OR", "wash": "WA", "tex": "TX",
		"okla": "OK", "kans": "KS", "nebr": "NE", "mont": "MT", "wyo": "WY", "ida": "ID", "minn": "MN", "wis": "WI", "mich": "MI", "ill": "IL",
		"fla": "FL", "penn": "PA", "tenn": "TN", "mass": "MA", "n y": "NY", "n j": "NJ", "n c": "NC", "s c": "SC", "n d": "ND", "s d": "SD",
		"n dak": "ND", "s dak": "SD", "w va": "WV", "d c": "DC", "washington dc": "DC",
	}
	for letters, name := range states {
		m[strings.ToLower(letters)], m[name] = letters, letters
	}
	return m
}()

// StateOf reads a state: its two letters, its name or an older short form.
func StateOf(text string) (letters string, ok bool) {
	letters, ok = stateWords[strings.Join(words(text), " ")]
	return letters, ok
}

// splitState cuts the longest state off the end of some words; what is left is
// never empty.
func splitState(all []string) (name []string, state string) {
	for n := min(3, len(all)-1); n > 0; n-- {
		cut := len(all) - n
		if letters, ok := stateWords[strings.Join(all[cut:], " ")]; ok {
			return all[:cut], letters
		}
	}
	return all, ""
}
