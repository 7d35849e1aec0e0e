// Package xlsx writes declared sheets as an Excel workbook with live formulas,
// cached values and native charts. It is the one place that knows excelize.
//
// A [Book] is data: sheets, cells, grids, charts. [Book.Write] checks it and
// writes it; the same book gives the same bytes. The example of the package
// shows a whole one.
//
// # Formulas
//
// Formulas are written without the leading '=', in English, with commas. Cells of
// a [Grid] are meant by column key, in brackets:
//
//	[t]             same row, column t of the same grid       C9
//	[t@-1]          the row before                            C8
//	[Hours.t]       same row of the grid Hours                Hours!C9
//	[Hours.t:]      the whole column                          Hours!$C$9:$C$8768
//	[Hours.t#0]     one row, counted from 0; #-1 is the last  Hours!$C$9
//	[Hours.t#0:23]  rows 0 to 23                              Hours!$C$9:$C$32
//	[Money.total:]  a range of the sheet, see [Sheet.Mark]    Money!$B$8:$D$8
//
// A grid is called as its sheet unless it has a name of its own. Outside a grid
// the grid's name is needed, except on a sheet with one grid. The sheet is left
// out of the reference where it is the formula's own. Names of the book ([Name],
// and Name of a [Cell]) and plain references are written as they are. The same
// notation serves names, validations, conditional formats and charts.
//
// Only [AllowedFunctions] may be used, because the common programs share them.
//
// # Values
//
// Beside each formula stands its result, worked out by the caller: programs that
// do not calculate show it, and those that do can be compared with it.
// Constants are written in the shortest form that reads back to the same number;
// cached results with 15 significant digits, enough for a comparison at 1e-9,
// except dates, which are written in full. A NaN or an infinity is an error that
// names the cell, never text.
//
// # Division of work
//
// excelize writes styles, names, conditional formats, validations and print
// set-up. Rows are formatted here and put into its sheets while the file is
// zipped, because it keeps no cached values outside its streams, and those lose
// page set-up and other things without a word. Chart parts are written here too:
// excelize has no cached points and no date axes.
//
// # Left out
//
// Merged cells over grids, comments, array formulas, pivot
// tables, macros, functions newer than Excel 2010.
// Stacked areas drop to zero at blanks; that is how the programs draw them. The
// files were read with LibreOffice, gnumeric and openpyxl, not with Excel.
package xlsx
