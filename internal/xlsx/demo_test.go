package xlsx_test

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/internal/xlsx"
	"github.com/evapbook/evapbook/internal/xlsx/chart"
)

// demo is a book with some of everything. All figures are invented.
func demo(days int) *xlsx.Book {
	b := &xlsx.Book{Title: "Invented example", Creator: "xlsx test", Palette: []string{"0072B2", "D55E00", "009E73"}}
	head := xlsx.Style{Bold: true, Fill: "DDEBF7", Border: xlsx.Under(xlsx.Thin, ""), Wrap: true}
	one := xlsx.Style{NumFmt: "0.0"}

	in := b.AddSheet("Inputs")
	in.Tab, in.Protect, in.Cols = "0072B2", true, []float64{28, 12, 40}
	in.SetRow(1, 1, xlsx.Cell{Value: "Invented inputs & <notes>", Style: xlsx.Style{Bold: true, Size: 14}})
	in.SetRow(3, 1, xlsx.Cell{Value: "Effectiveness"}, xlsx.Cell{Value: 0.85, Name: "In_eff", Style: xlsx.Style{NumFmt: "0%", Unlocked: true, Fill: "FFF2CC"}})
	in.SetRow(4, 1, xlsx.Cell{Value: "Pads"}, xlsx.Cell{Value: "wet", Name: "In_pads", Style: xlsx.Style{Unlocked: true, Fill: "FFF2CC"}})
	in.SetRow(5, 1, xlsx.Cell{Value: "Pads are wet"}, xlsx.Cell{Value: true, Formula: `In_pads="wet"`})
	in.SetRow(6, 1, xlsx.Cell{Value: "Hours"}, xlsx.Cell{Value: "Data!A1", Link: "Data!A1"}, xlsx.Cell{Value: "more", Link: "https://example.org/?a=1&b=2"})
	in.Merges = []string{"A1:C1"}
	in.Height(1, 24)
	in.Validations = []xlsx.Validation{
		{Range: "B3", Decimal: &xlsx.Limits{Min: 0, Max: 1}, ErrorTitle: "Effectiveness", Error: "From 0 % to 100 %", Prompt: "A share"},
		{Range: "B4", List: []string{"wet", "dry", "salt & lime"}},
	}

	d := b.AddSheet("Data")
	d.FreezeRows, d.FreezeCols, d.ShowGrid = 4, 1, true
	start := time.Date(2025, 1, 1, 0, 0, 0, 0, time.UTC)
	out := func(i int) float64 { return 25 + 10*math.Sin(float64(i)/58) + 3*math.Cos(float64(i)) }
	wet := func(i int) float64 { return out(i)*0.6 + 2 }
	sup := func(i int) float64 { return out(i) - 0.85*(out(i)-wet(i)) }
	missing := func(i int) bool { return i%50 == 7 }
	sum := make([]float64, days)
	for i := range sum {
		if i > 0 {
			sum[i] = sum[i-1]
		}
		if !missing(i) {
			sum[i] += sup(i)
		}
	}
	h := func(title, unit string) []xlsx.Cell {
		return []xlsx.Cell{{Value: title, Style: head}, {Value: unit, Style: head}}
	}
	d.Grids = []*xlsx.Grid{{Row: 5, Col: 1, Rows: days, Filter: true, Columns: []xlsx.GridColumn{
		{Key: "day", Header: h("Day", ""), Width: 12, Style: xlsx.Style{NumFmt: "yyyy-mm-dd"}, Value: func(i int) any { return start.AddDate(0, 0, i) }},
		{Key: "out", Header: h("Outdoor", "°C"), Style: one, Value: func(i int) any { return out(i) }, Blank: missing},
		{Key: "wet", Header: h("Wet bulb", "°C"), Style: one, Value: func(i int) any { return wet(i) }, Formula: "[out]*0.6+2", Blank: missing},
		{Key: "sup", Header: h("Supply", "°C"), Style: one, Value: func(i int) any { return sup(i) }, Formula: "[out]-In_eff*([out]-[wet])", Blank: missing},
		{Key: "sum", Header: h("Running sum", "K d"), Style: one, Value: func(i int) any { return sum[i] },
			FormulaAt: func(i int) string {
				if i == 0 {
					return "SUM([sup])"
				}
				return "[sum@-1]+SUM([sup])"
			}},
		{Key: "word", Header: h("Word", ""), Value: func(i int) any { return map[bool]string{true: "hot", false: ""}[out(i) > 30] }, Formula: `IF([out]>30,"hot","")`, Blank: missing},
		{Key: "hot", Header: h("Hot", ""), Value: func(i int) any { return out(i) > 30 }, Formula: `[out]>30`, Blank: missing},
	}}}
	d.Print = xlsx.Print{Landscape: true, FitWidth: 1, TitleRows: [2]int{3, 4}, TitleCols: [2]int{1, 1}, Area: "A1:G100", Header: "&LInvented", Footer: "&CPage &P of &N"}
	d.Conditional = []xlsx.CondFormat{
		{Range: "B5:B100", Scale: []xlsx.Stop{{Kind: xlsx.AtMin, Color: "5E9BD1"}, {Kind: xlsx.AtPercentile, Value: 50, Color: "FFFFFF"}, {Kind: xlsx.AtMax, Color: "D55E00"}}},
		{Range: "C5:C100 E5:E100", Scale: []xlsx.Stop{{Kind: xlsx.AtNumber, Value: 10, Color: "FFFFFF"}, {Kind: xlsx.AtMax, Color: "9DC3E6"}}},
		{Range: "D5:D100", Is: &xlsx.Comparison{Op: ">", Value: "In_eff*25"}, Style: xlsx.Style{Bold: true, Color: "C00000"}},
		{Range: "F5:F100", When: `$F5="hot"`, Style: xlsx.Style{Fill: "F8CBAD"}},
	}

	r := b.AddSheet("Result")
	r.SetRow(1, 1, xlsx.Cell{Value: "Quantity", Style: head}, xlsx.Cell{Value: "Value", Style: head})
	hi, n := math.Inf(-1), 0
	for i := range days {
		if !missing(i) {
			hi, n = max(hi, out(i)), n+1
		}
	}
	r.SetRow(2, 1, xlsx.Cell{Value: "Highest"}, xlsx.Cell{Value: hi, Formula: "MAX([Data.out:])", Style: one})
	r.SetRow(3, 1, xlsx.Cell{Value: "Days"}, xlsx.Cell{Value: n, Formula: "COUNT([Data.out:])"})
	r.SetRow(4, 1, xlsx.Cell{Value: "First supply"}, xlsx.Cell{Value: sup(0), Formula: "[Data.sup#0]", Style: one})
	r.Print = xlsx.Print{Landscape: true, FitWidth: 1, FitHeight: 1, Paper: xlsx.Letter, CentreAcross: true}
	r.Charts = demoCharts()
	r.Images = []xlsx.Image{{Row: 1, Col: 6, Width: 64, Data: dot(), Alt: "a grey square"}}
	b.Names = []xlsx.Name{{Name: "D_supply", Ref: "[Data.sup:]"}, {Name: "K_ratio", Ref: "0.622", Comment: "invented"}}
	return b
}

