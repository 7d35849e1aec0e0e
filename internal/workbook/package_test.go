package workbook

import (
	"archive/zip"
	"encoding/xml"
	"errors"
	"io"
	"math"
	"path"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/internal/officetest"
)

// Every part of a real workbook is well-formed, with elements closed and no
// attribute twice. The causes of a repair prompt that lie deeper are listed in
// docs/recalculation.md with the test that catches each.
func TestPartsAreWellFormed(t *testing.T) {
	z, err := zip.OpenReader(writeBook(t, bookKinds[0].compute(t, fourWeeks)))
	require.NoError(t, err)
	defer z.Close()
	require.Greater(t, len(z.File), 40)
	for _, f := range z.File {
		if ext := path.Ext(f.Name); ext != ".xml" && ext != ".rels" && ext != ".vml" {
			continue
		}
		r, err := f.Open()
		require.NoError(t, err)
		d := xml.NewDecoder(r)
		for {
			token, err := d.Token()
			if errors.Is(err, io.EOF) {
				break
			}
			require.NoError(t, err, f.Name)
			if e, ok := token.(xml.StartElement); ok {
				seen := map[xml.Name]bool{}
				for _, a := range e.Attr {
					require.False(t, seen[a.Name], "%s: <%s> has %s twice", f.Name, e.Name.Local, a.Name.Local)
					seen[a.Name] = true
				}
			}
		}
		require.NoError(t, r.Close())
	}
}

// LibreOffice, openpyxl and SheetJS find the same sheets of the same size in a
// workbook, and the same values in some 200 sampled cells. make recalc has the two
// readers go through a whole year.
func TestThreeReadersAgree(t *testing.T) {
	heavy(t, officetest.LibreOffice, officetest.PythonOpenPyXL, officetest.NodeSheetJS)
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
