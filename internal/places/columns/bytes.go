package columns

import "fmt"

// wide marks a number that does not fit into the one byte of its place: it
// stands in two bytes, lowest first, behind all places.
const wide = 255

// bytesOf writes each number as one byte, sign in the lowest bit, as most are
// small. Wide ones follow at the end.
func bytesOf(column []int) ([]byte, error) {
	out := make([]byte, 0, len(column)+64)
	var rest []byte
	for i, v := range column {
		u := uint(v<<1) ^ uint(v>>63)
		switch {
		case u < wide:
			out = append(out, byte(u))
		case u < 1<<16:
			out = append(out, wide)
			rest = append(rest, byte(u), byte(u>>8))
		default:
			return nil, fmt.Errorf("hour %d: a difference of %d does not fit", i, v)
		}
	}
	return append(out, rest...), nil
}

func numbersOf(plain []byte) ([]int, error) {
	if len(plain) < Hours {
		return nil, errDamaged
	}
	out, rest := make([]int, Hours), plain[Hours:]
	for i, b := range plain[:Hours] {
		u := uint(b)
		if b == wide {
			if len(rest) < 2 {
				return nil, errDamaged
			}
			u = uint(rest[0]) | uint(rest[1])<<8
			rest = rest[2:]
		}
		out[i] = int(u>>1) ^ -int(u&1)
	}
	if len(rest) > 0 {
		return nil, errDamaged
	}
	return out, nil
}
