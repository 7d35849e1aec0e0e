package technician

import (
	"fmt"

	"github.com/evapbook/evapbook/internal/startup"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/workbook/figures"
	"github.com/evapbook/evapbook/internal/workbook/sheet"
	"github.com/evapbook/evapbook/internal/xlsx"
)

// Closedown is the page for autumn: the freeze dates, a list to fill in, and
// the cautions of both visits.
func Closedown(c *figures.Case, p *sheet.Page) {
	startupPage(p)
	cal, t := c.Season.Climate.Calendar, &c.Season.Totals
	by := dayLine{fmt.Sprintf("Close down by: first freeze - %d days", startup.FreezeMargin), shiftedFormula("Out_calendar_first_freeze", -startup.FreezeMargin-1), shifted(c, cal.FirstFreeze, -startup.FreezeMargin-1)}
	if _, safe, ok := safeDays(c); ok {
		by = dayLine{safeLabel(c, "Close down by"), "", safe}
	}
	top := p.Row
	days(p, "The days here", []dayLine{
		{"Season over (95 % of the hours passed)", "Out_calendar_evap_closes", c.Date(t.EvapCloses)},
		{"Close down from: the day after", shiftedFormula("Out_calendar_evap_closes", 1), shifted(c, t.EvapCloses, 1)},
		by,
		{"Last day that needs water", "Out_calendar_last_evap", c.Date(t.LastEvap)},
		{"First freeze after the hot season", "Out_calendar_first_freeze", c.Date(cal.FirstFreeze)},
		{"Last freeze before the hot season", "Out_calendar_last_freeze", c.Date(cal.LastFreeze)},
	})
	warnTight(c, p, afterSeason(c), "The season outlasts the first frost: drain on cold nights.")
	below := p.Row
	p.Row = top
	layWaterSeason(c, p)
	p.Row = max(p.Row, below) + 1
	checklist(p, "Close-down", closedownSteps)
	p.Row++
	p.Section("Cautions for both visits", startupCols)
	for _, text := range siteCautions {
		p.Text(text, "", startupCols, 1+(len(text)-1)/155, sheet.Small)
	}
}

// layWaterSeason is what the season took, to set beside the water meter.
func layWaterSeason(c *figures.Case, p *sheet.Page) {
	s, t := c.Season, &c.Season.Totals
	p.Across(p.Row, waterColumn, startupCols, xlsx.Cell{Value: "What a season takes here", Style: sheet.Section})
	p.Row++
	for _, l := range []struct {
		label   string
		kind    units.Kind
		formula string
		value   float64
	}{
		{"Water in all", units.Volume, "Out_water_total_l", s.WaterTotal(t.Water)},
		{"of it bled or purged", units.Volume, "Out_water_bleed_l", t.Water.Drained(s.Job.Cooler)},
		{"Peak day", units.Volume, "Out_water_peak_day_l", t.PeakDayWater},
		{"Pump hours", units.Duration, "Out_water_pump_h", t.Water.PumpHours},
		{"Days of use", units.Count, "Out_water_days_of_use", float64(t.Water.DaysOfUse)},
	} {
		u := l.kind.Unit(c.Units)
		p.Across(p.Row, waterColumn, waterColumn+2, xlsx.Cell{Value: l.label, Style: styleCheck})
		p.Set(p.Row, waterColumn+3, xlsx.Cell{Value: sheet.Display(u, l.value), Formula: sheet.DisplayFormula(u, l.formula), Style: small("#,##0")})
		p.Set(p.Row, waterColumn+4, xlsx.Cell{Value: u.Symbol, Style: styleOf})
		p.Row++
	}
}
