package officetest

import (
	"fmt"
	"math"
	"sort"
	"strings"
)

// A Tolerance says when two numbers count as equal: when their difference is
// at most Relative times the larger magnitude, or when neither magnitude
// exceeds Floor.
type Tolerance struct {
	Relative float64
	// Floor is for what is left when equal numbers are subtracted: rounding
	// and nothing else, and not the same rounding on both sides.
	Floor float64
}

// DefaultTolerance is a billionth. Both sides compute in binary64 with some
// hundred operations a cell, so honest differences are near 1e-13; a billionth
// is far below what any figure shows and far above rounding.
// House limit, no source.
var DefaultTolerance = Tolerance{Relative: 1e-9, Floor: 1e-12}

// equal says whether two values agree and gives their relative difference,
// which is 0 for anything but two numbers and below the floor.
func (t Tolerance) equal(a, b any) (relative float64, ok bool) {
	a, b = number(a), number(b)
	x, isX := a.(float64)
	y, isY := b.(float64)
	if !isX || !isY {
		return 0, a == b
	}
	larger := math.Max(math.Abs(x), math.Abs(y))
	if larger <= t.Floor {
		return 0, true
	}
	relative = math.Abs(x-y) / larger
	return relative, relative <= t.Relative // not for NaN
}

// number makes a bool the 1 or 0 that LibreOffice keeps it as.
func number(v any) any {
	switch v {
	case true:
		return 1.0
	case false:
		return 0.0
	}
	return v
}

// A Difference is a formula cell on which file and program disagree.
type Difference struct {
	Sheet   string
	Ref     Ref
	Formula string // of the file; empty for a shared formula
	Cached  any    // the value in the file
	Result  any    // what the program worked out; [Absent] if it has no formula there
}

// Absent is the result of a cell that is a formula in the file but not in the
// program that opened it.
const Absent = CellError("(no formula here)")

// String gives the difference on one line.
func (d Difference) String() string {
	formula := d.Formula
	if len(formula) > 200 {
		formula = formula[:200] + "..."
	}
	return fmt.Sprintf("%s!%s: file says %v, worked out %v, formula =%s",
		quoteSheet(d.Sheet), d.Ref, show(d.Cached), show(d.Result), formula)
}

func show(v any) any {
	switch v := v.(type) {
	case nil:
		return "(empty)"
	case string:
		return fmt.Sprintf("%q", v)
	case CellError:
		return string(v)
	}
	return v
}

// A SheetReport sums up the comparison of one sheet.
type SheetReport struct {
	Sheet    string
	Formulas int     // cells compared
	Numbers  int     // of these, cells with a number in the file
	Errors   int     // of these, cells where the program shows an error, in the file or not
	Largest  float64 // largest relative difference of two numbers
	At       Ref     // where that is
	Failures []Difference
}

// A Report sums up the comparison of a workbook.
type Report struct {
	Program string // that worked the formulas out
	Sheets  []SheetReport
}

// Failures are the disagreements of all sheets.
func (r *Report) Failures() []Difference {
	var out []Difference
	for _, s := range r.Sheets {
		out = append(out, s.Failures...)
	}
	return out
}

// Formulas is the number of cells compared.
func (r *Report) Formulas() int {
	n := 0
	for _, s := range r.Sheets {
		n += s.Formulas
	}
	return n
}

// Largest is the largest relative difference of two numbers, and its sheet.
func (r *Report) Largest() (sheet string, relative float64) {
	for _, s := range r.Sheets {
		if s.Largest >= relative {
			sheet, relative = s.Sheet, s.Largest
		}
	}
	return sheet, relative
}

// String gives a table of the sheets and the first failures of each.
func (r *Report) String() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s: %d formula cells, %d differ\n", r.Program, r.Formulas(), len(r.Failures()))
	fmt.Fprintf(&b, "  %-20s %9s %9s %7s %7s  %s\n", "sheet", "formulas", "numbers", "errors", "differ", "largest relative difference")
	for _, s := range r.Sheets {
		fmt.Fprintf(&b, "  %-20s %9d %9d %7d %7d  %.1e", s.Sheet, s.Formulas, s.Numbers, s.Errors, len(s.Failures), s.Largest)
		if s.Largest > 0 {
			fmt.Fprintf(&b, " at %s", s.At)
		}
		b.WriteByte('\n')
	}
	for _, s := range r.Sheets {
		for i, d := range s.Failures {
			if i == 10 {
				fmt.Fprintf(&b, "  ... and %d more on %s\n", len(s.Failures)-i, s.Sheet)
				break
			}
			fmt.Fprintf(&b, "  %s\n", d)
		}
	}
	return b.String()
}

// An Outcome is what a program made of the formula cells; ok is false where it
// has none.
type Outcome interface {
	Value(sheet string, at Ref) (v any, ok bool)
}

// Value makes Results an Outcome.
func (r Results) Value(sheet string, at Ref) (v any, ok bool) {
	v, ok = r[sheet][at]
	return v, ok
}

// Compare sets the cached values of the book's formula cells against what a
// program worked out. Numbers agree within the tolerance, texts and errors
// when they are the same; a formula without a cached value agrees only with an
// empty result.
func Compare(b *Book, program string, results Outcome, t Tolerance) *Report {
	r := &Report{Program: program}
	for _, s := range b.Sheets {
		if part := compareSheet(s, results, t); part.Formulas > 0 {
			r.Sheets = append(r.Sheets, part)
		}
	}
	return r
}

func compareSheet(s *Sheet, results Outcome, t Tolerance) SheetReport {
	r, rest := SheetReport{Sheet: s.Name}, remainders(s)
	for i := range s.Cells {
		c := &s.Cells[i]
		if !c.HasFormula {
			continue
		}
		r.Formulas++
		if _, ok := c.Value.(float64); ok {
			r.Numbers++
		}
		result, ok := results.Value(s.Name, c.Ref)
		if !ok {
			result = Absent
		}
		if _, ok := result.(CellError); ok {
			r.Errors++
		}
		relative, same := t.equal(c.Value, result)
		if !same && within(c.Value, result, rest[c.Ref.Col]) {
			relative, same = 0, true
		}
		if !same {
			r.Failures = append(r.Failures, Difference{s.Name, c.Ref, c.Formula, c.Value, result})
		}
		if relative > r.Largest {
			r.Largest, r.At = relative, c.Ref
		}
	}
	sort.SliceStable(r.Failures, func(i, j int) bool { return r.Failures[i].Ref.Row < r.Failures[j].Ref.Row })
	return r
}

// Check works all formulas out afresh and compares them with the values in
// the file. Inputs changed by [Session.Set] are put back first.
func (s *Session) Check(t Tolerance) (*Report, error) {
	b, err := ReadBook(s.path)
	if err != nil {
		return nil, err
	}
	if err := s.Reset(); err != nil {
		return nil, err
	}
	if err := s.Recalculate(); err != nil {
		return nil, err
	}
	results, err := s.Formulas()
	if err != nil {
		return nil, err
	}
	return Compare(b, "LibreOffice", results, t), nil
}
