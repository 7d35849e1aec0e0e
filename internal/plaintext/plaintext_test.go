package plaintext

import (
	"encoding/binary"
	"strings"
	"testing"
	"unicode/utf16"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestUTF8(t *testing.T) {
	long := strings.Repeat("time,temperature_c\n", 4)
	wide := func(order binary.AppendByteOrder, text string) string {
		var b []byte
		for _, u := range utf16.Encode([]rune(text)) {
			b = order.AppendUint16(b, u)
		}
		return string(b)
	}
	for name, c := range map[string]struct {
		raw, text string
		guessed   bool
	}{
		"UTF-8":                 {"Café", "Café", false},
		"UTF-8 with a mark":     {"\ufeffCafé", "Café", false},
		"Windows-1252":          {"Caf\xe9 \x80", "Café €", true},
		"UTF-16, little":        {wide(binary.LittleEndian, "\ufeffCafé"), "Café", false},
		"UTF-16, big":           {wide(binary.BigEndian, "\ufeffCafé"), "Café", false},
		"UTF-16, little, plain": {wide(binary.LittleEndian, long), long, false},
		"UTF-16, big, plain":    {wide(binary.BigEndian, long), long, false},
		"nothing":               {"", "", false},
	} {
		text, guessed, err := UTF8([]byte(c.raw))
		require.NoError(t, err, name)
		assert.Equal(t, c.text, string(text), name)
		assert.Equal(t, c.guessed, guessed, name)
	}
}
