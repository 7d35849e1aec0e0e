package units

// JoulesPerBtu is the International Table Btu in J; exact. Source: NIST SP 811
// (2008), appendix B.8.
const JoulesPerBtu = 1055.05585262

// Definitions from which every factor of the table is computed. Foot, pound,
// gallon and Btu are exact; the inch of mercury has seven digits.
// Source: NIST SP 811 (2008), appendix B.8, digits from memory: international
// foot, avoirdupois pound, US gallon of 231 in³, International Table Btu,
// conventional inch of mercury.
const (
	foot   = 0.3048       // m
	pound  = 0.45359237   // kg
	gallon = 3.785411784  // L
	btu    = JoulesPerBtu // J
	inHg   = 3386.389     // Pa, conventional
)

// Computed from the above.
const (
	psi        = pound * 9.80665 / (foot / 12 * foot / 12) // Pa; standard gravity
	rankine    = 1 / 1.8                                   // K in a degree Fahrenheit of difference
	squareFoot = foot * foot                               // m²
	cubicFoot  = squareFoot * foot                         // m³
	cfm        = cubicFoot / 60                            // m³/s
	btuPerHour = btu / 3600                                // W
	ton        = 12000 * btuPerHour                        // W, ton of refrigeration
	poundMWh   = pound / 1000                              // kg/kWh in a pound per MWh
	kilogallon = gallon                                    // m³ in a thousand US gallons
	lapseIP    = rankine / foot                            // K/km in a °F per 1,000 ft
	heatLossIP = btuPerHour / (squareFoot * rankine)       // W/(m² K)
)

// Factors that other packages state constants with, in SI.
const (
	// CFM is one cubic foot per minute in m³/s.
	CFM = cfm
	// SquareFoot is one square foot in m².
	SquareFoot = squareFoot
	// Ton is one ton of refrigeration in W.
	Ton = ton
)
