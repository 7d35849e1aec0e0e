package main

import (
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"github.com/evapbook/evapbook/internal/officetest"
)

// book has one formula, C1 = A1*B1 = 6, with the given cached value.
func book(t *testing.T, cached float64) string {
	t.Helper()
	f := excelize.NewFile()
	defer f.Close()
	require.NoError(t, f.SetDefinedName(&excelize.DefinedName{Name: "In_a", RefersTo: "Sheet1!$A$1"}))
	require.NoError(t, f.SetSheetDimension("Sheet1", "A1:C1"))
	sw, err := f.NewStreamWriter("Sheet1")
	require.NoError(t, err)
	require.NoError(t, sw.SetRow("A1", []any{2, 3, excelize.Cell{Formula: "In_a*B1", Value: cached}}))
	require.NoError(t, sw.Flush())
	path := filepath.Join(t.TempDir(), "book.xlsx")
	require.NoError(t, f.SaveAs(path))
	return path
}

func TestRecalc(t *testing.T) {
	officetest.Require(t, officetest.LibreOffice, officetest.GnumericConvert, officetest.PythonOpenPyXL, officetest.NodeSheetJS)
	var out strings.Builder
	err := run([]string{"-gnumeric", "-readers", "-set", "In_a=5", "-show", "Sheet1!A1:C1", book(t, 6)}, &out)
	require.NoError(t, err)
	for _, text := range []string{
		"LibreOffice: 1 formula cells, 0 differ", "Sheet1!A1:C1: [5 3 15]",
		"Gnumeric: 1 formula cells, 0 differ", "openpyxl agrees", "SheetJS agrees",
	} {
		assert.Contains(t, out.String(), text)
	}
}

func TestRecalcFailsOnWrongValue(t *testing.T) {
	officetest.Require(t, officetest.LibreOffice, officetest.GnumericConvert)
	var out strings.Builder
	err := run([]string{"-gnumeric", book(t, 7)}, &out)
	assert.ErrorContains(t, err, "1 of 1 formula cells differ in LibreOffice")
	assert.ErrorContains(t, err, "1 of 1 formula cells differ in Gnumeric")
	assert.Contains(t, out.String(), "Sheet1!C1: file says 7, worked out 6, formula =In_a*B1")
	assert.ErrorContains(t, run(nil, &out), "give one workbook")
}
