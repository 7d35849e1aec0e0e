package hint_test

import (
	"errors"
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/internal/hint"
)

var errPlain = errors.New("5280 has no unit")

func TestWithKeepsTheTextAndTheError(t *testing.T) {
	err := fmt.Errorf("site.altitude: %w", hint.With(errPlain, "write %s or %s", "5280ft", "5280m"))
	assert.EqualError(t, err, "site.altitude: 5280 has no unit")
	assert.ErrorIs(t, err, errPlain)
	var h *hint.Error
	require.ErrorAs(t, err, &h)
	assert.Equal(t, "write 5280ft or 5280m", h.Hint)
	assert.Equal(t, "site.altitude: 5280 has no unit\nhint: write 5280ft or 5280m", hint.Text(err))
	assert.Equal(t, "site.altitude: 5280 has no unit; hint: write 5280ft or 5280m", hint.OneLine(err))
}

// The inner hint is the nearer one to what went wrong.
func TestOfInnerFirst(t *testing.T) {
	err := hint.With(fmt.Errorf("b: %w", hint.With(errPlain, "inner")), "outer")
	assert.Equal(t, []string{"inner", "outer"}, hint.Of(err))
	assert.Empty(t, hint.Of(errPlain))
	assert.Equal(t, "5280 has no unit", hint.Text(errPlain))
}

type marked struct{ error }

func (m marked) Unwrap() error { return m.error }

func TestTextOfJoined(t *testing.T) {
	a, b := hint.With(errors.New("a"), "do a"), hint.With(errors.New("b"), "do b")
	want := "a\nhint: do a\nb\nhint: do b\nplain"
	joined := errors.Join(a, errors.Join(b, errPlain))
	assert.Equal(t, "a\nhint: do a\nb\nhint: do b\n5280 has no unit", hint.Text(joined))
	assert.Equal(t, want, hint.Text(marked{errors.Join(a, b, errors.New("plain"))}), "through a wrapping without words")
	assert.Equal(t, "x: a\nb\nhint: do a\nhint: do b", hint.Text(fmt.Errorf("x: %w", errors.Join(a, b))), "words around joined errors belong to all of them")
}

func TestSharedHintsStandOnce(t *testing.T) {
	with := func(text, advice string) error { return hint.With(errors.New(text), "%s", advice) }
	assert.Equal(t, "a\nb\nhint: x\nc\nhint: y\nd", hint.Text(errors.Join(with("a", "x"), with("b", "x"), with("c", "y"), errors.New("d"))))
}

// An error type of another package that knows a hint is enough.
type foreign struct{}

func (foreign) Error() string  { return "flaw" }
func (foreign) Advice() string { return "mend it" }

func TestOfForeign(t *testing.T) {
	assert.Equal(t, "x: flaw\nhint: mend it", hint.Text(fmt.Errorf("x: %w", foreign{})))
}
