package evaluator_test

import (
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"github.com/evapbook/evapbook/internal/evaluator"
	"github.com/evapbook/evapbook/internal/officetest"
	"github.com/evapbook/evapbook/internal/xlsx"
)

// Each case gives what it should.
func TestCases(t *testing.T) {
	w, err := evaluator.Open(casesBook(t))
	require.NoError(t, err)
	require.NoError(t, w.Recalculate())
	caseByCase(t, w)
}

func caseByCase(t *testing.T, w *evaluator.Workbook) {
	t.Helper()
	for i, c := range cases {
		got, ok := w.Value("Cases", officetest.Ref{Row: i + 2, Col: 2})
		require.True(t, ok)
		if want, isNumber := c.want.(float64); isNumber && got != nil {
			require.IsType(t, want, got, c.formula)
			assert.InEpsilon(t, want+1e3, got.(float64)+1e3, 1e-15, "=%s", c.formula)
			continue
		}
		assert.Equal(t, c.want, got, "=%s", c.formula)
	}
}

// LibreOffice and Gnumeric, which nobody here wrote, give the same for each
// case: errors by their kind, since programs name some of them differently.
func TestProgramsAgree(t *testing.T) {
	if testing.Short() {
		t.Skip("SKIPPED: -short leaves out what needs an office program")
	}
	path := casesBook(t)
	programs := map[string]func(t *testing.T) officetest.Results{
		"LibreOffice": func(t *testing.T) officetest.Results {
			officetest.RequireOffice(t)
			s, err := officetest.Open(path)
			require.NoError(t, err)
			defer s.Close()
			require.NoError(t, s.Recalculate())
			r, err := s.Formulas()
			require.NoError(t, err)
			return r
		},
		"Gnumeric": func(t *testing.T) officetest.Results {
			officetest.Require(t, officetest.GnumericConvert)
			r, err := officetest.Gnumeric(path)
			require.NoError(t, err)
			return r
		},
	}
	for name, results := range programs {
		t.Run(name, func(t *testing.T) {
			r := results(t)
			for i, c := range cases {
				got, _ := r.Value("Cases", officetest.Ref{Row: i + 2, Col: 2})
				switch want := c.want.(type) {
				case float64:
					x, ok := got.(float64)
					assert.True(t, ok, "=%s is %v", c.formula, got)
					assert.InDelta(t, want, x, 1e-12, "=%s", c.formula)
				case bool: // LibreOffice keeps it as 1 or 0
					assert.Contains(t, []any{want, map[bool]float64{true: 1}[want]}, got, "=%s", c.formula)
				case officetest.CellError:
					assert.IsType(t, want, got, "=%s is %v", c.formula, got)
				default:
					assert.Equal(t, want, got, "=%s", c.formula)
				}
			}
		})
	}
}

// One list of functions: what xlsx lets into a book can be worked out here, and
// nothing else.
func TestFunctionsAreThoseAllowed(t *testing.T) {
	assert.ElementsMatch(t, keys(xlsx.AllowedFunctions), evaluator.Functions())
}

func keys(m map[string]bool) (out []string) {
	for k := range m {
		out = append(out, k)
	}
	return out
}

// small writes a book of one sheet "S" with formulas, in rows of column A.
func small(t testing.TB, cells ...any) string {
	t.Helper()
	f := excelize.NewFile()
	defer f.Close()
	require.NoError(t, f.SetSheetName("Sheet1", "S"))
	w, err := f.NewStreamWriter("S")
	require.NoError(t, err)
	for i, c := range cells {
		if s, ok := c.(string); ok && s[0] == '=' {
			c = excelize.Cell{Formula: s[1:], Value: 0}
		}
		require.NoError(t, w.SetRow(fmt.Sprintf("A%d", i+1), []any{c}))
	}
	require.NoError(t, w.Flush())
	path := filepath.Join(t.TempDir(), "small.xlsx")
	require.NoError(t, f.SaveAs(path))
	return path
}

// What cannot be worked out is an error that names the cell, not a guess.
func TestRefusals(t *testing.T) {
	for formula, want := range map[string]string{
		"=XLOOKUP(1,A2,A3)":       "the function XLOOKUP is not one that books may use",
		"=VLOOKUP(1,A2:A3,1)":     "the function VLOOKUP is not one that books may use",
		"=sum(A2)":                "the function sum is not one",
		"=In_nothing+1":           "there is no name In_nothing",
		"=Nowhere!A1":             `there is no sheet "Nowhere"`,
		"=A2:A3+1":                "a range stands where one value is meant",
		"=SUM({1,2})":             "cannot be worked out here",
		"=SUM(A:A)":               "there is no name A",
		"=ROUND(1)":               "ROUND has 1 arguments",
		"=1+":                     "an operand is missing",
		"=(1+2":                   `")" is missing`,
		"=1 2":                    "is left over",
		`=COUNTIF(A2:A3,"a*")`:    "a criterion with wildcards",
		"=SUMPRODUCT(ABS(A2:A3))": "a range stands where one value is meant",
		"=A1+1":                   "S!A1 waits for itself",
	} {
		w, err := evaluator.Open(small(t, formula, 2, "=A2+1"))
		if err == nil {
			err = w.Recalculate()
		}
		assert.ErrorContains(t, err, want, formula)
		assert.ErrorContains(t, err, "S!A1", formula)
	}
}

