package weather

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"io"
	"io/fs"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// Preference says which humidity column to use where a file has several.
type Preference string

// The preferences. PreferAuto takes relative humidity first: recomputed against
// NOAA's own wet bulb it agrees better than dew point in all three Local
// Climatological Data files this project was checked with.
const (
	PreferAuto     Preference = "auto"
	PreferRelHum   Preference = "relative"
	PreferDewPoint Preference = "dew-point"
)

// Options change how a file is read. The zero value is the careful default.
type Options struct {
	// AllowGaps accepts files with more than 10 % of the warm half-year missing.
	AllowGaps bool
	// Humidity is the column to use where a file has several; empty is PreferAuto.
	Humidity Preference

	// Missing are further numbers that stand for "not measured" in any column.
	Missing []float64

	// Columns names the columns of a CSV file of no known format; see ParseColumns.
	Columns []ColumnName

	// StationName picks the rows of one station from a file of several, by what the
	// file's column of stations holds; empty takes the only one.
	StationName string

	// What the file does not say, or says wrongly, about the station.
	Latitude  *float64 // degrees north
	Longitude *float64 // degrees east
	Elevation *float64 // m
	UTCOffset *float64 // hours ahead of UTC, standard time
}

// Open reads a weather file of any known format, told apart by content. The
// path "-" is standard input. Files compressed with gzip, and zip archives that
// hold one weather file, are unpacked. Flaws in the data are of type *Error.
func Open(path string, opt Options) (*Series, error) {
	raw, err := openRows(path, opt)
	if err != nil {
		return nil, err
	}
	return assemble(raw, opt)
}

func openRows(path string, opt Options) (*observations, error) {
	if path == "-" {
		return readRows(os.Stdin, "stdin", opt)
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, openError(path, err)
	}
	defer f.Close()
	if info, err := f.Stat(); err == nil && info.IsDir() {
		return nil, folderError(path, f)
	}
	return readRows(f, path, opt)
}

// folderError lists what is in a folder that was named as a weather file.
func folderError(path string, folder *os.File) error {
	entries, _ := folder.ReadDir(-1)
	var names []string
	for _, e := range entries {
		if !e.IsDir() && !strings.HasPrefix(e.Name(), ".") {
			names = append(names, e.Name())
		}
	}
	if len(names) == 0 {
		return fileError(path, "name a weather file", "is a folder, not a file, and holds none")
	}
	slices.Sort(names)
	return fileError(path, "name one of its files, or several that are years of one place", "is a folder, not a file; it holds %s", listed(names))
}

func openError(path string, err error) error {
	if errors.Is(err, fs.ErrNotExist) {
		return fileError(path, "check the spelling and the folder", "no such file")
	}
	return fileError(path, "", "%v", errors.Unwrap(err))
}

// Read reads a weather file from r; name is used in messages and, without its
// folder, in Source.Name.
func Read(r io.Reader, name string, opt Options) (*Series, error) {
	raw, err := readRows(r, name, opt)
	if err != nil {
		return nil, err
	}
	return assemble(raw, opt)
}

// readRows takes the rows of a file as they stand.
func readRows(r io.Reader, name string, opt Options) (*observations, error) {
	stored, err := opt.stored(r, name)
	if err != nil {
		return nil, err
	}
	doc, err := unpack(stored, name)
	if err != nil {
		return nil, err
	}
	return doc.rows(stored, opt)
}

// stored takes the bytes of a file once the options are in order.
func (o *Options) stored(r io.Reader, name string) ([]byte, error) {
	if err := o.check(name); err != nil {
		return nil, err
	}
	stored, err := readStored(r, MaxBytes)
	if errors.Is(err, errLongLine) {
		return nil, longLine(name)
	}
	if err != nil {
		return nil, fileError(name, "", "%v", err)
	}
	return stored, nil
}

// rows finds the format of a document and takes its rows; stored are the bytes
// of the file it is in.
func (doc *document) rows(stored []byte, opt Options) (*observations, error) {
	doc.stated = opt
	doc.columns, doc.missing, doc.station = opt.Columns, opt.Missing, strings.TrimSpace(opt.StationName)
	f, err := detect(doc)
	if err != nil {
		return nil, err
	}
	raw, err := f.read(doc)
	if err != nil {
		return nil, err
	}
	raw.notes = append(doc.notes, raw.notes...)
	raw.outliers, raw.guessed = doc.outliers, doc.guessed
	sum := sha256.Sum256(stored)
	raw.source = Source{Name: filepath.Base(doc.name), SHA256: hex.EncodeToString(sum[:]), Format: f.name, By: f.by}
	return raw, nil
}

// readStored takes all of r, with room made ready where the size is known. Of
// more than limit it takes one byte more than that, so that it shows.
func readStored(r io.Reader, limit int64) ([]byte, error) {
	var b bytes.Buffer
	switch r := r.(type) {
	case *os.File:
		if info, err := r.Stat(); err == nil {
			b.Grow(int(min(info.Size(), readyBytes)) + bytes.MinRead)
		}
	case interface{ Len() int }:
		b.Grow(min(r.Len(), readyBytes) + bytes.MinRead)
	}
	_, err := b.ReadFrom(&lineGuard{r: io.LimitReader(r, limit+1)})
	return b.Bytes(), err
}

func (o *Options) check(name string) error {
	switch o.Humidity {
	case "", PreferAuto, PreferRelHum, PreferDewPoint:
	default:
		return fileError(name, "use auto, relative or dew-point", "humidity preference %q is not known", string(o.Humidity))
	}
	for _, v := range []struct {
		what   string
		val    *float64
		lo, hi float64
	}{
		{"latitude", o.Latitude, -90, 90},
		{"longitude", o.Longitude, -180, 180},
		{"elevation", o.Elevation, -500, 9000},
		{"UTC offset", o.UTCOffset, -12, 14},
	} {
		if v.val != nil && !(*v.val >= v.lo && *v.val <= v.hi) {
			return fileError(name, "", "%s %g is outside %g to %g", v.what, *v.val, v.lo, v.hi)
		}
	}
	return nil
}

// override lets the user's statement about the station win over the file's.
func (o *Options) override(s *Station) {
	for _, p := range []struct {
		to   *float64
		from *float64
	}{
		{&s.Latitude, o.Latitude}, {&s.Longitude, o.Longitude},
		{&s.Elevation, o.Elevation}, {&s.UTCOffset, o.UTCOffset},
	} {
		if p.from != nil {
			*p.to = *p.from
		}
	}
}

// unknownStation is a station of which the file says nothing.
func unknownStation() Station {
	nan := math.NaN()
	return Station{Latitude: nan, Longitude: nan, Elevation: nan, UTCOffset: nan}
}
