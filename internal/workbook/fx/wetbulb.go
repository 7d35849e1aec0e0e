package fx

import (
	"math"

	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/psychro"
	"github.com/evapbook/evapbook/internal/season"
)

// The cells solve the wet bulb themselves, by Newton steps on equations 33 and
// 35 of ASHRAE Handbook Fundamentals 2017 ch. 1, a cell for each step; guesses
// are in kelvin. For each piece of formula text below there is a Go function
// that gives the value cached beside it.

// NewtonSteps is the number of steps after which the guess no longer moves in
// any state of -20 to 55 °C, 1 to 100 % and 65 to 108 kPa (three leave 3e-7 K).
const NewtonSteps = 4

// FirstGuess is the first guess in kelvin for air of t °C and relative
// humidity rh (0..1). Source: Stull, J. Appl. Meteor. Climatol. 50 (2011) 2267.
func FirstGuess(t, rh string) string {
	return Fill("{T}*ATAN(0.151977*SQRT({R}*100+8.313659))+ATAN({T}+{R}*100)-ATAN({R}*100-1.676331)+0.00391838*({R}*100)^1.5*ATAN(2.3101*{R})-4.686035+"+Zero, "{T}", t, "{R}", rh)
}

// FirstGuessOf is the value of [FirstGuess].
func FirstGuessOf(t, rh float64) float64 {
	r := rh * 100
	return t*math.Atan(0.151977*math.Sqrt(r+8.313659)) + math.Atan(t+r) - math.Atan(r-1.676331) +
		0.00391838*math.Pow(r, 1.5)*math.Atan(2.3101*rh) - 4.686035 + psychro.ZeroCelsius
}

// iceFormula is 1 where the wet bulb is that of an iced wick, else 0: W below
// eq. 33 at a wet bulb of 0 °C, by more than psychro.FreezingRatioMargin.
func iceFormula(t, w, p string) string {
	return Fill("IF({W}<({L}*{m}*B_psat_zero/({P}-B_psat_zero)-{cp}*{T})/({L}+{cv}*{T})-{margin},1,0)", "{T}", t, "{W}", w, "{P}", p,
		"{L}", perGram(psychro.WaterWick.Latent), "{m}", massRatio, "{cp}", perGram(psychro.HeatDryAir), "{cv}", perGram(psychro.HeatVapour), "{margin}", Num(psychro.FreezingRatioMargin))
}

func ice(t, w, p float64) float64 {
	z := psychro.SaturationPressure(0)
	latent := psychro.WaterWick.Latent / 1000
	if w < (latent*psychro.MassRatio*z/(p-z)-cp*t)/(latent+cv*t)-psychro.FreezingRatioMargin {
		return 1
	}
	return 0
}

// Specific heats in kJ/(kg K), as these equations count.
const cp, cv = psychro.HeatDryAir / 1000, psychro.HeatVapour / 1000

// The brackets of eqs. 33 and 35 collected by the guess in kelvin: left and right
// are their values at 0 K for a wet wick; an iced wick has melt less in each,
// and bend less for each kelvin of wet bulb (2.086 on both sides).
var (
	wet, iced = psychro.WaterWick, psychro.IceWick
	left      = round((wet.Latent+wet.Left*psychro.ZeroCelsius)/1000, 9)
	right     = round((wet.Latent+wet.Right*psychro.ZeroCelsius)/1000, 9)
	melt      = round(left-(iced.Latent+iced.Left*psychro.ZeroCelsius)/1000, 9)
	bend      = round((wet.Left-iced.Left)/1000, 9)
)

// wick holds the coefficients of the wet-bulb equation for one air, with guess
// X in kelvin and r the moles of saturated air at X:
//
//	G(X) = r (k - a X) + d X - c
//
// which is A Ws - 1.006 (t - t*) - W B = 0 of eqs. 33 and 35 multiplied out and
// collected by X. ice is 1 for an iced wick, else 0.
type wick struct{ Ice, k, a, d, c float64 }

