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

// openInput opens a file for reading, but no folder and no device, which may
// never end, and no file larger than limit bytes. A pipe that was named is taken: shells make them.
func openInput(path string, limit int64) (*os.File, error) {
	if err := checkInput(path); err != nil {
		return nil, err
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, fileError(path, err)
	}
	if info, err := f.Stat(); err == nil && info.Size() > limit {
		f.Close()
		return nil, tooLarge(path, limit)
	}
	return f, nil
}

// checkInput refuses what cannot be read to its end.
func checkInput(path string) error {
	info, err := os.Stat(path)
	if err != nil {
		return fileError(path, err)
	}
	switch mode := info.Mode(); {
	case mode.IsDir():
		return hint.With(fmt.Errorf("%s: is a folder, not a file", path), "name one file in it")
	case mode&(fs.ModeDevice|fs.ModeCharDevice|fs.ModeSocket|fs.ModeIrregular) != 0:
		return hint.With(fmt.Errorf("%s is a device, not a file", path), "- is standard input")
	}
	return nil
}

// readAll reads r to its end, which must come within limit bytes.
func readAll(r io.Reader, name string, limit int64) ([]byte, error) {
	data, err := io.ReadAll(io.LimitReader(r, limit+1))
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	if int64(len(data)) > limit {
		return nil, tooLarge(name, limit)
	}
	return data, nil
}

func tooLarge(name string, limit int64) error {
	return hint.With(fmt.Errorf("%s is larger than %d MB", name, limit>>20), "is it the file that was meant?")
}

// missingFile is a file that is not there.
type missingFile struct{ path string }

func (e *missingFile) Error() string        { return e.path + ": no such file" }
func (e *missingFile) Is(target error) bool { return target == os.ErrNotExist }

func fileError(path string, err error) error {
	switch {
	case errors.Is(err, os.ErrNotExist):
		return hint.With(&missingFile{path}, "check the spelling and the folder")
	case errors.Is(err, os.ErrPermission):
		return fmt.Errorf("%s: not allowed to read it", path)
	default:
		return fmt.Errorf("%s: %w", filepath.Base(path), err)
	}
}
