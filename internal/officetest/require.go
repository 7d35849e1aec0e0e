package officetest

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// NoSkip is the environment variable that, set to 1, turns checks left out
// for want of a program into failures; .ci/run sets it.
const NoSkip = "EVAPBOOK_NO_SKIP"

// ErrNotInstalled says that a program a check needs is not on this machine.
var ErrNotInstalled = errors.New("not installed")

// A Program is something outside Go that checks need.
type Program struct {
	Name    string
	Install string // the command that installs it

	present func() bool
}

// The programs checks may need.
var (
	LibreOffice = Program{"LibreOffice Calc with its Python bridge",
		"apt-get install libreoffice-calc python3-uno fonts-crosextra-carlito",
		func() bool { return onPath("soffice") && pythonHas("uno") }}
	GnumericConvert = Program{"Gnumeric's ssconvert", "apt-get install gnumeric",
		func() bool { return onPath("ssconvert") }}
	PythonOpenPyXL = Program{"openpyxl for Python 3", "apt-get install python3-openpyxl",
		func() bool { return pythonHas("openpyxl") }}
	NodeSheetJS = Program{"SheetJS for Node.js", "npm ci --prefix tools/readers, which needs Node.js",
		func() bool { return hasNode("readers", "@e965/xlsx") }}
	Chromium = Program{"Chromium", "apt-get install chromium",
		func() bool { return onPath("chromium") }}
	NodePageTools = Program{"axe-core and TypeScript for Node.js", "npm ci --prefix tools/pagetest, which needs Node.js",
		func() bool { return hasNode("pagetest", "typescript") && hasNode("pagetest", "axe-core") }}
	Poppler = Program{"pdftoppm", "apt-get install poppler-utils",
		func() bool { return onPath("pdftoppm") }}
)

// Installed gives [ErrNotInstalled], wrapped with what to do, for the first
// program that is missing.
func Installed(programs ...Program) error {
	for _, p := range programs {
		if !p.present() {
			return fmt.Errorf("officetest: %s is %w; hint: %s", p.Name, ErrNotInstalled, p.Install)
		}
	}
	return nil
}

// Heavy is [Require] for a test that takes some seconds: -short leaves it out.
func Heavy(t testing.TB, programs ...Program) {
	t.Helper()
	if testing.Short() {
		t.Skip("SKIPPED: -short leaves out what needs an office program and some seconds")
	}
	Require(t, programs...)
}

// Require skips the test, loudly, where a program is missing. With [NoSkip]
// set it fails instead.
func Require(t testing.TB, programs ...Program) {
	t.Helper()
	err := Installed(programs...)
	switch {
	case err == nil:
	case os.Getenv(NoSkip) == "1":
		t.Fatalf("%v (%s=1: not skipped)", err, NoSkip)
	default:
		t.Skipf("SKIPPED: %v", err)
	}
}

// RequireOffice is Require for LibreOffice.
func RequireOffice(t testing.TB) {
	t.Helper()
	Require(t, LibreOffice)
}

func onPath(name string) bool {
	_, err := exec.LookPath(name)
	return err == nil
}

// python is the interpreter that Debian's python3-* packages belong to, which
// need not be the first on the path.
func python() string {
	if _, err := os.Stat("/usr/bin/python3"); err == nil {
		return "/usr/bin/python3"
	}
	return "python3"
}

func pythonHas(module string) bool {
	return exec.Command(python(), "-c", "import "+module).Run() == nil
}

// hasNode tells whether a folder of tools has an npm package installed.
func hasNode(folder, name string) bool {
	script, err := tool(folder, "node_modules", filepath.FromSlash(name), "package.json")
	return err == nil && script != "" && onPath("node")
}

// tool finds a file below the repository's folder tools, from any folder in
// the repository.
func tool(parts ...string) (string, error) {
	dir, err := os.Getwd()
	if err != nil {
		return "", err
	}
	for {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil {
			path := filepath.Join(append([]string{dir, "tools"}, parts...)...)
			_, err := os.Stat(path)
			return path, err
		}
		up := filepath.Dir(dir)
		if up == dir {
			return "", fmt.Errorf("officetest: no go.mod above the working folder, so no tools/%s; hint: run inside the repository",
				strings.Join(parts, "/"))
		}
		dir = up
	}
}
