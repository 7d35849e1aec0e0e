// Package psychro gives the state of moist air: humidity ratio, dew point,
// thermodynamic wet bulb, enthalpy, specific volume, at any site pressure.
//
// Formulas, constants and equation numbers are those of the ASHRAE Handbook
// Fundamentals 2017 (SI), chapter 1 "Psychrometrics"; "eq. n" in this package
// means that chapter. The chapter's vapour-pressure equations are those of
// Hyland and Wexler, ASHRAE Transactions 89(2A), 1983.
//
// Assumptions: dry air and water vapour are perfect gases. Against the real
// gas at the same dry bulb, relative humidity and pressure (-20..50 °C,
// 60..101 kPa) the wet bulb is within 0.034 K, the dew point within 0.021 K,
// humidity ratio within 0.62 %, volume within 0.09 % (testdata/psychro).
//
// Conventions: °C, Pa, kg/kg and J/kg of dry air, relative humidity 0..1.
// Below 0.01 °C saturation is over ice, so dew points there are frost points
// and relative humidity is relative to ice; weather stations report it
// relative to supercooled water. Of two possible wet bulbs near 0 °C the rule
// is stated at [Air.WetBulb].
//
// Incomplete: no enhancement factor, no fog (water carried as droplets), no
// supercooled wick.
package psychro
