package fx

// Load is eq. 17: the sensible load in W at the setpoint.
const Load = "B_ua*([t]-Si_house_setpoint)+B_aperture*[ghi]+B_sensible"

// AtFullFlow is eq. 18: indoors in °C with m kg/s blown in at ta.
func AtFullFlow(m, cp, ta string) string {
	return Fill("(B_ua*[t]+B_aperture*[ghi]+B_sensible+{M}*{C}*{A})/(B_ua+{M}*{C})", "{M}", m, "{C}", cp, "{A}", ta)
}

// ShareOfFlow is eq. 19: the share of full flow that carries the load [q].
func ShareOfFlow(full, m, cp, ta string) string {
	return Fill("IF(AND([q]>0,{F}<=Si_house_setpoint),[q]/({M}*{C}*(Si_house_setpoint-{A})),1)", "{F}", full, "{M}", m, "{C}", cp, "{A}", ta)
}

// IndoorHumidity is eq. 20: the relative humidity indoors with a flow of dry air
// at w blown in, where ps is the saturation pressure indoors.
func IndoorHumidity(w, flow, ps string) string {
	return RelHum(Fill("({W}+B_latent/("+LatentHeat+"*{F}))", "{W}", w, "{F}", flow), "[p]", ps)
}

// Outcome is what becomes of the hour; eq. 18.
const Outcome = `IF([q]<=0,"idle",IF(AND([vfull]<=Si_house_setpoint,[vrh]<=Si_house_humidity_limit),"vent",` +
	`IF([efull]>Si_house_setpoint,"warm",IF([erh]<=Si_house_humidity_limit,"evap","damp"))))`
