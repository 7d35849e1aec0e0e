package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// stationText is an invented station whose dry bulb in the first hour is given.
func stationText(number, first string) string {
	var b strings.Builder
	fmt.Fprintf(&b, "station,name,state,utc_offset,latitude,longitude,elevation_m\n%s,NOWHERE AP,XX,-7,41.2,-105,1480\n", number)
	b.WriteString("years_of_months,1991,1992,1993,1994,1995,1996,1997,1998,1999,2000,2001,2002\n")
	for _, c := range []string{"dry_bulb_c,12.5", "dew_point_c,-3", "relative_humidity_pct,34", "pressure_mbar,851", "ghi_wm2,120", "dry_bulb_source,A"} {
		name, value, _ := strings.Cut(c, ",")
		b.WriteString(name + "," + strings.Repeat(value+",", 8760))
		line := strings.TrimSuffix(b.String(), ",")
		b.Reset()
		b.WriteString(line + "\n")
	}
	return strings.Replace(b.String(), "dry_bulb_c,12.5", "dry_bulb_c,"+first, 1)
}

func TestRun(t *testing.T) {
	in, out := t.TempDir(), t.TempDir()
	write := func(name, text string) string {
		path := filepath.Join(in, name)
		require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
		return path
	}
	write("900001.csv", stationText("900001", "-1.5"))
	write("703884.csv", stationText("703884", "12.5"))
	towns := write("towns.txt", "name,state,latitude,longitude,elevation_m,population\nB,XX,1,2,3,4\nA,XX,1,2,3,4\nA,XX,5,6,7,8\n")
	require.NoError(t, run(in, towns, out))
	catalogue, err := os.ReadFile(filepath.Join(out, "stations.csv"))
	require.NoError(t, err)
	assert.Contains(t, string(catalogue), "900001,NOWHERE AP,XX,-7,41.2,-105,1480,1991 1992 1993")
	assert.NotContains(t, string(catalogue), "703884")
	table, err := os.ReadFile(filepath.Join(out, "towns.csv"))
	require.NoError(t, err)
	assert.Equal(t, "name,state,latitude,longitude,elevation_m,population\nA,XX,5,6,7,8\nA,XX,1,2,3,4\nB,XX,1,2,3,4\n", string(table))
}

// A digit that would be lost stops everything.
func TestRunRefusesToLoseADigit(t *testing.T) {
	in := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(in, "900001.csv"), []byte(stationText("900001", "12.55")), 0o644))
	err := run(in, "", t.TempDir())
	assert.ErrorContains(t, err, "dry_bulb_c: value 1, 12.55, has more digits than are packed")
}
