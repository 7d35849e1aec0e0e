package workbook

import (
	"math"
	"strings"

	"github.com/evapbook/evapbook/internal/psychro"
)

// The cells solve the wet bulb themselves, by Newton steps on equations 33 and
// 35 of ASHRAE Handbook Fundamentals 2017 ch. 1. Each step takes two cells: the
// saturated air at the present guess, and the next guess; guesses are in
// kelvin. For each piece of formula text below there is a Go function that
// gives the value cached beside it.

// newtonSteps is the number of steps after which the guess no longer moves in
// any state of -20 to 55 °C, 1 to 100 % and 65 to 108 kPa (three leave 3e-6 K).
const newtonSteps = 4

const kelvin = 273.15

// fill puts cell references into a formula: fill("X+Y", "X", "[t]", …).
func fill(formula string, pairs ...string) string {
	return strings.NewReplacer(pairs...).Replace(formula)
}

// The saturation pressure in Pa over ice and over water at X kelvin; eq. 2,
// the polynomials in nested form.
const (
	psatIce   = "EXP(-5674.5359/{X}+6.3925247+{X}*(-0.009677843+{X}*(6.2215701E-7+{X}*(2.0747825E-9-9.484024E-13*{X})))+4.1635019*LN({X}))"
	psatWater = "EXP(-5800.2206/{X}+1.3914993+{X}*(-0.048640239+{X}*(4.1764768E-5-1.4452093E-8*{X}))+6.5459673*LN({X}))"
)

// psatFormula is the saturation pressure in Pa at x kelvin.
func psatFormula(x string) string {
	return fill("IF({X}<=273.16,"+psatIce+","+psatWater+")", "{X}", x)
}

// psatWaterFormula is psatFormula where x is known to be above freezing.
func psatWaterFormula(x string) string { return fill(psatWater, "{X}", x) }

// molesFormula is the ratio of vapour to dry air, in moles, of saturated air
// at pressure p and saturation pressure ps: psat/(P - psat).
func molesFormula(p, ps string) string { return "1/(" + p + "/" + ps + "-1)" }

func moles(p, ps float64) float64 { return 1 / (p/ps - 1) }

// startFormula is the first guess in kelvin for air of t °C and relative
// humidity rh (0..1). Source: Stull, J. Appl. Meteor. Climatol. 50 (2011) 2267.
func startFormula(t, rh string) string {
	return fill("{T}*ATAN(0.151977*SQRT({R}*100+8.313659))+ATAN({T}+{R}*100)-ATAN({R}*100-1.676331)+0.00391838*({R}*100)^1.5*ATAN(2.3101*{R})-4.686035+273.15", "{T}", t, "{R}", rh)
}

func start(t, rh float64) float64 {
	r := rh * 100
	return t*math.Atan(0.151977*math.Sqrt(r+8.313659)) + math.Atan(t+r) - math.Atan(r-1.676331) +
		0.00391838*math.Pow(r, 1.5)*math.Atan(2.3101*rh) - 4.686035 + kelvin
}

// iceFormula is 1 where the wet bulb is that of an iced wick, else 0: W below
// eq. 33 at a wet bulb of 0 °C. The 1E-12 lets saturated air of exactly 0 °C,
// which stands in weather files, be water whichever way its digits round.
func iceFormula(t, w, p string) string {
	return fill("IF({W}<(2501*0.621945*B_psat_zero/({P}-B_psat_zero)-1.006*{T})/(2501+1.86*{T})-1E-12,1,0)", "{T}", t, "{W}", w, "{P}", p)
}

