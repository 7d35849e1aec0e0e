package job

import (
	"fmt"
	"strings"

	"github.com/evapbook/evapbook/internal/hint"
	"github.com/evapbook/evapbook/internal/spelling"
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
		d := min(spelling.Distance(key, in.Key), spelling.Distance(name, in.Name()))
		if d < best {
			best, found = d, in.Key
		}
	}
	return found
}
