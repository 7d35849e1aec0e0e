package workbook

import (
	"math"
	"strings"

	"github.com/evapbook/evapbook/internal/psychro"
)

// The cells solve the wet bulb themselves, by Newton steps on equations 33 and
// 35 of ASHRAE Handbook Fundamentals 2017 ch. 1. Each step takes two cells: the
// saturation pressure at the present guess, and the next guess; guesses are in
// kelvin. For each piece of formula text below there is a Go function that
// gives the value cached beside it.

// newtonSteps is the number of steps after which the guess no longer moves in
// any state of -20 to 55 °C, 1 to 100 % and 65 to 108 kPa (three leave 2e-6 K).
const newtonSteps = 4

const kelvin = 273.15

// fill puts cell references into a formula: fill("X+Y", "X", "[t]", …).
func fill(formula string, pairs ...string) string {
	return strings.NewReplacer(pairs...).Replace(formula)
}

// The saturation pressure in Pa over ice and over water at X kelvin; eq. 2.
const (
	psatIce   = "EXP(-5674.5359/{X}+6.3925247-0.009677843*{X}+6.2215701E-7*{X}^2+2.0747825E-9*{X}^3-9.484024E-13*{X}^4+4.1635019*LN({X}))"
	psatWater = "EXP(-5800.2206/{X}+1.3914993-0.048640239*{X}+4.1764768E-5*{X}^2-1.4452093E-8*{X}^3+6.5459673*LN({X}))"
)

// psatFormula is the saturation pressure in Pa at x kelvin.
func psatFormula(x string) string {
	return fill("IF({X}<=273.16,"+psatIce+","+psatWater+")", "{X}", x)
}

// logSlope is d ln(psat)/dT at X kelvin, in 1/K.
const logSlope = "IF({X}<=273.16," +
	"5674.5359/{X}^2-0.009677843+1.24431402E-6*{X}+6.2243475E-9*{X}^2-3.7936096E-12*{X}^3+4.1635019/{X}," +
	"5800.2206/{X}^2-0.048640239+8.3529536E-5*{X}-4.3356279E-8*{X}^2+6.5459673/{X})"

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
// eq. 33 at a wet bulb of 0 °C. psatZero is the saturation pressure there.
func iceFormula(t, w, p string) string {
	return fill("IF({W}<(2501*0.621945*B_psat_zero/({P}-B_psat_zero)-1.006*{T})/(2501+1.86*{T}),1,0)", "{T}", t, "{W}", w, "{P}", p)
}

func ice(t, w, p float64) float64 {
	z := psychro.SaturationPressure(0)
	if w < (2501*0.621945*z/(p-z)-1.006*t)/(2501+1.86*t) {
		return 1
	}
	return 0
}

// stepFormula is the next guess in kelvin from guess x (kelvin) and its
// saturation pressure ps, for air of t °C, w and p; ice is 1 for an iced wick.
// It is one Newton step on A Ws - 1.006 (t - t*) - W B = 0, the wet-bulb
// equation multiplied out.
func stepFormula(t, w, p, ice, x, ps string) string {
	return fill("{X}-(({L}-{a}*({X}-273.15))*0.621945*{S}/({P}-{S})-1.006*({T}-{X}+273.15)-{W}*({L}+1.86*{T}-{b}*({X}-273.15)))"+
		"/(({L}-{a}*({X}-273.15))*0.621945*{S}*{P}/({P}-{S})^2*"+logSlope+"-{a}*0.621945*{S}/({P}-{S})+1.006+{b}*{W})",
		"{L}", "(2501+329*"+ice+")", "{a}", "(2.326-2.086*"+ice+")", "{b}", "(4.186-2.086*"+ice+")",
		"{T}", t, "{W}", w, "{P}", p, "{X}", x, "{S}", ps)
}

// step mirrors stepFormula.
func step(a psychro.Air, ice, x, ps float64) float64 {
	l, ca, cb := 2501+329*ice, 2.326-2.086*ice, 4.186-2.086*ice
	c := x - kelvin
	ws := 0.621945 * ps / (a.P - ps)
	g := (l-ca*c)*ws - 1.006*(a.T-c) - a.W*(l+1.86*a.T-cb*c)
	_, slope := psychro.SaturationPressureSlope(c)
	gp := (l-ca*c)*ws*a.P/(a.P-ps)*slope/psychro.SaturationPressure(c) - ca*ws + 1.006 + cb*a.W
	return x - g/gp
}

// newton holds the cells of one solution: guesses in kelvin, each with the
// saturation pressure there; the last guess is the answer.
type newton struct {
	ice  float64
	ps   [newtonSteps]float64
	x    [newtonSteps + 1]float64
	last float64 // °C
}

// solve mirrors the chain of cells from the first guess in kelvin.
func solve(a psychro.Air, first float64) newton {
	n := newton{ice: ice(a.T, a.W, a.P)}
	n.x[0] = first
	for i := range newtonSteps {
		n.ps[i] = psychro.SaturationPressure(n.x[i] - kelvin)
		n.x[i+1] = step(a, n.ice, n.x[i], n.ps[i])
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
// whose wet bulb is tw °C with saturation pressure ps.
func wetHumidityRatioFormula(t, tw, ps, p, ice string) string {
	return fill("(({L}-(2.326-2.086*{I})*{Y})*0.621945*{S}/({P}-{S})-1.006*({T}-{Y}))/({L}+1.86*{T}-(4.186-2.086*{I})*{Y})",
		"{L}", "(2501+329*"+ice+")", "{I}", ice, "{T}", t, "{Y}", tw, "{S}", ps, "{P}", p)
}
