// Package evaluator is test support: it works the formulas of a finished
// workbook out from the .xlsx file alone, in the seconds a test has. It knows
// nothing of how the file came about, so that a formula that says something
// else than the value beside it is found cell by cell.
//
//	w, err := evaluator.Open("season.xlsx")
//	report, err := w.Check(office.DefaultTolerance) // as written
//	err = w.Set(map[string]any{"In_cooler_effectiveness": 0.6})
//	err = w.Recalculate()
//	out, err := w.Names("Out_hours_held")
//
// It has exactly the worksheet functions our books may use
// (xlsx.AllowedFunctions, held equal by a test); anything else in a formula, an
// array constant, a whole column or a range where one value is meant is an
// error, not a guess. What the functions do is what ISO/IEC 29500-1 section
// 18.17 and the published behaviour of Excel say where LibreOffice and
// Gnumeric do the same; TestProgramsAgree asks both.
//
// Arithmetic is plain binary64 and comparisons are exact. Programs that people
// use let numbers count as equal that differ in the last digits, each in its
// own way. A formula whose outcome hangs on those digits is a fault in our
// books, and shows here.
package evaluator
