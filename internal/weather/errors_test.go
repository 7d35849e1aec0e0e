package weather

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/internal/hint"
)

// told is an error as people are told it, with its hints, on one line.
func told(err error) error {
	if err == nil {
		return nil
	}
	return errors.New(hint.OneLine(err))
}

// Cells that are no numbers, times that are none and rows that are cut short are
// named in one run: the first three with their places, the rest counted.
func TestAllBadCellsInOneRun(t *testing.T) {
	year := func(bad map[string]string) string {
		return plainYear(2023, func(at time.Time, row string) string {
			if b, ok := bad[at.Format("01-02 15")]; ok {
				return b
			}
			return row
		})
	}
	two := map[string]string{"01-01 03": "2023-01-01 03:00,warm,40,850,0", "11-30 12": "2023-11-30 12:00,5,dry,850,0"}
	_, err := readText(year(two), Options{})
	assert.EqualError(t, err, `x.csv:11:2: column "temperature_c": "warm" is not a number`+"\n"+
		`x.csv:8012:3: column "relative_humidity_pct": "dry" is not a number`)
	assert.Equal(t, 3, len(strings.Split(hint.Text(err), "\n")), "one hint for both")

	many := map[string]string{
		"03-01 00": "2023-03-01 00:00,5,40", "04-01 00": "2023-44-01 00:00,5,40,850,0", "02-01 00": `2023-02-01 00:00,"5,1",x,850,0`,
		"09-01 00": "2023-09-01 00:00,5,40,?,?", "10-01 00": "2023-10-01 00:00,a,b,c,d",
	}
	_, err = readText(year(many), Options{})
	require.Error(t, err)
	text := hint.Text(err)
	assert.LessOrEqual(t, strings.Count(text, "\n")+1, 6, text)
	assert.Contains(t, text, "and 7 more like these", "five columns, a time, and eight cells; a row cut short hides its cells")
	var first *Error
	require.ErrorAs(t, err, &first)
	assert.Positive(t, first.Line)
}

// Impossible values are told of together with cells that cannot be read, though
// not those that would only be noted.
func TestImpossibleValuesBesideBadCells(t *testing.T) {
	text := plainYear(2023, func(at time.Time, row string) string {
		switch at.Format("01-02 15") {
		case "01-01 03":
			return "2023-01-01 03:00,warm,40,850,0"
		case "06-01 00", "06-02 00":
			return at.Format("2006-01-02 15:04") + ",5,400,850,0"
		}
		return row
	})
	_, err := readText(text, Options{})
	assert.Equal(t, `x.csv:11:2: column "temperature_c": "warm" is not a number`+"\n"+
		`x.csv:3632:3: column "relative_humidity_pct": besides, impossible values, 2 in all: 400 is not a possible relative humidity (0 to 110 %)`+"\n"+
		"hint: correct the cell, or leave it empty if nothing was measured", hint.Text(err))

	lines := strings.Split(inventedText(t, "invented-tmy3.csv"), "\n")
	headings := strings.Split(lines[1], ",")
	put := func(line int, heading, value string) {
		cells := strings.Split(lines[line], ",")
		at := slices.Index(headings, heading)
		require.GreaterOrEqual(t, at, 0)
		cells[at] = value
		lines[line] = strings.Join(cells, ",")
	}
	put(2, "Dry-bulb (C)", "warm")
	put(3, "RHum (%)", "400")
	_, err = readText(strings.Join(lines, "\n"), Options{AllowGaps: true})
	assert.ErrorContains(t, err, "warm")
	assert.NotContains(t, err.Error(), "besides", "a single one is a note in a known format")
}

// All quantities with impossible values are told of at once.
func TestAllImpossibleQuantitiesInOneRun(t *testing.T) {
	var b strings.Builder
	b.WriteString("time,temp_c,rh,station_pressure_hpa\n")
	for i := range 48 {
		fmt.Fprintf(&b, "%s,80,400,8500\n", date(2023, 7, 1).Add(time.Duration(i)*time.Hour).Format("2006-01-02 15:04"))
	}
	_, err := readText(b.String(), Options{AllowGaps: true})
	require.Error(t, err)
	for _, want := range []string{"possible dry bulb", "possible relative humidity", "possible station pressure", "and 141 more like these", "it looks like °F"} {
		assert.ErrorContains(t, told(err), want)
	}
	assert.LessOrEqual(t, strings.Count(hint.Text(err), "\n")+1, 6)
}

// Flaws are told of in the order of their lines, whatever order they were found
// in; those of one line in the order found.
func TestFlawsInTheOrderOfTheirLines(t *testing.T) {
	var f flaws
	for _, e := range []*Error{{Line: 9, Text: "ninth"}, {Line: 8, Text: "eighth"}, {Line: 8, Text: "eighth again"}} {
		f.add(e)
	}
	var told []string
	for _, e := range f.first {
		told = append(told, e.Text)
	}
	assert.Equal(t, []string{"eighth", "eighth again", "ninth"}, told)
}
