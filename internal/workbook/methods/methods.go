// Package methods prints the equations with their sources, the limits of the
// model and the cautions: the words that more than one sheet or book needs.
package methods

import (
	"github.com/evapbook/evapbook/internal/look"
	"github.com/evapbook/evapbook/internal/workbook/figures"
	"github.com/evapbook/evapbook/internal/workbook/sheet"
	"github.com/evapbook/evapbook/internal/xlsx"
)

// method is one equation of docs/model.md as the Methods sheet prints it.
type method struct {
	eq     int
	what   string
	text   string
	source string
}

// methods mirrors docs/model.md, where the equations are discussed.
var methods = []method{
	{1, "Standard atmosphere", "p(z) = 101325 (1 - 2.25577e-5 z)^5.2559 Pa", "ASHRAE Handbook Fundamentals 2017 ch. 1 eq. 3"},
	{2, "Saturation pressure", "Hyland and Wexler over ice and water, switching at 0.01 °C", "ASHRAE Handbook Fundamentals 2017 ch. 1 eqs. 5, 6"},
	{3, "Humidity ratio", "W = 0.621945 e / (P - e)", "ASHRAE Handbook Fundamentals 2017 ch. 1 eq. 20"},
	{4, "Wet bulb", "water wick (eq. 33) if W is at least that of a wet bulb of 0 °C, else iced wick (eq. 35); solved in cells by Newton steps from a closed-form start", "ASHRAE Handbook Fundamentals 2017 ch. 1 eqs. 33, 35; start: Stull, J. Appl. Meteor. Climatol. 50 (2011)"},
	{5, "Station pressure", "as recorded, else the standard atmosphere at the station", "station practice"},
	{6, "Moisture at the site", "the station's humidity ratio, capped at saturation at the site; made warmer (6a): dry bulb shifted at the same relative humidity", "assumes a well-mixed air mass; Belcher, Hacker and Powell (2005)"},
	{7, "Dry bulb at the site", "T = T_station + warmer - lapse rate x height difference", "standard atmosphere: 6.5 K/km; default here 0"},
	{8, "Pressure at the site", "P = P_station p(z_site) / p(z_station)", "ratio of standard pressures"},
	{9, "Direct stage", "t2 = T - e (T - t_wb), wet bulb unchanged", "definition of saturation effectiveness, ANSI/ASHRAE Standard 133"},
	{10, "Indirect stage", "t1 = T - e_i (T - t_wb), humidity ratio unchanged", "definition of wet-bulb effectiveness, ANSI/ASHRAE Standard 143"},
	{11, "Two-stage", "indirect stage, new wet bulb, direct stage", "eqs. 9 and 10 in turn"},
	{12, "Air flow", "m = V / v: a fan moves volume, so mass falls with altitude", "ASHRAE Handbook Fundamentals 2017 ch. 1 eq. 26"},
	{13, "Fan", "power P_f and heat in proportion to density; supply t_s = t2 + P_f / (m cp) + duct gain, outdoor air alone likewise", "fan laws (common practice, no source)"},
	{14, "Pads", "effectiveness used = rated x pad condition, by default 0.92", "whole coolers in open residential models: 0.72 to 0.75"},
	{15, "House", "UA and solar aperture in proportion to floor area", "common practice, no source"},
	{16, "Gains inside", "sensible 136 + 2.2 A + 22 N W, latent 20 + 0.22 A + 12 N W", "ASHRAE Handbook Fundamentals 2017 ch. 17"},
	{17, "Load", "q = UA (T - setpoint) + aperture x irradiance + gains + K (house before the hour - setpoint), K the heat capacity over one hour; I = what leaks in when shut; idle unless q > 0 and q + I > 0. Left shut (17a) the house drifts, heated to 20 °C and never let above the setpoint", "heat balance, one step of backward Euler an hour; classes of heat capacity ISO 13790:2008 table 12 (from memory)"},
	{18, "Full flow", "indoor temperature with the fan at full speed decides the outcome; where the air would warm the house (18a) the cooler stays off", "heat balance"},
	{19, "Part flow", "share s of full flow that balances heat in and out, the fan at rest for the part 1 - f; below the lowest speed it cycles there; two speeds alternate, only a variable drive goes with the cube of speed", "heat balance; fan laws for a variable drive (common practice, no source)"},
	{20, "Indoor humidity", "what the supply brings, what leaks in while the fan rests, and latent gains, over the air that flows; at most saturated", "mass balance"},
	{21, "Evaporation", "air flow x rise in humidity ratio, and the wet side of an indirect stage", "mass balance"},
	{22, "Bleed", "evaporation / (cycles - 1)", "mass balance of dissolved solids"},
	{23, "Purge", "sump volume x pump hours / interval, and one drain a day of use", "mass balance"},
	{24, "Water at the power plant", "energy x factor, for every way of cooling", "NREL/TP-550-33905 (2003)"},
	{25, "Closed house", "load plus infiltration, sensible and latent, room at 50 % relative humidity; the refrigerated house has a temperature of its own, the setpoint after every hour with load", "heat and mass balance"},
	{26, "Refrigeration by temperature", "capacity and input-ratio curves over outdoor dry bulb, taken relative to rating; capacity falls with altitude, power does not", "NREL/TP-5500-56354 (2013); design manual table 4-2"},
	{27, "Refrigeration by load", "part-load factor 1 - Cd (1 - part load); an installed unit reaches a share of its rated efficiency", "United States test procedure (from memory); Proctor and Cohn (2006)"},
	{28, "Money", "present value with replacements and straight-line residual, real rates; simple payback", "NIST Handbook 135 (2020)"},
	{29, "Design conditions", "values exceeded in 0.4, 1 and 2 % of the hours (the 36th, 89th and 176th highest of 8,760), coincident means within 0.5 K", "ASHRAE Handbook Fundamentals 2017 ch. 14"},
}

