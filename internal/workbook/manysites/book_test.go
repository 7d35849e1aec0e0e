package manysites

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/internal/evaluator"
	"github.com/evapbook/evapbook/internal/officetest"
	"github.com/evapbook/evapbook/internal/ranking"
	"github.com/evapbook/evapbook/internal/units"
)

// inventedTable is a table of invented sites and numbers, with one site that
// needs no cooling and is nowhere on the map, and one file left out.
func inventedTable(t testing.TB, axes ...string) *ranking.Table {
	t.Helper()
	table := &ranking.Table{About: ranking.About{Version: "test", Files: 13, Job: "[house]\nsetpoint = \"78 °F\""},
		Left: []ranking.LeftOut{{Order: 12, File: "notes.csv", Reason: "notes.csv:1: no weather"}}}
	combos := 1
	for _, text := range axes {
		a, err := ranking.ParseAxis(text)
		require.NoError(t, err)
		table.Axes = append(table.Axes, a)
		combos *= len(a.Values)
	}
	rng := rand.New(rand.NewPCG(1, 2))
	for i := range 12 {
		for c := range combos {
			for _, kind := range ranking.Kinds {
				table.Rows = append(table.Rows, inventedRow(rng, table.Axes, i, c, string(kind)))
			}
		}
	}
	return table
}

func inventedRow(rng *rand.Rand, axes []ranking.Axis, i, c int, kind string) ranking.Row {
	need := int64(1000 + 200*i)
	vent, evap := int64(200), need*int64(40+rng.IntN(40))/100
	r := ranking.Row{
		File: fmt.Sprintf("f%d.csv", i), Site: fmt.Sprintf("Place %d (invented)", i), Elevation: float64(200 * i), Kind: kind,
		NeedHours: need, Held: new(float64(vent+evap) / float64(need)), MovingAir: new(float64(vent+evap) / float64(need)), TemperatureHeld: new(0.95), LoadHeld: new(0.9), Over: rng.Float64() * 100,
		VentHours: vent, EvapHours: evap, WarmHours: need - vent - evap, WorstMonth: 7, WorstMonthHeld: new(rng.Float64()),
		Evaporated: 1000 * rng.Float64(), Drained: 500, CoolerKWh: 400, RefKWh: 2000, BothKWh: 600, CoolerCost: 100, RefCost: 300, BothCost: 200,
		DesignDryBulb: 35 + rng.Float64(), DesignCoincident: 18, DesignDepression: 17, DesignWetBulb: 20, DesignWBDryBulb: 30,
		ThermalZone: int64(2 + i%4), Dryness: ranking.Drynesses[i%3], LastFreeze: "04-12", FirstFreeze: "10-20", FrostFreeDays: new(int64(190)),
		Latitude: new(33 + float64(i)/2), Longitude: new(-110.0), Country: "US", Hours: 8760, ValidHours: 8760, Order: int64(i), Combination: int64(c),
	}
	r.DesignDepression = r.DesignDryBulb - r.DesignCoincident
	if i == 5 {
		r.NeedHours, r.VentHours, r.EvapHours, r.WarmHours, r.WorstMonth = 0, 0, 0, 0, 0
		r.MovingAir, r.Held, r.TemperatureHeld, r.LoadHeld, r.WorstMonthHeld, r.Latitude, r.FrostFreeDays = nil, nil, nil, nil, nil, nil, nil
	}
	at := c
	for n := len(axes) - 1; n >= 0; n-- {
		values := axes[n].Values
		r.Varied = append([]ranking.Value{values[at%len(values)]}, r.Varied...)
		at /= len(values)
	}
	return r
}

func writeSites(t testing.TB, z *Book) string {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, z.Write(&b))
	path := filepath.Join(t.TempDir(), "zone.xlsx")
	require.NoError(t, os.WriteFile(path, b.Bytes(), 0o644))
	return path
}

