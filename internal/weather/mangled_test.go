package weather

import (
	"bytes"
	"encoding/csv"
	"io"
	"math/rand/v2"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const mangledFolder = inventedFolder + "/mangled"

// Every mangled file gives the message written beside it, or is read; none is
// without an expectation.
func TestMangledFiles(t *testing.T) {
	f, err := os.Open(filepath.Join(mangledFolder, "expect.csv"))
	require.NoError(t, err)
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	require.NoError(t, err)
	files, err := filepath.Glob(filepath.Join(mangledFolder, "*"))
	require.NoError(t, err)
	assert.Len(t, files, len(rows), "each file has its line in expect.csv")
	for _, row := range rows[1:] {
		t.Run(row[1], func(t *testing.T) {
			text, err := os.ReadFile(filepath.Join(mangledFolder, row[0]))
			require.NoError(t, err)
			s, err := Read(bytes.NewReader(text), row[0], Options{AllowGaps: true})
			if row[2] == "reads" {
				require.NoError(t, err)
				checkSeries(t, s)
				return
			}
			require.Error(t, err)
			assert.True(t, strings.HasPrefix(told(err).Error(), row[2]), "%s\ndoes not begin with\n%s", told(err), row[2])
			checkFlaw(t, err)
		})
	}
}

// Semicolons and decimal commas read like the original.
func TestMangledSemicolonsReadRight(t *testing.T) {
	s, err := Open(filepath.Join(mangledFolder, "semicolons.csv"), Options{AllowGaps: true})
	require.NoError(t, err)
	h := at(t, s, "2023-07-01 11:00")
	assert.InDelta(t, 25.5, h.DryBulb, 1e-12)
	assert.InDelta(t, 85210, h.Pressure, 1e-9)
}

// manglings turn the text of a sound file into a damaged one.
var manglings = []struct {
	name string
	do   func(r *rand.Rand, text string) string
}{
	{"truncated", func(r *rand.Rand, text string) string { return text[:r.IntN(len(text))] }},
	{"a row twice", func(r *rand.Rand, text string) string {
		lines := strings.SplitAfter(text, "\n")
		k := len(lines)/2 + r.IntN(len(lines)/4)
		return strings.Join(lines[:k+1], "") + strings.Join(lines[k:], "")
	}},
	{"two rows changed over", func(r *rand.Rand, text string) string {
		lines := strings.SplitAfter(text, "\n")
		k := len(lines)/2 + r.IntN(len(lines)/4)
		far := k + len(lines)/8
		lines[k], lines[far] = lines[far], lines[k]
		return strings.Join(lines, "")
	}},
	{"decimal commas", func(_ *rand.Rand, text string) string { return strings.ReplaceAll(text, ".", ",") }},
	{"semicolons", func(_ *rand.Rand, text string) string { return strings.ReplaceAll(text, ",", ";") }},
	{"a quote opened", func(r *rand.Rand, text string) string {
		k := len(text)/2 + r.IntN(len(text)/4)
		k += strings.IndexAny(text[k:], ",\t \n") + 1
		return text[:k] + `"` + text[k:]
	}},
	{"bytes lost", func(r *rand.Rand, text string) string {
		b := []byte(text)
		for range 20 {
			k := r.IntN(len(b))
			b = append(b[:k], b[k+1:]...)
		}
		return string(b)
	}},
	{"bits turned", func(r *rand.Rand, text string) string {
		b := []byte(text)
		for range 20 {
			b[r.IntN(len(b))] ^= 1 << r.IntN(7)
		}
		return string(b)
	}},
	{"lines joined", func(_ *rand.Rand, text string) string { return strings.ReplaceAll(text, "\n", " ") }},
}

// Real files mangled: nothing panics, and each is either read as whole days of
// possible values or refused with a message that says where.
func TestRealFilesMangled(t *testing.T) {
	if testing.Short() {
		t.Skip("SKIPPED: real files mangled, not in short mode")
	}
	hours := 0.
	opt := Options{AllowGaps: true, UTCOffset: &hours}
	for _, want := range expectedFigures(t) {
		raw, err := os.ReadFile(realFile(t, want["file"]))
		require.NoError(t, err)
		for k, m := range manglings {
			r := rand.New(rand.NewPCG(uint64(k), 1))
			s, err := Read(strings.NewReader(m.do(r, string(raw))), want["file"], opt)
			if err == nil {
				checkSeries(t, s)
				continue
			}
			checkFlaw(t, err)
			assert.Less(t, len(err.Error()), 900, "%s, %s: a message people can read", want["file"], m.name)
		}
	}
}

// endless is a line that never ends.
type endless struct{ read int64 }

func (e *endless) Read(p []byte) (int, error) {
	if e.read >= 1<<30 {
		return 0, io.EOF
	}
	for i := range p {
		p[i] = '7'
	}
	e.read += int64(len(p))
	return len(p), nil
}

// A line of 1 GB is refused after the limit, not taken into memory.
func TestLineOfAGigabyteIsRefused(t *testing.T) {
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	e := &endless{}
	_, err := Read(e, "long.csv", Options{})
	runtime.ReadMemStats(&after)
	require.EqualError(t, told(err), "long.csv: a line is longer than 1 MB; hint: this is no table of hourly weather; save it as CSV")
	assert.Less(t, e.read, int64(4<<20), "no more is read than is needed to see it")
	assert.Less(t, after.TotalAlloc-before.TotalAlloc, uint64(16<<20))
}
