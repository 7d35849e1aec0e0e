package psychro

import (
	"errors"
	"fmt"
)

// Conditions that an error of this package may wrap, beside [RangeError].
var (
	// ErrSupersaturated: the air holds more water than saturated air of its
	// temperature by more than FogTolerance.
	ErrSupersaturated = errors.New("air is above saturation")
	// ErrBoiling: the vapour pressure reaches the total pressure, so no dry
	// air is left and the humidity ratio has a pole.
	ErrBoiling = errors.New("vapour pressure reaches total pressure")
	// ErrNoDewPoint: the air holds no water vapour.
	ErrNoDewPoint = errors.New("dry air has no dew point")
	// ErrTooDry: the wet bulb lies below that of perfectly dry air.
	ErrTooDry = errors.New("wet bulb is below that of dry air")
	// ErrNotConverged: an iteration used up its steps.
	ErrNotConverged = errors.New("iteration did not converge")
)

// RangeError says that a quantity lies outside the range of the equations.
// NaN and infinities are outside every range.
type RangeError struct {
	Quantity  string
	Value     float64
	Unit      string // empty for a ratio
	Low, High float64
}

// Error names the quantity, its value and the limits with their unit.
func (e *RangeError) Error() string {
	unit := e.Unit
	if unit != "" {
		unit = " " + unit
	}
	return fmt.Sprintf("%s %g%s is outside %g to %g%s", e.Quantity, e.Value, unit, e.Low, e.High, unit)
}

// within is written so that NaN fails the comparison.
func within(quantity string, v float64, unit string, low, high float64) error {
	if v >= low && v <= high {
		return nil
	}
	return &RangeError{Quantity: quantity, Value: v, Unit: unit, Low: low, High: high}
}

func checkTemperature(quantity string, t float64) error {
	return within(quantity, t, "°C", MinTemperature, MaxTemperature)
}

func checkPressure(p float64) error {
	return within("pressure", p, "Pa", MinPressure, MaxPressure)
}
