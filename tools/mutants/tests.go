package main

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"time"
)

type verdict string

const (
	caught   verdict = "caught"
	same     verdict = "equivalent"
	survived verdict = "survived"
	unbuilt  verdict = "no program" // what the fault left does not compile
)

type outcome struct {
	verdict verdict
	by      string // the package whose tests saw it, and whether by not ending
}

// slow packages hold no quick test of the calculation: they drive an office
// program or the whole command.
var slow = []string{"internal/cli", "internal/officetest", "internal/readback", "cmd/evapbook"}

// independent compares with a second program; only its tests import the rest.
const independent = "tools/independent"

// formulas holds the proofs of all formula text below it. The first of them sees
// most faults, in seconds, and is tried alone before the others.
const (
	formulas   = "internal/workbook"
	firstProof = "^TestFormulasAsWritten$"
)

// perPackage bounds one package's tests; a fault may make a loop endless. A busy
// machine does not reach it, for then every fault would count as caught.
const perPackage = 10 * time.Minute

// tests knows which tests a change of a package concerns.
type tests struct {
	ownOnly    bool                // only the tests of the changed package itself
	folder     string              // for changed files
	dependents map[string][]string // by package folder: itself first, then what is built on it
}

func newTests(ownOnly bool) (*tests, error) {
	out, err := exec.Command("go", "list", "-f", `{{.Module.Path}} {{.ImportPath}} {{join .Deps " "}} {{join .TestImports " "}} {{join .XTestImports " "}}`, "./...").Output()
	if err != nil {
		return nil, fmt.Errorf("go list: %w", err)
	}
	t := &tests{ownOnly: ownOnly, dependents: map[string][]string{}}
	var all []string
	for line := range strings.Lines(string(out)) {
		words := strings.Fields(line)
		own := func(s string) string { return strings.TrimPrefix(s, words[0]+"/") }
		p := own(words[1])
		if slices.Contains(slow, p) || p != independent && !strings.HasPrefix(p, "internal/") {
			continue
		}
		all = append(all, p)
		for _, d := range words[2:] {
			if d = own(d); d != p && p != independent && strings.HasPrefix(d, "internal/") && !slices.Contains(t.dependents[d], p) {
				t.dependents[d] = append(t.dependents[d], p)
			}
		}
	}
	for _, p := range all {
		near := t.dependents[p]
		if !strings.HasPrefix(p, formulas) { // which the second program knows nothing of
			near = append(near, independent)
		}
		slices.SortStableFunc(near, func(a, b string) int { return nearness(a) - nearness(b) })
		t.dependents[p] = append([]string{p}, near...)
	}
	t.folder, err = os.MkdirTemp("", "mutants")
	if err != nil {
		return nil, err
	}
	if ownOnly {
		return t, nil
	}
	return t, t.baseline(all)
}

// nearness puts the packages of the calculation first and the long ones last.
func nearness(p string) int {
	switch i := slices.Index(areas, path.Base(p)); {
	case p == formulas:
		return len(areas) + 2
	case strings.Contains(p, "workbook"):
		return len(areas) + 3
	case i >= 0:
		return i
	case p == independent:
		return len(areas)
	default:
		return len(areas) + 1
	}
}

func (t *tests) close() { os.RemoveAll(t.folder) }

// baseline fails where a test fails before any fault is planted: every fault
// would count as caught.
func (t *tests) baseline(packages []string) error {
	args := append([]string{"test", "-short", "-vet=off"}, paths(packages)...)
	if out, err := exec.Command("go", args...).CombinedOutput(); err != nil {
		return fmt.Errorf("the tests fail without any fault:\n%s", out)
	}
	return nil
}

func paths(packages []string) []string {
	out := make([]string, len(packages))
	for i, p := range packages {
		out[i] = "./" + p
	}
	return out
}

// concerned are the packages whose tests may see a change of one, the nearest
// first. Formula text is the concern of the proofs as much as of its own package.
func (t *tests) concerned(p string, ownOnly bool) []string {
	all := t.dependents[p]
	switch {
	case !ownOnly:
		return all
	case strings.HasPrefix(p, formulas+"/"):
		return []string{p, formulas}
	default:
		return all[:1]
	}
}

// try plants one fault and runs the tests nearest to it first. Of one that is
// known to change nothing only its own package is asked whether that is so.
func (t *tests) try(f fault, equivalent bool) outcome {
	overlay, err := t.plant(f)
	if err != nil {
		return outcome{verdict: unbuilt, by: err.Error()}
	}
	for _, p := range t.concerned(path.Dir(f.file), t.ownOnly || equivalent) {
		parts := [][]string{nil}
		if p == formulas {
			parts = [][]string{{"-run", firstProof}, {"-skip", firstProof}}
		}
		for _, part := range parts {
			if o := runTests(p, overlay, part); o.verdict != survived {
				return o
			}
		}
	}
	return outcome{verdict: survived}
}

// runTests runs a package's quick tests, or a part of them, on the changed source.
func runTests(p, overlay string, part []string) outcome {
	ctx, cancel := context.WithTimeout(context.Background(), perPackage+time.Minute)
	defer cancel()
	args := append([]string{"test", "-short", "-failfast", "-vet=off", "-overlay", overlay, "-timeout", perPackage.String()}, part...)
	out, err := exec.CommandContext(ctx, "go", append(args, "./"+p)...).CombinedOutput()
	switch {
	case err == nil:
		return outcome{verdict: survived}
	case bytes.Contains(out, []byte("[build failed]")):
		return outcome{verdict: unbuilt, by: p}
	case ctx.Err() != nil || bytes.Contains(out, []byte("panic: test timed out")):
		return outcome{verdict: caught, by: p + ", which did not end"}
	default:
		return outcome{verdict: caught, by: p}
	}
}

// plant writes the changed file and the overlay that puts it in place.
func (t *tests) plant(f fault) (overlay string, err error) {
	text, err := os.ReadFile(f.file)
	if err != nil {
		return "", err
	}
	if !strings.HasPrefix(string(text[f.offset:]), f.old) {
		return "", errors.New("the file has changed meanwhile")
	}
	where, err := filepath.Abs(f.file)
	if err != nil {
		return "", err
	}
	folder, err := os.MkdirTemp(t.folder, "fault")
	if err != nil {
		return "", err
	}
	changed := filepath.Join(folder, filepath.Base(f.file))
	if err := os.WriteFile(changed, slices.Concat(text[:f.offset], []byte(f.new), text[f.offset+len(f.old):]), 0o600); err != nil {
		return "", err
	}
	rule, err := json.Marshal(map[string]map[string]string{"Replace": {where: changed}})
	if err != nil {
		return "", err
	}
	overlay = filepath.Join(folder, "overlay.json")
	return overlay, os.WriteFile(overlay, rule, 0o600)
}
