package fx

import (
	"math"

	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/psychro"
	"github.com/evapbook/evapbook/internal/season"
)

// The cells solve the wet bulb themselves, by Newton steps on equations 33 and
// 35 of ASHRAE Handbook Fundamentals 2017 ch. 1. Each step takes two cells: the
// saturated air at the present guess, and the next guess; guesses are in
// kelvin. For each piece of formula text below there is a Go function that
// gives the value cached beside it.

// NewtonSteps is the number of steps after which the guess no longer moves in
// any state of -20 to 55 °C, 1 to 100 % and 65 to 108 kPa (three leave 3e-6 K).
const NewtonSteps = 4

// FirstGuess is the first guess in kelvin for air of t °C and relative
// humidity rh (0..1). Source: Stull, J. Appl. Meteor. Climatol. 50 (2011) 2267.
func FirstGuess(t, rh string) string {
	return Fill("{T}*ATAN(0.151977*SQRT({R}*100+8.313659))+ATAN({T}+{R}*100)-ATAN({R}*100-1.676331)+0.00391838*({R}*100)^1.5*ATAN(2.3101*{R})-4.686035+273.15", "{T}", t, "{R}", rh)
}

// FirstGuessOf is the value of [FirstGuess].
func FirstGuessOf(t, rh float64) float64 {
	r := rh * 100
	return t*math.Atan(0.151977*math.Sqrt(r+8.313659)) + math.Atan(t+r) - math.Atan(r-1.676331) +
		0.00391838*math.Pow(r, 1.5)*math.Atan(2.3101*rh) - 4.686035 + Kelvin
}

// iceFormula is 1 where the wet bulb is that of an iced wick, else 0: W below
// eq. 33 at a wet bulb of 0 °C. The 1E-12 is psychro.FreezingRatioMargin.
func iceFormula(t, w, p string) string {
	return Fill("IF({W}<(2501*0.621945*B_psat_zero/({P}-B_psat_zero)-1.006*{T})/(2501+1.86*{T})-1E-12,1,0)", "{T}", t, "{W}", w, "{P}", p)
}

func ice(t, w, p float64) float64 {
	z := psychro.SaturationPressure(0)
	if w < (2501*0.621945*z/(p-z)-1.006*t)/(2501+1.86*t)-psychro.FreezingRatioMargin {
		return 1
	}
	return 0
}

// wick holds the coefficients of the wet-bulb equation for one air, with guess
// X in kelvin and r the moles of saturated air at X:
//
//	G(X) = r (k - a X) + d X - c
//
// which is A Ws - 1.006 (t - t*) - W B = 0 of eqs. 33 and 35 multiplied out and
// collected by X. ice is 1 for an iced wick, else 0.
type wick struct{ Ice, k, a, d, c float64 }

// Wick give ice, k, a, d and c, in that order, from cells t, w, p and
// the cell ice itself. 240.7909 is 329 less 2.086 times 273.15: the difference
// of the two wicks at 0 K.
func Wick(t, w, p, ice string) [5]string {
	pairs := []string{"{T}", t, "{W}", w, "{I}", ice}
	return [5]string{
		iceFormula(t, w, p),
		Fill("0.621945*(3136.3469-240.7909*{I})", pairs...),
		Fill("0.621945*(2.326-2.086*{I})", pairs...),
		Fill("1.006+(4.186-2.086*{I})*{W}", pairs...),
		Fill("1.006*({T}+273.15)+{W}*(3644.4059-240.7909*{I}+1.86*{T})", pairs...),
	}
}

func wickOf(a psychro.Air) wick {
	i := ice(a.T, a.W, a.P)
	return wick{
		Ice: i,
		k:   0.621945 * (3136.3469 - 240.7909*i),
		a:   0.621945 * (2.326 - 2.086*i),
		d:   1.006 + (4.186-2.086*i)*a.W,
		c:   1.006*(a.T+Kelvin) + a.W*(3644.4059-240.7909*i+1.86*a.T),
	}
}

// Step is the next guess in kelvin from guess x with moles r and the
// wick's formulas. The slope of the saturation curve in it is a two-term fit
// (6730/X² - 4.8/X over water, 6192/X² - 0.17/X over ice, within 3e-4 of the
// exact one), which slows the last step by that much and shortens the cell.
func Step(x, r string, wick [5]string) string {
	return Fill("{X}-({R}*({K}-{A}*{X})+{D}*{X}-{C})/({R}*(({K}-{A}*{X})*(1+{R})*IF({X}<=273.16,6192/{X}-0.17,6730/{X}-4.8)/{X}-{A})+{D})",
		"{X}", x, "{R}", r, "{K}", "("+wick[1]+")", "{A}", "("+wick[2]+")", "{D}", "("+wick[3]+")", "{C}", "("+wick[4]+")")
}

func (w wick) step(x, r float64) float64 {
	slope := (6730/x - 4.8) / x
	if x <= 273.16 {
		slope = (6192/x - 0.17) / x
	}
	e := w.k - w.a*x
	return x - (r*e+w.d*x-w.c)/(r*(e*(1+r)*slope-w.a)+w.d)
}

// Newton holds the cells of one solution: the wick, guesses in kelvin, each
// with the moles of saturated air there; the last guess is the answer.
type Newton struct {
	wick
	R    [NewtonSteps]float64
	X    [NewtonSteps + 1]float64
	Last float64 // °C
}

// Solve mirrors the chain of cells from the first guess in kelvin.
func Solve(a psychro.Air, first float64) Newton {
	n := Newton{wick: wickOf(a)}
	n.X[0] = first
	for i := range NewtonSteps {
		n.R[i] = MolesOf(a.P, psychro.SaturationPressure(n.X[i]-Kelvin))
		n.X[i+1] = n.step(n.X[i], n.R[i])
	}
	n.Last = n.X[NewtonSteps] - Kelvin
	return n
}

// Solved holds what the Working cells of one hour show beyond the engine's own
// results: the engine finds wet bulbs its own way.
type Solved struct {
	Rh            float64 // outdoor relative humidity at the site
	First, Second Newton  // wet bulb outdoors, and after the indirect stage
	WetBulb       float64 // °C, as the cells find it
	WetBulb1      float64 // °C, entering the pads
}

// SolveHours carries the cells' own wet-bulb chains through all hours.
func SolveHours(s *season.Season) []Solved {
	out := make([]Solved, len(s.Hours))
	for i := range out {
		in := &s.Climate.Hours[i]
		if in.Missing {
			continue
		}
		c, a := &out[i], in.Air
		c.Rh = a.RelHum()
		c.First = Solve(a, FirstGuessOf(a.T, c.Rh))
		c.WetBulb = min(c.First.Last, a.T)
		c.WetBulb1 = c.WetBulb
		if s.Cooler.Kind != job.Direct {
			t1 := s.Hours[i].Supply.T1
			c.Second = Solve(psychro.Air{T: t1, W: a.W, P: a.P}, SecondGuessOf(c.WetBulb, a.T, t1))
			c.WetBulb1 = min(c.Second.Last, t1)
		}
	}
	return out
}

// The wet bulb falls by about 0.27 K per kelvin of dry bulb taken away at
// constant humidity ratio; a first guess only.
const SecondGuess = "[wb]+273.15-0.27*([t]-[t1])"

// SecondGuessOf is the value of [SecondGuess].
func SecondGuessOf(wb, t, t1 float64) float64 { return wb + Kelvin - 0.27*(t-t1) }
