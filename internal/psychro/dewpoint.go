package psychro

import (
	"fmt"
	"math"
)

const (
	dewPointSteps     = 20
	dewPointTolerance = 1e-5 // K of the last step; Newton squares it
)

// DewPoint returns the temperature in °C at which the air is saturated when
// cooled at constant pressure and humidity ratio; a frost point up to
// TriplePoint. It is never above the dry bulb.
//
// Dry air wraps [ErrNoDewPoint]; air whose dew point is below MinTemperature
// gives a [RangeError], as does an invalid state; air above saturation by
// more than FogTolerance wraps [ErrSupersaturated].
//
// Source: ASHRAE Fundamentals 2017 ch. 1 eq. 36, inverted.
func (a Air) DewPoint() (float64, error) {
	if _, _, err := a.check(); err != nil {
		return 0, err
	}
	td, err := DewPointOf(a.VapourPressure())
	if err != nil {
		return 0, err
	}
	return min(td, a.T), nil
}

// DewPointOf returns the temperature in °C at which the saturation pressure
// is e Pa; a frost point up to TriplePoint. It inverts [SaturationPressure]
// to 1e-10 K and better.
//
// e of 0 wraps [ErrNoDewPoint]; e outside the saturation pressures of
// MinTemperature and MaxTemperature gives a [RangeError].
//
// Source: ASHRAE Fundamentals 2017 ch. 1 eqs. 5 and 6, inverted by Newton
// steps on ln ps, which rises and is concave: the steps cannot run away.
func DewPointOf(e float64) (float64, error) {
	if e == 0 {
		return 0, fmt.Errorf("%w: vapour pressure 0 Pa", ErrNoDewPoint)
	}
	low, high := SaturationPressure(MinTemperature), SaturationPressure(MaxTemperature)
	if err := within("vapour pressure", e, "Pa", low, high); err != nil {
		return 0, err
	}
	target := math.Log(e)
	t := dewPointStart(target)
	for range dewPointSteps {
		c, k := curveAt(t), t+ZeroCelsius
		next := t - (c.ln(k)-target)/c.slope(k)
		// A step over the triple point used the slope of the other phase.
		done := math.Abs(next-t) < dewPointTolerance && curveAt(next) == c
		t = next
		if done {
			return t, nil
		}
	}
	return 0, fmt.Errorf("%w: dew point of %g Pa, at %g °C after %d steps", ErrNotConverged, e, t, dewPointSteps)
}

// dewPointStart inverts the Magnus form ln e = ln 611.2 + a t/(b + t), with
// constants from memory (Sonntag 1990); they only save steps.
func dewPointStart(lnE float64) float64 {
	x := lnE - 6.4155 // ln 611.2
	if x < 0 {
		return 272.62 * x / (22.46 - x)
	}
	return 243.12 * x / (17.62 - x)
}
