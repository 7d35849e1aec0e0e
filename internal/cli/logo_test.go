package cli

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/jpeg"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/internal/hint"
)

func pngOf(t *testing.T, w, h int) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, png.Encode(&b, image.NewGray(image.Rect(0, 0, w, h))))
	return b.Bytes()
}

// claiming is a PNG whose header, with a right checksum, says another size.
func claiming(t *testing.T, w, h uint32) []byte {
	t.Helper()
	p := pngOf(t, 1, 1)
	binary.BigEndian.PutUint32(p[16:], w)
	binary.BigEndian.PutUint32(p[20:], h)
	binary.BigEndian.PutUint32(p[29:], crc32.ChecksumIEEE(p[12:29]))
	return p
}

func TestLogoIsDecodedBeforeItIsTaken(t *testing.T) {
	whole := pngOf(t, 300, 100)
	var j bytes.Buffer
	require.NoError(t, jpeg.Encode(&j, image.NewGray(image.Rect(0, 0, 60, 30)), nil))
	for _, c := range []struct {
		name string
		data []byte
		say  string // empty: taken
	}{
		{"PNG", whole, ""},
		{"JPEG", j.Bytes(), ""},
		{"truncated", whole[:len(whole)/2], "damaged"},
		{"33 bytes", whole[:33], "damaged"},
		{"truncated JPEG", j.Bytes()[:j.Len()/2], "damaged"},
		{"100,000 pixels", claiming(t, 100_000, 100_000), "100000 by 100000 pixels are too many"},
		{"empty", nil, "neither PNG nor JPEG"},
		{"text", []byte("<svg/>"), "neither PNG nor JPEG"},
		{"9 MB", append(bytes.Clone(whole), make([]byte, 9<<20)...), "larger than 8 MB"},
	} {
		t.Run(c.name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "logo.png")
			require.NoError(t, os.WriteFile(path, c.data, 0o644))
			var said strings.Builder
			data, err := readLogo(path, &said)
			assert.Empty(t, said.String())
			if c.say == "" {
				require.NoError(t, err)
				assert.Equal(t, c.data, data)
				return
			}
			assert.ErrorContains(t, err, c.say)
			assert.ErrorContains(t, err, path)
			assert.Len(t, hint.Of(err), 1)
		})
	}
}

// A file of 5 GB without content takes no room and must take no time.
func TestLogoOfFiveGigabytes(t *testing.T) {
	path := filepath.Join(t.TempDir(), "logo.png")
	f, err := os.Create(path)
	require.NoError(t, err)
	require.NoError(t, f.Truncate(5<<30))
	require.NoError(t, f.Close())
	_, err = readLogo(path, nil)
	assert.ErrorContains(t, err, "larger than 8 MB")
}