func demoCharts() []*chart.Chart {
	line := func(kind chart.Kind) chart.Chart {
		return chart.Chart{Kind: kind, Width: 560, Height: 300, Alt: "An invented chart"}
	}
	at := func(c chart.Chart, row, col int, title string) *chart.Chart {
		c.Row, c.Col, c.Title = row, col, title
		return &c
	}
	lines := line(chart.Lines)
	lines.X = chart.Axis{Date: true, NumFmt: "mmm", Major: 1, Unit: chart.Months}
	lines.Y = chart.Axis{Title: "°C", NumFmt: "0", Min: new(0.0)}
	lines.Series = []chart.Series{
		{Name: "Outdoor", X: "[Data.day:]", Y: "[Data.out:]"},
		{Name: "Supply", X: "[Data.day:]", Y: "[Data.sup:]", Dash: chart.Dashes, Width: 1},
	}
	scatter := line(chart.Scatter)
	scatter.X, scatter.Y = chart.Axis{Title: "Outdoor °C"}, chart.Axis{Title: "Supply °C"}
	scatter.Series = []chart.Series{{Name: "Days", X: "[Data.out:]", Y: "[Data.sup:]"}}
	combo := line(chart.Columns)
	combo.Y = chart.Axis{Title: "K d"}
	combo.Series = []chart.Series{
		{Name: "Sum", X: "[Data.day#0:11]", Y: "[Data.sum#0:11]"},
		{Name: "Outdoor", X: "[Data.day#0:11]", Y: "[Data.out#0:11]", Kind: chart.Lines, Marker: chart.Marker{Shape: chart.Circle}},
	}
	stack := line(chart.Bars)
	stack.Stack, stack.X.Reverse = chart.Stacked, true
	stack.Series = []chart.Series{
		{Name: "Wet", X: "[Data.day#0:5]", Y: "[Data.wet#0:5]"},
		{Name: "Supply", X: "[Data.day#0:5]", Y: "[Data.sup#0:5]"},
	}
	band := line(chart.Areas)
	band.Stack, band.X = chart.Stacked, chart.Axis{Date: true, NumFmt: "d mmm", Major: 2, Unit: chart.Months}
	band.Series = []chart.Series{
		{Name: "Base", X: "[Data.day:]", Y: "[Data.wet:]", NoFill: true, NoLegend: true},
		{Name: "Range", X: "[Data.day:]", Y: "[Data.sup:]", Transparency: 50},
		{Name: "Mean", X: "[Data.day:]", Y: "[Data.out:]", Kind: chart.Lines, Width: 1},
	}
	few := line(chart.Columns)
	few.NoLegend = true
	few.Series = []chart.Series{{X: "Result!$A$2:$A$4", Y: "Result!$B$2:$B$4"}}
	curve := line(chart.Scatter)
	curve.X.NumFmt, curve.X.Major = "d mmm", 2
	curve.Y.Min = new(1.0)
	curve.Series = []chart.Series{{Name: "Joined", X: "[Data.day#0:11]", Y: "[Data.sum#0:11]", Width: 2, Marker: chart.Marker{Shape: chart.Diamond, Size: 6}}}
	pile := line(chart.Columns)
	pile.Stack, pile.Series = chart.Stacked, stack.Series
	return []*chart.Chart{
		at(lines, 6, 1, "Days on a date axis"), at(scatter, 6, 10, "Scatter"),
		at(combo, 22, 1, "Columns and a line"), at(stack, 22, 10, "Stacked bars, reversed"),
		at(band, 38, 1, "A band and a line"), at(few, 38, 10, "No legend"),
		at(curve, 54, 1, "Joined & marked"), at(pile, 54, 10, "Stacked columns"),
	}
}

func dot() []byte {
	m := image.NewGray(image.Rect(0, 0, 16, 16))
	m.Set(3, 3, color.White)
	var b bytes.Buffer
	if err := png.Encode(&b, m); err != nil {
		panic(err)
	}
	return b.Bytes()
}

func written(t testing.TB, b *xlsx.Book) []byte {
	t.Helper()
	var out bytes.Buffer
	require.NoError(t, b.Write(&out))
	return out.Bytes()
}
