package cli

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"github.com/evapbook/evapbook/internal/hint"
)

// checkFree refuses to write over a file unless forced, before any work is done.
func checkFree(path string, force bool) error {
	if force {
		return nil
	}
	if _, err := os.Lstat(path); err == nil {
		return hint.With(fmt.Errorf("%s exists", path), "give another name, or --force to replace it")
	}
	return nil
}

// notAmong refuses an output that is one of the inputs, under whatever name.
func notAmong(output string, inputs ...string) error {
	o, err := os.Stat(output)
	if err != nil {
		return nil
	}
	for _, in := range inputs {
		if i, err := os.Stat(in); err == nil && os.SameFile(o, i) {
			return hint.With(fmt.Errorf("%s is read by this command and cannot be written by it", output), "give the output another name")
		}
	}
	return nil
}

// output is a file to be written.
type output struct {
	path  string
	write func(io.Writer) error
}

// checkOutputs refuses, before any work is done, what cannot or must not be
// written: a file that exists, unless forced; one of the inputs; one file twice.
func checkOutputs(outputs []output, force bool, inputs ...string) error {
	seen := map[string]bool{}
	for _, o := range outputs {
		full, err := filepath.Abs(o.path)
		if err != nil {
			return unwritable(o.path, err)
		}
		if seen[full] {
			return hint.With(usagef("%s: named for two outputs", o.path), "give each its own name")
		}
		seen[full] = true
		if err := notAmong(o.path, inputs...); err != nil {
			return err
		}
		if err := checkFree(o.path, force); err != nil {
			return err
		}
	}
	return nil
}

// writeFile writes one file whole or not at all.
func writeFile(path string, write func(io.Writer) error) error {
	return writeFiles([]output{{path, write}})
}

// writeFiles writes each file through a temporary one beside it and renames
// them when all are whole, so that a failure leaves none of them behind.
func writeFiles(outputs []output) error {
	temporary := make([]string, len(outputs))
	defer func() {
		for _, name := range temporary {
			if name != "" {
				os.Remove(name) // no longer there once renamed
			}
		}
	}()
	for i, o := range outputs {
		var err error
		if temporary[i], err = writeTemporary(o); err != nil {
			return err
		}
	}
	for i, o := range outputs {
		if err := os.Rename(temporary[i], o.path); err != nil {
			return unwritable(o.path, err)
		}
	}
	return nil
}

// writeTemporary returns the name of the file it has made even where it fails,
// empty if there is none.
func writeTemporary(o output) (string, error) {
	tmp, err := os.CreateTemp(filepath.Dir(o.path), "."+filepath.Base(o.path)+".*")
	if err != nil {
		return "", unwritable(o.path, err)
	}
	err = o.write(tmp)
	if err == nil {
		err = tmp.Sync()
	}
	err = errors.Join(err, tmp.Close())
	if err == nil {
		err = os.Chmod(tmp.Name(), 0o644)
	}
	if err != nil {
		return tmp.Name(), fmt.Errorf("%s: %w", o.path, err)
	}
	return tmp.Name(), nil
}

func unwritable(path string, err error) error {
	const elsewhere = "give another place"
	var at *fs.PathError
	var renamed *os.LinkError
	folder := filepath.Dir(path)
	info, statErr := os.Stat(folder)
	switch {
	case statErr == nil && !info.IsDir():
		return hint.With(fmt.Errorf("%s: %s is a file, not a folder", path, folder), "%s", elsewhere)
	case errors.Is(err, fs.ErrNotExist):
		return hint.With(fmt.Errorf("%s: no such folder", path), "make the folder first, or %s", elsewhere)
	case errors.Is(err, fs.ErrPermission):
		return hint.With(fmt.Errorf("%s: not allowed to write there", path), "close it if it is open in a spreadsheet, or %s", elsewhere)
	case errors.As(err, &at):
		err = at.Err // the name in it is that of the temporary file
	case errors.As(err, &renamed):
		err = renamed.Err
	}
	return hint.With(fmt.Errorf("%s: cannot write: %w", path, err), "%s", elsewhere)
}
