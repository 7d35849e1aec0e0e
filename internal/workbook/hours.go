package workbook

import (
	"github.com/evapbook/evapbook/internal/season"
	"github.com/evapbook/evapbook/internal/units"
)

// hoursColumns are the columns of the Hours sheet: the results of Working in
// the units people see.
func (c *Case) hoursColumns() []column {
	s := c.Season
	in := func(i int) *hourIn { return &s.Climate.Hours[i] }
	out := func(i int) *season.Hour { return &s.Hours[i] }
	shown := func(key, title string, kind units.Kind, value func(i int) any) column {
		return column{key: key, title: title, kind: kind, formula: "[Working." + key + "]", value: value}
	}
	// Text passes through formulas as it is: an idle hour has no indoor state.
	orText := func(key, title string, kind units.Kind, value func(i int) any) column {
		u := kind.Unit(c.Units)
		ref := "[Working." + key + "]"
		return column{key: key, title: title, kind: kind, raw: true,
			formula: `IF(ISNUMBER(` + ref + `),` + displayFormula(u, ref) + `,"")`, value: func(i int) any { return display(u, value(i)) }}
	}
	outcome := shown("outcome", "Outcome", units.Text, func(i int) any { return out(i).Outcome.String() })
	outcome.always = true
	return []column{
		{key: "time", band: "Hour", title: "Time", kind: units.DateTime, always: true, value: func(i int) any { return in(i).Time }},
		withBand(shown("t", "Dry bulb", units.Temperature, func(i int) any { return in(i).Air.T }), "Outdoors"),
		shown("rh", "Relative humidity", units.Share, func(i int) any { return c.cells[i].rh }),
		shown("wb", "Wet bulb", units.Temperature, func(i int) any { return c.cells[i].wetBulb }),
		shown("ghi", "Irradiance", units.Irradiance, func(i int) any { return in(i).GHI }),
		withBand(shown("ts", "Supply with water", units.Temperature, func(i int) any { return out(i).Supply.T }), "Cooler"),
		outcome,
		withBand(orText("indoor", "Indoors", units.Temperature, func(i int) any { return unlessIdle(out(i), out(i).Indoor) }), "House"),
		orText("indoor_rh", "Indoor humidity", units.Share, func(i int) any { return unlessIdle(out(i), out(i).IndoorRH) }),
		shown("q", "Sensible load", units.Capacity, func(i int) any { return out(i).Load }),
		withBand(shown("share", "Share of full flow", units.Share, func(i int) any { return out(i).Share }), "Takes"),
		fine(shown("cooler_kwh", "Cooler energy", units.Energy, func(i int) any { return out(i).CoolerKWh })),
		fine(shown("evaporated", "Water evaporated", units.Volume, func(i int) any { return out(i).Evaporated })),
		fine(shown("ref_kwh", "Refrigeration energy", units.Energy, func(i int) any { return out(i).RefKWh })),
	}
}

// fine shows a column of small amounts with two decimals.
func fine(c column) column {
	c.fine = true
	return c
}
