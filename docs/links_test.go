package docs

import (
	"os"
	"path"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"unicode"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var (
	link    = regexp.MustCompile(`\]\(([^)\s]+)\)`)
	heading = regexp.MustCompile(`^#+ (.*)$`)
)

const largest = 150 << 10 // bytes of a picture

// Every link and anchor leads somewhere, every page is led to, and pictures are light.
func TestLinks(t *testing.T) {
	shown, seen := map[string]bool{}, 0
	for _, p := range pages(t) {
		for _, line := range p.prose() {
			for _, m := range link.FindAllStringSubmatch(line, -1) {
				if strings.HasPrefix(m[1], "https://") {
					continue
				}
				seen++
				name, anchor, _ := strings.Cut(m[1], "#")
				target := p.name
				if name != "" {
					target = path.Join(path.Dir(p.name), name)
				}
				shown[target] = true
				info, err := os.Stat(filepath.Join(root, target))
				if !assert.NoError(t, err, "%s: %s", p.name, m[1]) {
					continue
				}
				if strings.HasSuffix(target, ".png") {
					assert.LessOrEqual(t, info.Size(), int64(largest), target)
				}
				if anchor != "" {
					assert.Contains(t, anchors(t, target), anchor, "%s: %s", p.name, m[1])
				}
			}
		}
	}
	pictures, err := filepath.Glob("pictures/*.png")
	require.NoError(t, err)
	for _, name := range pictures {
		if !shown["docs/"+name] {
			t.Logf("%s is on no page", name)
		}
	}
	for _, p := range pages(t) {
		if p.name != "README.md" && p.name != "DEVELOPERS.md" {
			assert.True(t, shown[p.name], "no page leads to %s", p.name)
		}
	}
	t.Logf("%d links, %d pictures", seen, len(pictures))
	assert.GreaterOrEqual(t, seen, 60)
}

// anchors are those that a page's headings get: small letters, digits, hyphens
// for blanks, nothing else.
func anchors(t *testing.T, name string) (found []string) {
	for _, line := range readPage(t, name).lines {
		if m := heading.FindStringSubmatch(line); m != nil {
			found = append(found, strings.Map(func(r rune) rune {
				switch {
				case r == ' ':
					return '-'
				case unicode.IsLetter(r), unicode.IsDigit(r), r == '-', r == '_':
					return unicode.ToLower(r)
				}
				return -1
			}, m[1]))
		}
	}
	return found
}
