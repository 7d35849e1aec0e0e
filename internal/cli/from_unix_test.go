//go:build unix

package cli

import (
	"os"
	"path/filepath"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A workbook cannot make us wait for a pipe or read a device without end: where
// its weather was there is a pipe, and nobody writes into it.
func TestWeatherOfAWorkbookIsAFile(t *testing.T) {
	folder := t.TempDir()
	weather, book := filepath.Join(folder, "w.csv"), filepath.Join(folder, "b.xlsx")
	townFile(t, weather)
	done(t, "write", "-q", "--allow-gaps", weather, "-o", book)
	require.NoError(t, os.Remove(weather))
	require.NoError(t, syscall.Mkfifo(weather, 0o600))
	status, _, errOut := command(t, "write", "-q", "--from", book, "-o", filepath.Join(folder, "c.xlsx"))
	assert.Equal(t, exitFailed, status)
	assert.Contains(t, errOut, "its weather file")
	assert.Contains(t, errOut, "was not found")

	_, err := hashFile("/dev/zero")
	assert.ErrorContains(t, err, "no file")
}
