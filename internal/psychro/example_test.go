package psychro_test

import (
	"fmt"

	"github.com/evapbook/evapbook/internal/psychro"
)

func celsius(f float64) float64    { return (f - 32) / 1.8 }
func fahrenheit(c float64) float64 { return 1.8*c + 32 }

// must keeps the examples short; every state in them is valid.
func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

// ASHRAE Fundamentals ch. 1, Example 1: moist air at 40 °C dry bulb, 20 °C
// wet bulb, sea level. The handbook reads from its chart W 6.5 g/kg, h 56.7
// kJ/kg, dew point 7 °C, RH 14 %, v 0.896 m³/kg (from memory, engineering
// reference §0 and §11 row 1); the equations give the values below. (That
// reference prints 6.400 and 0.8963 for its own run, PsychroLib gives
// 6.400786 and 0.8962475, as here.)
func ExampleFromWetBulb() {
	a := must(psychro.FromWetBulb(40, 20, psychro.SeaLevelPressure))
	fmt.Printf("W %.3f g/kg\n", 1000*a.W)
	fmt.Printf("h %.2f kJ/kg\n", a.Enthalpy()/1000)
	fmt.Printf("dew point %.2f °C\n", must(a.DewPoint()))
	fmt.Printf("RH %.2f %%\n", 100*a.RelHum())
	fmt.Printf("v %.4f m³/kg\n", a.Volume())
	// Output:
	// W 6.401 g/kg
	// h 56.72 kJ/kg
	// dew point 7.43 °C
	// RH 13.98 %
	// v 0.8962 m³/kg
}

// The inch-pound form of the same example: 100 °F dry bulb, 65 °F wet bulb,
// sea level. Chart: W 0.0052, dew point 40 °F, RH 13 %, v 14.2 ft³/lb (from
// memory, engineering reference §0 and §11 row 2).
func ExampleFromWetBulb_inchPound() {
	a := must(psychro.FromWetBulb(celsius(100), celsius(65), psychro.SeaLevelPressure))
	fmt.Printf("W %.6f\n", a.W)
	fmt.Printf("dew point %.2f °F\n", fahrenheit(must(a.DewPoint())))
	fmt.Printf("RH %.2f %%\n", 100*a.RelHum())
	fmt.Printf("v %.3f ft³/lb\n", a.Volume()/cubicFootLb)
	// Output:
	// W 0.005181
	// dew point 39.93 °F
	// RH 12.78 %
	// v 14.227 ft³/lb
}

// Station pressures of design-day weather files that cite the ASHRAE Handbook
// 2009 and 2013, for 1650, 1619, 809, 337 and 648 m: 83.011, 83.328, 91.976,
// 97.342 and 93.779 kPa (engineering reference §0).
func ExampleStandardPressure() {
	for _, z := range []float64{1650, 1619, 809, 337, 648} {
		fmt.Printf("%.0f m %.3f kPa\n", z, must(psychro.StandardPressure(z))/1000)
	}
	// Output:
	// 1650 m 83.011 kPa
	// 1619 m 83.328 kPa
	// 809 m 91.976 kPa
	// 337 m 97.342 kPa
	// 648 m 93.779 kPa
}

// The table of engineering reference §0: wet bulbs in °F of 95 °F air, sea
// level against 84,307 Pa (5,000 ft). A sea-level figure used at altitude
// overstates the wet bulb by 1 to 2 °F.
func ExampleAir_WetBulb() {
	for _, rh := range []float64{0.10, 0.20, 0.30} {
		sea := must(psychro.FromRelHum(celsius(95), rh, psychro.SeaLevelPressure))
		high := must(psychro.FromRelHum(celsius(95), rh, 84307))
		fmt.Printf("%.0f %%: %.1f °F, %.2f °F\n", 100*rh, fahrenheit(must(sea.WetBulb())), fahrenheit(must(high.WetBulb())))
	}
	// Output:
	// 10 %: 60.7 °F, 58.36 °F
	// 20 %: 66.0 °F, 64.23 °F
	// 30 %: 70.7 °F, 69.44 °F
}

// Wet bulbs behind published cooler outputs: 90 °F at 50 and 10 % (science
// column), 90 °F at 20 % (North Carolina State data), 39.9 °C at 32.8 %
// (Kulkarni and Rajput 2013); engineering reference §11 rows 3, 5 and 7.
func ExampleAir_WetBulb_published() {
	for _, rh := range []float64{0.50, 0.10, 0.20} {
		a := must(psychro.FromRelHum(celsius(90), rh, psychro.SeaLevelPressure))
		fmt.Printf("90 °F %.0f %%: %.2f °F\n", 100*rh, fahrenheit(must(a.WetBulb())))
	}
	a := must(psychro.FromRelHum(39.9, 0.328, psychro.SeaLevelPressure))
	fmt.Printf("39.9 °C 32.8 %%: %.2f °C\n", must(a.WetBulb()))
	// Output:
	// 90 °F 50 %: 74.91 °F
	// 90 °F 10 %: 57.99 °F
	// 90 °F 20 %: 62.80 °F
	// 39.9 °C 32.8 %: 25.82 °C
}

// Air at 10 °C, 10 % and 83.4 kPa evaporates a wet wick down to 0.48 °C, and
// an iced wick down to -0.15 °C (testdata/psychro/psychro-two-roots.csv).
// WetBulb takes water where W is enough for it.
func ExampleAir_WetBulbRoots() {
	a := must(psychro.FromRelHum(10, 0.10, 83427.51129))
	water, ice, err := a.WetBulbRoots()
	fmt.Printf("water %.4f °C, ice %.4f °C, %v\n", water, ice, err)
	fmt.Printf("wet bulb %.4f °C\n", must(a.WetBulb()))
	// Output:
	// water 0.4805 °C, ice -0.1527 °C, <nil>
	// wet bulb 0.4805 °C
}

// US Bureau of Reclamation, Design Guide for HVAC Systems (2006) table 6a:
// 6,000 ft, 23.98 inHg, 16.637 ft³/lb. Dry air of 70 °F by the equations is
// within 0.2 % (engineering reference §11 row 11).
func ExampleAir_Volume() {
	const inchOfMercury = 3386.389 // Pa, conventional at 0 °C, NIST SP 811 B.8
	p := must(psychro.StandardPressure(6000 * 0.3048))
	a := must(psychro.FromRelHum(celsius(70), 0, p))
	fmt.Printf("%.3f inHg, %.3f ft³/lb, density %.4f kg/m³\n", p/inchOfMercury, a.Volume()/cubicFootLb, a.Density())
	// Output:
	// 23.978 inHg, 16.663 ft³/lb, density 0.9613 kg/m³
}
