package psychro

import (
	"fmt"
	"math"
)

// A Wick is the surface of a wet-bulb thermometer: its latent heat at 0 °C in
// J/kg and the slopes of the two brackets of its equation with wet bulb, in
// J/(kg K).
type Wick struct {
	Latent, Left, Right float64
}

// The two wicks.
// Source: ASHRAE Fundamentals 2017 ch. 1.
var (
	WaterWick = Wick{Latent: LatentHeat, Left: 2326, Right: 4186} // eq. 33
	IceWick   = Wick{Latent: 2830e3, Left: 240, Right: 2100}      // eq. 35
)

const (
	wetBulbSteps = 60
	// wetBulbTolerance in K is compared with the last Halley step s, after
	// which about 2e-4 s³ is left: 1e-11 K.
	wetBulbTolerance = 3e-3
	wetBulbBracket   = 1e-10 // K, a bracket that holds nothing but the root
	// coldestWetBulb in °C is below every wet bulb of a state that passes
	// check: the depression at -100 °C is under 0.01 K.
	coldestWetBulb = -150.0
)

// The margins at 0 °C within which a wick counts as wet. Files with whole
// degrees hold thousands of hours whose wet bulb is exactly that, and without a
// margin the last digit of a humidity ratio or of a solved wet bulb would choose
// between two equations that differ by the heat of fusion. One is as wide as the
// other, and both are far below what any instrument tells.
const (
	FreezingMargin      = 1e-9  // of a wet bulb, K
	FreezingRatioMargin = 1e-12 // of a humidity ratio, kg/kg
)

// pressureAtZero is the saturation pressure at a wet bulb of 0 °C, Pa.
var pressureAtZero = SaturationPressure(0)

// wickAt chooses the phase on a wick of x °C. Unlike the vapour pressure it
// changes at 0 °C, as the handbook has it.
func wickAt(x float64) *Wick {
	if x < -FreezingMargin {
		return &IceWick
	}
	return &WaterWick
}

// HumidityRatio returns the humidity ratio in kg/kg of air of dry bulb t °C whose
// wet bulb on this wick is x °C, where saturated air of x holds ws kg/kg. It
// checks nothing: below 0 there is no air so dry. [FromWetBulb] checks.
//
// Source: ASHRAE Fundamentals 2017 ch. 1 eqs. 33 and 35.
func (k *Wick) HumidityRatio(t, x, ws float64) float64 {
	return ((k.Latent-k.Left*x)*ws - HeatDryAir*(t-x)) / (k.Latent + HeatVapour*t - k.Right*x)
}

// freezing is the humidity ratio of air of dry bulb t whose wet bulb on this
// wick is 0 °C. Pressures of a valid state are far above pressureAtZero.
func (k *Wick) freezing(t, p float64) float64 {
	return k.HumidityRatio(t, 0, MassRatio*pressureAtZero/(p-pressureAtZero))
}

// WetBulb returns the thermodynamic wet bulb in °C: the temperature of water
// or ice that, evaporating into the air, would saturate it adiabatically at
// that same temperature. It solves the equations to 1e-9 K and better, never
// above the dry bulb, and always below the boiling point of P.
//
// Near 0 °C one air can have two wet bulbs, on a wet and on an iced wick, up
// to 0.9 K apart, since eqs. 33 and 35 differ by the heat of fusion. The rule
// here gives exactly one: that of water if W reaches eq. 33 at a wet bulb of
// 0 °C, within FreezingRatioMargin, else that of ice. [Air.WetBulbRoots] gives
// both.
//
// An invalid state gives a [RangeError]; air above saturation by more than
// FogTolerance wraps [ErrSupersaturated], within it the result is the dry
// bulb. Dry air is ordinary input.
//
// Source: ASHRAE Fundamentals 2017 ch. 1 eqs. 33 and 35.
func (a Air) WetBulb() (float64, error) {
	ps, slope, err := a.check()
	if err != nil {
		return 0, err
	}
	if a.VapourPressure() >= ps {
		return a.T, nil
	}
	if a.W >= WaterWick.freezing(a.T, a.P)-FreezingRatioMargin {
		return a.solve(&WaterWick, ps, slope)
	}
	return a.solve(&IceWick, ps, slope)
}

