package cli_test

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/internal/cli"
)

// docs/commands.md holds the help of every command; make docs writes it anew.
func TestCommandsPage(t *testing.T) {
	page, err := os.ReadFile("../../docs/commands.md")
	require.NoError(t, err)
	for _, verb := range []string{"", "calendar", "inspect", "job", "rank", "reading", "version", "write"} {
		args := []string{"--help"}
		if verb != "" {
			args = []string{verb, "--help"}
		}
		var out strings.Builder
		require.Zero(t, cli.Run(args, strings.NewReader(""), &out, os.Stderr))
		assert.True(t, strings.Contains(string(page), out.String()), "%q is out of date in docs/commands.md\nhint: make docs", verb)
	}
}
