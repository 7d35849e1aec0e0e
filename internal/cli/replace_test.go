//go:build unix

package cli

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/internal/hint"
)

func say(text string) func(io.Writer) error {
	return func(w io.Writer) error { _, err := io.WriteString(w, text); return err }
}

func names(t *testing.T, folder string) []string {
	t.Helper()
	entries, err := os.ReadDir(folder)
	require.NoError(t, err)
	var all []string
	for _, e := range entries {
		all = append(all, e.Name())
	}
	return all
}

func TestNothingThatAppearedMeanwhileIsReplaced(t *testing.T) {
	dir := t.TempDir()
	a, b := filepath.Join(dir, "a"), filepath.Join(dir, "b")
	err := writer{}.files([]output{{path: a, write: say("a")}, {path: b, write: func(w io.Writer) error {
		return os.WriteFile(b, []byte("somebody's"), 0o600) // while we are at work
	}}})
	assert.ErrorContains(t, err, b+" exists")
	kept, err := os.ReadFile(b)
	require.NoError(t, err)
	assert.Equal(t, "somebody's", string(kept))
	assert.Equal(t, []string{"b"}, names(t, dir), "nothing half done, no temporary file")
}

func TestPermissions(t *testing.T) {
	old := syscall.Umask(0o027)
	defer syscall.Umask(old)
	dir := t.TempDir()
	fresh, replaced := filepath.Join(dir, "fresh"), filepath.Join(dir, "replaced")
	require.NoError(t, os.WriteFile(replaced, nil, 0o600))
	require.NoError(t, os.Chmod(replaced, 0o606))
	require.NoError(t, writer{force: true}.files([]output{{path: fresh, write: say("x")}, {path: replaced, write: say("y")}}))
	for path, want := range map[string]os.FileMode{fresh: 0o640, replaced: 0o606} {
		info, err := os.Stat(path)
		require.NoError(t, err)
		assert.Equal(t, want, info.Mode().Perm(), path)
	}
}

func TestLeftoversOfDeadRunsGo(t *testing.T) {
	dead := exec.Command("true")
	require.NoError(t, dead.Run())
	dir := t.TempDir()
	stale := fmt.Sprintf(".old.xlsx.evapbook-%s-%d-1", host(), dead.Process.Pid)
	living := fmt.Sprintf(".old.xlsx.evapbook-%s-%d-2", host(), os.Getpid())
	elsewhere := fmt.Sprintf(".old.xlsx.evapbook-00000000-%d-3", dead.Process.Pid)
	for _, name := range []string{stale, living, elsewhere, ".mine", "old.xlsx.evapbook"} {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), nil, 0o600))
	}
	require.NoError(t, writer{}.file(filepath.Join(dir, "new"), say("x")))
	assert.Equal(t, []string{".mine", elsewhere, living, "new", "old.xlsx.evapbook"}, names(t, dir))
}

// TestStopped is also the program that is stopped.
func TestStopped(t *testing.T) {
	if path := os.Getenv("EVAPBOOK_TEST_STOP"); path != "" {
		err := writer{}.file(path, func(w io.Writer) error {
			fmt.Println("at work")
			select {}
		})
		t.Fatal(err)
	}
	for _, s := range []syscall.Signal{syscall.SIGINT, syscall.SIGTERM} {
		dir := t.TempDir()
		cmd := exec.Command(os.Args[0], "-test.run=^TestStopped$")
		cmd.Env = append(os.Environ(), "EVAPBOOK_TEST_STOP="+filepath.Join(dir, "x"))
		out, err := cmd.StdoutPipe()
		require.NoError(t, err)
		require.NoError(t, cmd.Start())
		line := make([]byte, 8)
		_, err = io.ReadFull(out, line)
		require.NoError(t, err)
		require.Len(t, names(t, dir), 1, "the temporary file")
		require.True(t, strings.HasPrefix(names(t, dir)[0], ".x.evapbook-"))
		require.NoError(t, cmd.Process.Signal(s))
		cmd.Wait()
		assert.Equal(t, 128+int(s), cmd.ProcessState.ExitCode())
		assert.Empty(t, names(t, dir))
	}
}

func TestHoursOfTwoSitesNeverShareAFile(t *testing.T) {
	files := filesNamed("a/b.csv", "a-b.csv", "A-B.csv", "c.csv", "/a/b.csv", strings.Repeat("x", 300)+".csv", strings.Repeat("x", 301)+".csv")
	seen := map[string]bool{}
	for _, path := range hoursPaths("h", files) {
		key := strings.ToLower(path)
		assert.False(t, seen[key], path)
		assert.Less(t, len(filepath.Base(path)), 256)
		seen[key] = true
	}
	assert.Len(t, seen, len(files))
	assert.Equal(t, filepath.Join("h", "c.csv.parquet"), hoursPaths("h", files)["c.csv"], "a plain name stays")
}

// A full disk is said of the file that was asked for, not of the temporary one.
func TestFullDisk(t *testing.T) {
	path := filepath.Join(t.TempDir(), "book.xlsx")
	err := writer{}.file(path, func(w io.Writer) error {
		return fmt.Errorf("sheet 1: %w", &fs.PathError{Op: "write", Path: w.(*os.File).Name(), Err: errors.New("no space left on device")})
	})
	assert.EqualError(t, err, path+": cannot write: no space left on device")
	assert.Equal(t, []string{"give another place"}, hint.Of(err))
	assert.Empty(t, names(t, filepath.Dir(path)))
}
