package weather

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// Every kind has a sentence, in which every word in braces is filled in.
func TestEveryNoteHasItsSentence(t *testing.T) {
	for k := NoteKind(1); k < noteKinds; k++ {
		text := Note{Kind: k, Of: "dry bulb", Other: "other", Count: 3, Want: 5, Places: []Place{{}}}.Text()
		assert.NotEmpty(t, text, "kind %d", k)
		assert.NotContains(t, text, "{", "kind %d", k)
		assert.False(t, strings.HasSuffix(text, "."), "kind %d", k)
	}
}

func TestWithLeavesTheSeriesAsItIs(t *testing.T) {
	s := &Series{Notes: make([]Note, 1, 8)}
	a, b := s.With(Note{Kind: NoteOnlyYear}), s.With(Note{Kind: NoteSorted})
	assert.Len(t, s.Notes, 1)
	assert.Equal(t, NoteOnlyYear, a.Notes[1].Kind)
	assert.Equal(t, NoteSorted, b.Notes[1].Kind)
}
