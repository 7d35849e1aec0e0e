package xlsx

import (
	"regexp"
	"strconv"
	"strings"
)

// The size of a sheet. Source: ECMA-376 part 1, 18.3.1.73 and the common limit
// of the programs.
const (
	maxRows = 1_048_576
	maxCols = 16_384
)

// box is a rectangle of cells, both corners included.
type box struct{ row1, col1, row2, col2 int }

func (b box) overlaps(o box) bool {
	return b.row1 <= o.row2 && o.row1 <= b.row2 && b.col1 <= o.col2 && o.col1 <= b.col2
}

func (b box) contains(row, col int) bool {
	return b.row1 <= row && row <= b.row2 && b.col1 <= col && col <= b.col2
}

func (b box) String() string {
	if b.row1 == b.row2 && b.col1 == b.col2 {
		return cellRef(b.row1, b.col1)
	}
	return cellRef(b.row1, b.col1) + ":" + cellRef(b.row2, b.col2)
}

// fixed is the box with dollar signs.
func (b box) fixed() string {
	a := "$" + colName(b.col1) + "$" + strconv.Itoa(b.row1)
	if b.row1 == b.row2 && b.col1 == b.col2 {
		return a
	}
	return a + ":$" + colName(b.col2) + "$" + strconv.Itoa(b.row2)
}

// colName turns 1 into A, 27 into AA.
func colName(col int) string {
	var b [4]byte
	i := len(b)
	for ; col > 0; col = (col - 1) / 26 {
		i--
		b[i] = byte('A' + (col-1)%26)
	}
	return string(b[i:])
}

func cellRef(row, col int) string { return colName(col) + strconv.Itoa(row) }

var cellPattern = regexp.MustCompile(`^\$?([A-Za-z]{1,3})\$?([1-9][0-9]{0,6})$`)

// parseCell reads "B4", with or without dollar signs.
func parseCell(ref string) (row, col int, ok bool) {
	m := cellPattern.FindStringSubmatch(ref)
	if m == nil {
		return 0, 0, false
	}
	for _, c := range strings.ToUpper(m[1]) {
		col = col*26 + int(c-'A'+1)
	}
	row, _ = strconv.Atoi(m[2])
	return row, col, row <= maxRows && col <= maxCols
}

// parseBox reads "A1" or "A1:B4".
func parseBox(ref string) (box, bool) {
	a, z, two := strings.Cut(ref, ":")
	if !two {
		z = a
	}
	r1, c1, ok1 := parseCell(a)
	r2, c2, ok2 := parseCell(z)
	return box{r1, c1, r2, c2}, ok1 && ok2 && r1 <= r2 && c1 <= c2
}

// parseBoxes reads boxes with blanks between.
func parseBoxes(refs string) ([]box, bool) {
	var all []box
	for _, f := range strings.Fields(refs) {
		b, ok := parseBox(f)
		if !ok {
			return nil, false
		}
		all = append(all, b)
	}
	return all, len(all) > 0
}

var (
	wordPattern = regexp.MustCompile(`^[A-Za-z_][A-Za-z0-9_]*$`)
	namePattern = regexp.MustCompile(`^[A-Za-z_][A-Za-z0-9_.]*$`)
	// cellLike also covers programs with more columns than ours.
	cellLike = regexp.MustCompile(`^[A-Za-z]{1,3}[0-9]+$`)
	r1c1Like = regexp.MustCompile(`(?i)^(r[0-9]*(c[0-9]*)?|c[0-9]*|true|false)$`)
)

// badName says why a word cannot be a defined name or table name, or "".
func badName(name string) string {
	switch {
	case len(name) > 255:
		return "is longer than 255 characters"
	case !namePattern.MatchString(name):
		return "has to begin with a letter or underscore and go on with letters, digits, underscores, full stops"
	case cellLike.MatchString(name):
		return "looks like a cell"
	case r1c1Like.MatchString(name):
		return "looks like a row, a column or a truth value"
	}
	return ""
}

// sheetPattern is a sheet's name: words with single spaces or hyphens between.
var sheetPattern = regexp.MustCompile(`^[A-Za-z_][A-Za-z0-9_]*([ -][A-Za-z0-9_]+)*$`)

// badSheetName says why a text cannot be a sheet's name here, or "".
func badSheetName(name string) string {
	switch {
	case len(name) > 31:
		return "is longer than 31 characters"
	case !sheetPattern.MatchString(name):
		return "has to be letters, digits and underscores, with single spaces or hyphens between words"
	case cellLike.MatchString(name), r1c1Like.MatchString(name):
		return "looks like a cell, a row, a column or a truth value"
	case strings.EqualFold(name, "history"):
		return "is reserved"
	}
	return ""
}
