package cli

import (
	"crypto/sha256"
	"errors"
	"fmt"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
)

// Temporary files are named .NAME.evapbook-HOST-PROCESS-NUMBER, so that those
// of a run that was killed can be told from those of one still at work.
var temporaryName = regexp.MustCompile(`^\..*\.evapbook-([0-9a-f]{8})-([0-9]+)-[0-9]+$`)

// longestBase is how much of a file's name its temporary one keeps: a name may
// have 255 bytes on most systems.
const longestBase = 180

// host tells machines apart that share a folder, without naming them.
func host() string {
	name, _ := os.Hostname()
	return fmt.Sprintf("%x", sha256.Sum256([]byte(name)))[:8]
}

// createTemporary makes a new file beside path.
func createTemporary(path string, left *leftovers) (*os.File, error) {
	folder, base := filepath.Split(path)
	base = base[:min(len(base), longestBase)]
	for {
		name := fmt.Sprintf("%s.%s.evapbook-%s-%d-%d", folder, base, host(), os.Getpid(), rand.Uint64())
		if f, err := left.create(name); !errors.Is(err, fs.ErrExist) {
			return f, err
		}
	}
}

// removeStale removes the temporary files that dead runs on this machine have
// left in a folder. It is a kindness: where it cannot, nothing is said.
func removeStale(folder string) {
	entries, err := os.ReadDir(folder)
	if err != nil {
		return
	}
	for _, e := range entries {
		m := temporaryName.FindStringSubmatch(e.Name())
		if m == nil || m[1] != host() || !e.Type().IsRegular() {
			continue
		}
		if pid, err := strconv.Atoi(m[2]); err == nil && !alive(pid) {
			os.Remove(filepath.Join(folder, e.Name()))
		}
	}
}
