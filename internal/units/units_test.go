package units_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/evapbook/evapbook/internal/hint"
	"github.com/evapbook/evapbook/internal/units"
)

// all lists the kinds; the last one is found by the panic behind it.
func all() []units.Kind {
	var kinds []units.Kind
	for k := units.Plain; k <= units.MassPerEnergy; k++ {
		kinds = append(kinds, k)
	}
	return kinds
}

func numeric() []units.Kind {
	var kinds []units.Kind
	for _, k := range all() {
		if k.Numeric() {
			kinds = append(kinds, k)
		}
	}
	return kinds
}

func ExampleParse() {
	v, _ := units.Parse(units.Altitude, "5430ft")
	fmt.Printf("%.3f m\n", v)
	_, err := units.Parse(units.Altitude, "5280")
	fmt.Println(hint.Text(err))
	// Output:
	// 1655.064 m
	// 5280 has no unit
	// hint: write 5280ft or 5280m
}

// One unit in SI against NIST SP 811 (2008) appendix B.8, its seven digits
// from memory; prices and rates per energy are arithmetic on its gallon and
// pound.
func TestFactors(t *testing.T) {
	for _, r := range []struct {
		kind units.Kind
		text string
		want float64
	}{
		{units.Altitude, "1 ft", 0.3048},
		{units.Altitude, "1 km", 1000},
		{units.Area, "1 ft2", 9.290304e-2},
		{units.Volume, "1 gal", 3.785412},
		{units.Volume, "1 m3", 1000},
		{units.Airflow, "1 cfm", 4.719474e-4},
		{units.Airflow, "3600 m3/h", 1},
		{units.Airflow, "1 L/s", 1e-3},
		{units.Capacity, "1 ton", 3.516853e3},
		{units.Capacity, "1 Btu/h", 2.930711e-1},
		{units.HeatLoss, "1 Btu/(h ft2 F)", 5.678263},
		{units.Irradiance, "1 Btu/h·ft²", 3.154591},
		{units.SpecificHeat, "1 Btu/lb·°F", 4186.8},
		{units.SpecificVolume, "1 ft3/lb", 6.242796e-2},
		{units.Density, "1 lb/ft3", 16.01846},
		{units.Mass, "1 lb", 4.535924e-1},
		{units.MassFlow, "1 lb/h", 1.259979e-4},
		{units.WaterFlow, "1 gpm", 6.309020e-5 * 3.6e6},
		{units.Pressure, "1 inHg", 3.386389e3},
		{units.Pressure, "1 psi", 6.894757e3},
		{units.Energy, "3.6 GJ", 1000},
		{units.Duration, "30 min", 0.5},
		{units.PricePerVolume, "3.785412 /kgal", 1},
		{units.PricePerVolume, "2.831685 /ccf", 1}, // 100 ft³ are 2.831685 m³
		{units.WaterPerEnergy, "1 gal/MWh", 3.785412e-3},
		{units.MassPerEnergy, "1000 lb/MWh", 4.535924e-1},
		{units.LapseRate, "1 °F per 1000 ft", 1000 / (1.8 * 304.8)},
		{units.DegreeHours, "1.8 °F·h", 1},
		{units.TemperatureDifference, "1.8F", 1},
		{units.Conductance, "1 Btu/h·°F", 1.899101 / 3.6}, // 1 Btu/°F is 1.899101 kJ/K
	} {
		got, err := units.Parse(r.kind, r.text)
		require.NoError(t, err, r.text)
		assert.InEpsilon(t, r.want, got, 5e-7, "%s: %s (half of the seventh digit)", r.kind, r.text)
	}
}

