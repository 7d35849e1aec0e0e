package main

import (
	"fmt"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"github.com/evapbook/evapbook/internal/officetest"
)

func TestPictures(t *testing.T) {
	officetest.Require(t, officetest.LibreOffice, officetest.Poppler)
	folder := t.TempDir()
	f := excelize.NewFile()
	defer f.Close()
	require.NoError(t, f.SetCellValue("Sheet1", "A1", "front"))
	_, err := f.NewSheet("Long")
	require.NoError(t, err)
	for row := 1; row <= 200; row += 10 { // LibreOffice prints no empty pages
		require.NoError(t, f.SetCellValue("Long", fmt.Sprintf("A%d", row), row))
	}
	book := filepath.Join(folder, "book.xlsx")
	require.NoError(t, f.SaveAs(book))

	o := options{book: book, out: filepath.Join(folder, "all"), keep: []string{"Long"},
		to: filepath.Join(folder, "kept"), pages: 1, dpi: 40}
	var out strings.Builder
	require.NoError(t, run(o, &out))
	assert.Regexp(t, `Sheet1 +1 pages  01-Sheet1-1\.png \d+ kB\nLong +[2-9] pages  02-Long-1\.png`, out.String())
	for _, path := range []string{"all/01-Sheet1-1.png", "all/02-Long-1.png", "kept/Long.png"} {
		assertPicture(t, filepath.Join(folder, path))
	}
	assert.NoFileExists(t, filepath.Join(folder, "kept/Sheet1.png"))

	o.keep = []string{"Nowhere"}
	assert.EqualError(t, run(o, &out), `no sheet "Nowhere"; the sheets are Sheet1, Long`)
}

// assertPicture fails on a file that is no picture, or one of a single colour.
func assertPicture(t *testing.T, path string) {
	t.Helper()
	f, err := os.Open(path)
	require.NoError(t, err)
	defer f.Close()
	img, err := png.Decode(f)
	require.NoError(t, err)
	colours := map[any]bool{}
	for x := range img.Bounds().Dx() {
		for y := range img.Bounds().Dy() {
			colours[img.At(x, y)] = true
		}
	}
	assert.Greater(t, len(colours), 1, path)
}
