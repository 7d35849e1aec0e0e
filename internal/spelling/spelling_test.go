package spelling

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestDistance(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want int
	}{
		{"", "", 0}, {"", "abc", 3}, {"bend", "bend", 0}, {"bned", "bend", 1}, {"albuquerque", "albuqerque", 1}, {"reno", "roni", 2}, {"kitten", "sitting", 3},
	} {
		assert.Equal(t, c.want, Distance(c.a, c.b), "%s %s", c.a, c.b)
		assert.Equal(t, c.want, Distance(c.b, c.a), "%s %s", c.b, c.a)
	}
}
