package xlsx

// CellRef is the reference of a cell, such as "B4"; rows and columns count from 1.
func CellRef(row, col int) string { return cellRef(row, col) }

// RangeRef is the reference of a range by its corners, such as "A1:D9".
func RangeRef(row, col, lastRow, lastCol int) string {
	return cellRef(row, col) + ":" + cellRef(lastRow, lastCol)
}
