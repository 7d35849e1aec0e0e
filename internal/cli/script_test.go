package cli_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"image"
	"image/png"
	"io"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"

	"github.com/evapbook/evapbook/data/sample"
	"github.com/evapbook/evapbook/internal/cli"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){
		"evapbook": func() { os.Exit(cli.Run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr)) },
	})
}

// TestScripts runs testdata/script/*.txtar, one behaviour each, first word the
// verb. Beside testscript's own commands they have those of commands below.
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:                 "testdata/script",
		RequireExplicitExec: true,
		Cmds:                commands,
	})
}

var commands = map[string]func(ts *testscript.TestScript, neg bool, args []string){
	"fails": fails, "complaint": complaint, "sample": writeSample, "setline": setLine, "dropcolumn": dropColumn,
	"jsonhas": jsonHas, "firstline": firstLine, "lines": lines,
	"uncomment": uncomment, "picture": picture,
}

// fails STATUS ARG... runs evapbook, which must exit with STATUS and leave the
// files of the folder as they were.
func fails(ts *testscript.TestScript, _ bool, args []string) {
	before := listing(ts)
	err := ts.Exec("evapbook", args[1:]...)
	var exit *exec.ExitError
	if !errors.As(err, &exit) || strconv.Itoa(exit.ExitCode()) != args[0] {
		ts.Fatalf("evapbook %s: %v, want exit status %s", strings.Join(args[1:], " "), err, args[0])
	}
	if after := listing(ts); after != before {
		ts.Fatalf("files before:\n%sand after:\n%s", before, after)
	}
	if out := ts.ReadFile("stdout"); out != "" {
		ts.Fatalf("standard output is not empty: %s", out)
	}
}

// listing is every file below the work folder with its size and time.
func listing(ts *testscript.TestScript) string {
	var b strings.Builder
	ts.Check(filepath.WalkDir(ts.Getenv("WORK"), func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		info, err := d.Info()
		if err != nil {
			return err
		}
		_, err = fmt.Fprintln(&b, path, info.Size(), info.ModTime())
		return err
	}))
	return b.String()
}

// complaint WHAT HINT demands two lines on standard error, what is wrong and
// what to do about it, short, lower case, without a full stop.
func complaint(ts *testscript.TestScript, _ bool, args []string) {
	text := ts.ReadFile("stderr")
	what, hint, ok := strings.Cut(strings.TrimSuffix(text, "\n"), "\n")
	if !ok || strings.Contains(hint, "\n") {
		ts.Fatalf("not two lines: %q", text)
	}
	for _, l := range []struct{ line, begins, want string }{{what, "evapbook: ", args[0]}, {hint, "hint: ", args[1]}} {
		rest, ok := strings.CutPrefix(l.line, l.begins)
		switch {
		case !ok:
			ts.Fatalf("%q does not begin with %q", l.line, l.begins)
		case len(rest) > 160:
			ts.Fatalf("%d characters are not short: %q", len(rest), rest)
		case strings.HasSuffix(rest, "."):
			ts.Fatalf("a full stop: %q", rest)
		case !regexp.MustCompile(l.want).MatchString(rest):
			ts.Fatalf("%q does not match %q", rest, l.want)
		}
	}
}

// sample FILE [FIRST LAST] writes the built-in sample, or its days from FIRST
// to LAST, which are soon worked out.
func writeSample(ts *testscript.TestScript, _ bool, args []string) {
	r, _ := sample.Open()
	text, err := io.ReadAll(r)
	ts.Check(err)
	var b strings.Builder
	for line := range strings.Lines(string(text)) {
		isRow := line[0] >= '0' && line[0] <= '9'
		if len(args) == 1 || !isRow || line[:10] >= args[1] && line[:10] <= args[2] {
			b.WriteString(line)
		}
	}
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), []byte(b.String()), 0o600))
}

// setline FILE LINE OLD NEW replaces text in one line of a file.
func setLine(ts *testscript.TestScript, _ bool, args []string) {
	all := strings.Split(ts.ReadFile(args[0]), "\n")
	n, err := strconv.Atoi(args[1])
	ts.Check(err)
	changed := regexp.MustCompile(args[2]).ReplaceAllString(all[n-1], args[3])
	if changed == all[n-1] {
		ts.Fatalf("nothing to replace in %q", all[n-1])
	}
	all[n-1] = changed
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), []byte(strings.Join(all, "\n")), 0o600))
}

// dropcolumn FILE NUMBER takes a column out of every row of a CSV file.
func dropColumn(ts *testscript.TestScript, _ bool, args []string) {
	n, err := strconv.Atoi(args[1])
	ts.Check(err)
	all := strings.Split(ts.ReadFile(args[0]), "\n")
	for i, line := range all {
		if f := strings.Split(line, ","); len(f) > n {
			all[i] = strings.Join(append(f[:n-1:n-1], f[n:]...), ",")
		}
	}
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), []byte(strings.Join(all, "\n")), 0o600))
}

// jsonhas FILE PATH... demands a JSON object that has the paths.
func jsonHas(ts *testscript.TestScript, _ bool, args []string) {
	var root any
	ts.Check(json.Unmarshal([]byte(ts.ReadFile(args[0])), &root))
	for _, path := range args[1:] {
		at, ok := root, true
		for _, step := range strings.Split(path, ".") {
			m, isObject := at.(map[string]any)
			if at, ok = m[step]; !isObject || !ok {
				ts.Fatalf("no %s", path)
			}
		}
	}
}

// firstline FILE TEXT demands a first line that begins with the text.
func firstLine(ts *testscript.TestScript, _ bool, args []string) {
	if line, _, _ := strings.Cut(ts.ReadFile(args[0]), "\n"); !strings.HasPrefix(line, args[1]) {
		ts.Fatalf("first line is %q", line)
	}
}

// lines FILE NUMBER demands so many lines.
func lines(ts *testscript.TestScript, _ bool, args []string) {
	if n := strings.Count(ts.ReadFile(args[0]), "\n"); strconv.Itoa(n) != args[1] {
		ts.Fatalf("%d lines, want %s", n, args[1])
	}
}

// picture FILE writes a small PNG.
func picture(ts *testscript.TestScript, _ bool, args []string) {
	var b bytes.Buffer
	ts.Check(png.Encode(&b, image.NewGray(image.Rect(0, 0, 40, 20))))
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), b.Bytes(), 0o600))
}

// uncomment FILE takes the # off every line of a job file that states a value,
// and off the head of its example of an option.
func uncomment(ts *testscript.TestScript, _ bool, args []string) {
	text := regexp.MustCompile(`(?m)^# (\[\[option\]\]|[a-z0-9_.]+ = )`).ReplaceAllString(ts.ReadFile(args[0]), "$1")
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), []byte(text), 0o600))
}
