package fx

// Steady is the sensible load in W at the setpoint with nothing stored; eq. 17.
const Steady = "B_ua*([t]-Si_house_setpoint)+B_aperture*[ghi]+B_sensible"

// Load is eq. 17: the sensible load in W at the setpoint of a house that was at
// a temperature at the end of the hour before.
func Load(before string) string {
	return Steady + "+B_storage*(" + before + "-Si_house_setpoint)"
}

// Leak is eq. 17: the heat in W that leaks into the closed house besides.
var Leak = "B_infiltration*" + infiltrationHeat + "*([t]-Si_house_setpoint)"

// Shut is eq. 17a: the house in °C at the end of the hour if left shut.
func Shut(before string) string {
	return Fill("((B_ua+B_infiltration*{C})*[t]+B_aperture*[ghi]+B_sensible+B_storage*{B})/(B_ua+B_infiltration*{C}+B_storage)", "{C}", infiltrationHeat, "{B}", before)
}

// Drift is eq. 17a: where a house without load ends the hour.
func Drift(shut string) string { return "MAX(B_heated,MIN(Si_house_setpoint," + shut + "))" }

// AtFullFlow is eq. 18: indoors in °C with m kg/s blown in at ta.
func AtFullFlow(m, cp, ta string) string {
	return Fill("(B_ua*[t]+B_aperture*[ghi]+B_sensible+B_storage*[before]+{M}*{C}*{A})/(B_ua+B_storage+{M}*{C})", "{M}", m, "{C}", cp, "{A}", ta)
}

// CarriedAtFullFlow is B of eq. 19: the heat in W that m kg/s blown in at ta
// carry away at the setpoint.
func CarriedAtFullFlow(m, cp, ta string) string {
	return Fill("{M}*{C}*(Si_house_setpoint-{A})", "{M}", m, "{C}", cp, "{A}", ta)
}

// ShareOfFlow is eq. 19: the share of full flow that carries the load, where
// full is the house in °C at full flow and b the heat carried away then.
func ShareOfFlow(full, b string) string {
	return Fill("IF(AND([need]=1,{F}<=Si_house_setpoint),IF([q]>={L}*{B},[q]/{B},([q]+[leak])/({B}+[leak]/{L})),1)",
		"{F}", full, "{B}", b, "{L}", "Si_cooler_lowest_speed")
}

// Running is eq. 19: the part of the hour that the fan runs.
func Running(share string) string { return "MIN(1," + share + "/Si_cooler_lowest_speed)" }

// FanLevel is eq. 19: the fan's power while it runs over that at full speed;
// cooler.Unit.PowerShare.
const FanLevel = `IF(In_cooler_drive="variable",Si_cooler_low_speed_power+(1-Si_cooler_low_speed_power)*MAX([share],Si_cooler_lowest_speed)^3,` +
	`IF(Si_cooler_lowest_speed>=1,1,Si_cooler_low_speed_power+(1-Si_cooler_low_speed_power)*(MAX([share],Si_cooler_lowest_speed)-Si_cooler_lowest_speed)/(1-Si_cooler_lowest_speed)))`

// Moisture is eq. 20 before the cap at saturation: the humidity ratio indoors
// with a share of m kg/s at w blown in for the part run of the hour.
func Moisture(m, share, run, w string) string {
	return Fill("({M}*{S}*{W}+B_infiltration*(1-{R})*[w]+B_latent/"+LatentHeat+")/({M}*{S}+B_infiltration*(1-{R}))", "{M}", m, "{S}", share, "{R}", run, "{W}", w)
}

// IndoorHumidity is eq. 20: the relative humidity of w, where ps is the
// saturation pressure indoors.
func IndoorHumidity(w, ps string) string { return "MIN(1," + RelHum(w, "[p]", ps) + ")" }

// Outcome is what becomes of the hour; eq. 18.
const Outcome = `IF([need]=0,"idle",IF(AND([vfull]<=Si_house_setpoint,[vrh]<=Si_house_humidity_limit),"vent",` +
	`IF([efull]>Si_house_setpoint,"warm",IF([erh]<=Si_house_humidity_limit,"evap","damp"))))`
