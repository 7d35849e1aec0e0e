package years

import (
	"runtime"
	"runtime/debug"
	"sync/atomic"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/internal/weather"
)

// peak is the largest heap in use while do runs, MB, looked at every 2 ms. The
// collector runs often, so that it is near what is really held.
func peak(do func()) float64 {
	defer debug.SetGCPercent(debug.SetGCPercent(10))
	runtime.GC()
	var done atomic.Bool
	var top atomic.Uint64
	finished := make(chan struct{})
	go func() {
		defer close(finished)
		var m runtime.MemStats
		for !done.Load() {
			runtime.ReadMemStats(&m)
			top.Store(max(top.Load(), m.HeapInuse))
			time.Sleep(2 * time.Millisecond)
		}
	}()
	do()
	done.Store(true)
	<-finished
	return float64(top.Load()) / (1 << 20)
}

// Thirty years take little more memory than three: of a year that has been
// carried through only its row is kept. What grows is the text and the series
// itself: 262,968 hours of 56 bytes for the series, 88 for the rows it is made
// from and 30 of text: 44 MB, and a third more while slices grow.
func TestMemoryStaysFlatOverThirtyYears(t *testing.T) {
	if testing.Short() {
		t.Skip("SKIPPED: thirty years, not in short mode")
	}
	j := resolved(t)
	run := func(to int) (read, carried float64) {
		var s *weather.Series
		text := inventedText(42, day(1991, 1, 1), day(to, 1, 1), func(y int) float64 { return float64(y % 7) })
		read = peak(func() { s = readText(t, "years.csv", text) })
		text = ""
		carried = peak(func() {
			f, err := Gather([]*weather.Series{s})
			require.NoError(t, err)
			table, _, err := Run(f, j, "")
			require.NoError(t, err)
			assert.Len(t, table.Rows, to-1991)
		})
		return read, carried
	}
	var read3, carried3 float64
	for range 5 { // soon over: on a busy machine one run may go by between two looks
		read, carried := run(1994)
		read3, carried3 = max(read3, read), max(carried3, carried)
	}
	read30, carried30 := run(2021)
	t.Logf("heap in use at most: 3 years read %.0f, carried through %.0f MB; 30 years read %.0f, carried through %.0f MB", read3, carried3, read30, carried30)
	assert.Less(t, read30, read3+60)
	const series = 262968 * 56 / (1 << 20) // of the thirty years themselves, MB
	assert.Less(t, carried30, carried3+2*series, "computing keeps nothing of a year but its row: a season is 5 MB, thirty kept would be 150")
}
