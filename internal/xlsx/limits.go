package xlsx

import (
	"archive/zip"
	"fmt"
	"io"
	"os"
	"strings"
)

// Limits of a workbook that is read. What this project writes has some 65 MB
// unpacked in 84 parts, with 21,000 rows in all; a weather file of ten years or
// of a hundred adds 2 MB, because only one of them stands there hour by hour.
// People may add to it, but what is far larger is no workbook of theirs.
const (
	largestBook = 64 << 20  // bytes of the file
	mostContent = 256 << 20 // bytes, all parts unpacked
	mostParts   = 2000
	mostRows    = 200_000 // of all sheets
)

// checkSize unpacks a workbook to nowhere, so that one made to flood memory is
// found before its parts are kept.
func checkSize(path string) error {
	info, err := os.Stat(path)
	if err != nil {
		return err
	}
	if info.Size() > largestBook {
		return fmt.Errorf("it is larger than %d MB", largestBook>>20)
	}
	z, err := zip.OpenReader(path)
	if err != nil {
		return fmt.Errorf("it is no zip archive: %w", err)
	}
	defer z.Close()
	if len(z.File) > mostParts {
		return fmt.Errorf("it has %d parts, more than %d", len(z.File), mostParts)
	}
	c := &contentCount{}
	for _, part := range z.File {
		if err := c.add(part); err != nil {
			return fmt.Errorf("part %.60q: %w", part.Name, err)
		}
	}
	return nil
}

// contentCount counts what all parts hold, not what the archive says they do.
type contentCount struct {
	bytes, rows int
	tail        string
}

func (c *contentCount) add(part *zip.File) error {
	r, err := part.Open()
	if err != nil {
		return err
	}
	defer r.Close()
	c.tail = ""
	_, err = io.Copy(c, r)
	return err
}

// Write counts bytes, and the tags of rows, also where a tag is cut in two.
func (c *contentCount) Write(b []byte) (int, error) {
	const tag = "<row"
	text := c.tail + string(b)
	c.bytes += len(b)
	c.rows += strings.Count(text, tag)
	c.tail = text[max(0, len(text)-len(tag)+1):]
	switch {
	case c.bytes > mostContent:
		return 0, fmt.Errorf("the workbook has more than %d MB unpacked", mostContent>>20)
	case c.rows > mostRows:
		return 0, fmt.Errorf("the workbook has more than %d rows", mostRows)
	}
	return len(b), nil
}
