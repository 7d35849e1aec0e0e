package technician

import (
	"github.com/evapbook/evapbook/internal/workbook/sheet"
	"github.com/evapbook/evapbook/internal/xlsx"
)

// step is a line of a list to work through and fill in.
type step struct {
	what   string
	accept string
}

// startupSteps is the commissioning list. Accepted bands are common practice, no
// source, where no other mark stands with them.
var startupSteps = []step{
	{"Power off at the disconnect, proved dead, pump unplugged; ladder footed, roof dry, no wind or heat", "proved off"},
	{"Cabinet level, duct sound, winter cover off, damper open", "level"},
	{"Sump free of silt and scale, drain shuts", "holds water for 5 min"},
	{"Supply line flushed, tap open, air gap or backflow preventer by local code", "no drip"},
	{"Supply valve the right way round", "no water at the drain while off"},
	{"Water stops by itself; level sensor or float free of scale (crusted, it keeps the pump off)", "1 to 2 in (25 to 50 mm) below the lip"},
	{"Pads seated, right way round, tight at the edges", "no daylight beside them"},
	{"Pump runs, all troughs full; the first fill soaks in, so it may stop once and start again", "pads wet over all their face"},
	{"Bleed set as above, or purge seen: 3 to 4 gal (11 to 15 L); old sumps up to 30 gal (115 L)", "purge gone in under 30 s"},
	{"Belt and bearings; motor current on full speed", "nameplate or less, within 10 % of last visit"},
	{"Air rises and falls with every fan speed", "each speed felt"},
	{"Relief openings as above; a door left ajar", "closes slowly, no slam"},
	{"Thermostat starts and stops pump and fan", "both obey"},
	{"Pads wet 15 min: outdoor temperature and humidity, supply at the pads", "table above (published mark)"},
	{"Effectiveness at the pads", "aspen 0.70, rigid 6 to 8 in 0.75, 12 in 0.85"},
	{"Supply at the farthest diffuser", "within 2 °F (1.1 °C) of the pads"},
	{"Gas appliances: draught with the cooler running, carbon monoxide alarm", "draws; alarm works"},
	{"Owner shown: switch, windows, bleed, smoke and dust days (shut the intake)", "understood"},
}

var closedownSteps = []step{
	{"Power off at the disconnect, proved dead, pump unplugged; ladder and roof edge as at start-up", "proved off"},
	{"Tap shut, supply line taken off and blown through: a little water left in copper splits it", "no water comes out"},
	{"Sump drained, silt and scale out, wiped dry; cleaned and disinfected as local guidance says", "dry"},
	{"Drain left open, overflow standpipe stored", "open"},
	{"Pump, float or level sensor cleaned of scale, pump basket emptied", "clean"},
	{"Pads: aspen thrown away, rigid rinsed and dried, renewed where they no longer come clean", "noted"},
	{"Belt off, bearings oiled, rust treated", "done"},
	{"Damper shut or cover on, so that house air does not escape in winter", "no draught"},
	{"Line run outdoors looked at for splits, hose tap drained", "sound"},
	{"Last reading of the season: outdoor, humidity, supply", "see Start-up"},
	{"Parts to bring in spring", "listed"},
}

// checklist is a list with places for readings and initials.
func checklist(p *sheet.Page, title string, steps []step) {
	heads := []struct {
		first, last int
		text        string
	}{{1, 5, title + ": in this order"}, {6, 8, "Accept (common practice, no source, unless marked)"}, {9, 9, "Reading"}, {10, 10, "Initials"}}
	for _, h := range heads {
		p.Across(p.Row, h.first, h.last, xlsx.Cell{Value: h.text, Style: sheet.Head})
	}
	p.Height(p.Row, 26)
	p.Row++
	for _, s := range steps {
		p.Across(p.Row, 1, 5, xlsx.Cell{Value: s.what, Style: styleCheck})
		p.Across(p.Row, 6, 8, xlsx.Cell{Value: s.accept, Style: styleCheck})
		p.Set(p.Row, 9, xlsx.Cell{Style: styleFill})
		p.Set(p.Row, 10, xlsx.Cell{Style: styleFill})
		lines := max(1+(len(s.what)-1)/84, 1+(len(s.accept)-1)/48)
		p.Height(p.Row, 3+float64(12*lines))
		p.Row++
	}
}

// siteCautions name published guidance where there is some; local codes and
// licensed trades decide.
var siteCautions = []string{
	"Local codes and licensed trades decide: wiring, gas and drinking-water connections are theirs.",
	"Standing and recirculated water: legionella can grow at 20 to 45 °C (68 to 113 °F) where there are scale, sludge and droplets (UK HSE list; growth best at about 77 to 108 °F). Coolers with wet pads run cooler and shed few droplets, so the risk is low, not nil: highest where unserviced for two years, left full over winter, scaled, or with frail occupants. Drain when idle for some days, keep the bleed working, clean and disinfect at both ends of the season. ASHRAE Standard 188 and HSE L8/HSG274 are written for larger, non-domestic systems; take them as guidance.",
	"Drinking water: an air gap or a backflow preventer on the supply, as the plumbing code has it.",
	"Combustion appliances: pressure in the house usually helps flues, shut relief openings or an exhausting arrangement can reverse them. Check with the cooler running and keep a carbon monoxide alarm.",
	"Intake at least 10 ft (3 m) from flues, plumbing vents and exhausts, or 3 ft (0.9 m) below them (US national-laboratory remodelling tips).",
	"Roofs and heat: footed ladder, away from the edge, not alone, not in wind or in the heat of the day; drink, and stop when dizzy. Where a cooler fails in humid heat, infants, the elderly and the ill need a cooler place.",
	"In season: look in monthly; aspen pads last one season (two sets with hard water), rigid 3 to 5 years and more (monthly: US water-council page; lives from memory).",
}
