package cli

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
)

// checkFree refuses to write over a file unless forced, before any work is done.
func checkFree(path string, force bool) error {
	if force {
		return nil
	}
	if _, err := os.Lstat(path); err == nil {
		return fmt.Errorf("%s exists\nhint: give another name with -o, or --force to replace it", path)
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
			return fmt.Errorf("%s is read by this command and cannot be written by it", output)
		}
	}
	return nil
}

// writeFile writes path through a temporary file beside it, so that it appears
// whole or not at all.
func writeFile(path string, write func(io.Writer) error) error {
	tmp, err := os.CreateTemp(filepath.Dir(path), "."+filepath.Base(path)+".*")
	if err != nil {
		return unwritable(path, err)
	}
	defer os.Remove(tmp.Name()) // no longer there once renamed
	err = write(tmp)
	if err == nil {
		err = tmp.Sync()
	}
	err = errors.Join(err, tmp.Close())
	if err == nil {
		err = os.Chmod(tmp.Name(), 0o644)
	}
	if err != nil {
		return fmt.Errorf("%s: %w", path, err)
	}
	if err := os.Rename(tmp.Name(), path); err != nil {
		return unwritable(path, err)
	}
	return nil
}

func unwritable(path string, err error) error {
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return fmt.Errorf("%s: no such folder\nhint: make the folder first, or give another place with -o", path)
	case errors.Is(err, fs.ErrPermission):
		return fmt.Errorf("%s: not allowed to write there\nhint: close it if it is open in a spreadsheet, or give another place with -o", path)
	default:
		return fmt.Errorf("%s: cannot write: %w\nhint: give another place with -o", path, err)
	}
}
