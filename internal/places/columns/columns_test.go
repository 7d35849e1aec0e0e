package columns

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// Any numbers come back, plausible as weather or not.
func TestAnythingComesBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		column := func(name string, low, high int) []int {
			few := rapid.SliceOfN(rapid.IntRange(low, high), 48, 48).Draw(t, name)
			out := make([]int, Hours)
			for i := range out {
				out[i] = few[i*7%48]
			}
			return out
		}
		y := &Year{
			DryBulb: column("dry", -800, 700), DewPoint: column("dew", -900, 400), RelHum: column("rh", 0, 110),
			Pressure: column("p", 500, 1100), GHI: column("ghi", 0, 1500), Source: make([]byte, Hours),
		}
		for i := range y.Source {
			y.Source[i] = "ABCDEF?"[i*i%7]
		}
		block, err := Pack(y)
		if err != nil {
			require.ErrorContains(t, err, "too near to a half")
			return
		}
		back, err := Unpack(block)
		require.NoError(t, err)
		require.Equal(t, y, back)
	})
}

func TestPackRefuses(t *testing.T) {
	full := func() *Year {
		zero := func() []int { return make([]int, Hours) }
		return &Year{zero(), zero(), zero(), zero(), zero(), make([]byte, Hours)}
	}
	y := full()
	y.GHI = y.GHI[1:]
	_, err := Pack(y)
	assert.ErrorContains(t, err, "8759 numbers")
	y = full()
	y.Pressure[10] = 1 << 20
	_, err = Pack(y)
	assert.ErrorContains(t, err, "does not fit")
}

func FuzzUnpack(f *testing.F) {
	f.Add([]byte{1, 0, 0, 0, 9})
	f.Fuzz(func(t *testing.T, block []byte) {
		if y, err := Unpack(block); err == nil {
			assert.Len(t, y.DryBulb, Hours)
		}
	})
}
