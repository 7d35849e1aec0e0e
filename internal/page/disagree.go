package page

import (
	"strings"

	"github.com/evapbook/evapbook/internal/job"
)

// disagreements takes apart what is said of inputs that do not go together: of
// several joined errors each begins with the key it is about.
func disagreements(err error) []Problem {
	if joined, ok := err.(interface{ Unwrap() []error }); ok {
		var all []Problem
		for _, e := range joined.Unwrap() {
			all = append(all, disagreements(e)...)
		}
		return all
	}
	p := problem("", err)
	if key, text, _ := strings.Cut(p.Text, ": "); text != "" {
		if _, known := job.Find(key); known {
			p.Key, p.Text = key, text
		}
	}
	return []Problem{p}
}
