package columns

import (
	"fmt"
	"math"
)

// guess is what number i of a column may be, told from those before it.
type guess func(column []int, i int) int

// less takes the guesses off a column, plus adds them again.
func less(column []int, g guess) []int {
	out := make([]int, len(column))
	for i, v := range column {
		out[i] = v - g(column, i)
	}
	return out
}

func plus(rest []int, g guess) []int {
	for i := range rest {
		rest[i] += g(rest, i)
	}
	return rest
}

func before(column []int, i int) int {
	if i == 0 {
		return 0
	}
	return column[i-1]
}

// sunDays is how many days before tell the course of the sun: of 3, 6, 10 and
// 20 tried, 10 packs about as well as any.
const sunDays = 10

// sunGuess moves the irradiance of the hour before as the sums of the same two
// hours moved over the days before. Whole numbers only: the guess must be the
// same on every machine.
func sunGuess(column []int, i int) int {
	if i == 0 {
		return 0
	}
	last := column[i-1]
	var here, then int
	for k := i - 24; k > 0 && k >= i-24*sunDays; k -= 24 {
		here += column[k]
		then += column[k-1]
	}
	switch {
	case here == 0 && i > 24:
		return 0
	case then == 0:
		return last
	}
	return min((last*here+then/2)/then, last+here/sunDays)
}

// humidityGuess is relative humidity in percent by the Magnus formula from the
// temperatures of the same hour.
func humidityGuess(y *Year) guess {
	return func(_ []int, i int) int { return int(math.Round(magnus(y.DryBulb[i], y.DewPoint[i]))) }
}

// magnus is unrounded percent, 100 at most; temperatures in tenths of a °C.
func magnus(dryBulb, dewPoint int) float64 {
	return min(100, 100*math.Exp(exponent(dewPoint)-exponent(dryBulb)))
}

func exponent(tenths int) float64 {
	t := float64(tenths) / 10
	return 17.625 * t / (243.04 + t)
}

// checkGuesses refuses an hour whose unrounded humidity is so near to a half
// that the last bits of another processor's arithmetic could round it the other
// way, and would then give another number back.
func checkGuesses(y *Year) error {
	for i := range y.DryBulb {
		h := magnus(y.DryBulb[i], y.DewPoint[i])
		if math.Abs(h-math.Floor(h)-0.5) < 1e-9 {
			return fmt.Errorf("hour %d: the humidity expected of %d and %d tenths of a °C is too near to a half", i, y.DryBulb[i], y.DewPoint[i])
		}
	}
	return nil
}
