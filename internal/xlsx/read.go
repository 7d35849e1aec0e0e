package xlsx

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"github.com/xuri/excelize/v2"
)

// Reader finds named cells in a workbook, also in one that another program has
// saved or in which rows were inserted. Close it when done.
type Reader struct {
	file  *excelize.File
	names map[string]string // lower-case name to what it refers to
}

// Found is a named cell as it stands in a file.
type Found struct {
	Sheet, Ref string
	// Value is a float64, a string, a bool, or nil for an empty cell; beside a
	// formula it is the cached result. Errors such as #REF! are strings.
	Value any
	// Formula is without the leading '='; empty where there is none.
	Formula string
}

// ErrNoCell says that a name does not exist or no longer refers to a cell.
var ErrNoCell = errors.New("no cell of that name")

// OpenReader opens a workbook. Errors name what is wrong with the file, not
// the file.
func OpenReader(path string) (r *Reader, err error) {
	if err := checkSize(path); err != nil {
		return nil, err
	}
	defer func() { // of a library that trusts its files
		if p := recover(); p != nil {
			r, err = nil, fmt.Errorf("it is damaged (%v)", p)
		}
	}()
	f, err := excelize.OpenFile(path, excelize.Options{UnzipSizeLimit: mostContent, UnzipXMLSizeLimit: mostContent})
	if err != nil {
		return nil, err
	}
	r = &Reader{file: f, names: map[string]string{}}
	for _, n := range f.GetDefinedName() {
		key := strings.ToLower(n.Name)
		if _, taken := r.names[key]; !taken || n.Scope == "Workbook" {
			r.names[key] = n.RefersTo
		}
	}
	return r, nil
}

// Close removes what the reader keeps in temporary files.
func (r *Reader) Close() error { return r.file.Close() }

// HasName tells whether a name is defined, whatever it refers to.
func (r *Reader) HasName(name string) bool {
	_, ok := r.names[strings.ToLower(name)]
	return ok
}

// Cell reads the cell a name refers to; the error wraps ErrNoCell where there
// is none.
func (r *Reader) Cell(name string) (Found, error) {
	ref, ok := r.names[strings.ToLower(name)]
	if !ok {
		return Found{}, fmt.Errorf("%s: %w", name, ErrNoCell)
	}
	at := strings.LastIndex(ref, "!")
	if at < 0 || strings.Contains(ref, "#REF!") {
		return Found{}, fmt.Errorf("%s refers to %s: %w", name, ref, ErrNoCell)
	}
	c := Found{Sheet: strings.Trim(strings.TrimPrefix(ref[:at], "="), "'$"), Ref: strings.ReplaceAll(ref[at+1:], "$", "")}
	if first, last, isRange := strings.Cut(c.Ref, ":"); isRange && first == last {
		c.Ref = first
	}
	if _, _, ok := parseCell(c.Ref); !ok {
		return Found{}, fmt.Errorf("%s refers to %s: %w", name, ref, ErrNoCell)
	}
	return c, r.fill(&c)
}

// fill reads value and formula of a cell.
func (r *Reader) fill(c *Found) error {
	raw, err := r.file.GetCellValue(c.Sheet, c.Ref, excelize.Options{RawCellValue: true})
	if err != nil {
		return err
	}
	if c.Formula, err = r.file.GetCellFormula(c.Sheet, c.Ref); err != nil {
		return err
	}
	c.Formula = strings.TrimPrefix(c.Formula, "=")
	kind, err := r.file.GetCellType(c.Sheet, c.Ref)
	if err != nil {
		return err
	}
	c.Value = readValue(kind, raw)
	return nil
}

func readValue(kind excelize.CellType, raw string) any {
	switch kind {
	case excelize.CellTypeBool:
		return raw == "1" || strings.EqualFold(raw, "TRUE")
	case excelize.CellTypeInlineString, excelize.CellTypeSharedString, excelize.CellTypeFormula, excelize.CellTypeError:
		if raw == "" {
			return nil
		}
		return raw
	}
	if raw == "" {
		return nil
	}
	if v, err := strconv.ParseFloat(raw, 64); err == nil {
		return v
	}
	return raw
}
