package docs

import (
	"regexp"
	"strings"
	"testing"
	"unicode"

	"github.com/stretchr/testify/assert"
)

// cut stands for what a page leaves out: alone on a line for lines, at the end
// of a line for the rest of it.
const cut = "…"

// firstMissing is the first shown line that is not printed where it should be:
// lines follow each other as shown, but where the page cuts.
func firstMissing(shown, printed []string) string {
	switch reached := follows(shown, printed, 0); {
	case reached < len(shown):
		return shown[reached]
	case reached == len(shown):
		return "the end of the output, or " + cut
	}
	return ""
}

// follows is how many of the shown lines can be found in the printed ones, the
// first of them at next: one more than there are where nothing is left over either.
func follows(shown, printed []string, next int) int {
	for i, want := range shown {
		if want == cut {
			if i == len(shown)-1 {
				return len(shown) + 1
			}
			best := i + 1
			for from := next; from < len(printed); from++ {
				best = max(best, i+1+follows(shown[i+1:], printed, from))
			}
			return best
		}
		if next == len(printed) || !same(want, printed[next]) {
			return i
		}
		next++
	}
	if next < len(printed) {
		return len(shown)
	}
	return len(shown) + 1
}

// same compares a shown line with a printed one.
func same(shown, printed string) bool {
	if begin, isCut := strings.CutSuffix(shown, cut); isCut {
		return strings.HasPrefix(printed, begin)
	}
	return strings.TrimRight(shown, " ") == strings.TrimRight(printed, " ")
}

// mend puts printed lines in the place of shown ones: all where nothing is cut,
// else those that begin alike up to the first digit.
func (v *visit) mend(c command, printed []string) bool {
	mended := printed
	if strings.Contains(strings.Join(c.shown, "\n"), cut) {
		mended = append([]string(nil), c.shown...)
		next := 0
		for i, want := range mended {
			for k := next; want != cut && k < len(printed); k++ {
				if same(want, printed[k]) || label(want) == label(printed[k]) {
					if !same(want, printed[k]) {
						mended[i] = printed[k]
					}
					next = k + 1
					break
				}
			}
		}
	} else if len(mended) != len(c.shown) {
		v.Errorf("%s:%d: %d lines are printed, %d shown: mend it by hand\n%s", v.page.name, c.line, len(printed), len(c.shown), strings.Join(printed, "\n"))
		return false
	}
	copy(v.page.lines[c.line:], mended)
	return true
}

func label(line string) string {
	if i := strings.IndexFunc(line, unicode.IsDigit); i >= 0 {
		return line[:i]
	}
	return line
}

var (
	figure = regexp.MustCompile(`\d[\d,.]*\d`)
	inText = regexp.MustCompile(`(?:^|[^\w.-])(\d[\d,.]*\d)`) // not amd64, Apache-2.0
	quoted = regexp.MustCompile("`[^`]*`|\\]\\([^)]*\\)")
)

// figuresStand demands of a tutorial that every figure of two digits or more in
// its sentences was typed, saved or printed on the way. A figure from elsewhere
// stands on the page named in a comment: <!-- figures of docs/checks.md -->.
func (v *visit) figuresStand() {
	said := v.said.String()
	for _, line := range v.page.lines {
		if m := comment.FindStringSubmatch(line); m != nil {
			if other, ok := strings.CutPrefix(m[1], "figures of "); ok {
				said += strings.Join(readPage(v.T, other).lines, "\n")
			}
		}
	}
	known := map[string]bool{}
	for _, f := range figure.FindAllString(said, -1) {
		known[f] = true
	}
	for i, line := range v.page.prose() {
		for _, f := range inText.FindAllStringSubmatch(quoted.ReplaceAllString(line, ""), -1) {
			assert.True(v, known[f[1]], "%s:%d: where does %s come from? It was neither typed nor printed on this page", v.page.name, i+1, f[1])
		}
	}
}

// The comparison itself: cuts, order, ends.
func TestShown(t *testing.T) {
	printed := []string{"a 1", "b 2", "c 3 and more", "d"}
	assert.Empty(t, firstMissing([]string{cut, "", "d"}, []string{"a", "", "b", "", "d"}))
	for _, shown := range [][]string{printed, {"a 1", cut}, {cut, "d"}, {"a 1", cut, "c 3" + cut, "d"}, {cut, "b 2", cut}, {cut, "c" + cut, "d"}} {
		assert.Empty(t, firstMissing(shown, printed), shown)
	}
	for _, shown := range [][]string{{"a 1"}, {cut, "d", "a 1"}, {"b 2", cut}, {"a 1", cut, "c 3", cut}, {cut, "e", cut}, {"a 1", "c 3" + cut, "d"}} {
		assert.NotEmpty(t, firstMissing(shown, printed), shown)
	}
}
