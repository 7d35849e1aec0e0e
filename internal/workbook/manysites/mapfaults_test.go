package manysites

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"github.com/evapbook/evapbook/internal/ranking"
	"github.com/evapbook/evapbook/internal/units"
)

func bookOf(t *testing.T, table *ranking.Table) *excelize.File {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, (&Book{Table: table, Units: units.SI}).Write(&b))
	f, err := excelize.OpenReader(&b)
	require.NoError(t, err)
	t.Cleanup(func() { f.Close() })
	return f
}

// What is printed of the Map reaches to the last site; with one site, to it.
func TestMapPrintsAllSites(t *testing.T) {
	for _, sites := range []int{1, 2, 11} {
		table := inventedTable(t)
		table.Rows = table.Rows[:3*sites]
		f := bookOf(t, table)
		rows, err := f.GetRows("Map")
		require.NoError(t, err)
		last := len(rows) // the row of the last site: nothing stands below the tables
		for _, n := range f.GetDefinedName() {
			if n.Name != "_xlnm.Print_Area" || n.Scope != "Map" {
				continue
			}
			_, corner, _ := bytes.Cut([]byte(n.RefersTo), []byte(":"))
			_, row, err := excelize.CellNameToCoordinates(string(bytes.ReplaceAll(corner, []byte("$"), nil)))
			require.NoError(t, err)
			assert.GreaterOrEqual(t, row, last, "%d sites: %s", sites, n.RefersTo)
			last = 0
		}
		assert.Zero(t, last, "a print area")
	}
}

// Sites of which none needs cooling have no map of what carries the season,
// and their book all the same.
func TestMapOfSitesWithoutNeed(t *testing.T) {
	table := inventedTable(t)
	table.Rows = table.Rows[15:18] // the one without need, put on the map
	for i := range table.Rows {
		table.Rows[i].Latitude = new(40.0)
	}
	bookOf(t, table)
}