func ice(t, w, p float64) float64 {
	z := psychro.SaturationPressure(0)
	if w < (2501*0.621945*z/(p-z)-1.006*t)/(2501+1.86*t)-1e-12 {
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
type wick struct{ ice, k, a, d, c float64 }

// wickFormulas give ice, k, a, d and c, in that order, from cells t, w, p and
// the cell ice itself. 240.7909 is 329 less 2.086 times 273.15: the difference
// of the two wicks at 0 K.
func wickFormulas(t, w, p, ice string) [5]string {
	pairs := []string{"{T}", t, "{W}", w, "{I}", ice}
	return [5]string{
		iceFormula(t, w, p),
		fill("0.621945*(3136.3469-240.7909*{I})", pairs...),
		fill("0.621945*(2.326-2.086*{I})", pairs...),
		fill("1.006+(4.186-2.086*{I})*{W}", pairs...),
		fill("1.006*({T}+273.15)+{W}*(3644.4059-240.7909*{I}+1.86*{T})", pairs...),
	}
}

func wickOf(a psychro.Air) wick {
	i := ice(a.T, a.W, a.P)
	return wick{
		ice: i,
		k:   0.621945 * (3136.3469 - 240.7909*i),
		a:   0.621945 * (2.326 - 2.086*i),
		d:   1.006 + (4.186-2.086*i)*a.W,
		c:   1.006*(a.T+kelvin) + a.W*(3644.4059-240.7909*i+1.86*a.T),
	}
}

// stepFormula is the next guess in kelvin from guess x with moles r and the
// wick's formulas. The slope of the saturation curve in it is a two-term fit
// (6730/X² - 4.8/X over water, 6192/X² - 0.17/X over ice, within 3e-4 of the
// exact one), which slows the last step by that much and shortens the cell.
func stepFormula(x, r string, wick [5]string) string {
	return fill("{X}-({R}*({K}-{A}*{X})+{D}*{X}-{C})/({R}*(({K}-{A}*{X})*(1+{R})*IF({X}<=273.16,6192/{X}-0.17,6730/{X}-4.8)/{X}-{A})+{D})",
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

// newton holds the cells of one solution: the wick, guesses in kelvin, each
// with the moles of saturated air there; the last guess is the answer.
type newton struct {
	wick
	r    [newtonSteps]float64
	x    [newtonSteps + 1]float64
	last float64 // °C
}

// solve mirrors the chain of cells from the first guess in kelvin.
func solve(a psychro.Air, first float64) newton {
	n := newton{wick: wickOf(a)}
	n.x[0] = first
	for i := range newtonSteps {
		n.r[i] = moles(a.P, psychro.SaturationPressure(n.x[i]-kelvin))
		n.x[i+1] = n.step(n.x[i], n.r[i])
	}
	n.last = n.x[newtonSteps] - kelvin
	return n
}

// relHumFormula is the relative humidity of humidity ratio w at pressure p and
// saturation pressure ps; eq. 3 solved for e.
func relHumFormula(w, p, ps string) string {
	return fill("{P}*{W}/(0.621945+{W})/{S}", "{W}", w, "{P}", p, "{S}", ps)
}

// humidityRatioFormula is eq. 3.
func humidityRatioFormula(e, p string) string {
	return fill("0.621945*{E}/({P}-{E})", "{E}", e, "{P}", p)
}

// volumeFormula is the specific volume in m³ per kg of dry air; ASHRAE eq. 26.
func volumeFormula(t, w, p string) string {
	return fill("287.042*({T}+273.15)*(1+1.607858*{W})/{P}", "{T}", t, "{W}", w, "{P}", p)
}

// wetHumidityRatioFormula is eq. 33 or 35: the humidity ratio of air at t °C
// whose wet bulb is tw °C, with r the moles of air saturated there.
func wetHumidityRatioFormula(t, tw, r string) string {
	const over = "IF({Y}<0," +
		"((2830-0.24*{Y})*0.621945*{R}-1.006*({T}-{Y}))/(2830+1.86*{T}-2.1*{Y})," +
		"((2501-2.326*{Y})*0.621945*{R}-1.006*({T}-{Y}))/(2501+1.86*{T}-4.186*{Y}))"
	return fill(over, "{T}", t, "{Y}", tw, "{R}", r)
}
