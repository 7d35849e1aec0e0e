package xlsx_test

import (
	"bytes"
	"fmt"
	"time"

	"github.com/evapbook/evapbook/internal/xlsx"
	"github.com/evapbook/evapbook/internal/xlsx/chart"
)

// A book with an input, a grid of days, a result and a chart. The figures are
// invented.
func Example() {
	outdoor := []float64{31.5, 34.0, 36.2, 33.1}
	wetBulb := []float64{19.0, 20.1, 20.4, 19.6}
	first := time.Date(2025, 1, 10, 0, 0, 0, 0, time.UTC)
	supply := func(i int) float64 { return outdoor[i] - 0.85*(outdoor[i]-wetBulb[i]) }

	head := xlsx.Style{Bold: true, Fill: "DDEBF7", Border: xlsx.Under(xlsx.Thin, "")}
	degrees := xlsx.Style{NumFmt: "0.0"}
	header := func(title, unit string) []xlsx.Cell {
		return []xlsx.Cell{{Value: title, Style: head}, {Value: unit, Style: head}}
	}

	b := &xlsx.Book{Title: "Four invented days", Creator: "example", Palette: []string{"D55E00", "0072B2"}}

	in := b.AddSheet("Inputs")
	in.Protect, in.Cols = true, []float64{24, 10}
	in.SetRow(1, 1,
		xlsx.Cell{Value: "Effectiveness"},
		xlsx.Cell{Value: 0.85, Name: "In_eff", Style: xlsx.Style{NumFmt: "0%", Unlocked: true, Fill: "FFF2CC"}})
	in.SetRow(2, 1,
		xlsx.Cell{Value: "Warmest supply"},
		xlsx.Cell{Value: supply(2), Formula: "MAX([Days.supply:])", Style: degrees})
	in.Validations = []xlsx.Validation{{Range: "B1", Decimal: &xlsx.Limits{Min: 0, Max: 1}, Error: "a share from 0 % to 100 %"}}

	days := b.AddSheet("Days")
	days.FreezeRows = 2
	days.Print = xlsx.Print{Landscape: true, FitWidth: 1, TitleRows: [2]int{1, 2}}
	days.Grids = []*xlsx.Grid{{Row: 3, Col: 1, Rows: len(outdoor), Filter: true, Columns: []xlsx.GridColumn{
		{Key: "day", Header: header("Day", ""), Width: 12, Style: xlsx.Style{NumFmt: "yyyy-mm-dd"},
			Value: func(i int) any { return first.AddDate(0, 0, i) }},
		{Key: "t", Header: header("Outdoor", "°C"), Style: degrees, Value: func(i int) any { return outdoor[i] }},
		{Key: "wb", Header: header("Wet bulb", "°C"), Style: degrees, Value: func(i int) any { return wetBulb[i] }},
		{Key: "supply", Header: header("Supply", "°C"), Style: degrees,
			Value: func(i int) any { return supply(i) }, Formula: "[t]-In_eff*([t]-[wb])"},
	}}}
	days.Charts = []*chart.Chart{{
		Row: 2, Col: 6, Width: 480, Height: 280, Kind: chart.Lines,
		Title: "Four days", Alt: "Outdoor and supply temperature on four days",
		X: chart.Axis{Date: true, NumFmt: "d mmm"}, Y: chart.Axis{Title: "°C", Min: new(0.0)},
		Series: []chart.Series{
			{Name: "Outdoor", X: "[Days.day:]", Y: "[Days.t:]"},
			{Name: "Supply", X: "[Days.day:]", Y: "[Days.supply:]"},
		},
	}}

	var file bytes.Buffer
	fmt.Println(b.Write(&file), bytes.HasPrefix(file.Bytes(), []byte("PK")))
	// Output: <nil> true
}
