package docs

import (
	"os"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// cells are those of a table's row, none of any other line.
func cells(line string) (found []string) {
	if !strings.HasPrefix(line, "| ") {
		return nil
	}
	for c := range strings.SplitSeq(strings.Trim(line, "|"), "|") {
		found = append(found, strings.TrimSpace(c))
	}
	return found
}

// Each row of howsure.md against measured homes is one of checks.md, which
// season.TestMeasuredHomes holds to the program.
func TestHowSureRowsAreThoseOfChecks(t *testing.T) {
	theirs := readPage(t, "docs/checks.md").lines
	rows := 0
	for _, line := range readPage(t, "docs/howsure.md").lines {
		c := cells(line)
		if len(c) != 4 || c[0] == "What" || strings.HasPrefix(c[0], "--") {
			continue
		}
		rows++
		found := false
		for _, other := range theirs {
			if o := cells(other); len(o) == 6 && strings.HasPrefix(o[1], c[1]) && o[3] == c[2] && o[4] == c[3] {
				found = true
			}
		}
		assert.True(t, found, "no row of checks.md says so: %s", line)
	}
	assert.GreaterOrEqual(t, rows, 20)
}

// What howsure.md calls common practice is called so where the inputs are declared.
func TestHowSureNamesInputsWithoutSource(t *testing.T) {
	text, err := os.ReadFile("howsure.md")
	require.NoError(t, err)
	_, section, ok := strings.Cut(string(text), "## Common practice, no source\n")
	require.True(t, ok)
	section, _, _ = strings.Cut(section, "\n## ")
	inputs, err := os.ReadFile("inputs.md")
	require.NoError(t, err)
	keys := regexp.MustCompile("`([a-z_.]+)`").FindAllStringSubmatch(section, -1)
	require.GreaterOrEqual(t, len(keys), 20)
	for _, k := range keys {
		assert.Regexp(t, "(?m)^\\| `"+regexp.QuoteMeta(k[1])+"` .*common practice, no source", string(inputs), k[1])
	}
}