func TestParse(t *testing.T) {
	for _, r := range []struct {
		kind units.Kind
		text string
		want float64
	}{
		{units.Temperature, "78 F", 230.0 / 9},
		{units.Temperature, "78°F", 230.0 / 9},
		{units.Temperature, "78degF", 230.0 / 9},
		{units.Temperature, "25.5 C", 25.5},
		{units.Temperature, "25.5 deg C", 25.5},
		{units.Temperature, "-40F", -40},
		{units.Temperature, "−40 °C", -40},
		{units.Temperature, "0 F", -160.0 / 9},
		{units.Altitude, "5,430ft", 1655.064},
		{units.Altitude, "1655 m", 1655},
		{units.Altitude, "0", 0},
		{units.Altitude, "1.655e3m", 1655},
		{units.Altitude, " .5 km ", 500},
		{units.Airflow, "4500 cfm", 2.1237634944},
		{units.Airflow, "2.1 m³/s", 2.1},
		{units.Power, "500 W", 500},
		{units.Power, "0.5kW", 500},
		{units.Capacity, "3 ton", 10550.5585262},
		{units.Capacity, "36000 Btu/h", 10550.5585262},
		{units.Capacity, "36 kBtu/hr", 10550.5585262},
		{units.Capacity, "10.5 kW", 10500},
		{units.Area, "1800 sq ft", 167.225472},
		{units.Area, "1800ft^2", 167.225472},
		{units.LapseRate, "6.5 K/km", 6.5},
		{units.HeatLoss, "2.1 W/m2K", 2.1},
		{units.HeatLoss, "2.1 W/(m²·K)", 2.1},
		{units.Volume, "15 L", 15},
		{units.Duration, "8 h", 8},
		{units.PricePerVolume, "1.6 /m3", 1.6},
		{units.PricePerVolume, "1.6 per m³", 1.6},
		{units.PricePerVolume, "6 /1,000 gal", 6 / 3.785411784},
		{units.PricePerKWh, "0.155", 0.155},
		{units.PricePerKWh, "0.155/kWh", 0.155},
		{units.PricePerKWh, "$0.155/kWh", 0.155},
		{units.PricePerKWh, "0.30 €/kWh", 0.30},
		{units.PricePerKWh, "USD 0.155 per kWh", 0.155},
		{units.PricePerKWh, "12 c/kWh", 0.12},
		{units.PricePerKWh, "15.5¢/kWh", 0.155},
		{units.PricePerKWh, "12 cents per kWh", 0.12},
		{units.PricePerKWh, "28 p/kWh", 0.28},
		{units.PricePerKWh, "155 $/MWh", 0.155},
		{units.PricePerVolume, "0.0032 /gal", 3.2 / 3.785411784},
		{units.PricePerVolume, "$0.0032 per gallon", 3.2 / 3.785411784},
		{units.PricePerVolume, "$3.20/1,000 gallons", 3.2 / 3.785411784},
		{units.PricePerVolume, "0.32 c/gal", 3.2 / 3.785411784},
		{units.PricePerVolume, "2.10 €/m³", 2.1},
		{units.PricePerVolume, "A$3.1/kL", 3.1},
		{units.PricePerVolume, "$4.21/HCF", 4.21 / 2.8316846592},
		{units.Money, "$3,500", 3500},
		{units.Money, "₹ 9,000", 9000},
		{units.Years, "15", 15},
		{units.Years, "15 yr", 15},
		{units.Share, "0.8", 0.8},
		{units.Share, "80 %", 0.8},
		{units.Plain, "+3", 3},
		{units.Money, "3,500", 3500},
	} {
		got, err := units.Parse(r.kind, r.text)
		if assert.NoError(t, err, r.text) {
			assert.InDelta(t, r.want, got, 1e-9*(1+math.Abs(r.want)), r.text)
		}
	}
}

func TestCurrency(t *testing.T) {
	for text, want := range map[string]string{"$3,500": "$", "0.30 €/kWh": "€", "12 c/kWh": "", "aud 9": "AUD", "78 F": ""} {
		assert.Equal(t, want, units.Currency(text), text)
	}
}

