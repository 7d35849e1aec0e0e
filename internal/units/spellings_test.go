package units_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/internal/units"
)

// The definitions everything else follows from: yard and pound (1959), US
// gallon of 231 in³, standard gravity, International Table Btu (NIST SP 811,
// 2008, appendix B.8 and B.6); a conventional inch of mercury is the one figure
// that is rounded there.
const (
	inch     = 0.0254
	feet     = 12 * inch
	gallons  = 231 * inch * inch * inch * 1000 // L
	pounds   = 0.45359237
	gravity  = 9.80665
	btu      = 1055.05585262 // J
	rankine  = 1 / 1.8
	mercury  = 3386.389 // Pa
	perHour  = btu / 3600
	feet2    = feet * feet
	feet3    = feet * feet * feet
	inMillis = 1.0 / 1000
)

// factors are what one of every spelling is in SI. A spelling is not read
// unless it stands here too.
var factors = map[units.Kind]map[string]float64{
	units.Temperature:           {"°C": 1, "°F": (1 - 32.) / 1.8},
	units.TemperatureDifference: {"K": 1, "°F": rankine},
	units.Kelvin:                {"K": 1},
	units.Altitude:              {"m": 1, "ft": feet, "km": 1000},
	units.Length:                {"m": 1, "ft": feet},
	units.Area:                  {"m²": 1, "ft²": feet2},
	units.Volume:                {"L": 1, "gal": gallons, "m³": 1000},
	units.SmallVolume:           {"L": 1, "gal": gallons, "m³": 1000},
	units.Duration:              {"h": 1, "min": 1. / 60, "d": 24},
	units.Years:                 {"years": 1},
	units.Mass:                  {"kg": 1, "lb": pounds, "t": 1000},
	units.Energy:                {"kWh": 1, "MWh": 1000, "GJ": 1000 / 3.6},
	units.Airflow:               {"m³/s": 1, "cfm": feet3 / 60, "m³/h": 1. / 3600, "L/s": inMillis},
	units.MassFlow:              {"kg/s": 1, "lb/h": pounds / 3600},
	units.WaterFlow:             {"L/h": 1, "gal/h": gallons, "L/min": 60, "gal/min": 60 * gallons},
	units.Power:                 {"W": 1, "kW": 1000},
	units.PowerKW:               {"kW": 1, "W": inMillis},
	units.HeatFlow:              {"W": 1, "kW": 1000, "ton": 12000 * perHour, "Btu/h": perHour, "kBtu/h": 1000 * perHour},
	units.Capacity:              {"W": 1, "kW": 1000, "ton": 12000 * perHour, "Btu/h": perHour, "kBtu/h": 1000 * perHour},
	units.Conductance:           {"W/K": 1, "Btu/h·°F": perHour / rankine},
	units.HeatLoss:              {"W/m²K": 1, "Btu/h·ft²·°F": perHour / feet2 / rankine},
	units.Irradiance:            {"W/m²": 1, "Btu/h·ft²": perHour / feet2},
	units.Pressure:              {"Pa": 1, "inHg": mercury, "kPa": 1000, "hPa": 100, "psi": pounds * gravity / (inch * inch)},
	units.LapseRate:             {"K/km": 1, "°F/1000ft": rankine / feet},
	units.SpecificHeat:          {"J/kg·K": 1, "Btu/lb·°F": btu / pounds / rankine},
	units.SpecificVolume:        {"m³/kg": 1, "ft³/lb": feet3 / pounds},
	units.Density:               {"kg/m³": 1, "lb/ft³": pounds / feet3},
	units.HumidityRatio:         {"kg/kg": 1, "lb/lb": 1, "g/kg": inMillis},
	units.DegreeHours:           {"K·h": 1, "°F·h": rankine},
	units.DegreeDays:            {"K·d": 1, "°F·d": rankine},
	units.PricePerKWh:           {"/kWh": 1, "/MWh": inMillis},
	units.PricePerVolume:        {"/m³": 1, "/kgal": 1 / gallons, "/gal": 1000 / gallons, "/ccf": 1 / (100 * feet3), "/L": 1000},
	units.WaterPerEnergy:        {"L/kWh": 1, "gal/kWh": gallons, "gal/MWh": gallons / 1000, "L/MWh": inMillis},
	units.MassPerEnergy:         {"kg/kWh": 1, "lb/MWh": pounds / 1000, "g/kWh": inMillis, "lb/kWh": pounds},
}

func TestEverySpelling(t *testing.T) {
	for _, k := range all() {
		for _, symbol := range k.Accepted() {
			want, listed := factors[k][symbol]
			if cents := []rune(symbol); cents[0] == 'c' && !listed {
				want, listed = factors[k][string(cents[1:])]
				want /= 100
			}
			if !assert.True(t, listed, "%s: %q is read, but its factor is not listed in this test", k, symbol) {
				continue
			}
			got, err := units.Parse(k, "1 "+symbol)
			require.NoError(t, err, "%s: 1 %s", k, symbol)
			assert.InEpsilon(t, want, got, 1e-13, "%s: 1 %s", k, symbol)
		}
	}
}

func TestParseTooLarge(t *testing.T) {
	for _, text := range []string{"1e308 km", "-1e308 km", "1e400 m"} {
		_, err := units.Parse(units.Altitude, text)
		assert.ErrorContains(t, err, "too large a number", text)
	}
}

// Text keeps twelve digits, and an exponent only where nobody would write the
// number out.
func TestTextDigits(t *testing.T) {
	for v, want := range map[float64]string{
		0: "0", 1. / 3: "0.333333333333", 123456.7890126: "123456.789013",
		1e-7: "0.0000001", 2e-7: "0.0000002", 9e-8: "9e-08", -5e-8: "-5e-08",
		1e14: "100000000000000", 1e15: "1e+15", 3e16: "3e+16",
	} {
		assert.Equal(t, want, units.Plain.Text(v, units.SI), fmt.Sprint(v))
	}
}

// A share that is not all never reads 100 %, one that is not nothing never 0 %.
func TestPercent(t *testing.T) {
	for share, want := range map[float64]string{0: "0 %", 0.0049: "under 1 %", 0.005: "1 %", 0.885: "89 %", 0.9949: "99 %", 0.995: "over 99 %", 0.99999: "over 99 %", 1: "100 %"} {
		assert.Equal(t, want, units.Percent(share), share)
	}
}

// Range shows three digits, and no end that would be refused.
func TestRangeDigits(t *testing.T) {
	assert.Equal(t, "-1,230 to 0.123", units.Plain.Range(-1234.6, 0.12345, units.SI))
	assert.Equal(t, "1,000 to 1,000", units.Plain.Range(999.94, 1000.4, units.SI))
	assert.Equal(t, "-9 to 9 °F", units.TemperatureDifference.Range(-5, 5, units.IP), "exact but for the rounding of a conversion")
	assert.Equal(t, "0 to 95 °F", units.Temperature.Range(-160./9, 35, units.IP), "no -0")
}
