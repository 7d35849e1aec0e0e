package job

import (
	"fmt"
	"strings"

	"github.com/evapbook/evapbook/internal/hint"
)

// longestKey is the longest text compared with the keys: a typing mistake does
// not double a key's length.
const longestKey = 60

// unknownKey says that no input has the key and which one may be meant.
func unknownKey(key string) error {
	advice := "evapbook job prints every input"
	if near := nearest(key); near != "" {
		advice = "did you mean " + near + "?"
	}
	return hint.With(fmt.Errorf("no input is called %q", key), "%s", advice)
}

// nearest is the key most like the one given, or empty where none is near.
// The part after the point counts alone too: setpoint finds house.setpoint.
func nearest(key string) string {
	key = strings.NewReplacer("-", "_", " ", "_").Replace(strings.ToLower(strings.TrimSpace(key)))
	if len(key) > longestKey {
		return ""
	}
	name := key[strings.LastIndex(key, ".")+1:]
	best, found := len(name)/3+1, ""
	for _, in := range inputs {
		d := min(distance(key, in.Key), distance(name, in.Name()))
		if d < best {
			best, found = d, in.Key
		}
	}
	return found
}

// distance is the number of single-letter changes, including a swap of two
// neighbours, that turn a into b (optimal string alignment).
func distance(a, b string) int {
	before, last, row := make([]int, len(b)+1), make([]int, len(b)+1), make([]int, len(b)+1)
	for j := range last {
		last[j] = j
	}
	for i := 1; i <= len(a); i++ {
		row[0] = i
		for j := 1; j <= len(b); j++ {
			change := 1
			if a[i-1] == b[j-1] {
				change = 0
			}
			row[j] = min(last[j]+1, row[j-1]+1, last[j-1]+change)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
		before, last, row = last, row, before
	}
	return last[len(b)]
}
