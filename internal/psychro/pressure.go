package psychro

import "math"

// Altitudes in m for which the standard atmosphere formula holds.
// Source: ASHRAE Fundamentals 2017 ch. 1, text at eq. 4 (from memory).
const (
	MinAltitude = -5000.0
	MaxAltitude = 11000.0
)

// SeaLevelPressure is the standard atmosphere at altitude 0, Pa; exact.
const SeaLevelPressure = 101325.0

// The standard atmosphere below 11 km: pressure falls as 1 less PressureSlope (per
// m) times altitude, to the power PressureExponent.
// Source: ASHRAE Fundamentals 2017 ch. 1 eq. 3.
const (
	PressureSlope    = 2.25577e-5
	PressureExponent = 5.2559
)

// StandardPressure returns the pressure in Pa of the standard atmosphere at
// an altitude in m above sea level, MinAltitude to MaxAltitude; outside it
// returns a [RangeError]. It reproduces Table 1 to the last digit.
//
// Source: ASHRAE Fundamentals 2017 ch. 1 eq. 3.
func StandardPressure(altitude float64) (float64, error) {
	if err := within("altitude", altitude, "m", MinAltitude, MaxAltitude); err != nil {
		return 0, err
	}
	return SeaLevelPressure * math.Pow(1-PressureSlope*altitude, PressureExponent), nil // (3)
}
