package weather

import (
	"bytes"
	"errors"
	"io"
)

// longestLine is the length in bytes at which a file is no table of hourly
// weather: the widest rows of the formats known are about 3 kB. readyBytes is
// the most memory made ready before a file has shown what it is.
const (
	longestLine = 1 << 20
	readyBytes  = 32 << 20
)

var errLongLine = errors.New("a line is too long")

func longLine(name string) error {
	return fileError(name, "this is no table of hourly weather; save it as CSV", "a line is longer than %d MB", longestLine>>20)
}

// lineGuard stops reading text at a line that does not end, before it fills the
// memory. What begins like a compressed file or like JSON, which may be one line,
// passes.
type lineGuard struct {
	r      io.Reader
	begun  bool
	passes bool
	run    int // bytes since the last line end
}

func (g *lineGuard) Read(p []byte) (int, error) {
	n, err := g.r.Read(p)
	if !g.begun && n > 0 {
		g.begun = true
		g.passes = bytes.HasPrefix(p[:n], []byte{0x1f, 0x8b}) || bytes.HasPrefix(p[:n], []byte("PK")) || p[0] == '{'
	}
	if g.passes {
		return n, err
	}
	first, last := bytes.IndexAny(p[:n], "\n\r"), bytes.LastIndexAny(p[:n], "\n\r")
	if first < 0 {
		g.run += n
	} else {
		if g.run+first > longestLine {
			return 0, errLongLine
		}
		g.run = n - 1 - last
	}
	if g.run > longestLine {
		return 0, errLongLine
	}
	return n, err
}
