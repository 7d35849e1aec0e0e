package pagetest

import (
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/internal/officetest"
)

const site = "../../internal/page/site"

// The modules of the page keep to the types their comments state.
func TestTypes(t *testing.T) {
	officetest.Require(t, officetest.NodePageTools)
	for _, part := range []string{"page", "worker", "sw"} {
		out, err := exec.Command("node", "node_modules/typescript/bin/tsc", "-p", "tsconfig."+part+".json").CombinedOutput()
		require.NoError(t, err, "%s\n%s", part, out)
	}
}

// The page names no other host, but in words and in the name of SVG.
func TestNamesNoOtherHost(t *testing.T) {
	files, err := filepath.Glob(site + "/*")
	require.NoError(t, err)
	require.Greater(t, len(files), 10)
	address := regexp.MustCompile(`(https?:)?//[a-z0-9.-]+\.[a-z]+[^\s"']*`)
	for _, f := range files {
		text, err := os.ReadFile(f)
		require.NoError(t, err)
		for _, found := range address.FindAllString(string(text), -1) {
			assert.Equal(t, "http://www.w3.org/2000/svg", found, f)
		}
	}
}
