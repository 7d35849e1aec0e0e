package workbook

import (
	"fmt"

	"github.com/evapbook/evapbook/internal/startup"
	"github.com/evapbook/evapbook/internal/units"
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
	{"Supply at the farthest diffuser", "within 2 °F (1.1 K) of the pads"},
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
	{"Last reading of the season: outdoor, humidity, supply", "see the Startup sheet"},
	{"Parts to bring in spring", "listed"},
}

// checklist is a list with places for readings and initials.
func (p *page) checklist(title string, steps []step) {
	heads := []struct {
		first, last int
		text        string
	}{{1, 5, title + ": in this order"}, {6, 8, "Accept (common practice, no source, unless marked)"}, {9, 9, "Reading"}, {10, 10, "Initials"}}
	for _, h := range heads {
		p.span(p.row, h.first, h.last, xlsx.Cell{Value: h.text, Style: styleHead})
	}
	p.Height(p.row, 26)
	p.row++
	for _, s := range steps {
		p.span(p.row, 1, 5, xlsx.Cell{Value: s.what, Style: styleCheck})
		p.span(p.row, 6, 8, xlsx.Cell{Value: s.accept, Style: styleCheck})
		p.Set(p.row, 9, xlsx.Cell{Style: styleFill})
		p.Set(p.row, 10, xlsx.Cell{Style: styleFill})
		lines := max(1+(len(s.what)-1)/84, 1+(len(s.accept)-1)/48)
		p.Height(p.row, 3+float64(12*lines))
		p.row++
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

// layClosedown is the page for autumn: the freeze dates, a list to fill in, and
// the cautions of both visits.
func (c *Case) layClosedown(p *page) {
	p.startupPage()
	cal, t := c.Season.Climate.Calendar, &c.Season.Totals
	by := dayLine{fmt.Sprintf("Close down by: first freeze - %d days", startup.FreezeMargin), shiftedFormula("Out_calendar_first_freeze", -startup.FreezeMargin-1), c.shifted(cal.FirstFreeze, -startup.FreezeMargin-1)}
	if _, safe, ok := c.safeDays(); ok {
		by = dayLine{c.safeLabel("Close down by"), "", safe}
	}
	top := p.row
	p.days("The days here", []dayLine{
		{"Season over (95 % of the hours passed)", "Out_calendar_evap_closes", c.date(t.EvapCloses)},
		{"Close down from: the day after", shiftedFormula("Out_calendar_evap_closes", 1), c.shifted(t.EvapCloses, 1)},
		by,
		{"Last day that needs water", "Out_calendar_last_evap", c.date(t.LastEvap)},
		{"First freeze after the hot season", "Out_calendar_first_freeze", c.date(cal.FirstFreeze)},
		{"Last freeze before the hot season", "Out_calendar_last_freeze", c.date(cal.LastFreeze)},
	})
	c.warnTight(p, "Out_calendar_evap_closes", "Out_calendar_first_freeze", t.EvapCloses, cal.FirstFreeze, "The season outlasts the first frost: drain on cold nights.")
	below := p.row
	p.row = top
	c.layWaterSeason(p)
	p.row = max(p.row, below) + 1
	p.checklist("Close-down", closedownSteps)
	p.row++
	p.section("Cautions for both visits", startupCols)
	for _, text := range siteCautions {
		p.text(text, "", startupCols, 1+(len(text)-1)/155, styleSmall)
	}
}

// layWaterSeason is what the season took, to set beside the water meter.
func (c *Case) layWaterSeason(p *page) {
	s, t := c.Season, &c.Season.Totals
	p.span(p.row, waterColumn, startupCols, xlsx.Cell{Value: "What a season takes here", Style: styleSection})
	p.row++
	for _, l := range []waterLine{
		{"Water in all", units.Volume, "Out_water_total_l", s.WaterTotal(t.Water), ""},
		{"of it bled or purged", units.Volume, "Out_water_bleed_l", t.Water.Drained(s.Job.Cooler), ""},
		{"Peak day", units.Volume, "Out_water_peak_day_l", t.PeakDayWater, ""},
		{"Pump hours", units.Duration, "Out_water_pump_h", t.Water.PumpHours, ""},
		{"Days of use", units.Count, "Out_water_days_of_use", float64(t.Water.DaysOfUse), ""},
	} {
		u := l.kind.Unit(c.Units)
		p.span(p.row, waterColumn, waterColumn+2, xlsx.Cell{Value: l.label, Style: styleCheck})
		p.Set(p.row, waterColumn+3, xlsx.Cell{Value: display(u, l.value), Formula: displayFormula(u, l.formula), Style: small("#,##0")})
		p.Set(p.row, waterColumn+4, xlsx.Cell{Value: u.Symbol, Style: styleOf})
		p.row++
	}
}