// WetBulbRoots returns the wet bulbs in °C of a wet wick, 0 °C and up, and of
// an iced wick, below 0 °C; NaN where that wick has none. At least one
// exists; where both do, [Air.WetBulb] is that of water. Errors are those of
// WetBulb.
//
// Source: ASHRAE Fundamentals 2017 ch. 1 eqs. 33 and 35.
func (a Air) WetBulbRoots() (water, ice float64, err error) {
	water, ice = math.NaN(), math.NaN()
	ps, slope, err := a.check()
	if err != nil {
		return water, ice, err
	}
	if a.VapourPressure() >= ps {
		if wickAt(a.T) == &IceWick {
			return water, a.T, nil
		}
		return a.T, ice, nil
	}
	if a.W >= WaterWick.freezing(a.T, a.P)-FreezingRatioMargin {
		if water, err = a.solve(&WaterWick, ps, slope); err != nil {
			return water, ice, err
		}
	}
	if a.W < IceWick.freezing(a.T, a.P) {
		ice, err = a.solve(&IceWick, ps, slope)
	}
	return water, ice, err
}

// solve finds the root of balance on one wick, where ps and slope are those
// of the dry bulb and the root is known to exist. Halley steps are taken as
// long as they stay within the bracket, else it is halved. Saturation over ice
// and over water do not quite meet at the triple point: where the balance
// changes its sign in that gap, steps from either side lead to the other, back
// to an end of the bracket, and halving finds the triple point.
func (a Air) solve(k *Wick, ps, slope float64) (float64, error) {
	low, high := 0.0, a.T
	if k == &IceWick {
		low, high = coldestWetBulb, min(a.T, 0)
	}
	coldest, warmest := low, high
	x := a.wetBulbStart(k, ps, slope)
	for range wetBulbSteps {
		if !(x > low && x < high) {
			x = (low + high) / 2
		}
		g, g1, g2 := a.balance(k, x)
		if g > 0 {
			high = x
		} else {
			low = x
		}
		next := x - 2*g*g1/(2*g1*g1-g*g2) // Halley
		// A step over the triple point used the slope of the other phase.
		if math.Abs(next-x) < wetBulbTolerance && curveAt(next) == curveAt(x) {
			return min(max(next, coldest), warmest), nil
		}
		if high-low < wetBulbBracket {
			return x, nil
		}
		x = next
	}
	return 0, fmt.Errorf("%w: wet bulb of dry bulb %g °C, humidity ratio %g kg/kg, %g Pa, at %g °C after %d steps",
		ErrNotConverged, a.T, a.W, a.P, x, wetBulbSteps)
}

// balance is the heat balance in J/kg of a wick at x °C and its first two
// derivatives: eq. 33 or 35 with everything on one side. It rises and, but
// for the kink at the triple point, is convex. At and above boiling, where
// the saturated humidity ratio has passed its pole, it counts as +Inf.
func (a Air) balance(k *Wick, x float64) (g, g1, g2 float64) {
	c, kelvin := curveAt(x), x+ZeroCelsius
	ps := math.Exp(c.ln(kelvin))
	if ps >= a.P {
		return math.Inf(1), 1, 0
	}
	l1, l2 := c.slope(kelvin), c.curvature(kelvin)
	dry := 1 / (a.P - ps)
	ws := MassRatio * ps * dry
	ws1 := ws * l1 * a.P * dry
	ws2 := ws1 * (l1 + l2/l1 + 2*l1*ps*dry)
	left := k.Latent - k.Left*x
	g = left*ws - HeatDryAir*(a.T-x) - a.W*(k.Latent+HeatVapour*a.T-k.Right*x)
	g1 = left*ws1 - k.Left*ws + HeatDryAir + k.Right*a.W
	g2 = left*ws2 - 2*k.Left*ws1
	return g, g1, g2
}

// wetBulbStart replaces the saturation curve below the dry bulb by one whose
// mean slope over a depression d is the slope at the dry bulb over 1 + c d/2,
// with c the relative slope there, and solves the resulting quadratic for d.
func (a Air) wetBulbStart(k *Wick, ps, slope float64) float64 {
	if ps >= a.P {
		return math.NaN() // above boiling: begin with the middle of the bracket
	}
	dry := 1 / (a.P - ps)
	ws := MassRatio * ps * dry
	relative := slope * a.P * dry
	heat := HeatDryAir + HeatVapour*a.W
	lack := k.Latent * (ws - a.W)
	q := heat * relative / 2
	b := heat + k.Latent*ws*relative - lack*relative/2
	return a.T - 2*lack/(b+math.Sqrt(b*b+4*q*lack))
}
