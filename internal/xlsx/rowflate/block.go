package rowflate

import (
	"io"
	"math/bits"
)

// token is a byte, or a match with its length and distance; RFC 1951, 3.2.5.
type token uint32

const isMatch token = 1 << 31

func matched(n, back int) token { return isMatch | token(n)<<16 | token(back-1) }

func (t token) length() int { return int(t>>16) & 0x1ff }

func (t token) distance() int { return int(t&0xffff) + 1 }

const (
	endOfBlock = 256
	litLens    = 286 // codes of bytes, of the end and of lengths
	distances  = 30
)

// lengthCode gives the code of a match's length, with its extra bits.
func lengthCode(n int) (code, extra, width int) {
	switch {
	case n == longest:
		return 285, 0, 0
	case n < 11:
		return 254 + n, 0, 0
	}
	width = bits.Len(uint(n-3)) - 3
	return 257 + 4*(width+1) + (n-3)>>width - 4, (n - 3) & (1<<width - 1), width
}

// distanceCode gives the code of a match's distance, with its extra bits.
func distanceCode(back int) (code, extra, width int) {
	if back < 5 {
		return back - 1, 0, 0
	}
	width = bits.Len(uint(back-1)) - 2
	return 2*(width+1) + (back-1)>>width - 2, (back - 1) & (1<<width - 1), width
}

// block writes the tokens gathered as one block with codes of its own.
func (w *Writer) block() {
	lit, dist := make([]int, litLens), make([]int, distances)
	lit[endOfBlock] = 1
	for _, t := range w.tokens {
		if t&isMatch == 0 {
			lit[t]++
			continue
		}
		code, _, _ := lengthCode(t.length())
		lit[code]++
		code, _, _ = distanceCode(t.distance())
		dist[code]++
	}
	litCode, distCode := codesOf(lit, 15), codesOf(dist, 15)
	b := &w.bits
	b.put(0, 1) // more follow
	b.put(2, 2) // codes of its own
	b.putCodes(litCode, distCode)
	for _, t := range w.tokens {
		if t&isMatch == 0 {
			b.putCode(litCode[t])
			continue
		}
		code, extra, width := lengthCode(t.length())
		b.putCode(litCode[code])
		b.put(extra, width)
		code, extra, width = distanceCode(t.distance())
		b.putCode(distCode[code])
		b.put(extra, width)
	}
	b.putCode(litCode[endOfBlock])
	w.tokens = w.tokens[:0]
}

// order is that in which the lengths of the codes for lengths are written;
// RFC 1951, 3.2.7.
var order = [...]int{16, 17, 18, 0, 8, 7, 9, 6, 10, 5, 11, 4, 12, 3, 13, 2, 14, 1, 15}

// putCodes writes the lengths of the codes, each as it is but for runs of zero.
func (b *bitWriter) putCodes(lit, dist []code) {
	var lengths []int
	for _, c := range append(append([]code{}, lit...), dist...) {
		lengths = append(lengths, c.width)
	}
	counts := make([]int, len(order))
	eachRun(lengths, func(symbol, _ int) { counts[symbol]++ })
	codes := codesOf(counts, 7)
	b.put(len(lit)-257, 5)
	b.put(len(dist)-1, 5)
	b.put(len(order)-4, 4)
	for _, symbol := range order {
		b.put(codes[symbol].width, 3)
	}
	eachRun(lengths, func(symbol, zeros int) {
		b.putCode(codes[symbol])
		switch symbol {
		case 17:
			b.put(zeros-3, 3)
		case 18:
			b.put(zeros-11, 7)
		}
	})
}

// eachRun gives the symbols for a list of lengths: 17 stands for 3 to 10 zeros
// and 18 for 11 to 138.
func eachRun(lengths []int, do func(symbol, zeros int)) {
	for i := 0; i < len(lengths); {
		zeros := 0
		for i+zeros < len(lengths) && lengths[i+zeros] == 0 && zeros < 138 {
			zeros++
		}
		switch {
		case zeros >= 11:
			do(18, zeros)
			i += zeros
		case zeros >= 3:
			do(17, zeros)
			i += zeros
		default:
			do(lengths[i], 0)
			i++
		}
	}
}

// bitWriter writes bits from the lowest upwards.
type bitWriter struct {
	out  io.Writer
	buf  []byte
	bits uint64
	n    int // bits held
	err  error
}

func (b *bitWriter) putCode(c code) { b.put(c.bits, c.width) }

func (b *bitWriter) put(v, width int) {
	b.bits |= uint64(v) << b.n
	b.n += width
	for b.n >= 8 {
		b.buf = append(b.buf, byte(b.bits))
		b.bits >>= 8
		b.n -= 8
	}
	if len(b.buf) >= 1<<16 {
		b.flush()
	}
}

func (b *bitWriter) flush() {
	if b.err == nil {
		_, b.err = b.out.Write(b.buf)
	}
	b.buf = b.buf[:0]
}

// end writes an empty last block with the fixed codes, and what is left of a byte.
func (b *bitWriter) end() {
	b.put(1, 1)
	b.put(1, 2)
	b.put(0, 7) // its end
	if b.n > 0 {
		b.put(0, 8-b.n)
	}
	b.flush()
}
