package ranking

import (
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// parts carries out a run in n parts and gives their Parquet files, the last
// part first.
func parts(t *testing.T, r *Run, n int) []string {
	t.Helper()
	dir := t.TempDir()
	var paths []string
	for i := n; i >= 1; i-- {
		r.Shard = Shard{i, n}
		_, pq := bytesOf(t, do(t, r))
		path := filepath.Join(dir, fmt.Sprintf("%d.parquet", i))
		require.NoError(t, os.WriteFile(path, []byte(pq), 0o644))
		paths = append(paths, path)
	}
	return paths
}

func TestJoinedPartsAreTheWhole(t *testing.T) {
	for _, n := range []int{1, 2, 4, 9} { // nine parts of six files: some are empty
		t.Run(fmt.Sprint(n), func(t *testing.T) {
			r := newRun(inventedFiles(t))
			a, err := ParseAxis("cooler.water_care=bleed,purge")
			require.NoError(t, err)
			r.Axes = []Axis{a}
			csv, pq := bytesOf(t, do(t, r))
			joined, err := Join(parts(t, r, n))
			require.NoError(t, err)
			joinedCSV, joinedPQ := bytesOf(t, joined)
			assert.Equal(t, csv, joinedCSV)
			assert.Equal(t, pq, joinedPQ)
			assert.Len(t, joined.Left, 1)
		})
	}
}

func TestPartsThatDoNotBelongTogether(t *testing.T) {
	files := inventedFiles(t)[:3]
	good := parts(t, newRun(files), 3)
	other := newRun(files)
	require.NoError(t, other.Job.Set("house.setpoint", "76F"))
	otherJob := parts(t, other, 3)
	fewer := parts(t, newRun(files[:2]), 3)
	text := filepath.Join(t.TempDir(), "x.parquet")
	require.NoError(t, os.WriteFile(text, []byte("not parquet at all"), 0o644))
	for _, c := range []struct {
		name, want string
		paths      []string
	}{
		{"one missing", "missing: 2", []string{good[0], good[2]}},
		{"one twice", "part 2/3, as is", []string{good[0], good[1], good[1]}},
		{"other inputs", "stated inputs", []string{good[0], otherJob[1], good[2]}},
		{"other files", "lists of weather files", []string{good[0], fewer[1], good[2]}},
		{"no Parquet", "not a whole Parquet file", []string{text}},
		{"no file", "no such file", []string{filepath.Join(t.TempDir(), "none")}},
	} {
		_, err := Join(c.paths)
		assert.ErrorContains(t, err, c.want, c.name)
	}
}

func TestParseShard(t *testing.T) {
	s, err := ParseShard("3/16")
	require.NoError(t, err)
	assert.Equal(t, Shard{3, 16}, s)
	for _, bad := range []string{"", "3", "0/4", "5/4", "a/b", "1/0", "-1/2", "1/2/3"} {
		_, err := ParseShard(bad)
		assert.Error(t, err, bad)
	}
}

func TestEveryFileIsInOneShard(t *testing.T) {
	for n := 1; n <= 7; n++ {
		for order := range 20 {
			owners := 0
			for i := 1; i <= n; i++ {
				if (Shard{i, n}).Takes(order) {
					owners++
				}
			}
			assert.Equal(t, 1, owners, "file %d of %d parts", order, n)
		}
	}
}
