package weather

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// docsName is what docs/weather.md calls a format where it is another name.
var docsName = map[string]string{"SAM CSV": "SAM CSV, NSRDB", "NSRDB": "SAM CSV, NSRDB", "CSV by headings": "any other CSV",
	"plain CSV": "plain CSV, our own", "NASA POWER": "NASA POWER hourly"}

// A format is whole when an example of it lies in testdata/weather and is read
// as that format, and when the table of docs/weather.md has a line for it.
func TestEveryFormatHasExampleAndDocs(t *testing.T) {
	examples, err := filepath.Glob(filepath.Join(inventedFolder, "invented-*"))
	require.NoError(t, err)
	read := map[string]string{}
	for _, path := range examples {
		s, err := readText(inventedText(t, filepath.Base(path)), zoneSeven)
		require.NoError(t, err, path)
		read[s.Source.Format] = path
	}
	docs, err := os.ReadFile("../../docs/weather.md")
	require.NoError(t, err)
	for _, f := range formats {
		assert.NotEmpty(t, read[f.name], "format %s has no example: put a few invented rows into testdata/weather/invented-*", f.name)
		name := f.name
		if n, ok := docsName[name]; ok {
			name = n
		}
		assert.True(t, strings.Contains(string(docs), "\n| "+name), "format %s has no line in the table of docs/weather.md", f.name)
		assert.NotEmpty(t, f.by, "format %s does not say what it is known by", f.name)
	}
}
