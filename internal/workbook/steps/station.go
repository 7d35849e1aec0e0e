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

// stationHumidity is the file's humidity quantity and the saturation pressure
// that turns it into a humidity ratio.
func stationHumidity(c *figures.Case) []sheet.Column {
	h := c.Series.Hours
	value := func(i int) any { return h[i].Humidity }
	at := func(i int) float64 { return h[i].DryBulb }
	cols := []sheet.Column{{Key: "st_hum", Title: "Relative humidity", Kind: units.Share, Value: value}}
	ps := "([st_t]+273.15)"
	if c.Series.Humidity != weather.RelHum {
		cols[0].Kind, cols[0].Title = units.Temperature, "Dew point"
		if c.Series.Humidity == weather.WetBulb {
			cols[0].Title = "Wet bulb"
		}
		ps = "(MIN([st_hum],[st_t])+273.15)"
		at = func(i int) float64 { return min(h[i].Humidity, h[i].DryBulb) }
	}
	return append(cols, sheet.Column{Key: "st_ps", Title: "Saturation pressure", Kind: units.Pressure, Eq: 2,
		Formula: fx.SaturationPressure(ps), Value: func(i int) any { return psychro.SaturationPressure(at(i)) }})
}

// stationRatio is the formula of the humidity ratio at the station.
func stationRatio(c *figures.Case) string {
	switch c.Series.Humidity {
	case weather.DewPoint:
		return fx.HumidityRatio("[st_ps]", "[st_p]")
	case weather.WetBulb:
		return "MAX(0," + fx.HumidityRatioAtWetBulb("[st_t]", "MIN([st_hum],[st_t])", "("+fx.Moles("[st_p]", "[st_ps]")+")") + ")"
	default:
		return fx.HumidityRatio("(MIN([st_hum],1)*[st_ps])", "[st_p]")
	}
}

func numberOr(v float64, text string) any {
	if math.IsNaN(v) {
		return text
	}
	return v
}
