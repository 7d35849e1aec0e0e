package xlsx

import (
	"archive/zip"
	"bytes"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"testing/iotest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// bomb is a zip archive of parts that repeat a text until they have n bytes.
func bomb(t *testing.T, parts, n int, text string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "bomb.xlsx")
	f, err := os.Create(path)
	require.NoError(t, err)
	defer f.Close()
	z := zip.NewWriter(f)
	block := []byte(strings.Repeat(text, 1+1<<16/len(text)))
	for i := range parts {
		w, err := z.Create(fmt.Sprintf("xl/worksheets/sheet%d.xml", i+1))
		require.NoError(t, err)
		for left := n; left > 0; left -= len(block) {
			_, err := w.Write(block[:min(len(block), left)])
			require.NoError(t, err)
		}
	}
	require.NoError(t, z.Close())
	return path
}

func TestWorkbooksThatUnpackIntoAFlood(t *testing.T) {
	var before, after runtime.MemStats
	for _, c := range []struct {
		parts, n  int
		text, say string
	}{
		{1, 300 << 20, "0", "more than 256 MB unpacked"},
		{30, 10 << 20, "0", "more than 256 MB unpacked"},
		{1, 4 << 20, "<row r=\"1\"/>", "more than 200000 rows"},
		{2001, 1, "0", "2001 parts, more than 2000"},
	} {
		path := bomb(t, c.parts, c.n, c.text)
		runtime.ReadMemStats(&before)
		_, err := OpenReader(path)
		runtime.ReadMemStats(&after)
		assert.ErrorContains(t, err, c.say)
		// What is thrown away in passing counts too, 64 kB at a time.
		assert.Less(t, after.HeapSys, uint64(1<<30), c.say)
	}
}

func TestRowsAreCountedAcrossWrites(t *testing.T) {
	c := &contentCount{}
	_, err := io.Copy(c, iotest.OneByteReader(bytes.NewReader([]byte("<row/><c/><row r=\"2\">"))))
	require.NoError(t, err)
	assert.Equal(t, 2, c.rows)
}
