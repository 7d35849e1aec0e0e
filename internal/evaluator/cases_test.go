package evaluator_test

import (
	"fmt"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"github.com/evapbook/evapbook/internal/officetest"
)

// The cells the cases refer to. E4 is empty, E3 an empty text from a formula,
// F2 an error.
var data = [][]any{
	{1.0, "alpha", true, 10.0, `=""`, "=1/0"},
	{2.0, "Beta", false, 20.0, "6", 3.0},
	{3.0, "alpha", true, 30.0, nil, "x"},
	{4.0, "gamma", false, 25.0, 7.5, 5.0},
}

// cases are formulas on the data, which stand in rows 2 to 5 of sheet Data,
// with what they give. Where there is no word beside one, the value is worked
// out by hand from what the function is documented to do; TestProgramsAgree has
// LibreOffice and Gnumeric give the same.
var cases = []struct {
	formula string
	want    any
}{
	// operators: binding, sign before power, from left to right
	{"2+3*4", 14.0}, {"(2+3)*4", 20.0}, {"-2^2", 4.0}, {"0-2^2", -4.0}, {"10-4-3", 3.0}, {"12/4/3", 1.0}, {"2*-3", -6.0}, {"50%*4", 2.0},
	{"1.5E2+1e-1", 150.1}, {`1+2&"x"`, "3x"}, {`1&2=12`, false}, {"1<2", true}, {"2<>2", false}, {"--3", 3.0},
	{"1/0", officetest.CellError("#DIV/0!")}, {"0/0", officetest.CellError("#DIV/0!")}, {"SQRT(-1)", officetest.CellError("#NUM!")}, {"LN(0)", officetest.CellError("#NUM!")},
	{`"a"+1`, officetest.CellError("#VALUE!")}, {"Data!E2+1", officetest.CellError("#VALUE!")},

	// blanks, texts and booleans in operators and comparisons
	{"Data!E4+1", 1.0}, {`Data!E4&"x"`, "x"}, {"Data!E4=0", true}, {`Data!E4=""`, true}, {"Data!E4", 0.0}, {"TRUE+1", 2.0}, {"Data!C2*3", 3.0},
	{`"ALPHA"=Data!B2`, true}, {`"b">"A"`, true}, {`"a"<1`, false}, {`Data!E2=""`, true}, {`Data!E3>100`, true},

	// numbers in texts
	{`""&1.5`, "1.5"}, {`""&100`, "100"}, {`""&0.0001`, "0.0001"}, {`""&(0-2)`, "-2"},

	// numbers
	{"ABS(0-3.5)", 3.5}, {"MOD(7,3)", 1.0}, {"MOD(0-7,3)", 2.0}, {"MOD(7,0-3)", -2.0}, {"MOD(1,0)", officetest.CellError("#DIV/0!")},
	{"ROUND(2.5,0)", 3.0}, {"ROUND(0-2.5,0)", -3.0}, {"ROUND(1.005,2)", 1.01}, {"ROUND(1234,0-2)", 1200.0}, {"ROUNDUP(1.01,0)", 2.0}, {"ROUNDUP(0-1.01,0)", -2.0}, {"ROUNDUP(3,0)", 3.0},
	{"EXP(1)", 2.718281828459045}, {"LN(10)", 2.302585092994046}, {"LOG10(1000)", 3.0}, {"SQRT(16)", 4.0}, {"ATAN(1)", 0.7853981633974483},
	{"FIXED(1234567.891,1)", "1,234,567.9"}, {"FIXED(0.5,0)", "1"}, {"FIXED(0-1234.5,2)", "-1,234.50"}, {"FIXED(999,0)", "999"}, {"FIXED(0-0.001,2)", "0.00"}, {"FIXED(2.345,2)", "2.35"},

	// conditions
	{`IF(1>2,"a","b")`, "b"}, {"IF(0,1)", false}, {"IF(1,2,1/0)", 2.0}, {"IF(Data!E4,1,2)", 2.0}, {"IFERROR(1/0,5)", 5.0}, {"IFERROR(4,1/0)", 4.0},
	{"AND(1,TRUE,2>1)", true}, {"AND(Data!C2:C5)", false}, {"OR(Data!C2:C5)", true}, {"OR(0,FALSE)", false}, {"IF(Data!F2,1,2)", officetest.CellError("#DIV/0!")},
	{"ISNUMBER(Data!A2)", true}, {"ISNUMBER(Data!B2)", false}, {"ISNUMBER(Data!F2)", false}, {"ISNUMBER(Data!E3)", false}, {"ISBLANK(Data!E4)", true}, {"ISBLANK(Data!E2)", false},

	// sums and their kin: texts, booleans and blanks in ranges do not count
	{"SUM(Data!A2:B5)", 10.0}, {"SUM(Data!E2:E5)", 7.5}, {"SUM(Data!A2:A5,10,1)", 21.0}, {"SUM(Data!F2:F5)", officetest.CellError("#DIV/0!")},
	{"COUNT(Data!D2:F5)", 7.0}, {"COUNT(Data!E2:E5)", 1.0}, {"AVERAGE(Data!A2:A5)", 2.5}, {"AVERAGE(Data!B2:B5)", officetest.CellError("#DIV/0!")},
	{"MAX(Data!D2:E5)", 30.0}, {"MIN(Data!A2:B5)", 1.0}, {"MAX(Data!B2:B5)", 0.0}, {"MAX(0-5,0-2)", -2.0}, {"MIN(3,Data!D2)", 3.0},
	{"MEDIAN(Data!A2:A5)", 2.5}, {"MEDIAN(Data!D2:D4)", 20.0}, {"PERCENTILE(Data!D2:D5,0.5)", 22.5}, {"PERCENTILE(Data!D2:D5,0.1)", 13.0}, {"PERCENTILE(Data!D2:D5,1)", 30.0},
	{"LARGE(Data!D2:D5,1)", 30.0}, {"LARGE(Data!D2:D5,3)", 20.0}, {"LARGE(Data!D2:D5,5)", officetest.CellError("#NUM!")},
	{"SUMPRODUCT(Data!A2:A5*Data!D2:D5)", 240.0}, {"SUMPRODUCT(Data!A2:A5,Data!D2:D5)", 240.0}, {"SUMPRODUCT((Data!A2:A5>1)*(Data!D2:D5<=25)*Data!D2:D5)", 45.0},
	{"SUMPRODUCT((Data!A2:A5-0.5)/2)", 4.0}, {`SUMPRODUCT((Data!B2:B5="ALPHA")*1)`, 2.0}, {"SUMPRODUCT(Data!A2:A5,Data!E2:E5)", 30.0},
	{"SLOPE(Data!D2:D5,Data!A2:A5)", 5.5}, {"SLOPE(Data!A2:A5,Data!E2:E5)", officetest.CellError("#DIV/0!")},

	// criteria
	{"COUNTIF(Data!A2:A5,2)", 1.0}, {`COUNTIF(Data!A2:A5,"2")`, 1.0}, {`COUNTIF(Data!A2:A5,">=2")`, 3.0}, {`COUNTIF(Data!A2:A5,"<>2")`, 3.0}, {`COUNTIF(Data!B2:B5,"ALPHA")`, 2.0},
	{`COUNTIF(Data!B2:B5,"<>alpha")`, 2.0}, {`COUNTIF(Data!E2:E5,">0")`, 1.0}, {`COUNTIF(Data!F2:F5,">0")`, 2.0}, {`COUNTIF(Data!A2:A5,">"&Data!A3)`, 2.0}, {`COUNTIF(Data!A2:A5,">="&(2-1E-9))`, 3.0},
	{`COUNTIFS(Data!A2:A5,">1",Data!B2:B5,"alpha")`, 1.0}, {`SUMIFS(Data!D2:D5,Data!B2:B5,"alpha")`, 40.0}, {`SUMIFS(Data!D2:D5,Data!A2:A5,">1",Data!A2:A5,"<4")`, 50.0},
	{`SUMIFS(Data!D2:D5,Data!B2:B5,"delta")`, 0.0}, {`AVERAGEIFS(Data!D2:D5,Data!A2:A5,"<3")`, 15.0}, {`AVERAGEIFS(Data!D2:D5,Data!A2:A5,">9")`, officetest.CellError("#DIV/0!")},
	{`SUMIFS(Data!B2:B5,Data!A2:A5,">0")`, 0.0},

	// looking up, and references that functions give
	{"MATCH(3,Data!A2:A5,0)", 3.0}, {`MATCH("ALPHA",Data!B2:B5,0)`, 1.0}, {"MATCH(9,Data!A2:A5,0)", officetest.CellError("#N/A")}, {"MATCH(2.5,Data!A2:A5,1)", 2.0}, {"MATCH(2.5,Data!A2:A5)", 2.0},
	{"MATCH(0.5,Data!A2:A5,1)", officetest.CellError("#N/A")}, {"MATCH(10,Data!A2:D2,0)", 4.0},
	{"INDEX(Data!B2:B5,2)", "Beta"}, {"INDEX(Data!A2:D5,2,4)", 20.0}, {"INDEX(Data!E2:E5,3)+1", 1.0},
	{"SUM(INDEX(Data!A2:A5,2):INDEX(Data!A2:A5,3))", 5.0}, {"MAX(INDEX(Data!D2:D5,MATCH(2,Data!A2:A5,0)):INDEX(Data!D2:D5,ROWS(Data!D2:D5)))", 30.0},
	{"ROWS(Data!A2:D5)", 4.0},

	// names
	{"In_one*2", 2.0}, {"SUM(In_all)", 10.0}, {"K_ratio", 0.622},
	{"Data!$A3+Data!A$3+$A$1", 5.0},
}

