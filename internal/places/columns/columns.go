// Package columns packs the typical year of a station into a few kilobytes and
// gives it back without loss.
//
// Each quantity is a column of 8,760 whole numbers. A column is written as the
// differences from what the numbers before it let expect, for these are small:
//
//   - dry bulb, dew point and pressure from the hour before;
//   - relative humidity from dry bulb and dew point of the same hour, by the
//     Magnus formula (coefficients of Alduchov and Eskridge, Journal of Applied
//     Meteorology 35 (1996), equation 21); the formula only guesses, the
//     difference is kept;
//   - irradiance from the hour before, moved by the course of the ten days
//     before, so that nights cost nothing;
//   - the flag of dry bulb from the hour before.
//
// Every column is then one Zstandard frame (RFC 8878). A block is the six
// frames, each behind its length as four bytes, lowest first.
package columns

import (
	"encoding/binary"
	"errors"
	"fmt"
	"sync"

	"github.com/klauspost/compress/zstd"
)

// Hours of a typical year.
const Hours = 8760

// Year is the hours ending 01:00 on 1 January to 24:00 on 31 December.
type Year struct {
	DryBulb  []int  // tenths of a °C
	DewPoint []int  // tenths of a °C
	RelHum   []int  // percent
	Pressure []int  // mbar
	GHI      []int  // W/m², mean of the hour
	Source   []byte // flag of dry bulb: A observed, B filled, E filled by statistics
}

// longest is the largest unpacked column taken: three bytes a number.
const longest = 3 * Hours

var encoder = sync.OnceValue(func() *zstd.Encoder {
	e, err := zstd.NewWriter(nil, zstd.WithEncoderLevel(zstd.SpeedBestCompression), zstd.WithEncoderConcurrency(1))
	if err != nil {
		panic("columns: " + err.Error())
	}
	return e
})

var decoder = sync.OnceValue(func() *zstd.Decoder {
	d, err := zstd.NewReader(nil, zstd.WithDecoderMaxMemory(1<<20))
	if err != nil {
		panic("columns: " + err.Error())
	}
	return d
})

// Pack writes a year as a block. It fails where a column does not have 8,760
// numbers or a number does not fit.
func Pack(y *Year) ([]byte, error) {
	for _, c := range []int{len(y.DryBulb), len(y.DewPoint), len(y.RelHum), len(y.Pressure), len(y.GHI), len(y.Source)} {
		if c != Hours {
			return nil, fmt.Errorf("a column has %d numbers, not %d", c, Hours)
		}
	}
	if err := checkGuesses(y); err != nil {
		return nil, err
	}
	source := make([]int, Hours)
	for i, b := range y.Source {
		source[i] = int(b)
	}
	var block []byte
	for _, c := range [][]int{
		less(y.DryBulb, before), less(y.DewPoint, before), less(y.RelHum, humidityGuess(y)),
		less(y.Pressure, before), less(y.GHI, sunGuess), less(source, before),
	} {
		plain, err := bytesOf(c)
		if err != nil {
			return nil, err
		}
		frame := encoder().EncodeAll(plain, nil)
		block = binary.LittleEndian.AppendUint32(block, uint32(len(frame)))
		block = append(block, frame...)
	}
	return block, nil
}

var errDamaged = errors.New("the packed year of the station is damaged")

// Unpack reads a block.
func Unpack(block []byte) (*Year, error) {
	var c [6][]int
	for i := range c {
		if len(block) < 4 {
			return nil, errDamaged
		}
		n := int(binary.LittleEndian.Uint32(block))
		if block = block[4:]; n > len(block) {
			return nil, errDamaged
		}
		plain, err := decoder().DecodeAll(block[:n], make([]byte, 0, longest))
		if err != nil {
			return nil, fmt.Errorf("%w: %w", errDamaged, err)
		}
		if c[i], err = numbersOf(plain); err != nil {
			return nil, err
		}
		block = block[n:]
	}
	if len(block) > 0 {
		return nil, errDamaged
	}
	y := &Year{DryBulb: plus(c[0], before), DewPoint: plus(c[1], before)}
	y.RelHum = plus(c[2], humidityGuess(y))
	y.Pressure, y.GHI = plus(c[3], before), plus(c[4], sunGuess)
	y.Source = make([]byte, Hours)
	for i, v := range plus(c[5], before) {
		y.Source[i] = byte(v)
	}
	return y, nil
}
