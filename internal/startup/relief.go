package startup

import "math"

// DischargeCoefficient of a window or door as a sharp-edged orifice, 0.6 to
// 0.65. Source: ASHRAE Handbook Fundamentals 2017 ch. 16, flow through large
// openings (from memory).
const DischargeCoefficient = 0.6

// FaceVelocities are the velocities in m/s through relief openings that are
// shown: 500, 750 and 1,000 fpm, that is 2, 1.33 and 1 ft² per 1,000 cfm.
// Source: US national-laboratory consumer text, 1 to 2 ft² per 1,000 cfm.
var FaceVelocities = [3]float64{500 * fpm, 750 * fpm, 1000 * fpm}

const fpm = 0.3048 / 60 // m/s

// OpeningArea is the area in m² that an airflow in m³/s needs at a face
// velocity in m/s.
func OpeningArea(airflow, velocity float64) float64 { return airflow / velocity }

// BackPressure is the pressure in Pa that air of a density in kg/m³ needs to
// leave through an opening at a face velocity in m/s. Source: the orifice
// relation Q = Cd A sqrt(2 Δp/ρ), ASHRAE Handbook Fundamentals 2017 ch. 16
// (from memory), solved for Δp with Q/A the face velocity.
func BackPressure(velocity, density float64) float64 {
	v := velocity / DischargeCoefficient
	return density / 2 * v * v
}

// WindowOpening is how far in m each of n windows of a width in m has to stand
// open for an area in m².
func WindowOpening(area float64, n int, width float64) float64 {
	return area / (float64(n) * width)
}

// Line is a water supply line.
type Line struct {
	Diameter float64 // m inside
	Length   float64 // m
	Pressure float64 // Pa from one end to the other
}

// TapLine is the usual line: a quarter-inch tube from an outdoor hose tap, run
// outdoors so that a freeze break shows. Common practice, no source: 0.17 in
// (4.3 mm) inside, 50 ft (15.24 m), 30 psi (206.8 kPa) left at the tap.
var TapLine = Line{Diameter: 0.17 * 0.0254, Length: 50 * 0.3048, Pressure: 30 * 6894.757}

// Roughness is the Hazen-Williams coefficient of smooth plastic and copper
// tube. Source: from memory.
const Roughness = 140

// Capacity is what a line can bring in L/h. Source: Hazen-Williams formula in
// SI, h = 10.67 L Q^1.852 / (C^1.852 d^4.8704) with h in m of water and Q in
// m³/s (from memory). It was made for larger pipes: in so thin a tube take it as
// a rough figure.
func (l Line) Capacity() float64 {
	head := l.Pressure / (1000 * 9.80665)
	q := Roughness * math.Pow(head/(10.67*l.Length), 1/1.852) * math.Pow(l.Diameter, 4.8704/1.852)
	return q * 3.6e6
}