// Each row may hang on the one before, the whole year long and in whatever
// order: the list grows, not the stack.
func TestLongChains(t *testing.T) {
	const n = 20_000
	down, up := []any{1.0}, []any{}
	for i := 2; i <= n; i++ {
		down = append(down, fmt.Sprintf("=A%d+1", i-1))
		up = append(up, fmt.Sprintf("=A%d+1", i))
	}
	for name, cells := range map[string][]any{"down": down, "up": append(up, 1.0)} {
		w, err := evaluator.Open(small(t, cells...))
		require.NoError(t, err)
		require.NoError(t, w.Recalculate())
		last := map[string]int{"down": n, "up": 1}[name]
		got, _ := w.Value("S", officetest.Ref{Row: last, Col: 1})
		assert.Equal(t, float64(n), got, name)
	}
}

// Inputs are set by name or place, formulas follow, and all can be put back.
func TestSetAndReset(t *testing.T) {
	w, err := evaluator.Open(casesBook(t))
	require.NoError(t, err)
	require.NoError(t, w.Set(map[string]any{"In_one": 5.0, "Data!A3": 10.0}))
	require.NoError(t, w.Recalculate())
	got, err := w.Names("In_one")
	require.NoError(t, err)
	assert.Equal(t, map[string]any{"In_one": 5.0}, got)
	rows, err := w.Range("Data!A2:A4")
	require.NoError(t, err)
	assert.Equal(t, [][]any{{5.0}, {10.0}, {3.0}}, rows)
	twice, _ := w.Value("Cases", officetest.Ref{Row: 2 + caseRow(t, "In_one*2"), Col: 2})
	assert.Equal(t, 10.0, twice)
	all, _ := w.Value("Cases", officetest.Ref{Row: 2 + caseRow(t, "SUM(In_all)"), Col: 2})
	assert.Equal(t, 22.0, all)
	require.NoError(t, w.Reset())
	require.NoError(t, w.Recalculate())
	caseByCase(t, w)
	assert.ErrorContains(t, w.Set(map[string]any{"Out_nothing": 1}), "there is no name")
	assert.ErrorContains(t, w.Set(map[string]any{"In_all": 1}), "not a cell")
	require.NoError(t, w.Set(map[string]any{"Cases!B2": 99.0}))
	require.NoError(t, w.Recalculate())
	_, isFormula := w.Value("Cases", officetest.Ref{Row: 2, Col: 2})
	assert.False(t, isFormula, "typed over")
	require.NoError(t, w.Reset())
	require.NoError(t, w.Recalculate())
	caseByCase(t, w)
}

func caseRow(t *testing.T, formula string) int {
	for i, c := range cases {
		if c.formula == formula {
			return i
		}
	}
	t.Fatal(formula)
	return 0
}

// A shared formula moves with its cell, but for what a dollar sign fixes.
func TestSharedFormulas(t *testing.T) {
	b := &xlsx.Book{}
	s := b.AddSheet("Hours")
	s.SetAt("A1", xlsx.Cell{Value: 3, Name: "K_three"})
	v := func(i int) any { return float64(i) }
	s.Grids = []*xlsx.Grid{{Row: 5, Col: 1, Rows: 4, Shared: true, Columns: []xlsx.GridColumn{
		{Key: "n", Value: v},
		{Key: "plain", Formula: "[n]*K_three/3", Value: v, Blank: func(i int) bool { return i == 0 }},
		{Key: "fixed", Formula: "[n]*$A$1/3", Value: v},
		{Key: "column", Formula: "[n]*A$1/3", Value: v},
		{Key: "whole", Formula: "[n]+SUM([n#0:1])-1", Value: v},
	}}}
	path := writeBook(t, b)
	book, err := officetest.ReadBook(path)
	require.NoError(t, err)
	groups := 0
	for _, c := range book.Sheet("Hours").Cells {
		if c.Shared != 0 && c.Formula == "" {
			groups++
		}
	}
	require.Equal(t, 11, groups, "the file does share")
	w, err := evaluator.New(book)
	require.NoError(t, err)
	r, err := w.Check(officetest.DefaultTolerance)
	require.NoError(t, err)
	assert.Equal(t, 15, r.Formulas())
	assert.Empty(t, r.Failures(), r.String())
	require.NoError(t, w.Set(map[string]any{"K_three": 6.0}))
	require.NoError(t, w.Recalculate())
	rows, err := w.Range("Hours!A8:E8")
	require.NoError(t, err)
	assert.Equal(t, [][]any{{3.0, 6.0, 6.0, 6.0, 3.0}}, rows)
}

func writeBook(t testing.TB, b *xlsx.Book) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "book.xlsx")
	f, err := os.Create(path)
	require.NoError(t, err)
	require.NoError(t, b.Write(f))
	require.NoError(t, f.Close())
	return path
}