// casesBook writes the cases with the expected values as their caches. In A1
// of sheet Cases stands 1.
func casesBook(t testing.TB) string {
	t.Helper()
	f := excelize.NewFile()
	defer f.Close()
	require.NoError(t, f.SetSheetName("Sheet1", "Data"))
	for _, sheet := range []string{"Cases"} {
		_, err := f.NewSheet(sheet)
		require.NoError(t, err)
	}
	for name, refers := range map[string]string{"In_one": "Data!$A$2", "In_all": "Data!$A$2:$A$5", "K_ratio": "0.622"} {
		require.NoError(t, f.SetDefinedName(&excelize.DefinedName{Name: name, RefersTo: refers}))
	}
	stream := func(sheet string, rows [][]any, first int) {
		w, err := f.NewStreamWriter(sheet)
		require.NoError(t, err)
		for i, row := range rows {
			require.NoError(t, w.SetRow(fmt.Sprintf("A%d", first+i), row))
		}
		require.NoError(t, w.Flush())
	}
	formulas := map[any]excelize.Cell{`=""`: {Formula: `""`, Value: ""}, "=1/0": {Formula: "1/0", Value: "#DIV/0!"}}
	var rows [][]any
	for _, row := range data {
		var cells []any
		for _, v := range row {
			if c, ok := formulas[v]; ok {
				v = c
			}
			cells = append(cells, v)
		}
		rows = append(rows, cells)
	}
	stream("Data", rows, 2)
	rows = [][]any{{1.0}}
	for _, c := range cases {
		v := c.want
		if e, ok := v.(officetest.CellError); ok {
			v = string(e)
		}
		rows = append(rows, []any{nil, excelize.Cell{Formula: c.formula, Value: v}})
	}
	stream("Cases", rows, 1)
	path := filepath.Join(t.TempDir(), "cases.xlsx")
	require.NoError(t, f.SaveAs(path))
	return path
}
