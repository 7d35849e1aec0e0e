// Package csvcell writes CSV that people open in spreadsheet programs, which
// take a cell that begins with =, +, - or @ for a formula, whoever wrote it.
package csvcell

import (
	"encoding/csv"
	"io"
	"regexp"
	"strings"

	"github.com/gocarina/gocsv"
)

// Marshal writes rows, a slice of structs with csv tags. Unless raw, texts that
// a spreadsheet program would take for a formula are made harmless.
func Marshal(rows any, w io.Writer, raw bool) error {
	if raw {
		return gocsv.Marshal(rows, w)
	}
	return gocsv.MarshalCSV(rows, writer{csv.NewWriter(w)})
}

type writer struct{ *csv.Writer }

// Write implements gocsv.CSVWriter.
func (w writer) Write(row []string) error {
	for i, cell := range row {
		row[i] = Harmless(cell)
	}
	return w.Writer.Write(row)
}

// number is what may begin with a sign and is no formula; a dash alone is a
// table's word for nothing.
var number = regexp.MustCompile(`^(-|[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?)$`)

// Harmless is a cell with an apostrophe before it where a spreadsheet program
// would take it for a formula. Numbers are left as they are.
//
// Source: OWASP, CSV Injection: cells must not begin with =, +, -, @, tab,
// carriage return or line feed, nor with the full-width forms of the first four.
func Harmless(cell string) string {
	if cell == "" || number.MatchString(cell) {
		return cell
	}
	if first := []rune(cell)[0]; strings.ContainsRune("=+-@\t\r\n＝＋－＠", first) {
		return "'" + cell
	}
	return cell
}
