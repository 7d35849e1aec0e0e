package ranking

import (
	"bufio"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"hash"
	"io"
	"io/fs"
	"os"
	"reflect"

	"github.com/parquet-go/parquet-go"

	"github.com/evapbook/evapbook/internal/hint"
)

// Keys of the metadata that a part carries.
const (
	aboutKey = "evapbook.rank"
	sumKey   = "evapbook.rows"  // the SHA-256 of all rows, by rowSum
	bytesKey = "evapbook.bytes" // how many bytes lie before the footer, and their SHA-256
)

// largestPart is the largest Parquet table read, in bytes: a million rows take
// some 100 MB. mostRows bounds what a small file can claim to hold.
const (
	largestPart = 1 << 30
	mostRows    = 20_000_000
	rowsPerByte = 20 // columns that never change shrink to nearly nothing
)

// part is what stands in the metadata of a Parquet table.
type part struct {
	About
	Left []LeftOut `json:"left_out"`
}

// compression of all Parquet files: read by every tool that reads Parquet.
var compression = parquet.Compression(&parquet.Snappy)

// hashed passes bytes on and knows how many there were and their SHA-256.
type hashed struct {
	w   io.Writer
	n   int64
	sum hash.Hash
}

func (h *hashed) Write(b []byte) (int, error) {
	n, err := h.w.Write(b)
	h.n += int64(n)
	h.sum.Write(b[:n])
	return n, err
}

func (h *hashed) text() string { return bytesText(h.n, h.sum) }

func bytesText(n int64, sum hash.Hash) string { return fmt.Sprintf("%d %x", n, sum.Sum(nil)) }

// rowSum is a checksum of rows in order. Parquet's own are optional, and do not
// cover a footer that names other columns.
type rowSum struct{ hash.Hash }

func newRowSum() rowSum { return rowSum{sha256.New()} }

func (s rowSum) add(r *Row) error {
	line, err := json.Marshal(r)
	if err != nil {
		return err
	}
	s.Write(append(line, '\n'))
	return nil
}

func (s rowSum) text() string { return hex.EncodeToString(s.Sum(nil)) }

// WriteParquet writes the rows, with About and the files left out as metadata,
// so that Join can read them back. The same table gives the same bytes.
func (t *Table) WriteParquet(w io.Writer) error {
	about, err := json.Marshal(part{t.About, t.Left})
	if err != nil {
		return err
	}
	buffered := bufio.NewWriterSize(w, 1<<16)
	rec, sum, body := reflect.New(record(t.Axes)), newRowSum(), &hashed{buffered, 0, sha256.New()}
	const unbuffered = -1 // so that Flush brings everything to the sum
	out := parquet.NewWriter(body, parquet.WriteBufferSize(unbuffered), parquet.SchemaOf(rec.Interface()), compression, parquet.KeyValueMetadata(aboutKey, string(about)))
	for i := range t.Rows {
		fill(rec.Elem(), &t.Rows[i])
		if err := out.Write(rec.Interface()); err != nil {
			return err
		}
		if err := sum.add(&t.Rows[i]); err != nil {
			return err
		}
	}
	if err := out.Flush(); err != nil {
		return err
	}
	out.SetKeyValueMetadata(sumKey, sum.text())
	out.SetKeyValueMetadata(bytesKey, body.text())
	return errors.Join(out.Close(), buffered.Flush())
}

// readPart reads a table written by WriteParquet.
func readPart(path string) (*Table, error) {
	f, err := os.Open(path)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, hint.With(fmt.Errorf("%s: no such file", path), "check the spelling and the folder")
	}
	if err != nil {
		return nil, err
	}
	defer f.Close()
	info, err := f.Stat()
	if err != nil {
		return nil, err
	}
	if !info.Mode().IsRegular() || info.Size() > largestPart {
		return nil, hint.With(fmt.Errorf("%s: not a file, or larger than %d MB", path, largestPart>>20), "join files that evapbook rank --parquet wrote")
	}
	t, err := parsePart(f, info.Size())
	if err != nil {
		return nil, hint.With(fmt.Errorf("%s: %w", path, err), "join files that evapbook rank --parquet wrote; run this part again if it is damaged")
	}
	return t, nil
}

// errNotWhole is a file that is damaged, or no table of this program.
var errNotWhole = errors.New("not a whole Parquet file of evapbook rank")

// parsePart reads a part, which may be damaged or made to do harm: the Parquet
// library panics on some such files, so panics are caught here and nowhere else.
func parsePart(r io.ReaderAt, size int64) (t *Table, err error) {
	defer func() {
		if p := recover(); p != nil {
			t, err = nil, fmt.Errorf("%w (%v)", errNotWhole, p)
		}
	}()
	if err := checkFrame(r, size); err != nil {
		return nil, err
	}
	file, err := parquet.OpenFile(r, size, parquet.SkipPageIndex(true), parquet.SkipBloomFilters(true))
	if err != nil {
		return nil, fmt.Errorf("%w: %w", errNotWhole, err)
	}
	text, ok := file.Lookup(aboutKey)
	sum, summed := file.Lookup(sumKey)
	if !ok || !summed {
		return nil, fmt.Errorf("%w: what the run was does not stand in it", errNotWhole)
	}
	var p part
	if err := json.Unmarshal([]byte(text), &p); err != nil {
		return nil, fmt.Errorf("%w: %w", errNotWhole, err)
	}
	if err := p.check(); err != nil {
		return nil, fmt.Errorf("%w: %w", errNotWhole, err)
	}
	if err := checkBytes(r, file, size); err != nil {
		return nil, fmt.Errorf("%w: %w", errNotWhole, err)
	}
	rec := record(p.Axes)
	schema := parquet.SchemaOf(reflect.New(rec).Interface())
	if err := checkColumns(file, schema, size); err != nil {
		return nil, fmt.Errorf("%w: %w", errNotWhole, err)
	}
	t = &Table{About: p.About, Left: p.Left}
	if err := t.readRows(file, schema, rec, sum); err != nil {
		return nil, fmt.Errorf("%w: %w", errNotWhole, err)
	}
	return t, nil
}

// readRows reads the rows, as many as the file says, and compares their sum.
func (t *Table) readRows(file *parquet.File, schema *parquet.Schema, rec reflect.Type, want string) error {
	in := parquet.NewReader(file, schema)
	defer in.Close()
	sum := newRowSum()
	for {
		v := reflect.New(rec)
		err := in.Read(v.Interface())
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return err
		}
		if int64(len(t.Rows)) == file.NumRows() {
			return errors.New("more rows than it says")
		}
		t.Rows = append(t.Rows, take(v.Elem()))
		if err := sum.add(&t.Rows[len(t.Rows)-1]); err != nil {
			return err
		}
	}
	if sum.text() != want {
		return errors.New("the checksum of the rows differs")
	}
	return nil
}
