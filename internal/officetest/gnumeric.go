package officetest

import (
	"context"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"sort"
	"strings"
)

// Gnumeric opens the workbook in Gnumeric, has it work out every formula
// afresh and gives the results. The error is [ErrNotInstalled] (wrapped) where
// ssconvert is missing.
func Gnumeric(path string) (Results, error) {
	if err := Installed(GnumericConvert); err != nil {
		return nil, err
	}
	folder, err := os.MkdirTemp("", "gnumeric-")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(folder)
	out := filepath.Join(folder, "recalculated.xlsx")
	ctx, cancel := context.WithTimeout(context.Background(), RequestTimeout)
	defer cancel()
	c := exec.CommandContext(ctx, "ssconvert", "--recalc", "--export-type=Gnumeric_Excel:xlsx2", path, out)
	c.Env = append(os.Environ(), "HOME="+folder, "LC_ALL=C.UTF-8")
	if text, err := c.CombinedOutput(); err != nil {
		return nil, fmt.Errorf("officetest: ssconvert %s: %w: %s", path, err, text)
	}
	b, err := ReadBook(out)
	if err != nil {
		return nil, err
	}
	return b.Formulas(), nil
}

// CheckGnumeric is [Session.Check] with Gnumeric in place of LibreOffice.
func CheckGnumeric(path string, t Tolerance) (*Report, error) {
	b, err := ReadBook(path)
	if err != nil {
		return nil, err
	}
	results, err := Gnumeric(path)
	if err != nil {
		return nil, err
	}
	return Compare(b, "Gnumeric", results, t), nil
}

// LackingFunctions are the functions in the formulas that the program did not
// know: those in formulas that gave #NAME? and in none that gave anything else.
func LackingFunctions(b *Book, results Results) []string {
	lacking := callsWhere(b, results, func(v any) bool { return v == CellError("#NAME?") })
	if len(lacking) == 0 {
		return nil
	}
	known := callsWhere(b, results, func(v any) bool { return v != CellError("#NAME?") })
	var out []string
	for f := range lacking {
		if !known[f] {
			out = append(out, f)
		}
	}
	sort.Strings(out)
	return out
}

// callsWhere gives the functions called by the formulas with a wanted result.
func callsWhere(b *Book, results Results, wanted func(any) bool) map[string]bool {
	out := map[string]bool{}
	for _, s := range b.Sheets {
		for i := range s.Cells {
			c := &s.Cells[i]
			if c.Formula == "" || !wanted(results[s.Name][c.Ref]) {
				continue
			}
			for _, f := range functions(c.Formula) {
				out[f] = true
			}
		}
	}
	return out
}

var (
	call  = regexp.MustCompile(`[A-Za-z_][A-Za-z0-9_.]*\(`)
	texts = regexp.MustCompile(`"[^"]*"`)
)

// functions gives the functions a formula calls.
func functions(formula string) []string {
	var out []string
	for _, f := range call.FindAllString(texts.ReplaceAllString(formula, ""), -1) {
		out = append(out, strings.TrimSuffix(f, "("))
	}
	return out
}
