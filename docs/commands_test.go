// Package docs holds no code, only the test that what people read is true: every
// command on the pages runs, what they print stands there, links lead somewhere.
//
// What the pages say to the test stands in comments before a block:
//
//	<!-- status 2 -->           its commands end with that exit status
//	<!-- run by season.TestX --> that test runs them, and is there
//	<!-- not run: reason -->     counted and printed
//	<!-- file: house.toml -->    the reader saves the block under that name
//	<!-- figures of docs/x.md --> figures in sentences may be from there, too
package docs

import (
	"bytes"
	"errors"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/rogpeppe/go-internal/testscript"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/internal/cli"
)

var update = flag.Bool("update", false, "put what commands print now into the pages")

// The program stands in PATH, under its name, as on a reader's machine.
func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){
		"evapbook": func() { os.Exit(cli.Run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr)) },
	})
}

// tally counts what became of the commands, over all pages.
type tally struct {
	run, again, failing, shortened, byTests, named int
	notRun                                         []string
	processor                                      time.Duration
	done                                           map[string]bool // commands that need no file and show no output
}

// Every command of every page runs, in the order of its page, in a folder of its
// own with a HOME of its own. A tutorial is one way from its first command to
// its last; elsewhere the commands of a block, or of one example of a help text,
// find the files given to the page and nothing that others wrote.
func TestCommands(t *testing.T) {
	total := tally{done: map[string]bool{}}
	for _, p := range pages(t) {
		t.Run(filepath.Base(p.name), func(t *testing.T) { runPage(t, p, &total) })
	}
	t.Logf("%d commands run in %.0f s of processor time (%d more stand on two pages), %d of them to a stated failure and %d on fewer sites; %d run by other tests, %d of make and go looked up; %d not run:\n%s",
		total.run, total.processor.Seconds(), total.again, total.failing, total.shortened, total.byTests, total.named, len(total.notRun), strings.Join(total.notRun, "\n"))
	if !t.Failed() && flag.Lookup("test.run").Value.String() == "" {
		assert.GreaterOrEqual(t, total.run+total.again, 80, "commands found on the pages")
	}
}

// visit is a page being followed.
type visit struct {
	*testing.T
	page     *page
	home     string
	folder   string
	given    map[string]bool
	said     strings.Builder // all that was typed, saved and printed
	took     time.Duration   // of processor time
	tutorial bool
	strict   bool // its figures are looked after
}

func runPage(t *testing.T, p *page, total *tally) {
	v := &visit{T: t, page: p, home: t.TempDir(), folder: t.TempDir(), strict: tutorials[p.name]}
	_, v.tutorial = tutorials[p.name]
	given(v)
	v.given = v.names()
	changed := false
	for i := range p.blocks {
		b := &p.blocks[i]
		if name := b.file(); name != "" {
			text := strings.Join(b.lines, "\n") + "\n"
			require.NoError(t, os.WriteFile(filepath.Join(v.folder, name), []byte(text), 0o600))
			v.said.WriteString(text)
		}
		for _, c := range b.commands() {
			if v.follow(c, total) {
				changed = true
			}
		}
	}
	total.processor += v.took
	if v.strict {
		v.figuresStand()
	}
	if *update && changed {
		require.NoError(t, os.WriteFile(filepath.Join(root, p.name), []byte(strings.Join(p.lines, "\n")), 0o600))
	}
}

// follow does what the page says of a command, and tells whether the page was changed.
func (v *visit) follow(c command, total *tally) bool {
	where := fmt.Sprintf("%s:%d: %s", v.page.name, c.line, c.text)
	if c.first && !v.tutorial {
		v.clear()
	}
	if v.elsewhere(c, where, total) {
		return false
	}
	status := 0
	if text, stated := strings.CutPrefix(c.mark, "status "); stated {
		var err error
		status, err = strconv.Atoi(text)
		require.NoError(v, err, where)
		total.failing++
	} else if c.mark != "" {
		assert.Fail(v, "a comment that says nothing to the test", "%s: %s", where, c.mark)
	}
	total.run++
	text := c.text
	if more, ok := shortened[text]; ok {
		text += more
		total.shortened++
	}
	output, got := v.exec(text)
	require.Equal(v, status, got, "%s\n%s", where, output)
	fmt.Fprintln(&v.said, c.text)
	v.said.WriteString(output)
	return v.compare(c, output, where)
}

// elsewhere counts a command that is not run here: it is run by a test, looked
// up, marked, or was met on another page and needs no file.
func (v *visit) elsewhere(c command, where string, total *tally) bool {
	reason, notRun := strings.CutPrefix(c.mark, "not run: ")
	test, byTest := strings.CutPrefix(c.mark, "run by ")
	needsNoFile := !v.tutorial && len(c.shown) == 0 && strings.Contains(c.text, "--place")
	switch {
	case notRun:
		if strings.Contains(c.text, "evapbook") {
			total.notRun = append(total.notRun, where+" ("+reason+")")
		}
	case byTest:
		testExists(v.T, test, where)
		total.byTests++
	case namesOnly(c.text):
		lookUp(v.T, c.text, where)
		total.named++
	case needsNoFile && total.done[c.text]:
		total.again++
	default:
		total.done[c.text] = needsNoFile
		return false
	}
	return true
}

// exec runs a line as a shell would, results first, then complaints.
func (v *visit) exec(line string) (string, int) {
	line = strings.ReplaceAll(line, "go run ./cmd/evapbook", "evapbook")
	c := exec.Command("bash", "-eo", "pipefail", "-c", line)
	c.Dir = v.folder
	c.Env = []string{"HOME=" + v.home, "PATH=" + os.Getenv("PATH"), "LC_ALL=C.UTF-8"}
	var out, complaints bytes.Buffer
	c.Stdout, c.Stderr = &out, &complaints
	err := c.Run()
	var exit *exec.ExitError
	if err != nil && !errors.As(err, &exit) {
		v.Fatal(err)
	}
	v.took += c.ProcessState.UserTime() + c.ProcessState.SystemTime()
	return out.String() + complaints.String(), c.ProcessState.ExitCode()
}

// compare holds shown output against the real one; with -update it mends the page.
func (v *visit) compare(c command, output, where string) bool {
	if len(c.shown) == 0 {
		return false
	}
	printed := strings.Split(strings.TrimSuffix(output, "\n"), "\n")
	if missing := firstMissing(c.shown, printed); missing != "" {
		if *update {
			return v.mend(c, printed)
		}
		assert.Fail(v, "the page shows what is not printed", "%s\n%s\nhint: go test ./docs -update puts this there, to be read:\n%s", where, missing, output)
	}
	return false
}

// names are the files below the folder of a visit.
func (v *visit) names() map[string]bool {
	names := map[string]bool{}
	require.NoError(v, filepath.WalkDir(v.folder, func(path string, _ os.DirEntry, err error) error {
		names[path] = true
		return err
	}))
	return names
}

// clear removes what was not given.
func (v *visit) clear() {
	for path := range v.names() {
		if !v.given[path] {
			require.NoError(v, os.RemoveAll(path))
		}
	}
}
