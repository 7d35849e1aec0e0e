package weather

import "strings"

// unitHint is how the key of a quantity names its unit.
var unitHint = [quantities]string{"temperature_c or temperature_f", "relative_humidity_pct", "dew_point_c or dew_point_f", "wet_bulb_c or wet_bulb_f", "pressure_hpa or pressure_inhg", "ghi_wm2"}

// unitOf takes the unit from the heading, else from the key; relative humidity
// is in percent and irradiance in W/m² unless said otherwise.
func (a *anyCSV) unitOf(n ColumnName, r role) (unit, string) {
	words := unitWords[r.quantity]
	if h := cutHeading(n.Heading); h.unit != "" {
		if u, ok := words[h.unit]; ok {
			return u, unitSymbol(h.unit)
		}
	}
	legend := a.legend[strings.ToLower(n.Heading)]
	if u, ok := words[legend]; ok {
		return u, unitSymbol(legend)
	}
	if u, ok := words[r.unit]; ok {
		return u, unitSymbol(r.unit)
	}
	switch r.quantity {
	case relHum:
		return percent, "%"
	case irradiance:
		return same, "W/m²"
	}
	return nil, ""
}

// unitSymbol is how messages write a unit word.
func unitSymbol(word string) string {
	switch {
	case strings.HasPrefix(word, "f") && word != "fraction" && word != "frac", word == "degf", word == "degreesfahrenheit":
		return "°F"
	case word == "c", word == "celsius", word == "degc", word == "degreescelsius":
		return "°C"
	case word == "k":
		return "K"
	}
	return strings.NewReplacer("m2", "m²", "w/", "W/", "wh/", "Wh/", "hpa", "hPa", "kpa", "kPa", "inhg", "inHg", "in.hg", "inHg", "mmhg", "mmHg").Replace(word)
}
