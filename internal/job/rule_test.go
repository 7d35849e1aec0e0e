package job_test

import (
	"math/rand/v2"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"github.com/evapbook/evapbook/internal/job"
)

// A rule is written twice, in Go and as a cell formula: both must give the
// same, here by a spreadsheet's own calculation.
func TestRulesAgreeWithTheirCells(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 20 {
		j := job.New()
		require.NoError(t, j.SetSI("house.floor_area", 5+300*r.Float64()))
		require.NoError(t, j.SetSI("ac.seer2", 10+15*r.Float64()))
		require.NoError(t, j.Set("cooler.kind", []string{"direct", "indirect", "two-stage"}[r.IntN(3)]))
		require.NoError(t, j.Set("cooler.drive", []string{"one-speed", "two-speed", "variable"}[r.IntN(3)]))
		require.NoError(t, j.Resolve("X", 0, []string{"", "US-AZ", "US-CA"}[r.IntN(3)]))
		f := sheetOf(t, j)
		for _, in := range job.Inputs() {
			if in.Rule == nil || in.Rule.Value == nil {
				continue
			}
			require.NotEmpty(t, in.Rule.Cell, in.Key)
			require.NoError(t, f.SetCellFormula("Sheet1", "D1", in.Rule.Cell))
			text, err := f.CalcCellValue("Sheet1", "D1", excelize.Options{RawCellValue: true})
			require.NoError(t, err, in.Key)
			got, err := strconv.ParseFloat(text, 64)
			require.NoError(t, err, in.Key)
			assert.InEpsilon(t, in.SI(j), got, 1e-12, in.Key) // 15 digits in cells, a few operations
		}
		require.NoError(t, f.Close())
	}
}

// sheetOf is a sheet with the names that rules refer to.
func sheetOf(t *testing.T, j *job.Job) *excelize.File {
	t.Helper()
	f := excelize.NewFile()
	row := 0
	name := func(name string, v any) {
		row++
		require.NoError(t, f.SetCellValue("Sheet1", "B"+strconv.Itoa(row), v))
		require.NoError(t, f.SetDefinedName(&excelize.DefinedName{Name: name, RefersTo: "Sheet1!$B$" + strconv.Itoa(row)}))
	}
	for _, in := range job.Inputs() {
		if in.Numeric() {
			name("Si_"+in.CellName(), in.SI(j))
		} else {
			name("In_"+in.CellName(), in.Words(j))
		}
	}
	name("B_state_price", j.Price.Electricity) // what the station's state gives stands on Basis
	for _, c := range job.Constants {
		name(c.Name, c.Value)
	}
	return f
}
