// Package officetest is test support: it opens finished workbooks in other
// programs and compares what those work out with the values that were written
// into the file. Nothing in the command itself imports it.
//
// The idea of the check: every formula cell of a workbook is written with a
// value computed in Go. LibreOffice works the formulas out from scratch, and
// [Check] demands the same values. A workbook in which any formula says
// something else than the Go code fails, cell by cell.
//
//	s, err := officetest.Open("season.xlsx")          // LibreOffice, a process of its own
//	report, err := s.Check(officetest.DefaultTolerance)
//	err = s.Set(map[string]any{"In_fan": 0.5, "Inputs!C6": "two-stage"})
//	err = s.Recalculate()
//	out, err := s.Names("Out_water", "Out_energy")
//
// Gnumeric ([Gnumeric]) is a second, independent formula engine for the same
// comparison. [ReadBook] is a fast reader of the formulas and values in an
// .xlsx file, [OpenPyXL] and [SheetJS] are two readers that other people use.
//
// Values of cells are float64, string, bool, nil for an empty cell, or [CellError].
// An empty text and an empty cell are not told apart, since LibreOffice's
// interface does not.
//
// Programs needed: see [Require].
package officetest
