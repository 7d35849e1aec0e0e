//go:build unix

package cli_test

import (
	"bytes"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/creack/pty"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// converse runs evapbook without arguments in a pseudo-terminal of its own
// folder, types each answer once its question stands there, and gives what the
// person sees.
func converse(t *testing.T, folder string, answers ...[2]string) (screen string, err error) {
	t.Helper()
	cmd := exec.Command("evapbook")
	cmd.Dir = folder
	// a browser of no use, so that nothing is opened on the tester's machine; slow,
	// so that the program and its terminal have ended by then
	browser := "#!/bin/sh\nsleep 1\necho \"$1\" > " + folder + "/opened\n"
	require.NoError(t, os.WriteFile(filepath.Join(folder, "xdg-open"), []byte(browser), 0o755))
	require.NoError(t, os.Symlink(filepath.Join(folder, "xdg-open"), filepath.Join(folder, "open")))
	cmd.Env = append(os.Environ(), "PATH="+folder+":"+os.Getenv("PATH"))
	terminal, err := pty.Start(cmd)
	require.NoError(t, err)
	defer terminal.Close()
	seen := make(chan []byte)
	go func() {
		defer close(seen)
		for {
			b := make([]byte, 4096)
			n, err := terminal.Read(b)
			seen <- b[:n]
			if err != nil {
				return // a pseudo-terminal ends in an error
			}
		}
	}()
	var all bytes.Buffer
	until := func(question string) bool {
		from := all.Len()
		for !strings.Contains(all.String()[from:], question) {
			select {
			case b, ok := <-seen:
				if !ok {
					return false
				}
				all.Write(b)
			case <-time.After(2 * time.Minute):
				t.Fatalf("no %q in:\n%s", question, all.String())
			}
		}
		return true
	}
	for _, a := range answers {
		require.True(t, until(a[0]), "no %q in:\n%s", a[0], all.String())
		_, err := io.WriteString(terminal, a[1])
		require.NoError(t, err)
	}
	for b := range seen {
		all.Write(b)
	}
	return strings.ReplaceAll(all.String(), "\r\n", "\n"), cmd.Wait()
}

func TestConversation(t *testing.T) {
	folder := t.TempDir()
	screen, err := converse(t, folder,
		[2]string{"weather file: ", "\n"},
		[2]string{"weather file: ", "Bendd, OR\n"},
		[2]string{"weather file: ", "bend oregon\n"},
		[2]string{"[1800 ft2]: ", "big\n"},
		[2]string{"[1800 ft2]: ", "1500\n"},
		[2]string{"[direct]: ", "two\n"},
		[2]string{"yes or no [yes]: ", "\n"},
	)
	require.NoError(t, err, screen)
	assert.Contains(t, screen, "such as Reno, NV")
	assert.Contains(t, screen, "did you mean Bend, OR")
	assert.Contains(t, screen, "Bend, OR, 3,629 ft; weather of REDMOND ROBERTS FIELD, OR (726835; 15 mi away, 568 ft lower)")
	assert.Contains(t, screen, "the two-stage cooler holds")
	assert.Contains(t, screen, `The same again: evapbook write --place "Bend, OR" --floor-area "1500 ft2" --cooler two-stage -o bend-or.xlsx`)
	assert.FileExists(t, filepath.Join(folder, "bend-or.xlsx"))
	require.Eventually(t, func() bool { _, err := os.Stat(filepath.Join(folder, "opened")); return err == nil }, 30*time.Second, 50*time.Millisecond)
	t.Log(screen)
}

// The usual answers, a name already taken, nothing opened.
func TestConversationKeepsWhatIsThere(t *testing.T) {
	folder := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(folder, "reno-nv.xlsx"), []byte("mine"), 0o644))
	screen, err := converse(t, folder, [2]string{"weather file: ", "Springfield\n"}, [2]string{"[Springfield, MO]: ", "Reno NV\n"}, [2]string{"ft2]: ", "\n"}, [2]string{"[direct]: ", "\n"}, [2]string{"[yes]: ", "no\n"})
	require.NoError(t, err, screen)
	mine, err := os.ReadFile(filepath.Join(folder, "reno-nv.xlsx"))
	require.NoError(t, err)
	assert.Equal(t, "mine", string(mine))
	assert.FileExists(t, filepath.Join(folder, "reno-nv-2.xlsx"))
	assert.NoFileExists(t, filepath.Join(folder, "opened"))
}

func TestConversationEnded(t *testing.T) {
	folder := t.TempDir()
	screen, err := converse(t, folder, [2]string{"weather file: ", "\x04"})
	var exit *exec.ExitError
	require.ErrorAs(t, err, &exit)
	assert.Equal(t, 1, exit.ExitCode())
	assert.Contains(t, screen, "stopped; nothing was written")
	books, _ := filepath.Glob(filepath.Join(folder, "*.xlsx"))
	assert.Empty(t, books)
}