func TestParseRefuses(t *testing.T) {
	for _, r := range []struct {
		kind       units.Kind
		text, want string
	}{
		{units.Altitude, "5280", "5280 has no unit\nhint: write 5280ft or 5280m"},
		{units.Temperature, "0", "0 has no unit\nhint: write 0°F or 0°C"},
		{units.Altitude, "5430 lb", "\"lb\" is not a unit of altitude\nhint: use m, ft or km"},
		{units.Temperature, "300 K", "\"K\" is not a unit of temperature\nhint: use °C or °F"},
		{units.Plain, "3 m", "\"3 m\" has a unit, but a number takes none\nhint: write 3"},
		{units.Plain, "3 %", "\"3 %\" has a unit, but a number takes none\nhint: write 3"},
		{units.Altitude, "", "no value given\nhint: write for example 3ft or 3m"},
		{units.Altitude, "high", "\"high\" does not start with a number\nhint: write for example 3ft or 3m"},
		{units.Plain, "NaN", "\"NaN\" does not start with a number\nhint: write for example 3"},
		{units.Plain, "-Inf", "\"-Inf\" does not start with a number\nhint: write for example 3"},
		{units.Plain, "0x10", "\"0 x10\" has a unit, but a number takes none\nhint: write 0"},
		{units.Plain, "1e999", "\"1e999\" is too large a number"},
		{units.Altitude, "1e306km", "\"1e306km\" is too large a number"},
		{units.Altitude, "54,30ft", "\"54,30\" has a misplaced comma\nhint: write decimals with a point, thousands as 5,430 or 5430"},
		{units.Altitude, "5430,ft", "\"5430,\" has a misplaced comma\nhint: write decimals with a point, thousands as 5,430 or 5430"},
		{units.Plain, "0,8", "\"0,8\" has a misplaced comma\nhint: write decimals with a point, thousands as 5,430 or 5430"},
		{units.Text, "3", "text is not a quantity with a unit"},
	} {
		_, err := units.Parse(r.kind, r.text)
		if assert.Error(t, err, r.text) {
			assert.Equal(t, r.want, hint.Text(err))
		}
	}
}

// Values inside the program are those of Unit(SI).
func TestSIUnitIsTheIdentity(t *testing.T) {
	for _, k := range all() {
		u := k.Unit(units.SI)
		assert.Equal(t, 1.0, u.Scale, k)
		assert.Zero(t, u.Offset, k)
		assert.Equal(t, "Si_x", u.FromSICell("Si_x"), k)
		assert.NotEmpty(t, k.String())
		for _, sys := range units.Systems {
			assert.NotEmpty(t, k.Unit(sys).Format, k)
		}
	}
	assert.Panics(t, func() { _ = (units.MassPerEnergy + 1).String() }, "all() must end with the last kind")
}

// A unit that is shown must be one that is read, and mean the same.
func TestSymbolsAreRead(t *testing.T) {
	for _, k := range numeric() {
		for _, sys := range units.Systems {
			u := k.Unit(sys)
			got, err := units.Parse(k, "12.5 "+u.Symbol)
			if assert.NoError(t, err, "%s %s", k, u.Symbol) {
				assert.InEpsilon(t, u.ToSI(12.5), got, 1e-14, "%s %s", k, u.Symbol)
				assert.InEpsilon(t, u.FromSI(got), got*u.Scale+u.Offset, 1e-14, "%s: Scale and Offset", k)
			}
		}
		for _, s := range k.Accepted() {
			_, err := units.Parse(k, "1"+s)
			assert.NoError(t, err, "%s %s", k, s)
		}
	}
}

func TestCells(t *testing.T) {
	f := units.Temperature.Unit(units.IP)
	assert.Equal(t, "Si_t*1.8+32", f.FromSICell("Si_t"))
	assert.Equal(t, "(In_t-32)/1.8", f.ToSICell("In_t"))
	ft := units.Altitude.Unit(units.IP)
	assert.Equal(t, "Si_z/0.3048", ft.FromSICell("Si_z"))
	assert.Equal(t, "In_z*0.3048", ft.ToSICell("In_z"))
	kgal := units.PricePerVolume.Unit(units.IP)
	assert.Equal(t, "Si_p*3.785411784", kgal.FromSICell("Si_p"))
	assert.Equal(t, "In_p/3.785411784", kgal.ToSICell("In_p"))
}

