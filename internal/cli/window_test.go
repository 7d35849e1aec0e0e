package cli

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
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
