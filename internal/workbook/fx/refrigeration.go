package fx

import (
	"github.com/evapbook/evapbook/internal/refrigeration"
)

// Biquadratic writes the curve at x and y.
func Biquadratic(q refrigeration.Biquadratic, x, y string) string {
	return Fill("{a}+{b}*{x}+{c}*{x}^2+{d}*{y}+{e}*{y}^2+{f}*{x}*{y}",
		"{a}", Num(q.A), "{b}", Num(q.B), "{c}", Num(q.C), "{d}", Num(q.D), "{e}", Num(q.E), "{f}", Num(q.F), "{x}", x, "{y}", y)
}

// AltitudeFactor adds up the fall of each segment of the altitude table.
func AltitudeFactor(z string) string {
	f := Num(refrigeration.AltitudeTable[0].Factor)
	for i := 1; i < len(refrigeration.AltitudeTable); i++ {
		a, b := refrigeration.AltitudeTable[i-1], refrigeration.AltitudeTable[i]
		f += Fill("-{d}*MIN(MAX({z}-{lo},0),{w})/{w}", "{d}", Num(round(a.Factor-b.Factor, 9)), "{z}", z, "{lo}", Num(a.Altitude), "{w}", Num(b.Altitude-a.Altitude))
	}
	return f
}

// Size is the smallest multiple of half a ton that at most 0.4 % of the hours
// exceed; refrigeration.Size. Thousandths come in steps of 4, so that taking off
// 0.498 rounds down.
const Size = "MAX(1,ROUNDUP(LARGE([Working.rating:],MIN(ROUND(COUNT([Working.rating:])*4/1000-0.498,0)+1,COUNT([Working.rating:])))/(6000*1055.05585262/3600),0))*(6000*1055.05585262/3600)"