// Wick gives ice, k, a, d and c, in that order, from cells t, w, p and the cell
// ice itself.
func Wick(t, w, p, ice string) [5]string {
	pairs := []string{"{T}", t, "{W}", w, "{I}", ice, "{m}", massRatio, "{cp}", Num(cp), "{cv}", Num(cv), "{left}", Num(left), "{right}", Num(right), "{melt}", Num(melt), "{bend}", Num(bend),
		"{A}", perGram(wet.Left), "{B}", perGram(wet.Right), "{zero}", Zero}
	return [5]string{
		iceFormula(t, w, p),
		Fill("{m}*({left}-{melt}*{I})", pairs...),
		Fill("{m}*({A}-{bend}*{I})", pairs...),
		Fill("{cp}+({B}-{bend}*{I})*{W}", pairs...),
		Fill("{cp}*({T}+{zero})+{W}*({right}-{melt}*{I}+{cv}*{T})", pairs...),
	}
}

func wickOf(a psychro.Air) wick {
	i := ice(a.T, a.W, a.P)
	return wick{
		Ice: i,
		k:   psychro.MassRatio * (left - melt*i),
		a:   psychro.MassRatio * (wet.Left/1000 - bend*i),
		d:   cp + (wet.Right/1000-bend*i)*a.W,
		c:   cp*(a.T+psychro.ZeroCelsius) + a.W*(right-melt*i+cv*a.T),
	}
}

// Step is the next guess in kelvin from guess x at pressure p by the wick's
// formulas: Newton on G of [wick] times (P - e), e the saturation pressure at
// X. With g = k + c - (a + d) X and s = e'/e it is
//
//	X' = c/d - (g - (X - c/d) h)/(h + d P/e),  h = s g - (a + d)
//
// in which e stands once, so that a step is one cell. The slope s is a
// two-term fit (6730/X² - 4.8/X over water, 6192/X² - 0.17/X over ice, within
// 3e-4 of the exact one), which slows the last step by that much and shortens
// the cell.
func Step(x, p string, wick [5]string) string {
	const h = "(IF({X}<={triple},6192/{X}-0.17,6730/{X}-4.8)/{X}*{G}-{A}-{D})"
	pairs := []string{"{C}", "(" + wick[4] + ")", "{D}", "(" + wick[3] + ")", "{K}", "(" + wick[1] + ")", "{A}", "(" + wick[2] + ")",
		"{X}", x, "{P}", p, "{triple}", triplePoint, "{E}", SaturationPressure(x)}
	g := Fill("({K}+{C}-({A}+{D})*{X})", pairs...)
	pairs = append(pairs, "{G}", g)
	pairs = append(pairs, "{H}", Fill(h, pairs...))
	return Fill("{C}/{D}-({G}-({X}-{C}/{D})*{H})/({H}+{D}*{P}/{E})", pairs...)
}

func (w wick) step(x, p float64) float64 {
	slope := (6730/x - 4.8) / x
	if x <= psychro.ZeroCelsius+psychro.TriplePoint {
		slope = (6192/x - 0.17) / x
	}
	g := w.k + w.c - (w.a+w.d)*x
	h := slope*g - w.a - w.d
	dry := w.c / w.d
	return dry - (g-(x-dry)*h)/(h+w.d*p/psychro.SaturationPressure(x-psychro.ZeroCelsius))
}

// Newton holds the cells of one solution: the wick and the guesses in kelvin;
// the last one is the answer.
type Newton struct {
	wick
	X    [NewtonSteps + 1]float64
	Last float64 // °C
}

// Solve mirrors the chain of cells from the first guess in kelvin.
func Solve(a psychro.Air, first float64) Newton {
	n := Newton{wick: wickOf(a)}
	n.X[0] = first
	for i := range NewtonSteps {
		n.X[i+1] = n.step(n.X[i], a.P)
	}
	n.Last = n.X[NewtonSteps] - psychro.ZeroCelsius
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

// perKelvin is about how far the wet bulb falls for each kelvin of dry bulb taken
// away at constant humidity ratio; for a first guess only.
const perKelvin = 0.27

// SecondGuess is the first guess in kelvin of the wet bulb after the indirect stage.
var SecondGuess = "[wb]+" + Zero + "-" + Num(perKelvin) + "*([t]-[t1])"

// SecondGuessOf is the value of [SecondGuess].
func SecondGuessOf(wb, t, t1 float64) float64 { return wb + psychro.ZeroCelsius - perKelvin*(t-t1) }
