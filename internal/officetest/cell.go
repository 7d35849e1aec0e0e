package officetest

import (
	"fmt"
	"strings"
)

// A Ref is the place of a cell on its sheet, row and column counted from 1.
type Ref struct{ Row, Col int }

// String gives the usual form, such as "AB12".
func (r Ref) String() string {
	var letters []byte
	for c := r.Col; c > 0; c = (c - 1) / 26 {
		letters = append([]byte{byte('A' + (c-1)%26)}, letters...)
	}
	return fmt.Sprintf("%s%d", letters, r.Row)
}

// ParseRef reads a reference such as "AB12", without dollar signs.
func ParseRef(s string) (Ref, error) {
	r, ok := parseRef([]byte(s))
	if !ok {
		return Ref{}, fmt.Errorf("officetest: %q is not a cell, such as AB12", s)
	}
	return r, nil
}

func parseRef(s []byte) (r Ref, ok bool) {
	i := 0
	for ; i < len(s) && s[i] >= 'A' && s[i] <= 'Z'; i++ {
		r.Col = r.Col*26 + int(s[i]-'A') + 1
	}
	letters := i
	for ; i < len(s) && s[i] >= '0' && s[i] <= '9'; i++ {
		r.Row = r.Row*10 + int(s[i]-'0')
	}
	return r, i == len(s) && letters > 0 && letters <= 3 && r.Row > 0
}

// A CellError is the value of a formula that cannot be worked out, as the
// program shows it: "#DIV/0!", "#NAME?", "Err:522".
type CellError string

// Error makes a CellError an error, for callers that meet one unexpectedly.
func (e CellError) Error() string { return "cell shows " + string(e) }

// Values are the cells of a sheet by place.
type Values map[Ref]any

// Results are the values of formula cells by sheet, as one program worked them out.
type Results map[string]Values

// quoteSheet puts a sheet's name as a reference needs it.
func quoteSheet(name string) string {
	if strings.ContainsAny(name, " '-") {
		return "'" + strings.ReplaceAll(name, "'", "''") + "'"
	}
	return name
}
