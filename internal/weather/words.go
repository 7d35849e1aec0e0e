package weather

import (
	"regexp"
	"strings"
)

// unitWords are the units a heading may name, without degree signs and blanks,
// in lower case.
// Source of the factors: NIST SP 811 (2008), appendix B.8.
var unitWords = [quantities]map[string]unit{
	dryBulb:  temperatureWords,
	dewPoint: temperatureWords,
	wetBulb:  temperatureWords,
	relHum: {
		"%": percent, "pct": percent, "percent": percent, "%rh": percent,
		"fraction": same, "frac": same, "0-1": same,
	},
	pressure: {
		"pa": same, "hpa": hectopascal, "mb": hectopascal, "mbar": hectopascal, "millibars": hectopascal, "kpa": kilopascal,
		"inhg": inchOfMercury, "in.hg": inchOfMercury, "mmhg": millimetreOfMercury, "torr": millimetreOfMercury,
	},
	irradiance: {
		"w/m2": same, "wm2": same, "w/m^2": same, "wm-2": same, "wh/m2": same, "wh/m^2": same,
		"kw/m2": thousand, "kwh/m2": thousand, "kj/m2": kilojoule, "mj/m2": megajoule,
	},
}

var temperatureWords = map[string]unit{
	"c": same, "degc": same, "celsius": same, "degreescelsius": same,
	"f": fahrenheit, "degf": fahrenheit, "fahrenheit": fahrenheit, "degreesfahrenheit": fahrenheit,
	"k": kelvin, "kelvin": kelvin,
}

func same(v float64) float64                { return v }
func kelvin(k float64) float64              { return k - 273.15 }
func thousand(v float64) float64            { return v * 1000 }
func kilojoule(v float64) float64           { return v / 3.6 }        // kJ/m² in an hour to W/m²
func megajoule(v float64) float64           { return v * 1e6 / 3600 } // MJ/m² in an hour to W/m²
func millimetreOfMercury(p float64) float64 { return p * 133.3224 }

// nameWords are how files of no particular format call a quantity, in English and
// as the yearly files of Brazil's INMET do, letters only.
// Wet bulb is not among them: it is used only where the user says that it is a
// psychrometric one, for at least one publisher's is a mean of dry bulb and dew
// point. Plain "pressure" is not either: it may be reduced to sea level.
var nameWords = [quantities][]string{
	dryBulb:    {"temp", "temperature", "airtemp", "airtemperature", "tair", "ta", "drybulb", "drybulbtemperature", "drybulbtemp", "tdb", "db", "tmp", "tdry", "outdoortemperature", "outdoortemp", "outsidetemperature", "temperaturadoarbulbosecohoraria", "temperatureout", "tempout", "tm", "ambienttemperature", "ambienttemp"},
	relHum:     {"rh", "relhum", "relativehumidity", "humidity", "hum", "rhum", "outdoorhumidity", "humidityout", "relhumidity", "relativehumiditym", "rhm", "umidaderelativadoarhoraria"},
	dewPoint:   {"dew", "dewpoint", "dewpt", "dewpointtemperature", "dewpointtemp", "td", "tdew", "dwpt", "dewp", "tdp", "dewpointm", "temperaturadopontodeorvalho"},
	pressure:   {"stationpressure", "stnpress", "stnpressure", "stationpress", "surfacepressure", "absolutepressure", "sp", "pressaoatmosfericaaoniveldaestacaohoraria"},
	irradiance: {"ghi", "globalhorizontal", "globalhorizontalirradiance", "globalhorizontalradiation", "solarradiation", "solarrad", "globalradiation", "shortwaveradiation", "globalirradiance", "solarirradiance", "radiacaoglobal"},
}

var (
	timeWords  = []string{"time", "datetime", "timestamp", "valid", "validtime", "observationtime", "localtime", "datehour", "stamp", "utctime", "dateandtime"}
	dateWords  = []string{"date", "day", "localdate", "obsdate", "data"}
	clockWords = []string{"time", "hour", "clock", "hr", "hourofday", "obstime", "hora", "horautc"}
)

// heads is a heading cut into its name and its unit.
type heads struct {
	name string // letters only, lower case
	unit string // as in unitWords, "" if none is named
	text string // lower case, everything
}

var (
	inBrackets = regexp.MustCompile(`[(\[]([^)\]]*)[)\]]`)
	notLetters = regexp.MustCompile(`[^a-z]`)
	lastWord   = regexp.MustCompile(`^(.*?)[ _.,/-]+([^ _,]+)$`)
	camelUnit  = regexp.MustCompile(`^(.*[a-z])([CFK])$`) // TempF
)

// cutHeading reads a heading such as "Air Temp (°F)", "temp_c" or "TempF".
func cutHeading(h string) heads {
	h = strings.TrimSpace(h)
	out := heads{text: strings.ToLower(h)}
	name := out.text
	switch m := inBrackets.FindStringSubmatch(out.text); {
	case m != nil:
		out.unit = plainUnit(m[1])
		name = inBrackets.ReplaceAllString(out.text, " ")
	case lastWord.MatchString(out.text):
		m := lastWord.FindStringSubmatch(out.text)
		if u := plainUnit(m[2]); isUnit(u) {
			name, out.unit = m[1], u
		}
	case camelUnit.MatchString(h):
		m := camelUnit.FindStringSubmatch(h)
		name, out.unit = strings.ToLower(m[1]), strings.ToLower(m[2])
	}
	out.name = notLetters.ReplaceAllString(name, "")
	return out
}

func plainUnit(s string) string {
	return strings.NewReplacer("°", "", "º", "", "²", "2", " ", "", "⁻²", "-2").Replace(strings.ToLower(s))
}

func isUnit(word string) bool {
	for _, words := range unitWords {
		if _, ok := words[word]; ok {
			return true
		}
	}
	return false
}
