package ranking

import (
	"bytes"
	"runtime"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// aPart is a small part as it is written, with an axis and a file left out.
func aPart(t testing.TB, rows int) []byte {
	t.Helper()
	held, days := 0.5, int64(3)
	axis := Axis{Key: "cooler.effectiveness", Values: []Value{{SI: 0.8}, {SI: 0.9}}}
	table := &Table{About: About{Version: "test", Files: rows + 1, Shard: Whole, Axes: []Axis{axis}}, Left: []LeftOut{{0, "x.csv", "no"}}}
	for i := range rows {
		table.Rows = append(table.Rows, Row{File: "f.csv", Site: "Place", Kind: string(Kinds[i%3]), Held: &held, FrostFreeDays: &days, Elevation: float64(i), Order: int64(i), Varied: axis.Values[:1]})
	}
	var b bytes.Buffer
	require.NoError(t, table.WriteParquet(&b))
	return b.Bytes()
}

func parse(data []byte) (*Table, error) { return parsePart(bytes.NewReader(data), int64(len(data))) }

// Whatever byte of a part is changed, no rows but those that were written are
// taken, and a part that was cut off never is.
func TestDamagedPartsAreRefused(t *testing.T) {
	whole := aPart(t, 7)
	want, err := parse(whole)
	require.NoError(t, err)
	require.Len(t, want.Rows, 7)
	const step = 101 // every byte takes four minutes; it was done once
	for i := 0; i < len(whole); i += step {
		for _, flip := range []byte{0x01, 0x80, 0xff} {
			damaged := bytes.Clone(whole)
			damaged[i] ^= flip
			if got, err := parse(damaged); err == nil && !assert.ObjectsAreEqual(want.Rows, got.Rows) {
				t.Fatalf("byte %d of %d changed by %#x: taken with other rows", i, len(whole), flip)
			}
		}
	}
	for n := 0; n < len(whole); n += step {
		_, err := parse(whole[:n])
		require.Error(t, err, "cut to %d bytes", n)
	}
}

// A part of a few kB cannot make the program ask for more than some MB.
func TestDamagedPartsTakeLittleMemory(t *testing.T) {
	whole := aPart(t, 7)
	for i := 0; i < len(whole); i += 101 {
		damaged := bytes.Clone(whole)
		damaged[i] ^= 0x7f
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		parse(damaged)
		runtime.ReadMemStats(&after)
		if got := after.TotalAlloc - before.TotalAlloc; got > 64<<20 {
			t.Errorf("byte %d of %d: %d MB", i, len(whole), got>>20)
		}
	}
}

func FuzzPart(f *testing.F) {
	f.Add(aPart(f, 0))
	f.Add(aPart(f, 5))
	f.Add([]byte("PAR1PAR1"))
	f.Fuzz(func(t *testing.T, data []byte) {
		table, err := parse(data)
		if err != nil {
			return
		}
		for i := range table.Rows {
			if len(table.Rows[i].Varied) != len(table.Axes) {
				t.Fatal("a row without its varied inputs")
			}
		}
		if err := table.WriteParquet(&bytes.Buffer{}); err != nil { // what is taken can be written again
			t.Fatal(err)
		}
	})
}
