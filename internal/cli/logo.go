package cli

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	_ "image/jpeg"
	_ "image/png"
	"io"
	"os"
	"path/filepath"

	"github.com/evapbook/evapbook/internal/hint"
)

// What a logo may have. It is printed an inch high; decoding takes up to eight
// bytes a pixel.
const (
	largestLogo = 8 << 20 // bytes
	widestLogo  = 4096    // pixels, either way
)

// besideJob is a path that stands in a job file, seen from the folder that the
// program works in: it counts from where the job file is.
func besideJob(jobFile, path string) string {
	if path == "" || filepath.IsAbs(path) {
		return path
	}
	return filepath.Join(filepath.Dir(jobFile), filepath.FromSlash(path))
}

// besideBook is a path that stands in a workbook, seen from here: where it was
// when the workbook was written, else seen from the workbook, else beside it.
func besideBook(book, path string) string {
	if path == "" {
		return path
	}
	for _, p := range []string{path, besideJob(book, path), besideJob(book, filepath.Base(filepath.FromSlash(path)))} {
		if _, err := os.Stat(p); err == nil {
			return p
		}
	}
	return path
}

// readLogo reads the picture for the proposal's page and makes sure that it can
// be drawn. A book can do without: where there is none, warnings say so.
func readLogo(path string, warnings io.Writer) ([]byte, error) {
	if path == "" {
		return nil, nil
	}
	f, err := openInput(path, largestLogo)
	if errors.Is(err, os.ErrNotExist) {
		fmt.Fprintf(warnings, "evapbook: logo %s: no such file; the workbook is written without it\n", path)
		return nil, nil
	}
	if err != nil {
		return nil, fmt.Errorf("logo %w", err)
	}
	defer f.Close()
	data, err := readAll(f, path, largestLogo)
	if err != nil {
		return nil, fmt.Errorf("logo %w", err)
	}
	if err := checkPicture(data); err != nil {
		return nil, hint.With(fmt.Errorf("logo %s: %w", path, err), "save it anew as PNG or JPEG, up to %d by %d pixels", widestLogo, widestLogo)
	}
	return data, nil
}

// checkPicture decodes the whole picture, its size first.
func checkPicture(data []byte) error {
	c, _, err := image.DecodeConfig(bytes.NewReader(data))
	switch {
	case errors.Is(err, image.ErrFormat):
		return errors.New("neither PNG nor JPEG")
	case err != nil:
		return fmt.Errorf("damaged: %w", err)
	case c.Width > widestLogo || c.Height > widestLogo:
		return fmt.Errorf("%d by %d pixels are too many", c.Width, c.Height)
	}
	if _, _, err := image.Decode(bytes.NewReader(data)); err != nil {
		return fmt.Errorf("damaged: %w", err)
	}
	return nil
}
