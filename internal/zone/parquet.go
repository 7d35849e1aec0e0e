package zone

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"reflect"

	"github.com/parquet-go/parquet-go"

	"github.com/evapbook/evapbook/internal/hint"
)

// aboutKey is the key of the metadata that a part carries.
const aboutKey = "evapbook.rank"

// part is what stands in the metadata of a Parquet table.
type part struct {
	About
	Left []LeftOut `json:"left_out"`
}

// compression of all Parquet files: read by every tool that reads Parquet.
var compression = parquet.Compression(&parquet.Snappy)

// WriteParquet writes the rows, with About and the files left out as metadata,
// so that Join can read them back. The same table gives the same bytes.
func (t *Table) WriteParquet(w io.Writer) error {
	about, err := json.Marshal(part{t.About, t.Left})
	if err != nil {
		return err
	}
	rec := reflect.New(record(t.Axes))
	out := parquet.NewWriter(w, parquet.SchemaOf(rec.Interface()), compression, parquet.KeyValueMetadata(aboutKey, string(about)))
	for i := range t.Rows {
		fill(rec.Elem(), &t.Rows[i])
		if err := out.Write(rec.Interface()); err != nil {
			return err
		}
	}
	return out.Close()
}

// readPart reads a table written by WriteParquet.
func readPart(path string) (*Table, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	info, err := f.Stat()
	if err != nil {
		return nil, err
	}
	file, err := parquet.OpenFile(f, info.Size())
	if err != nil {
		return nil, fmt.Errorf("%s: not a whole Parquet file: %w", path, err)
	}
	var p part
	text, ok := file.Lookup(aboutKey)
	if !ok {
		return nil, hint.With(fmt.Errorf("%s: no table of this program", path), "join files that evapbook rank --parquet wrote")
	}
	if err := json.Unmarshal([]byte(text), &p); err != nil {
		return nil, fmt.Errorf("%s: %w", path, err)
	}
	t := &Table{About: p.About, Left: p.Left}
	rec := record(p.Axes)
	in := parquet.NewReader(file, parquet.SchemaOf(reflect.New(rec).Interface()))
	defer in.Close()
	for {
		v := reflect.New(rec)
		err := in.Read(v.Interface())
		if errors.Is(err, io.EOF) {
			return t, nil
		}
		if err != nil {
			return nil, fmt.Errorf("%s: %w", path, err)
		}
		t.Rows = append(t.Rows, take(v.Elem()))
	}
}
