package steps

import (
	"math"

	"github.com/evapbook/evapbook/internal/psychro"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/weather"
	"github.com/evapbook/evapbook/internal/workbook/figures"
	"github.com/evapbook/evapbook/internal/workbook/fx"
	"github.com/evapbook/evapbook/internal/workbook/sheet"
)

// stationColumns are the weather as the file gives it. Which columns there are
// depends on what the file has; nothing in them depends on a cooler.
func stationColumns(c *figures.Case) []sheet.Column {
	s, hours := c.Series, c.Season.Climate.Hours
	cols := []sheet.Column{
		{Key: "st_t", Band: "Station", Title: "Dry bulb", Kind: units.Temperature, Value: func(i int) any { return s.Hours[i].DryBulb }},
	}
	recorded := sheet.Column{Key: "st_p", Title: "Pressure", Kind: units.Pressure, Value: func(i int) any { return hours[i].StationP }}
	if c.Season.Climate.PressureEstimated > 0 {
		recorded.Key, recorded.Title = "st_p_recorded", "Pressure recorded"
		recorded.Value = func(i int) any { return numberOr(s.Hours[i].Pressure, "none") }
		cols = append(cols, recorded)
		recorded = sheet.Column{Key: "st_p", Title: "Pressure", Kind: units.Pressure, Eq: 5,
			Formula: "IF(ISNUMBER([st_p_recorded]),[st_p_recorded],B_station_pressure)", Value: func(i int) any { return hours[i].StationP }}
	}
	cols = append(cols, recorded)
	cols = append(cols, stationHumidity(c)...)
	cols = append(cols, sheet.Column{
		Key: "st_w", Title: "Humidity ratio", Kind: units.HumidityRatio, Eq: 6,
		Formula: stationRatio(c),
		Value:   func(i int) any { return hours[i].StationW },
	})
	ghi := sheet.Column{Key: "ghi", Title: "Irradiance", Kind: units.Irradiance, Value: func(i int) any { return hours[i].GHI }}
	if c.Season.Climate.GHIEstimated > 0 {
		cols = append(cols,
			sheet.Column{
				Key: "ghi_recorded", Title: "Irradiance recorded", Kind: units.Irradiance,
				Value: func(i int) any { return numberOr(s.Hours[i].GHI, "none") },
			},
			sheet.Column{
				Key: "ghi_clear", Title: "Irradiance, clear sky", Kind: units.Irradiance,
				Value: func(i int) any { return hours[i].Clear },
			})
		ghi.Formula = "IF(ISNUMBER([ghi_recorded]),[ghi_recorded],[ghi_clear]*Si_site_clearness)"
	}
	return append(cols, ghi)
}

// stationHumidity is the file's humidity quantity and what turns it into a
// humidity ratio, with the air made warmer at the same relative humidity.
func stationHumidity(c *figures.Case) []sheet.Column {
	h, by := c.Series.Hours, c.Season.Climate.Site.Warmer
	psat := func(key, title, formula string, eq int, at func(i int) float64) sheet.Column {
		return sheet.Column{Key: key, Title: title, Kind: units.Pressure, Eq: eq, Formula: fx.SaturationPressure(formula), Value: func(i int) any { return psychro.SaturationPressure(at(i)) }}
	}
	quantity := sheet.Column{Key: "st_hum", Title: "Relative humidity", Kind: units.Share, Value: func(i int) any { return h[i].Humidity }}
	warmer := psat("st_pw", "Saturation pressure, made warmer", fx.Kelvin("[st_t]+Si_site_warmer"), 6, func(i int) float64 { return h[i].DryBulb + by })
	if c.Series.Humidity == weather.RelHum {
		return []sheet.Column{quantity, warmer}
	}
	quantity.Kind, quantity.Title = units.Temperature, "Dew point"
	if c.Series.Humidity == weather.WetBulb {
		quantity.Title = "Wet bulb"
	}
	cols := []sheet.Column{quantity,
		psat("st_ps", "Saturation pressure at it", fx.Kelvin("MIN([st_hum],[st_t])"), 2, func(i int) float64 { return min(h[i].Humidity, h[i].DryBulb) }),
		psat("st_pt", "Saturation pressure", fx.Kelvin("[st_t]"), 2, func(i int) float64 { return h[i].DryBulb }),
		warmer,
	}
	if c.Series.Humidity == weather.WetBulb {
		cols = append(cols, sheet.Column{Key: "st_w0", Title: "Humidity ratio, as recorded", Kind: units.HumidityRatio, Eq: 4,
			Formula: "MAX(0," + fx.HumidityRatioAtWetBulb("[st_t]", "MIN([st_hum],[st_t])", "("+fx.Moles("[st_p]", "[st_ps]")+")") + ")", Value: func(i int) any { return recordedRatio(c, i) }})
	}
	return cols
}

// recordedRatio is the humidity ratio of an hour with a recorded wet bulb.
func recordedRatio(c *figures.Case, i int) float64 {
	h := c.Series.Hours[i]
	a, err := psychro.FromWetBulb(h.DryBulb, min(h.Humidity, h.DryBulb), c.Season.Climate.Hours[i].StationP)
	if err != nil {
		panic("workbook: an hour the climate took: " + err.Error())
	}
	return a.W
}

// stationRatio is the formula of the humidity ratio at the station; eqs. 6, 6a.
func stationRatio(c *figures.Case) string {
	switch c.Series.Humidity {
	case weather.DewPoint:
		return fx.HumidityRatio("([st_ps]*[st_pw]/[st_pt])", "[st_p]")
	case weather.WetBulb:
		return fx.HumidityRatio("("+fx.VapourPressure("[st_w0]", "[st_p]")+"*[st_pw]/[st_pt])", "[st_p]")
	default:
		return fx.HumidityRatio("(MIN([st_hum],1)*[st_pw])", "[st_p]")
	}
}

func numberOr(v float64, text string) any {
	if math.IsNaN(v) {
		return text
	}
	return v
}
