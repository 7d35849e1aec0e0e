package cli

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"

	"github.com/evapbook/evapbook/internal/hint"
)

// standard is the name that stands for standard input and standard output.
const standard = "-"

// output is a file to be written.
type output struct {
	path   string
	write  func(io.Writer) error
	ending string // of the names of such files
	inNew  bool   // its folder is made when it is needed
}

// endings of files that are what they say: under another's a program would not
// open them, or not as what they are. Names without an ending, or with one of no
// meaning here, are people's own.
var endings = []string{".xlsx", ".csv", ".parquet", ".ics", ".xls", ".xlsm", ".ods", ".pdf", ".json"}

// checkEnding refuses a name whose ending is that of another kind of file.
func (o output) checkEnding() error {
	ending := strings.ToLower(filepath.Ext(o.path))
	if o.ending == "" || ending == o.ending || !slices.Contains(endings, ending) {
		return nil
	}
	return hint.With(usagef("%s: what is written there is no %s file", o.path, ending), "name it %s", strings.TrimSuffix(o.path, filepath.Ext(o.path))+o.ending)
}

// target is where an output goes: links are followed to what they point to.
type target struct {
	real string
	info os.FileInfo // nil if there is no such file yet
}

// targetOf looks at what stands at an output's path. Only files are ever
// replaced: no device, pipe or folder.
func targetOf(path string) (target, error) {
	info, err := os.Lstat(path)
	switch {
	case err != nil:
		return target{real: realPath(path)}, nil // what else is wrong shows when it is written
	case info.Mode()&fs.ModeSymlink != 0:
		if info, err = os.Stat(path); err != nil {
			return target{}, hint.With(fmt.Errorf("%s is a link to nothing", path), "remove the link, or name the file itself")
		}
	}
	switch {
	case info.IsDir():
		return target{}, hint.With(fmt.Errorf("%s is a folder", path), "name a file in it")
	case !info.Mode().IsRegular():
		return target{}, hint.With(fmt.Errorf("%s is a device or pipe, not a file", path), "name a file, or - for standard output")
	}
	return target{realPath(path), info}, nil
}

// realPath is the path without links and detours, as far as it exists.
func realPath(path string) string {
	if real, err := filepath.EvalSymlinks(path); err == nil {
		path = real
	} else if folder, err := filepath.EvalSymlinks(filepath.Dir(path)); err == nil {
		path = filepath.Join(folder, filepath.Base(path))
	}
	if full, err := filepath.Abs(path); err == nil {
		path = full
	}
	return path
}

// key tells files apart; some systems take capital and small letters for one.
func (t target) key() string {
	if runtime.GOOS == "windows" || runtime.GOOS == "darwin" {
		return strings.ToLower(t.real)
	}
	return t.real
}

// checkOutputs refuses, before any work is done, what cannot or must not be
// written: a file that exists, unless forced; a file that is or will be read,
// under whatever name; one file twice.
func checkOutputs(outputs []output, force bool, inputs ...string) error {
	read := existing(inputs)
	var seen []target
	keys := map[string]bool{}
	for _, o := range outputs {
		if o.path == standard {
			if keys[standard] {
				return hint.With(usagef("standard output: named for two outputs"), "give one of them a file")
			}
			keys[standard] = true
			continue
		}
		t, err := targetOf(o.path)
		if err != nil {
			return err
		}
		if keys[t.key()] || sameAsOne(t.info, seen) {
			return hint.With(usagef("%s: named for two outputs", o.path), "give each its own name")
		}
		keys[t.key()], seen = true, append(seen, t)
		if sameAsOne(t.info, read) {
			return hint.With(fmt.Errorf("%s is read by this command and cannot be written by it", o.path), "give the output another name")
		}
		if t.info != nil && !force {
			return exists(o.path)
		}
		if info, err := os.Stat(filepath.Dir(o.path)); !o.inNew && (err != nil || !info.IsDir()) {
			return unwritable(o.path, err) // before hours of work, not after
		}
	}
	for _, o := range outputs {
		if err := o.checkEnding(); err != nil {
			return err
		}
	}
	return nil
}

func exists(path string) error {
	return hint.With(fmt.Errorf("%s exists", path), "give another name, or --force to replace it")
}

// existing looks at the inputs that are files.
func existing(inputs []string) []target {
	var all []target
	for _, path := range inputs {
		if info, err := os.Stat(path); err == nil && path != "" {
			all = append(all, target{path, info})
		}
	}
	return all
}

func sameAsOne(info os.FileInfo, files []target) bool {
	if info == nil {
		return false
	}
	for _, f := range files {
		if f.info != nil && os.SameFile(info, f.info) {
			return true
		}
	}
	return false
}

// toStandard tells whether an output is standard output, which then is for
// nothing else.
func toStandard(outputs []output) bool {
	for _, o := range outputs {
		if o.path == standard {
			return true
		}
	}
	return false
}

func unwritable(path string, err error) error {
	const elsewhere = "give another place"
	var at *fs.PathError
	var renamed *os.LinkError
	folder := filepath.Dir(path)
	info, statErr := os.Stat(folder)
	switch {
	case statErr == nil && !info.IsDir():
		return hint.With(fmt.Errorf("%s: %s is a file, not a folder", path, folder), elsewhere)
	case errors.Is(err, fs.ErrNotExist):
		return hint.With(fmt.Errorf("%s: no such folder", path), "make the folder first, or %s", elsewhere)
	case errors.Is(err, fs.ErrPermission):
		return hint.With(fmt.Errorf("%s: not allowed to write there", path), "close it if it is open in a spreadsheet, or %s", elsewhere)
	case errors.As(err, &at):
		err = at.Err // the name in it is that of the temporary file
	case errors.As(err, &renamed):
		err = renamed.Err
	}
	return hint.With(fmt.Errorf("%s: cannot write: %w", path, err), elsewhere)
}
