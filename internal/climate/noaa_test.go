package climate_test

import (
	"encoding/csv"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/internal/psychro"
)

// lcdFile is a NOAA Local Climatological Data file, which prints an hourly wet
// bulb of NOAA's own.
type lcdFile struct {
	name                      string
	dry, wet, relHum, station string // headings; the first match counts
	inchPound                 bool
	mean, first, last         float64 // ours minus NOAA's, in the file's unit
}

// The figures are those of shared/weather/SOURCES.md, worked out from relative
// humidity by a script that shares no code with this program, printed to 0.01.
// A percentile may land one row away, so 0.02 there; in the files of whole
// degrees Fahrenheit one row is a rounding step, so the mean counts to 0.01.
var lcdFiles = []lcdFile{
	{name: "noaa-lcd-v2-lincoln-ne-2023.csv", dry: "HourlyDryBulbTemperature", wet: "HourlyWetBulbTemperature",
		relHum: "HourlyRelativeHumidity", station: "HourlyStationPressure", mean: -0.01, first: -0.21, last: 0.15},
	{name: "noaa-lcd-v1-atlanta-ga-2020.csv", dry: "HourlyDryBulbTemperature", wet: "HourlyWetBulbTemperature",
		relHum: "HourlyRelativeHumidity", station: "HourlyStationPressure", inchPound: true, mean: -0.12, first: -0.80, last: 0.47},
	{name: "noaa-lcd-old-jfk-ny-sample.csv", dry: "HOURLYDRYBULBTEMPF", wet: "HOURLYWETBULBTEMPF",
		relHum: "HOURLYRelativeHumidity", station: "HOURLYStationPressure", inchPound: true, mean: -0.21, first: -1.04, last: 0.54},
}

// Our wet bulb against NOAA's, hour by hour: the only wet bulbs published
// independently of the moist-air equations used here.
func TestWetBulbAgainstNOAA(t *testing.T) {
	for _, f := range lcdFiles {
		t.Run(f.name, func(t *testing.T) {
			d := f.differences(t)
			require.Greater(t, len(d), 1000)
			slices.Sort(d)
			var sum float64
			for _, v := range d {
				sum += v
			}
			mean, first, last := sum/float64(len(d)), d[len(d)/100], d[len(d)*99/100]
			t.Logf("%d hours: mean %+.3f, 1st to 99th percentile %+.2f to %+.2f", len(d), mean, first, last)
			assert.InDelta(t, f.mean, mean, 0.01)
			assert.InDelta(t, f.first, first, 0.02)
			assert.InDelta(t, f.last, last, 0.02)
		})
	}
}

// differences are ours minus NOAA's in the file's own unit.
func (f lcdFile) differences(t *testing.T) (all []float64) {
	t.Helper()
	file, err := os.Open(realFile(t, f.name))
	require.NoError(t, err)
	defer file.Close()
	r := csv.NewReader(file)
	r.FieldsPerRecord, r.LazyQuotes = -1, true
	rows, err := r.ReadAll()
	require.NoError(t, err)
	var at [4]int
	for i, heading := range []string{f.dry, f.wet, f.relHum, f.station} {
		at[i] = slices.IndexFunc(rows[0], func(h string) bool { return strings.EqualFold(h, heading) })
		require.GreaterOrEqual(t, at[i], 0, heading)
	}
	for _, row := range rows[1:] {
		var v [4]float64
		ok := true
		for i, k := range at {
			x, err := strconv.ParseFloat(strings.TrimSuffix(strings.TrimSpace(row[k]), "s"), 64)
			v[i], ok = x, ok && err == nil
		}
		if ok {
			all = append(all, f.difference(t, v[0], v[1], v[2], v[3]))
		}
	}
	return all
}

func (f lcdFile) difference(t *testing.T, dry, wet, relHum, station float64) float64 {
	t.Helper()
	toCelsius, toPascal, back := 1.0, 100.0, 0.0
	if f.inchPound {
		toCelsius, toPascal, back = 1/1.8, 3386.389, 32
	}
	a, err := psychro.FromRelHum((dry-back)*toCelsius, relHum/100, station*toPascal)
	require.NoError(t, err)
	ours, err := a.WetBulb()
	require.NoError(t, err)
	return ours/toCelsius + back - wet
}
