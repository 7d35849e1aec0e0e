package pagetest

import (
	"bytes"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/internal/cli"
	"github.com/evapbook/evapbook/internal/officetest"
)

// command runs the command and gives what it prints.
func command(t *testing.T, args ...string) []byte {
	t.Helper()
	var out, complaints bytes.Buffer
	require.Zero(t, cli.Run(args, strings.NewReader(""), &out, &complaints), "%v: %s", args, complaints.String())
	return out.Bytes()
}

// figures are the numbers and words of a JSON object by path.
func figures(t testing.TB, text []byte) map[string]any {
	t.Helper()
	var root map[string]any
	require.NoError(t, json.Unmarshal(text, &root))
	all := map[string]any{}
	var walk func(path string, v any)
	walk = func(path string, v any) {
		if m, ok := v.(map[string]any); ok {
			for k, each := range m {
				walk(path+"."+k, each)
			}
			return
		}
		all[path] = v
	}
	walk("", root)
	return all
}

// same compares figure by figure. The browser's processor may round an
// exponential otherwise than this one, so numbers need agree to 1e-9 only, the
// limit of all our comparisons.
func same(t *testing.T, want, got map[string]any) {
	t.Helper()
	require.Greater(t, len(want), 60)
	assert.Len(t, got, len(want))
	for path, w := range want {
		x, number := w.(float64)
		if !number {
			assert.Equal(t, w, got[path], path)
			continue
		}
		y, ok := got[path].(float64)
		if assert.True(t, ok, path) {
			assert.LessOrEqual(t, math.Abs(x-y), 1e-9*max(1e-3, math.Abs(x)), "%s: %v, page %v", path, x, y)
		}
	}
}

// figuresShown are the figures of the answer on the page.
func (b *tab) figuresShown() map[string]any {
	return figures(b.TB, []byte(value[string](b, `JSON.stringify(window.lastAnswer.figures)`)))
}

// A person takes the sample, changes three inputs and gets the workbook: the
// figures on the page and the cells of the book are those of the command for the
// same inputs, and meanwhile the page answers.
func TestAnswerAndWorkbook(t *testing.T) {
	b := open(t, 1280, 900, "")
	value[bool](b, `(document.getElementById("elsewhere").open = true)`)
	b.run(chromedp.Click(chromedp.CSS("#sample")))
	b.answered()
	b.enter("in-house.floor_area", "1,500")
	b.enter("in-cooler.kind", "two-stage")
	b.enter("in-price.electricity", "0.21")
	b.answered()
	inputs := []string{"--set", "house.floor_area=1500ft2", "--set", "cooler.kind=two-stage", "--set", "price.electricity=0.21"}
	book := filepath.Join(t.TempDir(), "command.xlsx")
	want := figures(t, command(t, append([]string{"write", "--json", "--quiet", "--units", "ip", "-o", book}, inputs...)...))
	same(t, want, b.figuresShown())

	began := time.Now()
	value[bool](b, `(document.getElementById("get-book").click(), true)`)
	b.enter("in-house.setpoint", "80")
	b.answered() // while the workbook is being written
	beside := time.Since(began)
	file := b.download(value[string](b, `window.lastAnswer.file`) + ".xlsx")
	t.Logf("answered beside it after %v, workbook of %d bytes after %v", beside, len(file), time.Since(began))
	sameBook(t, book, file)
	assert.Empty(t, b.complaints())
}

// sameBook compares all cells of two books; their bytes, where they are the
// same, say it at once.
func sameBook(t *testing.T, command string, file []byte) {
	t.Helper()
	text, err := os.ReadFile(command)
	require.NoError(t, err)
	if bytes.Equal(text, file) {
		t.Log("the same bytes")
		return
	}
	path := filepath.Join(t.TempDir(), "page.xlsx")
	require.NoError(t, os.WriteFile(path, file, 0o644))
	want, err := officetest.ReadBook(command)
	require.NoError(t, err)
	got, err := officetest.ReadBook(path)
	require.NoError(t, err)
	report := officetest.Compare(want, "the page", got.Formulas(), officetest.DefaultTolerance)
	assert.Greater(t, report.Formulas(), 100_000)
	failures := report.Failures()
	require.Empty(t, failures[:min(5, len(failures))], "%d cells", len(failures))
	require.Len(t, got.Sheets, len(want.Sheets))
	for i, s := range want.Sheets {
		require.Equal(t, len(s.Cells), len(got.Sheets[i].Cells), s.Name)
		for k := range s.Cells {
			w, g := &s.Cells[k], &got.Sheets[i].Cells[k]
			if w.Ref != g.Ref || w.HasFormula != g.HasFormula || digits(w.Formula) != digits(g.Formula) || !w.HasFormula && !near(w.Value, g.Value) {
				require.Equal(t, w, g, s.Name)
			}
		}
	}
}

// digits is a formula with its constants to ten digits: some hold a figure that
// was computed at writing.
func digits(formula string) string {
	return longNumber.ReplaceAllStringFunc(formula, func(text string) string {
		v, _ := strconv.ParseFloat(text, 64)
		return strconv.FormatFloat(v, 'g', 10, 64)
	})
}

var longNumber = regexp.MustCompile(`\d+\.\d{9,}`)

func near(a, b any) bool {
	x, isX := a.(float64)
	y, isY := b.(float64)
	if !isX || !isY {
		return a == b
	}
	return math.Abs(x-y) <= 1e-9*max(1e-3, math.Abs(x))
}

// The job file the page gives is one the command takes, with the same figures.
func TestJobFile(t *testing.T) {
	b := open(t, 1280, 900, "#weather=sample&units=si&house.setpoint=25+°C&cooler.effectiveness=0.7")
	b.answered()
	b.run(chromedp.Click(chromedp.CSS("#get-job")))
	path := filepath.Join(t.TempDir(), "house.toml")
	require.NoError(t, os.WriteFile(path, b.download("house.toml"), 0o644))
	same(t, figures(t, command(t, "write", "--json", "--quiet", "--job", path, "-o", filepath.Join(t.TempDir(), "x.xlsx"))), b.figuresShown())
}
