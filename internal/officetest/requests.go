package officetest

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
)

// Set changes cells. A key is a defined name or a reference "Sheet!B3"; a
// value is a number, a bool, a text, a formula with its leading "=" (in
// LibreOffice's own notation), or nil to clear the cell. The formulas that depend
// on them follow, as they do when somebody types into the open workbook.
func (s *Session) Set(cells map[string]any) error {
	_, err := s.ask(map[string]any{"set": cells})
	return err
}

// Reset puts back every cell that [Session.Set] changed.
func (s *Session) Reset() error {
	_, err := s.ask(map[string]any{"reset": true})
	return err
}

// InsertRows puts empty rows above a row of a sheet, counted from 1, after
// taking off a protection without password.
func (s *Session) InsertRows(sheet string, row, count int) error {
	_, err := s.ask(map[string]any{"insert": []any{sheet, row, count}})
	return err
}

// Load closes the workbook and opens another in the same LibreOffice, again
// without recalculating: quicker than a new session.
func (s *Session) Load(path string) error {
	path, err := filepath.Abs(path)
	if err != nil {
		return err
	}
	s.path = path
	_, err = s.ask(map[string]any{"load": path})
	return err
}

// Recalculate works every formula out from scratch, whether it looks stale or
// not. Until then formulas that depend on no changed cell show what the file says.
func (s *Session) Recalculate() error {
	_, err := s.ask(map[string]any{"recalc": true})
	return err
}

// Names gives the values of defined names: a value for a single cell or a
// constant, [][]any for a range.
func (s *Session) Names(names ...string) (map[string]any, error) {
	a, err := s.ask(map[string]any{"names": names})
	if err != nil {
		return nil, err
	}
	out := make(map[string]any, len(names))
	for name, raw := range a.Names {
		if out[name], err = decodeName(raw); err != nil {
			return nil, fmt.Errorf("officetest: name %s: %w", name, err)
		}
	}
	return out, nil
}

// Number gives the value of a defined name of one cell that holds a number.
func (s *Session) Number(name string) (float64, error) {
	values, err := s.Names(name)
	if err != nil {
		return 0, err
	}
	number, ok := values[name].(float64)
	if !ok {
		return 0, fmt.Errorf("officetest: name %s is %v, not a number", name, values[name])
	}
	return number, nil
}

func decodeName(raw json.RawMessage) (any, error) {
	if bytes.HasPrefix(raw, []byte("[")) {
		var rows [][]json.RawMessage
		if err := json.Unmarshal(raw, &rows); err != nil {
			return nil, err
		}
		return decodeRows(rows)
	}
	return decodeValue(raw)
}

// Range gives the values of "Sheet!A1:B9", or of a sheet's used area when
// given only its name, row by row.
func (s *Session) Range(ref string) ([][]any, error) {
	blocks, err := s.blocks("range", ref)
	if err != nil {
		return nil, err
	}
	var rows [][]any
	for _, b := range blocks {
		rows = append(rows, b.values...)
	}
	return rows, nil
}

// Formulas gives the present values of all formula cells. Before
// [Session.Recalculate] these are the cached values, as LibreOffice reads them.
func (s *Session) Formulas() (Results, error) {
	blocks, err := s.blocks("formulas", "")
	if err != nil {
		return nil, err
	}
	out := Results{}
	for _, b := range blocks {
		sheet := out[b.Sheet]
		if sheet == nil {
			sheet = Values{}
			out[b.Sheet] = sheet
		}
		for i, row := range b.values {
			for j, v := range row {
				sheet[Ref{b.Row + i, b.Column + j}] = v
			}
		}
	}
	return out, nil
}

// Pages gives the number of printed pages of each sheet.
func (s *Session) Pages() (map[string]int, error) {
	a, err := s.ask(map[string]any{"pages": true})
	if err != nil {
		return nil, err
	}
	return a.Pages, nil
}

// PDF prints the workbook into a file.
func (s *Session) PDF(path string) error {
	return s.print(map[string]any{}, path)
}

// SheetPDF prints one sheet into a file. Pages limits it, as in "1-3"; empty
// means all of them.
func (s *Session) SheetPDF(sheet, pages, path string) error {
	return s.print(map[string]any{"sheet": sheet, "only": pages}, path)
}

func (s *Session) print(request map[string]any, path string) error {
	path, err := filepath.Abs(path)
	if err != nil {
		return err
	}
	request["pdf"] = path
	_, err = s.ask(request)
	return err
}

// SaveAs writes the workbook as LibreOffice writes an .xlsx file.
func (s *Session) SaveAs(path string) error {
	path, err := filepath.Abs(path)
	if err != nil {
		return err
	}
	_, err = s.ask(map[string]any{"save": path})
	return err
}

// block is a rectangle of values in an answer that comes through a file.
type block struct {
	Sheet       string
	Row, Column int
	Rows        [][]json.RawMessage
	values      [][]any
}

// blocks makes a request whose answer recalc.py writes into a file.
func (s *Session) blocks(kind, ref string) ([]block, error) {
	path := filepath.Join(s.folder, "answer.json")
	request := map[string]any{kind: path}
	if ref != "" {
		request = map[string]any{kind: ref, "to": path}
	}
	if _, err := s.ask(request); err != nil {
		return nil, err
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return decodeBlocks(f)
}

func decodeBlocks(r io.Reader) ([]block, error) {
	var out []block
	lines := json.NewDecoder(r)
	for {
		var b block
		err := lines.Decode(&b)
		if errors.Is(err, io.EOF) {
			return out, nil
		}
		if err == nil {
			b.values, err = decodeRows(b.Rows)
		}
		if err != nil {
			return nil, fmt.Errorf("officetest: read values: %w", err)
		}
		b.Rows = nil
		out = append(out, b)
	}
}