func TestShow(t *testing.T) {
	for _, r := range []struct {
		kind units.Kind
		si   float64
		sys  units.System
		want string
	}{
		{units.Altitude, 1655.064, units.IP, "5,430 ft"},
		{units.Altitude, -430, units.SI, "-430 m"},
		{units.Temperature, 230.0 / 9, units.IP, "78.0 °F"},
		{units.Temperature, -0.01, units.SI, "0.0 °C"},
		{units.Share, 0.8049, units.SI, "80.5 %"},
		{units.Plain, 3, units.IP, "3"},
		{units.Plain, 11.9262, units.IP, "11.9262"},
		{units.Money, 1234567.8, units.SI, "1,234,568"},
	} {
		assert.Equal(t, r.want, r.kind.Show(r.si, r.sys))
	}
	assert.Equal(t, "-1,410 to 14,700 ft", units.Altitude.Range(-430, 4500, units.IP))
	assert.Equal(t, "5430 ft", units.Altitude.Text(1655.064, units.IP))
	assert.Equal(t, "78 °F", units.Temperature.Text(230.0/9, units.IP))
}

func TestParseSystem(t *testing.T) {
	for text, want := range map[string]units.System{"si": units.SI, "IP": units.IP, " ip ": units.IP} {
		got, err := units.ParseSystem(text)
		require.NoError(t, err)
		assert.Equal(t, want, got)
	}
	_, err := units.ParseSystem("metric")
	assert.Equal(t, "\"metric\" is not a unit system\nhint: write si or ip", hint.Text(err))
}

// What Text writes, Parse reads back to its twelve digits.
func TestRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := rapid.SampledFrom(numeric()).Draw(t, "kind")
		sys := rapid.SampledFrom(units.Systems[:]).Draw(t, "system")
		v := rapid.Float64Range(-1e6, 1e6).Draw(t, "value")
		u := k.Unit(sys)
		back, err := units.Parse(k, k.Text(v, sys))
		if err != nil {
			t.Fatalf("%s: %v", k.Text(v, sys), err)
		}
		// Half a unit in the twelfth digit of the number shown, in SI, with
		// room for the rounding of the conversion itself.
		if tolerance := 6e-12*math.Abs(u.FromSI(v))/u.Scale + 1e-300; math.Abs(back-v) > tolerance {
			t.Fatalf("%s: %v became %v", k.Text(v, sys), v, back)
		}
	})
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{"5430ft", "78 °F", "1,2,3", "1e5e5m", "--3", "6 per 1000 gal", "3\u00a0ft", "٣ m", "\xff"} {
		for _, k := range []units.Kind{units.Altitude, units.Temperature, units.Plain, units.PricePerVolume} {
			f.Add(int(k), s)
		}
	}
	kinds := numeric()
	f.Fuzz(func(t *testing.T, kind int, text string) {
		k := kinds[uint(kind)%uint(len(kinds))]
		v, err := units.Parse(k, text)
		if err == nil && (math.IsNaN(v) || math.IsInf(v, 0)) {
			t.Errorf("%q gave %v", text, v)
		}
		if err != nil && strings.TrimSpace(err.Error()) == "" {
			t.Errorf("%q: empty error", text)
		}
	})
}

// Sums of money and unit prices carry the sign of a currency; nothing else does,
// and without a sign nothing changes.
func TestPriced(t *testing.T) {
	for _, k := range all() {
		plain := k.Unit(units.IP)
		assert.Equal(t, plain, k.Priced(units.IP, ""))
		switch priced := k.Priced(units.IP, "€"); k {
		case units.Money:
			assert.Equal(t, `"€"`+plain.Format, priced.Format)
			assert.Equal(t, plain.Symbol, priced.Symbol)
		case units.PricePerKWh, units.PricePerVolume:
			assert.Equal(t, "€"+plain.Symbol, priced.Symbol)
		default:
			assert.Equal(t, plain, priced)
		}
	}
}
