package main

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func changes(t *testing.T, area, source string) []string {
	t.Helper()
	fs, err := faultsIn(area, "x.go", []byte("package x\n\n"+source))
	require.NoError(t, err)
	var out []string
	for _, f := range fs {
		require.Equal(t, f.old, ("package x\n\n" + source)[f.offset:f.offset+len(f.old)], "offset")
		out = append(out, f.old+" "+f.new)
	}
	return out
}

func TestFaultsInCode(t *testing.T) {
	got := changes(t, "house", "func f(a, b float64) float64 {\n\tif a < b {\n\t\treturn min(a, -2.50*b)\n\t}\n\treturn 1e-9\n}\n")
	assert.ElementsMatch(t, []string{"< <=", "min max", "- ", "* /", "2.50 2.51"}, got)
}

func TestFaultsLeaveTextAndErrorsAlone(t *testing.T) {
	assert.Empty(t, changes(t, "house", "func f(s string) (int, error) { return 0, err }\n"))
	assert.Empty(t, changes(t, "house", "var s = \"1+2\" + name\n"))
	assert.Empty(t, changes(t, "house", "var b [12]int\n"))
}

func TestFaultsInFormulas(t *testing.T) {
	got := changes(t, "workbook", "var a = 1 + 2\nvar f = \"MAX(0,[t]-273.15)*B_ua_2\"\nvar s = \"the 2 hours of [t] are so\"\n")
	assert.ElementsMatch(t, []string{"MAX MIN", "0 1", "- +", "273.15 273.16", "* /"}, got)
}

// The sample of a seed is the same again, and every fault has a name of its own.
func TestSample(t *testing.T) {
	all, err := faults("../../internal")
	require.NoError(t, err)
	seen := map[string]bool{}
	for _, f := range all {
		require.False(t, seen[f.String()], f.String())
		seen[f.String()] = true
	}
	a, b := sample(all, 200, 1), sample(all, 200, 1)
	assert.Equal(t, a, b)
	assert.InDelta(t, 200, len(a), 5)
	assert.NotEqual(t, a, sample(all, 200, 2))
}

func TestEquivalentsHaveReasons(t *testing.T) {
	for f, reason := range equivalents() {
		assert.NotEmpty(t, strings.TrimSpace(reason), f)
	}
}
