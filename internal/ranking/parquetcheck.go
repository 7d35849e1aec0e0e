package ranking

import (
	"crypto/sha256"
	"encoding/binary"
	"errors"
	"fmt"
	"io"

	"github.com/parquet-go/parquet-go"
	"github.com/parquet-go/parquet-go/format"
)

// checkFrame looks at the last eight bytes: the length of the footer, which
// cannot be longer than the file, and the mark.
func checkFrame(r io.ReaderAt, size int64) error {
	const head, foot = 4, 8
	var end [foot]byte
	if size < head+foot {
		return errNotWhole
	}
	if _, err := r.ReadAt(end[:], size-foot); err != nil {
		return err
	}
	if string(end[4:]) != "PAR1" || int64(binary.LittleEndian.Uint32(end[:4])) > size-head-foot {
		return errNotWhole
	}
	return nil
}

// checkBytes compares the bytes before the footer with their checksum, and
// makes sure that all pages lie there: no page is read that was not written
// as it is.
func checkBytes(r io.ReaderAt, file *parquet.File, size int64) error {
	want, _ := file.Lookup(bytesKey)
	var n int64
	if _, err := fmt.Sscanf(want, "%d ", &n); err != nil || n < 0 || n > size {
		return errors.New("its checksum is damaged")
	}
	sum := sha256.New()
	if _, err := io.Copy(sum, io.NewSectionReader(r, 0, n)); err != nil {
		return err
	}
	if bytesText(n, sum) != want {
		return errors.New("the checksum differs")
	}
	for _, g := range file.Metadata().RowGroups {
		for i := range g.Columns {
			c := &g.Columns[i].MetaData
			if at := c.DataPageOffset; at < 0 || c.TotalCompressedSize < 0 || at > n-c.TotalCompressedSize && c.DictionaryPageOffset == 0 || at > n {
				return errors.New("a column lies outside the file")
			}
		}
	}
	return nil
}

// check refuses what no run says of itself.
func (p *part) check() error {
	s := p.Shard
	switch {
	case s.N < 1 || s.I < 1 || s.I > s.N:
		return fmt.Errorf("%d/%d is no part", s.I, s.N)
	case p.Files < 0 || s.N > max(1, 1<<20):
		return errors.New("the numbers of files and parts are not possible")
	case len(p.Left) > p.Files:
		return errors.New("more files left out than there were")
	}
	return checkAxes(p.Axes)
}

// checkAxes takes the axes as they would be from the command line.
func checkAxes(axes []Axis) error {
	seen := map[string]bool{}
	for i, a := range axes {
		if err := a.check(); err != nil {
			return err
		}
		if seen[a.Column()] {
			return fmt.Errorf("%s is varied twice", axes[i].Key)
		}
		seen[a.Column()] = true
	}
	return nil
}

// checkColumns demands the columns of this version of the program, no more
// rows than the file can hold, and sizes of pages that lie within the file.
func checkColumns(file *parquet.File, want *parquet.Schema, size int64) error {
	if got := file.Schema(); !parquet.EqualNodes(got, want) {
		return errors.New("the columns are not those of this version")
	}
	rows := file.NumRows()
	if rows < 0 || rows > mostRows || rows > size*rowsPerByte {
		return fmt.Errorf("%d rows are not possible in %d bytes", rows, size)
	}
	var total int64
	for _, g := range file.Metadata().RowGroups {
		if g.NumRows < 0 || len(g.Columns) != len(want.Columns()) {
			return errors.New("a group of rows is damaged")
		}
		total += g.NumRows
		for i := range g.Columns {
			if err := checkChunk(&g.Columns[i].MetaData, g.NumRows, size); err != nil {
				return err
			}
		}
	}
	if total != rows {
		return fmt.Errorf("%d rows in all, %d in its groups", rows, total)
	}
	return nil
}

// mostUnpacked is how many times its size a column may have mostUnpacked.
const mostUnpacked = 10_000

func checkChunk(c *format.ColumnMetaData, rows, size int64) error {
	switch {
	case c.NumValues != rows:
		return fmt.Errorf("%d values in a column of %d rows", c.NumValues, rows)
	case c.TotalCompressedSize < 0 || c.TotalCompressedSize > size, c.DataPageOffset < 0 || c.DataPageOffset > size,
		c.DictionaryPageOffset < 0 || c.DictionaryPageOffset > size:
		return errors.New("a column lies outside the file")
	case c.TotalUncompressedSize < 0 || c.TotalUncompressedSize > largestPart || c.TotalUncompressedSize/mostUnpacked > size:
		return errors.New("a column is too large unpacked")
	}
	return nil
}
