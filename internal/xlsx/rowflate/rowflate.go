// Package rowflate packs the rows of a sheet as DEFLATE (RFC 1951).
//
// A row of a large sheet is nearly the row above it: the same tags in the same
// order, with another row number and other digits. A compressor for any data
// looks for the longest match everywhere, finds chance runs of four digits that
// cost more than the digits do, and takes most of the time of writing a book. This
// one looks in two places only: as far back as it last found something, and, where
// a tag begins, at the last place that began with the same sixteen bytes, which is
// the cell above. It is for rows; other text it packs badly, but truly.
package rowflate

import (
	"bytes"
	"encoding/binary"
	"io"
)

const (
	window  = 1 << 15 // how far back a match may lie
	longest = 258     // bytes of a match

	// Shorter matches cost more than their bytes do: as far back as before, and
	// at the beginning of a tag.
	least, leastTag = 5, 8

	tagBytes  = 16 // that tell a cell's column: </v></c><c r="AX
	tableBits = 14
	ahead     = 1 << 17 // bytes gathered before they are packed
	perBlock  = 1 << 15 // tokens of a block, which has its own codes
)

// Writer packs what is written to it. Close ends the stream and has to be called.
type Writer struct {
	bits   bitWriter
	buf    []byte              // up to a window already packed, then what is not
	packed int                 // bytes of buf that are packed
	at     [1 << tableBits]int // where in buf a tag last began, +1
	back   int                 // distance of the last match
	tokens []token
}

// NewWriter packs to out.
func NewWriter(out io.Writer) *Writer { return &Writer{bits: bitWriter{out: out}} }

func (w *Writer) Write(p []byte) (int, error) {
	w.buf = append(w.buf, p...)
	if len(w.buf)-w.packed >= ahead {
		w.pack()
	}
	return len(p), w.bits.err
}

// Close packs the rest, ends the stream and reports the first error of all.
func (w *Writer) Close() error {
	w.pack()
	w.block()
	w.bits.end()
	return w.bits.err
}

// pack turns what has been gathered into tokens and forgets all but a window.
func (w *Writer) pack() {
	for i := w.packed; i < len(w.buf); {
		n, back := w.match(i)
		if n == 0 {
			w.tokens = append(w.tokens, token(w.buf[i]))
			i++
		} else {
			w.tokens = append(w.tokens, matched(n, back))
			w.back = back
			w.remember(i+1, i+n)
			i += n
		}
		if len(w.tokens) == perBlock {
			w.block()
		}
	}
	w.packed = len(w.buf)
	if drop := len(w.buf) - window; drop > 0 {
		w.buf = append(w.buf[:0], w.buf[drop:]...)
		w.packed = len(w.buf)
		for k := range w.at {
			w.at[k] = max(0, w.at[k]-drop)
		}
	}
}

// match finds what stands at i further back: its length, 0 for none, and how far.
func (w *Writer) match(i int) (n, back int) {
	if w.back > 0 && w.back <= i {
		if n = w.same(i-w.back, i); n >= least {
			if w.buf[i] == '<' {
				w.remember(i, i+1)
			}
			return n, w.back
		}
	}
	if w.buf[i] != '<' {
		return 0, 0
	}
	from := w.tag(i)
	w.remember(i, i+1)
	if from < 0 || i-from > window {
		return 0, 0
	}
	if n = w.same(from, i); n < leastTag {
		return 0, 0
	}
	return n, i - from
}

// same counts the bytes that are alike from a and from b on.
func (w *Writer) same(a, b int) (n int) {
	end := min(len(w.buf)-b, longest)
	for n < end && w.buf[a+n] == w.buf[b+n] {
		n++
	}
	return n
}

// remember notes the tags that begin from i up to j.
func (w *Writer) remember(i, j int) {
	for i < j {
		k := bytes.IndexByte(w.buf[i:j], '<')
		if k < 0 {
			return
		}
		i += k
		if slot := w.slot(i); slot >= 0 {
			w.at[slot] = i + 1
		}
		i++
	}
}

// tag is where the tag at i last began, -1 for nowhere.
func (w *Writer) tag(i int) int {
	if slot := w.slot(i); slot >= 0 {
		return w.at[slot] - 1
	}
	return -1
}

// slot is the place of a tag in the table, -1 where it is cut off.
func (w *Writer) slot(i int) int {
	if i+tagBytes > len(w.buf) {
		return -1
	}
	a, b := binary.LittleEndian.Uint64(w.buf[i:]), binary.LittleEndian.Uint64(w.buf[i+8:])
	const odd = 0x9E3779B97F4A7C15 // 2^64 over the golden ratio
	return int((a*odd ^ b) * odd >> (64 - tableBits))
}
