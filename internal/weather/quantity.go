package weather

import "math"

// quantity is one of the measured quantities a row may hold.
type quantity int

const (
	dryBulb quantity = iota
	relHum
	dewPoint
	wetBulb
	pressure
	irradiance
	quantities // how many there are
)

// limits are what air on the inhabited earth can show, in SI; values outside
// are flaws of the file. Relative humidity slightly above 1 is real sensor
// output (1.02 in a measured Golden CO year), see saturate. Common practice, no
// source.
var limits = [quantities]struct {
	name, si string
	lo, hi   float64
	scale    float64 // from SI to the unit named in messages
}{
	dryBulb:    {"dry bulb", "°C", -90, 60, 1},
	relHum:     {"relative humidity", "%", 0, 1.10, 100},
	dewPoint:   {"dew point", "°C", -100, 45, 1},
	wetBulb:    {"wet bulb", "°C", -90, 45, 1},
	pressure:   {"station pressure", "hPa", 50000, 110000, 0.01},
	irradiance: {"global irradiance", "W/m²", nightOffset, 1500, 1},
}

// nightOffset is how far below 0 a sound pyranometer may read on a clear night,
// when it radiates to the sky, W/m². ISO 9060 allows 7 (class A) to 30 (class
// C), from memory; 20 is common practice, no source.
const nightOffset = -20

// possible tells whether a value in SI lies within the limits; NaN does.
func (q quantity) possible(v float64) bool {
	l := limits[q]
	return math.IsNaN(v) || v >= l.lo-1e-9 && v <= l.hi+1e-9
}

// unit converts a value as printed in the file to SI; nil leaves it as it is.
type unit func(float64) float64

func fahrenheit(f float64) float64 { return (f - 32) / 1.8 }
func percent(p float64) float64    { return p / 100 }
func hectopascal(p float64) float64 {
	return p * 100
}
func kilopascal(p float64) float64 { return p * 1000 }

// inchOfMercury uses the conventional inch of mercury, 3386.389 Pa.
// Source: NIST SP 811 (2008), appendix B.8.
func inchOfMercury(p float64) float64 { return p * 3386.389 }

// tenth is for formats that print whole tenths.
func tenth(v float64) float64 { return v / 10 }
