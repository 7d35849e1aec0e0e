// Package engineer lays out the sheets of one who studies the climate: hours,
// bins, heat maps, weeks, years and the psychrometric chart.
package engineer

import (
	"github.com/evapbook/evapbook/internal/climate"
	"github.com/evapbook/evapbook/internal/season"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/workbook/figures"
	"github.com/evapbook/evapbook/internal/workbook/sheet"
)

// hoursColumns are the columns of the Hours sheet: the results of Working in
// the units people see.
func hoursColumns(c *figures.Case) []sheet.Column {
	s := c.Season
	in := func(i int) *climate.Hour { return &s.Climate.Hours[i] }
	out := func(i int) *season.Hour { return &s.Hours[i] }
	shown := func(key, title string, kind units.Kind, value func(i int) any) sheet.Column {
		return sheet.Column{Key: key, Title: title, Kind: kind, Formula: "[Working." + key + "]", Value: value}
	}
	// Text passes through formulas as it is: an idle hour has no indoor state.
	orText := func(key, title string, kind units.Kind, value func(i int) any) sheet.Column {
		u := kind.Unit(c.Units)
		ref := "[Working." + key + "]"
		return sheet.Column{
			Key: key, Title: title, Kind: kind, Raw: true,
			Formula: `IF(ISNUMBER(` + ref + `),` + sheet.DisplayFormula(u, ref) + `,"")`,
			Value:   func(i int) any { return sheet.Display(u, value(i)) },
		}
	}
	outcome := shown("outcome", "Outcome", units.Text, func(i int) any { return out(i).Outcome.String() })
	outcome.Always = true
	return []sheet.Column{
		{Key: "time", Band: "Hour", Title: "Time", Kind: units.DateTime, Always: true, Value: func(i int) any { return in(i).Time }},
		sheet.Banded(shown("t", "Dry bulb", units.Temperature, func(i int) any { return in(i).Air.T }), "Outdoors"),
		shown("rh", "Relative humidity", units.Share, func(i int) any { return c.Solved()[i].Rh }),
		shown("wb", "Wet bulb", units.Temperature, func(i int) any { return c.Solved()[i].WetBulb }),
		shown("ghi", "Irradiance", units.Irradiance, func(i int) any { return in(i).GHI }),
		sheet.Banded(shown("ts", "Supply with water", units.Temperature, func(i int) any { return out(i).Supply.T }), "Cooler"),
		outcome,
		sheet.Banded(orText("indoor", "Indoors", units.Temperature, func(i int) any { return figures.UnlessIdle(out(i), out(i).Indoor) }), "House"),
		orText("indoor_rh", "Indoor humidity", units.Share, func(i int) any { return figures.UnlessIdle(out(i), out(i).IndoorRH) }),
		shown("q", "Sensible load", units.Capacity, func(i int) any { return out(i).Load.Sensible }),
		sheet.Banded(shown("share", "Share of full flow", units.Share, func(i int) any { return out(i).Share }), "Takes"),
		sheet.Fine(shown("cooler_kwh", "Cooler energy", units.Energy, func(i int) any { return out(i).CoolerKWh })),
		sheet.Fine(shown("evaporated", "Water evaporated", units.Volume, func(i int) any { return out(i).Evaporated })),
		sheet.Fine(shown("ref_kwh", "Refrigeration energy", units.Energy, func(i int) any { return out(i).RefKWh })),
	}
}

// Hours lays out the results of every hour in the units people see.
func Hours(c *figures.Case, p *sheet.Page) {
	p.Place(&sheet.Table{Name: "Hours", Rows: len(c.Season.Hours), Columns: hoursColumns(c), Blank: c.Missing, Filter: true}, c.Units)
	p.FreezeCols = 1
	if w := weeks(c); len(w) > 0 {
		worst := w[len(w)-1]
		p.PrintRows("Hours", worst.first, worst.last, 1)
	}
}
