package weather

import (
	"bytes"
	"errors"
	"io"

	"github.com/klauspost/compress/gzip"
)

// MaxBytes bounds what is read and unpacked: thirty years of a wide hourly file
// are about 50 MB. maxRatio stops a small archive from unpacking into a flood;
// hourly text shrinks six- to twentyfold.
const (
	MaxBytes = 256 << 20
	maxRatio = 250
)

// document is one weather file as text, ready to be told apart and read.
type document struct {
	name     string
	text     string // UTF-8, no byte order mark, LF or CRLF line ends
	notes    []Note
	outliers []outlier // impossible values, in file order
	guessed  bool      // what the columns are is told by headings or the user only

	columns []ColumnName // stated by the user, may be nil
	missing []float64    // the same
	station string       // the same: whose rows are wanted, may be empty
	stated  Options      // all that the user stated
}

// unpack undoes gzip or zip by their magic bytes and decodes the text.
func unpack(stored []byte, name string) (*document, error) {
	if len(stored) > MaxBytes {
		return nil, fileError(name, "", "is larger than %d MB", MaxBytes>>20)
	}
	plain, err := decompress(stored, name)
	if err != nil {
		return nil, err
	}
	return decode(plain, name)
}

func decompress(stored []byte, name string) ([]byte, error) {
	switch {
	case bytes.HasPrefix(stored, []byte{0x1f, 0x8b}):
		z, err := gzip.NewReader(bytes.NewReader(stored))
		if err != nil {
			return nil, fileError(name, "download it again", "damaged gzip file: %v", err)
		}
		return inflate(z, len(stored), name)
	case isZip(stored):
		return unzip(stored, name)
	}
	return stored, nil
}

func inflate(r io.Reader, packed int, name string) ([]byte, error) {
	limit := min(int64(MaxBytes), max(int64(packed)*maxRatio, 16<<20))
	plain, err := io.ReadAll(&lineGuard{r: io.LimitReader(r, limit+1)})
	if errors.Is(err, errLongLine) {
		return nil, longLine(name)
	}
	if err != nil {
		return nil, fileError(name, "download it again", "damaged compressed file: %v", err)
	}
	if int64(len(plain)) > limit {
		return nil, fileError(name, "unpack it yourself and look at it", "unpacks to more than %d MB", limit>>20)
	}
	return plain, nil
}
