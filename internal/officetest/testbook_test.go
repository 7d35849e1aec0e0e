package officetest

import (
	"fmt"
	"math"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"
)

// standIn describes an invented workbook with the shape of ours: a sheet of
// inputs and a sheet of hours full of formulas with their cached values.
type standIn struct {
	hours   int
	columns int             // formula columns on Hours, at least 5
	wrong   map[string]any  // cached values put in place of the right ones, by cell of Hours
	extra   map[Ref]formula // formulas put on Hours outside the grid
}

type formula struct {
	text   string
	cached any
}

// hour gives the cached values of one hour's formulas, worked out in Go.
func (b standIn) hour(i int) (formulas []string, values []any) {
	const effectiveness, label = 0.8, "two-stage"
	row := i + 2
	dry, wet := b.weather(i)
	supply := dry - effectiveness*(dry-wet)
	formulas = []string{
		fmt.Sprintf("A%d-In_effectiveness*(A%d-B%d)", row, row, row),
		fmt.Sprintf("IF(C%d>20,\"warm\",\"\")", row),
		fmt.Sprintf("C%d>20", row),
		fmt.Sprintf("Inputs!$B$3&\" \"&MONTH(A%d)", row),
	}
	warm := ""
	if supply > 20 {
		warm = "warm"
	}
	values = []any{supply, warm, supply > 20, label + " 1"}
	for c := len(formulas); c < b.columns; c++ {
		formulas = append(formulas, fmt.Sprintf("EXP(-C%d/%d)*In_effectiveness+%d", row, 10+c, c))
		values = append(values, math.Exp(-supply/float64(10+c))*effectiveness+float64(c))
	}
	return formulas, values
}

// weather is invented. Read as a date it is always in January, of 1900.
func (b standIn) weather(i int) (dry, wet float64) {
	dry = full(18 + 9*math.Sin(float64(i)/24))
	return dry, full(dry - 5 - 3*math.Cos(float64(i)/100))
}

// write makes the workbook and returns its path.
func (b standIn) write(t testing.TB) string {
	t.Helper()
	f := excelize.NewFile()
	defer f.Close()
	require.NoError(t, f.SetSheetName("Sheet1", "Inputs"))
	require.NoError(t, f.SetSheetCol("Inputs", "A1", &[]any{"Invented inputs", "Effectiveness", "Kind <&>"}))
	require.NoError(t, f.SetSheetCol("Inputs", "B2", &[]any{0.8, "two-stage"}))
	for name, ref := range map[string]string{
		"In_effectiveness": "Inputs!$B$2",
		"Out_all":          fmt.Sprintf("Hours!$C$2:$C$%d", b.hours+1),
		"Out_first":        "Hours!$C$2",
		"Out_ratio":        "0.622",
	} {
		require.NoError(t, f.SetDefinedName(&excelize.DefinedName{Name: name, RefersTo: ref}))
	}
	require.NoError(t, f.SetSheetDimension("Inputs", "A1:B3"))
	b.writeHours(t, f)
	path := filepath.Join(t.TempDir(), "stand-in.xlsx")
	require.NoError(t, f.SaveAs(path))
	return path
}

func (b standIn) writeHours(t testing.TB, f *excelize.File) {
	_, err := f.NewSheet("Hours")
	require.NoError(t, err)
	columns := b.columns + 2
	for ref := range b.extra {
		columns = max(columns, ref.Col)
	}
	// Without it the file says A1, and openpyxl in its read-only mode believes that.
	require.NoError(t, f.SetSheetDimension("Hours", "A1:"+Ref{b.hours + 1, columns}.String()))
	sw, err := f.NewStreamWriter("Hours")
	require.NoError(t, err)
	require.NoError(t, sw.SetRow("A1", []any{"Dry bulb", "Wet bulb", "Supply"}))
	for i := range b.hours {
		dry, wet := b.weather(i)
		row := []any{dry, wet}
		formulas, values := b.hour(i)
		for c, text := range formulas {
			row = append(row, b.cell(Ref{i + 2, c + 3}, text, values[c]))
		}
		for ref, extra := range b.extra {
			if ref.Row == i+2 {
				for len(row) < ref.Col {
					row = append(row, nil)
				}
				row[ref.Col-1] = b.cell(ref, extra.text, extra.cached)
			}
		}
		require.NoError(t, sw.SetRow(fmt.Sprintf("A%d", i+2), row))
	}
	require.NoError(t, sw.Flush())
}

func (b standIn) cell(at Ref, text string, value any) excelize.Cell {
	if wrong, ok := b.wrong[at.String()]; ok {
		value = wrong
	}
	return excelize.Cell{Formula: text, Value: value}
}

// full keeps the input exact: the library cuts numbers to 15 digits.
func full(x float64) float64 { return math.Round(x*1e6) / 1e6 }
