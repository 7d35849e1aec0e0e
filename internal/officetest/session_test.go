package officetest

import (
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// shared is the one LibreOffice of these tests: it takes longer to start than to
// do what they ask.
var shared *Session

func TestMain(m *testing.M) {
	code := m.Run()
	if shared != nil {
		if err := shared.Close(); err != nil {
			fmt.Fprintln(os.Stderr, err)
			code = 1
		}
	}
	os.Exit(code)
}

func openBook(t *testing.T, path string) *Session {
	t.Helper()
	RequireOffice(t)
	if shared != nil {
		require.NoError(t, shared.Load(path))
		return shared
	}
	s, err := Open(path)
	require.NoError(t, err)
	shared = s
	return s
}

func TestCheckPassesRightCaches(t *testing.T) {
	path := standIn{hours: 300, columns: 8}.write(t)
	s := openBook(t, path)
	r, err := s.Check(DefaultTolerance)
	require.NoError(t, err)
	assert.Equal(t, 300*8, r.Formulas())
	assert.Empty(t, r.Failures(), r.String())
	require.Len(t, r.Sheets, 1)
	assert.Equal(t, 300*5, r.Sheets[0].Numbers)
	assert.Less(t, r.Sheets[0].Largest, 1e-12)
}

// Each kind of wrong cached value is planted and must be reported with its
// place, formula and both values.
func TestCheckCatchesPlantedFaults(t *testing.T) {
	dryWet := standIn{hours: 20, columns: 8}
	supply := func(i int) float64 { _, v := dryWet.hour(i); return v[0].(float64) }
	dryWet.wrong = map[string]any{
		"C5":  supply(3) * (1 + 5e-9), // number, five times the tolerance
		"C6":  supply(4) * (1 + 5e-11),
		"D3":  "cold",      // text
		"F7":  "two-stage", // text, cut short
		"E9":  1,           // number for FALSE
		"G10": "not a number",
	}
	dryWet.extra = map[Ref]formula{
		{12, 12}: {"1/0", 7},
		{13, 12}: {"NOSUCHFUNCTION(1)", 7},
		{14, 12}: {"A14*1", nil}, // no cached value
	}
	path := dryWet.write(t)
	s := openBook(t, path)
	r, err := s.Check(DefaultTolerance)
	require.NoError(t, err)

	caught := map[string]Difference{}
	for _, d := range r.Failures() {
		assert.Equal(t, "Hours", d.Sheet)
		caught[d.Ref.String()] = d
	}
	for _, cell := range []string{"C5", "D3", "F7", "E9", "G10", "L12", "L13"} {
		assert.Contains(t, caught, cell)
	}
	assert.NotContains(t, caught, "C6", "within the tolerance")
	assert.Equal(t, "A5-In_effectiveness*(A5-B5)", caught["C5"].Formula)
	assert.InDelta(t, supply(3), caught["C5"].Result, 1e-12)
	assert.Equal(t, CellError("#DIV/0!"), caught["L12"].Result)
	assert.Equal(t, CellError("#NAME?"), caught["L13"].Result)
	assert.Contains(t, caught, "L14", "a formula without a cached value")
	assert.Len(t, caught, 8)
	assert.Equal(t, 2, r.Sheets[0].Errors)
	assert.InDelta(t, 1, r.Sheets[0].Largest, 0, "7 against... ")
	assert.Contains(t, r.String(), `Hours!D3: file says "cold", worked out (empty), formula =IF(C3>20,"warm","")`)
}

// Opening must not recalculate: what LibreOffice shows first are the values in the file.
func TestOpenShowsCachedValues(t *testing.T) {
	path := standIn{hours: 5, columns: 5, wrong: map[string]any{"C2": 99.5}}.write(t)
	RequireOffice(t)
	s, err := Open(path)
	require.NoError(t, err)
	defer func() { assert.NoError(t, s.Close()) }()
	assert.Equal(t, []string{"Inputs", "Hours"}, s.Sheets)
	first, err := s.Number("Out_first")
	require.NoError(t, err)
	assert.Equal(t, 99.5, first)
	require.NoError(t, s.Recalculate())
	first, err = s.Number("Out_first")
	require.NoError(t, err)
	assert.InDelta(t, 18-0.8*8, first, 1e-12)
}

func TestSetInputs(t *testing.T) {
	s := openBook(t, standIn{hours: 5, columns: 5}.write(t))
	require.NoError(t, s.Set(map[string]any{"In_effectiveness": 0.5, "Inputs!B3": "direct", "Hours!A3": "=A2+1"}))
	require.NoError(t, s.Recalculate())

	names, err := s.Names("Out_first", "Out_all", "Out_ratio", "In_effectiveness")
	require.NoError(t, err)
	assert.InDelta(t, 14, names["Out_first"], 1e-12)
	assert.Len(t, names["Out_all"], 5)
	assert.Equal(t, 0.622, names["Out_ratio"])
	assert.Equal(t, 0.5, names["In_effectiveness"])
	rows, err := s.Range("Hours!A2:F3")
	require.NoError(t, err)
	assert.Equal(t, []any{18.0, 10.0, 14.0, nil, 0.0, "direct 1"}, rows[0])
	assert.Equal(t, 19.0, rows[1][0])

	require.NoError(t, s.Reset())
	r, err := s.Check(DefaultTolerance)
	require.NoError(t, err)
	assert.Empty(t, r.Failures(), "as at the start")
}

// A request that fails says why and leaves the session usable.
func TestRequestsThatFail(t *testing.T) {
	s := openBook(t, standIn{hours: 5, columns: 5}.write(t))
	_, err := s.Names("Out_nothing")
	assert.ErrorContains(t, err, "no name 'Out_nothing'")
	_, err = s.Range("Nowhere!A1")
	assert.ErrorContains(t, err, "no sheet 'Nowhere'")
	assert.ErrorContains(t, s.Set(map[string]any{"Out_ratio": 1}), "not a cell")
	_, err = s.Number("Out_all")
	assert.ErrorContains(t, err, "not a number")
	_, err = s.Number("Out_first")
	assert.NoError(t, err)
	_, err = Open("nosuch.xlsx")
	assert.ErrorIs(t, err, os.ErrNotExist)
}

// A book saved by LibreOffice holds the same formulas and values.
func TestSaveAs(t *testing.T) {
	path := standIn{hours: 50, columns: 8}.write(t)
	s := openBook(t, path)
	saved := filepath.Join(t.TempDir(), "saved.xlsx")
	require.NoError(t, s.SaveAs(saved))
	b, err := ReadBook(path)
	require.NoError(t, err)
	again, err := ReadBook(saved)
	require.NoError(t, err)
	r := Compare(b, "saved by LibreOffice", again.Formulas(), DefaultTolerance)
	assert.Equal(t, 400, r.Formulas())
	assert.Empty(t, r.Failures())

	require.NoError(t, s.Load(saved))
	r, err = s.Check(DefaultTolerance)
	require.NoError(t, err)
	assert.Empty(t, r.Failures())
}

func TestPDF(t *testing.T) {
	s := openBook(t, standIn{hours: 200, columns: 5}.write(t))
	pages, err := s.Pages()
	require.NoError(t, err)
	assert.Equal(t, 1, pages["Inputs"])
	assert.Greater(t, pages["Hours"], 2)

	whole, one := filepath.Join(t.TempDir(), "whole.pdf"), filepath.Join(t.TempDir(), "one.pdf")
	require.NoError(t, s.PDF(whole))
	require.NoError(t, s.SheetPDF("Hours", "1", one))
	assert.Equal(t, pages["Inputs"]+pages["Hours"], pdfPages(t, whole))
	assert.Equal(t, 1, pdfPages(t, one))
}
