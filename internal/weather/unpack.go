package weather

import (
	"archive/zip"
	"bytes"
	"errors"
	"fmt"
	"io"
	"path"
	"strings"

	"github.com/klauspost/compress/gzip"
)

// maxBytes bounds what is read and unpacked: thirty years of a wide hourly file
// are about 50 MB. maxRatio stops a small archive from unpacking into a flood;
// hourly text shrinks six- to twentyfold.
const (
	maxBytes = 256 << 20
	maxRatio = 250
)

// document is one weather file as text, ready to be told apart and read.
type document struct {
	name     string
	text     string // UTF-8, no byte order mark, LF or CRLF line ends
	notes    []Note
	outliers []outlier // impossible values, in file order

	columns []ColumnName // stated by the user, may be nil
	missing []float64    // the same
	station string       // the same: whose rows are wanted, may be empty
	stated  Options      // all that the user stated
}

// unpack undoes gzip or zip by their magic bytes and decodes the text.
func unpack(stored []byte, name string) (*document, error) {
	if len(stored) > maxBytes {
		return nil, fileError(name, "", "is larger than %d MB", maxBytes>>20)
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
	case bytes.HasPrefix(stored, []byte("PK\x03\x04")), bytes.HasPrefix(stored, []byte("PK\x05\x06")): // full, empty
		return unzip(stored, name)
	}
	return stored, nil
}

func inflate(r io.Reader, packed int, name string) ([]byte, error) {
	limit := min(int64(maxBytes), max(int64(packed)*maxRatio, 16<<20))
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

func unzip(stored []byte, name string) ([]byte, error) {
	z, err := zip.NewReader(bytes.NewReader(stored), int64(len(stored)))
	if err != nil {
		return nil, fileError(name, "download it again", "damaged zip file: %v", err)
	}
	member, err := onlyMember(z)
	if err != nil {
		return nil, fileError(name, "name a plain weather file", "%v", err)
	}
	r, err := member.Open()
	if err != nil {
		return nil, fileError(name, "", "zip member %s: %v", member.Name, err)
	}
	defer r.Close()
	return inflate(r, len(stored), name)
}

// onlyMember finds the weather file in an archive. EPW archives often carry
// design-day and statistics files beside the .epw, so where there are several
// members a single .epw or .csv among them is taken.
func onlyMember(z *zip.Reader) (*zip.File, error) {
	var all, weather []*zip.File
	for _, f := range z.File {
		if strings.HasSuffix(f.Name, "/") || strings.HasPrefix(f.Name, "__MACOSX/") {
			continue
		}
		if f.Name == "[Content_Types].xml" {
			return nil, errors.New("is an office document such as an Excel workbook, not text; save it as CSV")
		}
		all = append(all, f)
		switch strings.ToLower(path.Ext(f.Name)) {
		case ".epw", ".csv":
			weather = append(weather, f)
		}
	}
	switch {
	case len(all) == 1:
		return all[0], nil
	case len(weather) == 1:
		return weather[0], nil
	case len(all) == 0:
		return nil, errors.New("the zip archive is empty")
	}
	if len(weather) == 0 {
		weather = all
	}
	names := make([]string, len(weather))
	for i, f := range weather {
		names[i] = f.Name
	}
	return nil, fmt.Errorf("the zip archive holds several files: %s; unpack it and name one, or all years of one place", listed(names))
}