// outcomeRules says how an hour is judged.
var outcomeRules = []string{
	"idle: no cooling load at the setpoint.",
	"vent: outdoor air alone, pump off, keeps setpoint and humidity limit at full flow or less; all other hours that need cooling are the wet need.",
	"evap: with water the cooler keeps both.",
	"damp: with water the cooler keeps the setpoint, but the house is more humid than the limit. Not covered.",
	"warm: with water at full flow the house is warmer than the setpoint. Not covered.",
	"With moving air: a damp or warm hour counts as comfortable where the house is at most house.moving_air above the setpoint and its moisture would be within the limit there.",
	"Verdict, on the wet need: hardly needed below 150 hours; good fit with 95 % held or comfortable in moving air and 80 % held; fit with limits from 70 % held or comfortable. Marks of our own.",
	"Water and the cooler's energy are ranges: from a season with the setpoint raised by house.moving_air, computed at writing, to the season at the setpoint.",
}

// symbols of the equations; energy is in W only where it says so.
var symbols = []string{
	"T outdoor dry bulb, t_wb its wet bulb, t1 after the indirect stage, t2 off the pads, t_s supply, all °C; P pressure of the air in Pa, p standard pressure, e (in eqs. 3) vapour pressure in Pa, z altitude in m.",
	"W humidity ratio, kg of water vapour per kg of dry air (a unit W after a number is watts); W_in indoors; v specific volume in m³/kg of dry air; cp specific heat in J/(kg K).",
	"V rated airflow in m³/s, m dry-air flow in kg/s, e and e_i the effectiveness of pads and indirect stage, P_f fan power in W.",
	"A floor area in m², N people, UA heat loss in W/K, K heat capacity over one hour in W/K, q sensible load in W, I heat that leaks in when shut in W, s share of full flow, f part of the hour the fan runs.",
	"C cycles of concentration, E water evaporated; Cd cycling coefficient.",
}

// Two limits that the first page prints too.
const (
	LimitTypicalYear = "A typical-year file is not a record of extremes: hotter and damper spells than these will come."
	LimitHabits      = "Household water use varies with thermostat habits more than with anything else, and nobody cools an empty house: metered homes lie at or below the lower end of the range."
)

// Limits are what the model leaves out.
var Limits = []string{
	"One zone with one heat capacity: a model of more nodes lowers refrigeration by some 10 % more where nights are cold. People cool all day.",
	"Outdoor air well mixed; effectiveness constant with flow (careful: it rises a little at low flow); fan heat that of full speed.",
	"Perfect-gas air: wet bulb within 0.04 K of the real gas.",
	LimitTypicalYear,
	"Design conditions from one year differ from those of a long record by 0.5 to 1 K.",
	LimitHabits,
}

// Cautions are the usual ones wherever this work can hurt.
var Cautions = []string{
	"Damp and warm hours are real hours: infants, the elderly and the ill need a cooler place in humid heat, and a plan for it.",
	"Never run a cooler without open windows or relief openings; do not run it together with, or just before, refrigeration.",
	"Gas appliances: check draught with the cooler running and keep a carbon monoxide alarm.",
	"Roof and ladder work, mains power: isolate and prove dead, tie the ladder, not in wind or great heat; licensed trades where codes ask for them.",
	"Warm standing water can grow Legionella: keep bleed or purge working, clean and disinfect at start and end of season, drain when idle for days.",
	"Water supply through an air gap or backflow preventer as local codes ask. In smoke or dust shut the intake.",
	"Local codes and licensed practice come before anything printed here.",
}

// Methods lays out the equations, limits and cautions.
func Methods(c *figures.Case, p *sheet.Page) {
	p.Cols = []float64{7, 28, 70, 70}
	p.Print.Landscape = true
	LayModel(p)
}

// LayModel prints equations, rules, limits and cautions.
func LayModel(p *sheet.Page) {
	p.Section("Equations", 4)
	p.Heads("Eq.", "Quantity", "How it is computed", "Source")
	cell := xlsx.Style{Size: look.Small, Color: look.Ink, Wrap: true, VAlign: xlsx.Top, Border: xlsx.Under(xlsx.Hair, look.Rule)}
	for _, m := range methods {
		p.SetRow(p.Row, 1, xlsx.Cell{Value: m.eq, Style: cell}, xlsx.Cell{Value: m.what, Style: cell}, xlsx.Cell{Value: m.text, Style: cell}, xlsx.Cell{Value: m.source, Style: cell})
		p.Height(p.Row, 12.5*float64(max(1, (max(len(m.text), len(m.source))+74)/75)))
		p.Row++
	}
	p.Row++
	LayParagraphs(p, []Paragraphs{{"Symbols", symbols}, {"Outcomes", outcomeRules}, {"Limits", Limits}, {"Cautions", Cautions}})
}

// Paragraphs is a titled part of the Methods sheet.
type Paragraphs struct {
	Title string
	Lines []string
}

// LayParagraphs prints titled parts.
func LayParagraphs(p *sheet.Page, parts []Paragraphs) {
	for _, part := range parts {
		p.Section(part.Title, 4)
		for _, line := range part.Lines {
			p.Text(line, "", 4, 1+len(line)/165, sheet.Text)
		}
		p.Row++
	}
}
