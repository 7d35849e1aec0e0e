package xlsx

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"github.com/evapbook/evapbook/internal/xlsx/chart"
)

// A sheet goes by its key in everything that is declared, and by its name in
// everything that is written: formulas, names, links, charts and print areas.
func TestSheetNameAndKey(t *testing.T) {
	b := &Book{}
	front := b.AddSheet("Front page")
	front.Key = "Front"
	weeks := b.AddSheet("Hot weeks")
	weeks.Key = "Hotweeks"
	weeks.Grids = []*Grid{{Row: 2, Col: 1, Rows: 3, Columns: []GridColumn{{Key: "t", Header: []Cell{{Value: "t"}}, Value: func(i int) any { return i }}}}}
	weeks.Print.Area = "A1:B4"
	weeks.SetAt("B2", Cell{Value: 1, Name: "One"})
	weeks.Mark("all", 2, 1, 4, 1)
	front.SetAt("A1", Cell{Value: 3.0, Formula: "SUM([Hotweeks.t:])"})
	front.SetAt("A2", Cell{Value: 3.0, Formula: "SUM([Hotweeks.all:])+Hotweeks!A2*One-1", Link: "Hotweeks!A1"})
	front.Charts = []*chart.Chart{{Row: 4, Col: 1, Alt: "t", Kind: chart.Columns, Series: []chart.Series{{Y: "[Hotweeks.all:]"}}}}
	var file bytes.Buffer
	require.NoError(t, b.Write(&file))
	f, err := excelize.OpenReader(bytes.NewReader(file.Bytes()))
	require.NoError(t, err)
	defer f.Close()
	require.Equal(t, []string{"Front page", "Hot weeks"}, f.GetSheetList())
	for cell, want := range map[string]string{"A1": "SUM('Hot weeks'!$A$2:$A$4)", "A2": "SUM('Hot weeks'!$A$2:$A$4)+'Hot weeks'!A2*One-1"} {
		got, err := f.GetCellFormula("Front page", cell)
		require.NoError(t, err)
		require.Equal(t, want, got)
	}
	_, link, err := f.GetCellHyperLink("Front page", "A2")
	require.NoError(t, err)
	require.Equal(t, "'Hot weeks'!A1", link)
	refs := map[string]string{}
	for _, n := range f.GetDefinedName() {
		refs[n.Name] = n.RefersTo
	}
	require.Equal(t, "'Hot weeks'!$B$2", refs["One"])
	require.Equal(t, "'Hot weeks'!$A$1:$B$4", refs["_xlnm.Print_Area"])
	chart, _ := f.Pkg.Load("xl/charts/chart1.xml")
	require.Contains(t, string(chart.([]byte)), "<c:f>'Hot weeks'!$A$2:$A$4</c:f>")
}

func TestMarkFaults(t *testing.T) {
	b := &Book{}
	s := b.AddSheet("One")
	s.Mark("a", 1, 1, 2, 1)
	s.Mark("a", 3, 1, 4, 1)
	require.ErrorContains(t, b.Check(), "mark")
}
