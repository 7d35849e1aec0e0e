package cli

import (
	"bytes"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/data/sample"
)

// A window of its own waits until it was read, after an error too; one that
// stays open does not.
func TestOwnWindowWaits(t *testing.T) {
	before := ownWindow
	defer func() { ownWindow = before }()
	for _, own := range []bool{true, false} {
		ownWindow = func() bool { return own }
		var out, errs bytes.Buffer
		status := Run([]string{"inspect", "nothing-here.csv"}, strings.NewReader("\n"), &out, &errs)
		assert.Equal(t, exitFailed, status)
		assert.Equal(t, own, strings.HasSuffix(errs.String(), "Press Enter to close this window. "), errs.String())
	}
}

// Piped, nothing is asked.
func TestNothingIsAskedOfAPipe(t *testing.T) {
	var out, errs bytes.Buffer
	assert.Equal(t, exitDone, Run(nil, strings.NewReader("Reno\n"), &out, &errs))
	assert.Contains(t, out.String(), "Usage:")
	assert.NotContains(t, out.String(), "Town and state")
}

// The workbook of a dropped file stands beside it, whatever folder the program
// works in, and the next drop replaces nothing.
func TestWorkbookOfADroppedFileStandsBesideIt(t *testing.T) {
	before := ownWindow
	defer func() { ownWindow = before }()
	ownWindow = func() bool { return true }
	folder := t.TempDir()
	weather := filepath.Join(folder, "My weather.csv")
	r, _ := sample.Open()
	data, err := io.ReadAll(r)
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(weather, data, 0o644))
	for _, book := range []string{"my-weather.xlsx", "my-weather-2.xlsx"} {
		var out, errs bytes.Buffer
		require.Equal(t, exitDone, Run([]string{weather}, strings.NewReader("\n"), &out, &errs), errs.String())
		assert.FileExists(t, filepath.Join(folder, book))
		assert.Contains(t, out.String(), "Workbook: "+filepath.Join(folder, book))
	}

	ownWindow = func() bool { return false }
	assert.Equal(t, []string{weather}, besideDropped([]string{weather}), "typed, it goes to this folder")
	ownWindow = func() bool { return true }
	stated := []string{weather, "-o", "x.xlsx"}
	assert.Equal(t, stated, besideDropped(stated))
}
