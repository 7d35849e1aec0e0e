package page

import (
	"strings"

	"github.com/evapbook/evapbook/internal/job"
)

// disagreements takes apart what is said of inputs that do not go together: each
// begins with the key it is about, and hints stand on lines of their own.
func disagreements(err error) []Problem {
	var all []Problem
	for line := range strings.Lines(err.Error()) {
		line = strings.TrimSuffix(line, "\n")
		if hint, ok := strings.CutPrefix(line, "hint: "); ok && len(all) > 0 {
			all[len(all)-1].Hint = hint
			continue
		}
		key, text, _ := strings.Cut(line, ": ")
		if _, known := job.Find(key); !known {
			key, text = "", line
		}
		all = append(all, Problem{Key: key, Text: text})
	}
	for i := range all {
		if strings.Contains(all[i].Text, "altitude of the site is not known") {
			all[i].Key, all[i].Hint = "site.altitude", "state it under “The house”"
		}
	}
	return all
}
