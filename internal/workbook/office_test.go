//go:build long

package workbook

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/internal/officetest"
)

// LibreOffice and Gnumeric, which nobody here wrote and which share no code,
// work a book of four weeks of each kind of weather out to the values in the file;
// TestLongAsWritten has the book of several years, of which four weeks are none.
func TestLongEveryKind(t *testing.T) {
	t.Parallel()
	officetest.Heavy(t, officetest.LibreOffice, officetest.GnumericConvert)
	files := map[string]string{}
	for _, k := range bookKinds {
		if !k.years {
			files[k.name] = writeBook(t, k.compute(t, fourWeeks))
		}
	}
	t.Run("Gnumeric", func(t *testing.T) {
		t.Parallel()
		for name, file := range files {
			t.Run(name, func(t *testing.T) { gnumericAgrees(t, file) })
		}
	})
	t.Run("LibreOffice", func(t *testing.T) {
		t.Parallel()
		s, err := officetest.Open(files[bookKinds[0].name])
		require.NoError(t, err)
		defer s.Close()
		for name, file := range files {
			t.Run(name, func(t *testing.T) {
				require.NoError(t, s.Load(file))
				report, err := s.Check(officetest.DefaultTolerance)
				require.NoError(t, err)
				agrees(t, report)
			})
		}
	})
}

// lackedByGnumeric are the functions the second engine may lack. There are
// none: a function that is not in all programs is not to be used.
var lackedByGnumeric []string

func gnumericAgrees(t *testing.T, file string) {
	results, err := officetest.Gnumeric(file)
	require.NoError(t, err)
	b := readBook(t, file)
	assert.Equal(t, lackedByGnumeric, officetest.LackingFunctions(b, results))
	agrees(t, officetest.Compare(b, "Gnumeric", results, officetest.DefaultTolerance))
}

// LibreOffice, openpyxl and SheetJS find the same sheets of the same size in a
// workbook, and the same values in some 200 sampled cells. tools/recalc has the two
// readers go through the sample's year.
func TestLongReadersAgree(t *testing.T) {
	t.Parallel()
	officetest.Heavy(t, officetest.LibreOffice, officetest.PythonOpenPyXL, officetest.NodeSheetJS)
	file := writeBook(t, bookKinds[0].compute(t, fourWeeks))
	b := readBook(t, file)
	samples := b.Sample(200)
	require.GreaterOrEqual(t, len(samples), 200)
	own := b.Reading(samples)
	for name, read := range map[string]func(string, []string) (*officetest.Reading, error){"openpyxl": officetest.OpenPyXL, "SheetJS": officetest.SheetJS} {
		other, err := read(file, samples)
		require.NoError(t, err, name)
		assert.Empty(t, own.Differences(other, officetest.DefaultTolerance), name)
	}
	s, err := officetest.Open(file)
	require.NoError(t, err)
	defer s.Close()
	for i, sheet := range own.Sheets {
		require.Equal(t, sheet.Name, s.Sheets[i])
		if sheet.Rows > 1000 { // as many rows need no second look through a slow pipe
			continue
		}
		rows, err := s.Range(sheet.Name)
		require.NoError(t, err)
		wantRows, wantColumns := used(b.Sheet(sheet.Name))
		gotRows, gotColumns := usedOf(rows)
		assert.Equal(t, []int{wantRows, wantColumns}, []int{gotRows, gotColumns}, "rows and columns of %s", sheet.Name)
	}
	for _, ref := range samples {
		got, err := s.Range(ref)
		require.NoError(t, err)
		sameValue(t, ref, own.Values[ref], got[0][0])
	}
}

// used is the last row and column with something to see: LibreOffice does not
// tell an empty text from an empty cell.
func used(s *officetest.Sheet) (row, col int) {
	for _, c := range s.Cells {
		if c.Value != nil && c.Value != "" {
			row, col = max(row, c.Ref.Row), max(col, c.Ref.Col)
		}
	}
	return row, col
}

func usedOf(rows [][]any) (row, col int) {
	for i := range rows {
		for k, v := range rows[i] {
			if v != nil {
				row, col = max(row, i+1), max(col, k+1)
			}
		}
	}
	return row, col
}

func sameValue(t *testing.T, ref string, want, got any) {
	w, number := want.(float64)
	g, both := got.(float64)
	if number && both {
		assert.InDelta(t, w, g, 1e-9*max(1, math.Abs(w)), ref)
		return
	}
	assert.Equal(t, want, got, ref)
}
