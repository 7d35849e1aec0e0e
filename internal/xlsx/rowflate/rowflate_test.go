package rowflate

import (
	"bytes"
	"compress/flate"
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// unpacked packs data in pieces and has the standard library unpack it.
func unpacked(t *testing.T, data []byte, piece int) (back []byte, size int) {
	t.Helper()
	var out bytes.Buffer
	w := NewWriter(&out)
	for rest := data; len(rest) > 0; {
		n := min(piece, len(rest))
		_, err := w.Write(rest[:n])
		require.NoError(t, err)
		rest = rest[n:]
	}
	require.NoError(t, w.Close())
	size = out.Len()
	back, err := io.ReadAll(flate.NewReader(&out))
	require.NoError(t, err)
	return back, size
}

// rows are n rows of a sheet with numbers of our own.
func rows(n int) []byte {
	var b bytes.Buffer
	random := rand.New(rand.NewPCG(1, 2))
	for i := range n {
		fmt.Fprintf(&b, `<row r="%d">`, i)
		for c := range 40 {
			fmt.Fprintf(&b, `<c r="%c%c%d" s="59"><f t="shared" si="%d"/><v>%.12g</v></c>`, 'A'+c/26, 'A'+c%26, i, c, random.NormFloat64()*100)
		}
		b.WriteString("</row>")
	}
	return b.Bytes()
}

func TestUnpacksToTheSame(t *testing.T) {
	long := bytes.Repeat([]byte("<v>1</v>"), 1<<16)
	noise := make([]byte, 300_000)
	random := rand.New(rand.NewPCG(3, 4))
	for i := range noise {
		noise[i] = byte(random.Uint32())
	}
	for name, data := range map[string][]byte{
		"nothing": nil, "one byte": {'<'}, "two alike": []byte("<<"), "rows": rows(300), "one tag": long, "noise": noise,
		"zeros": make([]byte, 1<<18), "cut": rows(50)[:70_001],
	} {
		for _, piece := range []int{1, 100_003, 1 << 20} {
			back, _ := unpacked(t, data, piece)
			assert.True(t, bytes.Equal(data, back), "%s in pieces of %d", name, piece)
		}
	}
}

// Rows of random digits have to come out smaller than by the usual compressor.
func TestPacksRowsWell(t *testing.T) {
	data := rows(2000)
	_, size := unpacked(t, data, 1<<18)
	var usual bytes.Buffer
	w, err := flate.NewWriter(&usual, 6)
	require.NoError(t, err)
	_, err = w.Write(data)
	require.NoError(t, err)
	require.NoError(t, w.Close())
	t.Logf("%d bytes, the usual compressor %d", size, usual.Len())
	assert.Less(t, size, usual.Len()*9/10)
}

// Every length and distance has the code that RFC 1951 lists; the table's ends
// and steps.
func TestCodesOfMatches(t *testing.T) {
	for _, x := range []struct{ n, code, extra, width int }{
		{3, 257, 0, 0}, {10, 264, 0, 0}, {11, 265, 0, 1}, {12, 265, 1, 1}, {13, 266, 0, 1}, {18, 268, 1, 1}, {19, 269, 0, 2}, {114, 279, 15, 4},
		{115, 280, 0, 4}, {130, 280, 15, 4}, {131, 281, 0, 5}, {257, 284, 30, 5}, {258, 285, 0, 0},
	} {
		code, extra, width := lengthCode(x.n)
		assert.Equal(t, [...]int{x.code, x.extra, x.width}, [...]int{code, extra, width}, "length %d", x.n)
	}
	for _, x := range []struct{ back, code, extra, width int }{
		{1, 0, 0, 0}, {4, 3, 0, 0}, {5, 4, 0, 1}, {6, 4, 1, 1}, {7, 5, 0, 1}, {8, 5, 1, 1}, {9, 6, 0, 2}, {24576, 28, 8191, 13}, {24577, 29, 0, 13}, {32768, 29, 8191, 13},
	} {
		code, extra, width := distanceCode(x.back)
		assert.Equal(t, [...]int{x.code, x.extra, x.width}, [...]int{code, extra, width}, "distance %d", x.back)
	}
}

// No code is longer than allowed, however uneven the counts: Fibonacci's numbers
// make the deepest tree there is.
func TestCodesAreShortEnough(t *testing.T) {
	counts := []int{1, 1}
	for len(counts) < 40 {
		counts = append(counts, counts[len(counts)-1]+counts[len(counts)-2])
	}
	for _, most := range []int{7, 15} {
		room := 0.0
		for _, c := range codesOf(counts, most) {
			assert.LessOrEqual(t, c.width, most)
			room += 1 / float64(int(1)<<c.width)
		}
		assert.Equal(t, 1.0, room, "the codes fill their tree (Kraft)")
	}
}

type broken struct{}

func (broken) Write([]byte) (int, error) { return 0, errors.New("full") }

func TestReportsErrors(t *testing.T) {
	w := NewWriter(broken{})
	_, _ = w.Write(rows(10))
	assert.ErrorContains(t, w.Close(), "full")
}

func FuzzUnpacksToTheSame(f *testing.F) {
	f.Add([]byte(`<c r="A1"><v>1</v></c><c r="A2"><v>1</v></c>`), 3)
	f.Add(rows(2), 100)
	f.Fuzz(func(t *testing.T, data []byte, piece int) {
		back, _ := unpacked(t, data, 1+max(piece, 0)%(1<<20))
		if !bytes.Equal(data, back) {
			t.Fatalf("%d bytes came back as %d", len(data), len(back))
		}
	})
}

func BenchmarkWriter(b *testing.B) {
	data := rows(2000)
	b.SetBytes(int64(len(data)))
	for b.Loop() {
		w := NewWriter(io.Discard)
		_, _ = w.Write(data)
		_ = w.Close()
	}
}
