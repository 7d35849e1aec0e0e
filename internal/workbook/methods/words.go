package methods

// A Word is a term of the trade in words for people outside it.
type Word struct{ Term, Meaning string }

// Words are the terms that the pages use and few readers know.
var Words = []Word{
	{"Dry bulb, wet bulb", "Dry bulb is the air temperature any thermometer shows. Wet bulb is what it shows under a wet sock in a draught: the coolest that evaporating water alone can make that air. The drier the air, the further apart they lie."},
	{"Supply air", "The air the cooler blows into the house."},
	{"Saturation effectiveness", "How far the pads bring the air from dry bulb towards wet bulb: 0.85 is 85 % of the way."},
	{"1 % design", "Weather so hot, or so damp, that only 1 % of the hours of a usual year, 88 hours, go beyond it. Equipment is sized for it, not for the record."},
	{"Setpoint", "The indoor temperature that is to be kept."},
	{"Open windows hold", "Hours in which outdoor air alone keeps the house comfortable, the pump off."},
	{"The cooler holds", "Hours in which the cooler, with water, keeps setpoint and humidity limit."},
	{"Too damp, too warm", "Hours not covered: the cooler runs, and the house is more humid than the limit or warmer than the setpoint."},
	{"Coverage", "The share of the hours that need cooling in which the house is kept comfortable."},
	{"Relief opening", "The window or vent through which as much air leaves as the cooler blows in. Shut up tight, the house gets damp and the cooler starves."},
	{"Bleed, purge, cycles", "Water evaporates, minerals stay. Bleed lets a little water run off all the time; purge empties the sump now and then. Cycles say how many times harder than tap water the sump may get."},
	{"Refrigeration", "Ordinary air conditioning with a compressor."},
	{"SEER2, EER2", "Cooling an air conditioner gives for a unit of electricity (Btu per Wh) in a United States test: over a season, and at 95 °F (35 °C) outdoors. More is better."},
	{"Present value", "All costs of the study years in today's money: a cost far off counts for less. The way with the lowest is the cheapest."},
	{"Payback", "Years until what is saved in running costs has made up for a higher price. None where there is nothing to make up, or nothing saved."},
}
