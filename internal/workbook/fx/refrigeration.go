package fx

import (
	"github.com/evapbook/evapbook/internal/refrigeration"
	"github.com/evapbook/evapbook/internal/season"
	"github.com/evapbook/evapbook/internal/units"
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

// Size is the smallest multiple of half a ton that at most SizingPerThousand hours
// in a thousand exceed; refrigeration.Size. Thousandths come in steps of
// 1/1000, so that taking off 0.498 rounds down.
var Size = Fill("MAX(1,ROUNDUP(LARGE([Working.rating:],MIN(ROUND(COUNT([Working.rating:])*{share}/1000-0.498,0)+1,COUNT([Working.rating:])))/{step},0))*{step}",
	"{share}", Num(season.SizingPerThousand), "{step}", "("+Num(refrigeration.HalfTonBtu)+"*"+Num(units.JoulesPerBtu)+"/3600)")
