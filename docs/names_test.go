package docs

import (
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// namesOnly tells commands of make and go, which are looked up and not run: they
// build, test and serve, and have tests of their own.
func namesOnly(text string) bool {
	return strings.HasPrefix(text, "make ") || strings.HasPrefix(text, "go ") && !strings.HasPrefix(text, "go run ./cmd/evapbook ")
}

// lookUp demands that what a command of make or go names is there: the target,
// the package, the test or benchmark.
func lookUp(t *testing.T, text, where string) {
	words := strings.Fields(strings.Split(text, "#")[0])
	if words[0] == "make" {
		makefile, err := os.ReadFile(filepath.Join(root, "Makefile"))
		require.NoError(t, err)
		assert.Contains(t, "\n"+string(makefile), "\n"+words[1]+":", "%s: no such target", where)
		return
	}
	var folders []string
	pattern := ""
	for i, w := range words {
		switch {
		case strings.HasPrefix(w, "./"):
			folders = append(folders, w)
		case (w == "-run" || w == "-bench") && !strings.Contains(words[i+1], "^$"):
			pattern = strings.Trim(strings.Split(words[i+1], "/")[0], "'")
		}
	}
	for _, f := range folders {
		if f = strings.TrimSuffix(f, "..."); pattern != "" && pattern != "." {
			found, err := exec.Command("grep", "-rlE", `^func (Test|Benchmark)\w*`+pattern, filepath.Join(root, f), "--include=*_test.go").Output()
			assert.NoError(t, err, "%s: no test or benchmark %s", where, pattern)
			assert.NotEmpty(t, found, where)
			continue
		}
		code, err := filepath.Glob(filepath.Join(root, f, "*.go"))
		require.NoError(t, err)
		assert.True(t, len(code) > 0 || f == "./", "%s: no package %s", where, f)
	}
}

// testExists demands a test by its package and name.
func testExists(t *testing.T, name, where string) {
	pkg, test, ok := strings.Cut(name, ".")
	require.True(t, ok, where)
	folders, err := filepath.Glob(filepath.Join(root, "internal", pkg))
	require.NoError(t, err)
	require.Len(t, folders, 1, "%s: no package %s", where, pkg)
	_, err = exec.Command("grep", "-rq", "^func "+test+"(", folders[0], "--include=*_test.go").Output()
	assert.NoError(t, err, "%s: no test %s", where, name)
}

var (
	inline = regexp.MustCompile("`((?:evapbook|make|go test|go run) [^`]+)`")
	option = regexp.MustCompile(`--[a-z][a-z-]*`)
)

// Commands within sentences: their flags, targets and tests are there. They are
// not run, for many have a word such as FILE in them.
func TestCommandsInSentences(t *testing.T) {
	help := map[string]string{}
	seen := 0
	for _, p := range pages(t) {
		for i, line := range p.prose() {
			for _, m := range inline.FindAllStringSubmatch(line, -1) {
				seen++
				where := p.name + ": " + m[1]
				words := strings.Fields(m[1])
				if namesOnly(m[1]) {
					lookUp(t, m[1], where)
					continue
				}
				if words[1] == "COMMAND" || words[0] == "go" || strings.HasPrefix(words[1], "-") {
					continue
				}
				if help[words[1]] == "" {
					out, err := exec.Command("evapbook", words[1], "--help").Output()
					require.NoError(t, err, "%s:%d: %s", p.name, i+1, m[1])
					help[words[1]] = string(out)
				}
				for _, o := range option.FindAllString(m[1], -1) {
					assert.Regexp(t, o+`\b`, help[words[1]], where)
				}
			}
		}
	}
	t.Logf("%d commands in sentences", seen)
	assert.GreaterOrEqual(t, seen, 40)
}
