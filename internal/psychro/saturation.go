package psychro

import (
	"fmt"
	"math"
)

// Temperatures in °C between which the vapour-pressure equations hold.
// Source: ASHRAE Fundamentals 2017 ch. 1, text at eqs. 5 and 6.
const (
	MinTemperature = -100.0
	MaxTemperature = 200.0
)

// TriplePoint is the temperature in °C up to which saturation is over ice.
//
// Departure: the handbook switches at 0 °C, where the two equations differ by
// 0.059 Pa. At the triple point they meet within 3.5e-6 Pa, so the curve is
// continuous and the dew point has an inverse.
const TriplePoint = 0.01

// ZeroCelsius is 0 °C in K; exact by definition.
const ZeroCelsius = 273.15

// A VapourCurve holds the coefficients of ln ps over one phase, ps in Pa:
// Inverse/T + Constant + Linear T + Square T² + Cube T³ + Fourth T⁴ + Log ln T
// with T in K.
type VapourCurve struct {
	Inverse, Constant, Linear, Square, Cube, Fourth, Log float64
}

// Source: Hyland and Wexler 1983 as printed in ASHRAE Fundamentals 2017 ch. 1.
var (
	// OverIce: eq. 5, C1 to C7, -100..0 °C.
	OverIce = VapourCurve{
		Inverse:  -5.6745359e3,
		Constant: 6.3925247,
		Linear:   -9.6778430e-3,
		Square:   6.2215701e-7,
		Cube:     2.0747825e-9,
		Fourth:   -9.4840240e-13,
		Log:      4.1635019,
	}
	// OverWater: eq. 6, C8 to C13, 0..200 °C.
	OverWater = VapourCurve{
		Inverse:  -5.8002206e3,
		Constant: 1.3914993,
		Linear:   -4.8640239e-2,
		Square:   4.1764768e-5,
		Cube:     -1.4452093e-8,
		Log:      6.5459673,
	}
)

// curveAt chooses the phase that is stable at t °C.
func curveAt(t float64) *VapourCurve {
	if t <= TriplePoint {
		return &OverIce
	}
	return &OverWater
}

// ln is ln ps at temperature k in K.
func (c *VapourCurve) ln(k float64) float64 {
	return c.Inverse/k + c.Constant + k*(c.Linear+k*(c.Square+k*(c.Cube+k*c.Fourth))) + c.Log*math.Log(k)
}

// slope is d ln ps/dT, 1/K.
func (c *VapourCurve) slope(k float64) float64 {
	return (c.Log-c.Inverse/k)/k + c.Linear + k*(2*c.Square+k*(3*c.Cube+k*4*c.Fourth))
}

// curvature is d² ln ps/dT², 1/K².
func (c *VapourCurve) curvature(k float64) float64 {
	return (2*c.Inverse/k-c.Log)/(k*k) + 2*c.Square + k*(6*c.Cube+k*12*c.Fourth)
}

// saturation is ps in Pa and d ln ps/dT in 1/K, without a range check: the
// wet bulb of air near -100 °C lies a little lower.
func saturation(t float64) (ps, slope float64) {
	c, k := curveAt(t), t+ZeroCelsius
	return math.Exp(c.ln(k)), c.slope(k)
}

// SaturationPressure returns the pressure in Pa of saturated water vapour at
// t °C, over ice up to TriplePoint and over water above.
//
// Range MinTemperature to MaxTemperature; outside, and for NaN, the result is
// NaN. Within 320 ppm of IAPWS from -40 to 60 °C.
//
// Source: ASHRAE Fundamentals 2017 ch. 1 eqs. 5 and 6.
func SaturationPressure(t float64) float64 {
	if checkTemperature("", t) != nil {
		return math.NaN()
	}
	ps, _ := saturation(t)
	return ps
}

// SaturationPressureSlope returns the saturation pressure ps in Pa at t °C as
// [SaturationPressure] does, and its slope dps in Pa/K. At TriplePoint the
// slope jumps by 13 %, being that over ice up to and including it. Outside
// MinTemperature to MaxTemperature both are NaN.
//
// Source: ASHRAE Fundamentals 2017 ch. 1 eqs. 5 and 6, differentiated.
func SaturationPressureSlope(t float64) (ps, dps float64) {
	if checkTemperature("", t) != nil {
		return math.NaN(), math.NaN()
	}
	ps, slope := saturation(t)
	return ps, ps * slope
}

// SaturationHumidityRatio returns the humidity ratio in kg/kg of saturated
// air at t °C and p Pa. It returns a [RangeError] for t or p out of range and
// wraps [ErrBoiling] where t is at or above the boiling point of p.
//
// Source: ASHRAE Fundamentals 2017 ch. 1 eq. 21.
func SaturationHumidityRatio(t, p float64) (float64, error) {
	if err := checkTemperature("temperature", t); err != nil {
		return 0, err
	}
	if err := checkPressure(p); err != nil {
		return 0, err
	}
	ps, _ := saturation(t)
	if ps >= p {
		return 0, fmt.Errorf("%w: %g Pa at %g °C, total pressure %g Pa", ErrBoiling, ps, t, p)
	}
	return MassRatio * ps / (p - ps), nil // (21)
}