// LibreOffice and Gnumeric, too, work the book out to the values in the file.
func TestOtherProgramsAgree(t *testing.T) {
	officetest.Heavy(t, officetest.LibreOffice, officetest.GnumericConvert)
	file := writeSites(t, &Book{Table: inventedTable(t, "cooler.effectiveness=0.7,0.9"), Units: units.IP})
	s, err := officetest.Open(file)
	require.NoError(t, err)
	defer s.Close()
	report, err := s.Check(officetest.DefaultTolerance)
	require.NoError(t, err)
	assert.Empty(t, report.Failures())
	report, err = officetest.CheckGnumeric(file, officetest.DefaultTolerance)
	require.NoError(t, err)
	assert.Empty(t, report.Failures())
	require.Greater(t, report.Formulas(), 100)
}

// Every count, mean and slope of the zone workbook, worked out from the file, is
// the value beside it.
func TestFormulasAsWritten(t *testing.T) {
	for _, sys := range units.Systems {
		for _, axes := range [][]string{nil, {"cooler.effectiveness=0.7,0.9", "cooler.water_care=bleed,purge"}} {
			t.Run(fmt.Sprintf("%s, %d axes", sys, len(axes)), func(t *testing.T) {
				w, err := evaluator.Open(writeSites(t, &Book{Table: inventedTable(t, axes...), Units: sys}))
				require.NoError(t, err)
				report, err := w.Check(officetest.DefaultTolerance)
				require.NoError(t, err)
				require.Greater(t, report.Formulas(), 100)
				assert.Empty(t, report.Failures())
			})
		}
	}
}

func TestSheets(t *testing.T) {
	names := func(z *Book) []string {
		b, err := officetest.ReadBook(writeSites(t, z))
		require.NoError(t, err)
		var n []string
		for _, s := range z.sheets() {
			require.NotNil(t, b.Sheet(s.name), s.name)
			n = append(n, s.name)
		}
		return n
	}
	assert.Equal(t, []string{"Contents", "Ranking", "Map", "Altitude", "Classes", "Left out", "Methods"}, names(&Book{Table: inventedTable(t)}))
	assert.Contains(t, names(&Book{Table: inventedTable(t, "cooler.airflow=3000cfm,4000cfm")}), "Study")
}

func TestOfFewSites(t *testing.T) {
	whole := inventedTable(t)
	for name, rows := range map[string][]ranking.Row{"one site": whole.Rows[:3], "no need, nowhere": whole.Rows[15:18], "two": whole.Rows[12:18]} {
		t.Run(name, func(t *testing.T) {
			z := &Book{Table: &ranking.Table{About: whole.About, Rows: rows}, Units: units.SI}
			require.NoError(t, z.Write(&bytes.Buffer{}))
		})
	}
	assert.Error(t, (&Book{Table: &ranking.Table{}}).Write(&bytes.Buffer{}), "no site, no workbook")
}

// Source: F. J. Anscombe, "Graphs in Statistical Analysis", The American
// Statistician 27 (1973), first data set: slope 0.500, R² 0.667 as printed.
func TestRegression(t *testing.T) {
	x := []float64{10, 8, 13, 9, 11, 14, 6, 4, 12, 7, 5}
	y := []float64{8.04, 6.95, 7.58, 8.81, 8.33, 9.96, 7.24, 4.26, 10.84, 4.82, 5.68}
	slope, r2, ok := regression(x, y)
	require.True(t, ok)
	assert.InDelta(t, 0.500, slope, 5e-4)
	assert.InDelta(t, 0.667, r2, 5e-4)
	_, _, ok = regression([]float64{1, 1, 1}, []float64{1, 2, 3})
	assert.False(t, ok, "all x the same")
}

func TestMapArea(t *testing.T) {
	at := func(lon, lat float64) ranking.Site { return ranking.Site{{Longitude: &lon, Latitude: &lat}} }
	assert.Equal(t, area{-116, -102, 32, 38}, mapArea([]ranking.Site{at(-114.6, 32.7), at(-103.1, 36.4)}))
	one := mapArea([]ranking.Site{at(-110, 35)})
	assert.Less(t, one.west, one.east, "a single site has room around it")
	assert.Less(t, one.south, one.north)
}
