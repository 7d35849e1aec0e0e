package officetest

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"os/exec"
)

// A Reading is what a reader of .xlsx files made of a workbook, the same
// shape for every reader, so that they can be compared.
type Reading struct {
	Sheets []SheetReading
	// Values are the sampled cells by reference "Sheet!B3"; without those the
	// reader found empty.
	Values map[string]any
}

// A SheetReading sums up what a reader found on one worksheet. Rows and Columns
// are the last ones with a value or a formula.
type SheetReading struct {
	Name          string
	Rows, Columns int
	Formulas      int     // cells with a formula
	Numbers       int     // cells whose value is a number; dates count
	Texts         int     // cells whose value is a text that is not empty
	Sum           float64 // of the numbers, row by row
}

// Reading sums up the book as [ReadBook] read it, with the values of the
// sampled cells.
func (b *Book) Reading(samples []string) *Reading {
	r := &Reading{Values: map[string]any{}}
	wanted := map[string]bool{}
	for _, s := range samples {
		wanted[s] = true
	}
	for _, s := range b.Sheets {
		sheet := SheetReading{Name: s.Name}
		for i := range s.Cells {
			c := &s.Cells[i]
			sheet.add(c)
			if at := s.Name + "!" + c.Ref.String(); len(wanted) > 0 && c.Value != nil && wanted[at] {
				r.Values[at] = c.Value
			}
		}
		r.Sheets = append(r.Sheets, sheet)
	}
	return r
}

func (s *SheetReading) add(c *Cell) {
	if c.Value == nil && !c.HasFormula {
		return
	}
	s.Rows, s.Columns = max(s.Rows, c.Ref.Row), max(s.Columns, c.Ref.Col)
	if c.HasFormula {
		s.Formulas++
	}
	switch v := c.Value.(type) {
	case float64:
		s.Numbers++
		s.Sum += v
	case string:
		s.Texts++
	}
}

// Sample picks about n cells with a value, evenly over each sheet.
func (b *Book) Sample(n int) []string {
	var out []string
	for _, s := range b.Sheets {
		step := max(1, len(s.Cells)*len(b.Sheets)/n)
		for i := 0; i < len(s.Cells); i += step {
			out = append(out, s.Name+"!"+s.Cells[i].Ref.String())
		}
	}
	return out
}

// OpenPyXL reads the workbook with openpyxl (Python). The error is
// [ErrNotInstalled] (wrapped) where that is missing.
func OpenPyXL(path string, samples []string) (*Reading, error) {
	if err := Installed(PythonOpenPyXL); err != nil {
		return nil, err
	}
	return runReader(python(), "openpyxl_dump.py", path, samples)
}

// SheetJS reads the workbook with SheetJS (JavaScript). The error is
// [ErrNotInstalled] (wrapped) where that or Node.js is missing.
func SheetJS(path string, samples []string) (*Reading, error) {
	if err := Installed(NodeSheetJS); err != nil {
		return nil, err
	}
	return runReader("node", "sheetjs_dump.js", path, samples)
}

// runReader runs a script of tools/readers: samples in as JSON, reading out.
func runReader(program, name, path string, samples []string) (*Reading, error) {
	script, err := tool("readers", name)
	if err != nil {
		return nil, err
	}
	in, err := json.Marshal(samples)
	if err != nil {
		return nil, err
	}
	ctx, cancel := context.WithTimeout(context.Background(), RequestTimeout)
	defer cancel()
	c := exec.CommandContext(ctx, program, script, path)
	var problems tail
	c.Stdin, c.Stderr = bytes.NewReader(in), &problems
	out, err := c.Output()
	if err != nil {
		return nil, fmt.Errorf("officetest: %s %s: %w%s", name, path, err, problems.hint())
	}
	return decodeReading(out)
}

func decodeReading(text []byte) (*Reading, error) {
	var raw struct {
		Sheets []SheetReading
		Values map[string]json.RawMessage
	}
	if err := json.Unmarshal(text, &raw); err != nil {
		return nil, fmt.Errorf("officetest: reading: %w", err)
	}
	r := &Reading{Sheets: raw.Sheets, Values: map[string]any{}}
	for at, v := range raw.Values {
		var err error
		if r.Values[at], err = decodeValue(v); err != nil {
			return nil, fmt.Errorf("officetest: reading: %s: %w", at, err)
		}
	}
	return r, nil
}

// Differences says how another reading differs from this one; nothing when they
// agree. Numbers agree within the tolerance.
func (r *Reading) Differences(other *Reading, t Tolerance) []string {
	var out []string
	if len(r.Sheets) != len(other.Sheets) {
		return []string{fmt.Sprintf("%d sheets against %d", len(r.Sheets), len(other.Sheets))}
	}
	for i, a := range r.Sheets {
		b := other.Sheets[i]
		_, same := t.equal(a.Sum, b.Sum)
		sum := b.Sum
		b.Sum = a.Sum
		if a != b || !same {
			b.Sum = sum
			out = append(out, fmt.Sprintf("sheet %+v against %+v", a, b))
		}
	}
	for at, v := range r.Values {
		if _, same := t.equal(v, other.Values[at]); !same {
			out = append(out, fmt.Sprintf("%s: %v against %v", at, show(v), show(other.Values[at])))
		}
	}
	for at, v := range other.Values {
		if r.Values[at] == nil {
			out = append(out, fmt.Sprintf("%s: %v against %v", at, show(nil), show(v)))
		}
	}
	return out
}
