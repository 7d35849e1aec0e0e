package xlsx_test

import (
	"fmt"
	"io"
	"testing"

	"github.com/evapbook/evapbook/internal/xlsx"
)

// large is a year of hours: 75 columns of formulas and 20 of values.
func large(rows int) *xlsx.Book {
	b := &xlsx.Book{}
	for _, part := range []struct {
		name    string
		columns int
	}{{"Values", 20}, {"Formulas", 75}} {
		s := b.AddSheet(part.name)
		g := &xlsx.Grid{Row: 3, Col: 1, Rows: rows}
		for c := range part.columns {
			col := xlsx.GridColumn{
				Key: fmt.Sprintf("c%d", c), Header: []xlsx.Cell{{Value: fmt.Sprintf("Column %d", c)}},
				Style: xlsx.Style{NumFmt: "0.00"},
				Value: func(i int) any { return float64(i*c) / 7 },
			}
			switch {
			case part.name == "Formulas" && c%5 == 0: // long, as a step of an iteration
				col.Formula = fmt.Sprintf("IF([Values.c%d]<=273.16,EXP(-5674.5359/[Values.c%[1]d]+6.3925247-0.009677843*[Values.c%[1]d]+6.2215701E-7*[Values.c%[1]d]^2),EXP(-5800.2206/[Values.c%[1]d]+1.3914993-0.048640239*[Values.c%[1]d]+4.1764768E-5*[Values.c%[1]d]^2))", c%20)
			case part.name == "Formulas":
				col.Formula = fmt.Sprintf("[Values.c%d]*%d+MIN([c%d],100)", c%20, c, c-1)
			}
			g.Columns = append(g.Columns, col)
		}
		s.Grids = append(s.Grids, g)
	}
	return b
}

func BenchmarkWrite(b *testing.B) {
	book := large(8760)
	b.ReportAllocs()
	for b.Loop() {
		if err := book.Write(io.Discard); err != nil {
			b.Fatal(err)
		}
	}
}
