// Command testreport reads the output of go test -json and prints what a
// person wants of it: one line a package, the output of tests that failed, and
// at the end every test that was skipped with its reason.
//
//	go test -json ./... | go run ./tools/testreport
//
// Several runs may follow one another on its input. With EVAPBOOK_NO_SKIP=1 a
// skipped test counts as a failure. Exit status 1 on any failure, or when no
// test ran.
package main

import (
	"bufio"
	"encoding/json"
	"fmt"
	"io"
	"maps"
	"os"
	"slices"
	"strings"
)

func main() {
	strict := os.Getenv("EVAPBOOK_NO_SKIP") == "1"
	if !report(os.Stdin, os.Stdout, strict) {
		os.Exit(1)
	}
}

// event is one line of go test -json; see go doc test2json.
type event struct {
	Action, Package, Test, Output string
	FailedBuild                   string // a package's, when it does not build
	Elapsed                       float64
}

// summary is what is known so far.
type summary struct {
	out                     io.Writer
	passed, failed, skipped int
	output                  map[string][]string // by test, until it ends
	blamed                  map[string]bool     // packages with a failed test
	running                 map[string]bool     // packages begun and not ended
	skips                   []string
	slow                    []string
}

// report copies r to out in short form and says whether all is well.
func report(r io.Reader, out io.Writer, strict bool) bool {
	s := &summary{out: out, output: map[string][]string{}, blamed: map[string]bool{}, running: map[string]bool{}}
	lines := bufio.NewScanner(r)
	lines.Buffer(nil, 16<<20)
	for lines.Scan() {
		var e event
		if json.Unmarshal(lines.Bytes(), &e) != nil {
			fmt.Fprintln(out, lines.Text()) // the go command's own words
			continue
		}
		s.add(e)
	}
	if err := lines.Err(); err != nil {
		fmt.Fprintln(out, "testreport:", err)
		s.failed++
	}
	return s.end(strict)
}

func (s *summary) add(e event) {
	key := e.Package + " " + e.Test
	switch e.Action {
	case "start":
		s.running[e.Package] = true
	case "output":
		s.output[key] = append(s.output[key], e.Output)
	case "build-output":
		fmt.Fprint(s.out, e.Output)
	case "build-fail":
		s.failed++
	case "pass", "fail", "skip":
		if e.Test == "" {
			s.endPackage(e)
		} else {
			s.endTest(e)
		}
		delete(s.output, key)
	}
}

func (s *summary) endTest(e event) {
	output := s.output[e.Package+" "+e.Test]
	switch e.Action {
	case "pass":
		s.passed++
	case "fail":
		s.failed++
		s.blamed[e.Package] = true
		fmt.Fprintf(s.out, "--- %s\n%s", name(e), strings.Join(output, ""))
	case "skip":
		s.skipped++
		s.skips = append(s.skips, name(e)+": "+reason(output))
	}
	if e.Elapsed >= 10 && !strings.Contains(e.Test, "/") {
		s.slow = append(s.slow, fmt.Sprintf("%s: %.0f s", name(e), e.Elapsed))
	}
}

// endPackage prints the package's own last line, such as "ok evapbook/cli 1.2s",
// and all it wrote outside tests when it failed.
func (s *summary) endPackage(e event) {
	delete(s.running, e.Package)
	lines := s.output[e.Package+" "]
	if e.Action != "fail" && len(lines) > 0 {
		lines = lines[len(lines)-1:]
	}
	fmt.Fprint(s.out, strings.Join(lines, ""))
	if e.Action == "fail" && e.FailedBuild == "" && !s.blamed[e.Package] {
		s.failed++ // outside any test: a panic, TestMain, a time-out
	}
}

func (s *summary) end(strict bool) bool {
	for _, p := range slices.Sorted(maps.Keys(s.running)) {
		fmt.Fprintf(s.out, "FAIL %s: its tests began, and nothing says how they ended\n", p)
		s.failed++
	}
	list(s.out, "Slow tests:", s.slow)
	list(s.out, "SKIPPED, so not checked:", s.skips)
	failed, skipped := s.failed, s.skipped
	if strict && skipped > 0 {
		fmt.Fprintln(s.out, "EVAPBOOK_NO_SKIP=1: skipped tests count as failed")
		failed, skipped = failed+skipped, 0
	}
	fmt.Fprintf(s.out, "\n%d passed, %d failed, %d skipped\n", s.passed, failed, skipped)
	return failed == 0 && s.passed > 0
}

func list(out io.Writer, title string, items []string) {
	if len(items) > 0 {
		fmt.Fprintf(out, "\n%s\n  %s\n", title, strings.Join(items, "\n  "))
	}
}

func name(e event) string {
	return e.Package[strings.LastIndex(e.Package, "/")+1:] + "." + e.Test
}

// reason is what the test gave as its reason to skip.
func reason(output []string) string {
	for _, line := range output {
		line = strings.TrimSpace(line)
		if line == "" || strings.HasPrefix(line, "=== ") || strings.HasPrefix(line, "--- ") {
			continue
		}
		if _, after, ok := strings.Cut(line, ".go:"); ok {
			_, line, _ = strings.Cut(after, ": ")
		}
		return line
	}
	return "no reason given"
}
