package places

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestBeginning(t *testing.T) {
	for _, x := range []struct{ typed, want string }{
		{"alb", "Albuquerque, NM"}, {"ALBUQ", "Albuquerque, NM"}, {"bend", "Bend, OR"}, {"aurora, il", "Aurora, IL"}, {"st. geo", "Saint George, UT"}, {"reno, n", "Reno, NV"},
	} {
		found := Beginning(x.typed, 8)
		if assert.NotEmpty(t, found, x.typed) {
			assert.Equal(t, x.want, found[0].Full(), x.typed)
		}
	}
	assert.Len(t, Beginning("s", 8), 8)
	assert.Empty(t, Beginning(" ", 8))
	assert.Empty(t, Beginning("reno, tx x", 8))
}
