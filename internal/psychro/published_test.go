package psychro_test

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/internal/psychro"
)

// Exact conversions of the inch-pound examples (NIST SP 811, B.8), and the
// pound-force per square inch to the digits of the same table.
const (
	pascalPerPSI  = 6894.757293168
	joulePerBtuLb = 2326.0
	cubicFootLb   = 0.028316846592 / 0.45359237
)

// publishedChecked is how many of the 265 rows have a counterpart here; the
// test fails when a row drops out.
const (
	publishedRows    = 265
	publishedChecked = 250
)

// noCounterpart says why a row cannot be checked against this package.
func noCounterpart(r record) string {
	switch {
	case r["psychrolib_value"] == "":
		return "real gas, or liquid at 0 °C: no perfect-gas counterpart"
	case r["quantity"] == "temperature":
		return "the standard atmosphere's temperature is not in this package"
	}
	return ""
}

// Source: testdata/psychro/psychro-published.csv, whose columns name the
// document, table and row of each value and how far a perfect-gas
// implementation may be from it.
func TestPublished(t *testing.T) {
	rows := readReference(t, "psychro-published.csv")
	require.Len(t, rows, publishedRows)
	checked := 0
	for _, r := range rows {
		if noCounterpart(r) != "" {
			continue
		}
		got, err := published(r)
		if err != nil {
			t.Errorf("%s, %s, %s, %s: %v", r["source"], r["table"], r["row"], r["quantity"], err)
			continue
		}
		checked++
		want, tolerance := r.number(t, "value"), r.number(t, "tolerance")
		if d := got - want; !(d <= tolerance && d >= -tolerance) {
			t.Errorf("%s, %s, %s: %s(%s) = %.10g, want %.10g ± %.2g", r["source"], r["table"], r["row"], r["quantity"], r["inputs"], got, want, tolerance)
		}
	}
	require.Equal(t, publishedChecked, checked)
}

// inputs are the semicolon-separated assignments of a row, in SI.
type inputs map[string]float64

func parseInputs(s string) inputs {
	in := inputs{}
	for _, part := range strings.Split(s, ";") {
		name, value, _ := strings.Cut(part, "=")
		v, err := strconv.ParseFloat(value, 64)
		if err != nil {
			continue // phase=ice, phase=liquid: follows from the temperature
		}
		switch {
		case strings.HasSuffix(name, "_f"):
			name, v = strings.TrimSuffix(name, "_f")+"_c", (v-32)/1.8
		case name == "pressure_psi":
			name, v = "pressure_pa", v*pascalPerPSI
		}
		in[name] = v
	}
	return in
}

func (in inputs) air() (psychro.Air, error) {
	p, ok := in["pressure_pa"]
	if !ok {
		p = psychro.SeaLevelPressure // enthalpy from t and W needs none
	}
	t, ok := in["tdb_c"]
	if !ok {
		t = in["dew_point_c"] // saturated
	}
	if v, ok := in["wet_bulb_c"]; ok {
		return psychro.FromWetBulb(t, v, p)
	}
	if v, ok := in["rh_pct"]; ok {
		return psychro.FromRelHum(t, v/100, p)
	}
	if v, ok := in["dew_point_c"]; ok {
		return psychro.FromDewPoint(t, v, p)
	}
	if v, ok := in["humidity_ratio"]; ok {
		return psychro.FromHumidityRatio(t, v, p)
	}
	return psychro.Air{}, fmt.Errorf("no humidity in %v", in)
}

// published computes the quantity of a row in the row's unit.
func published(r record) (float64, error) {
	in := parseInputs(r["inputs"])
	switch r["quantity"] {
	case "pressure":
		return psychro.StandardPressure(in["altitude_m"])
	case "saturation vapour pressure", "sublimation pressure":
		return psychro.SaturationPressure(in["t_c"]), nil
	}
	a, err := in.air()
	if r["row"] == "Example 4 mixture" {
		a, err = exampleFour()
	}
	if err != nil {
		return 0, err
	}
	return property(a, r["quantity"], r["units"])
}

func property(a psychro.Air, quantity, unit string) (float64, error) {
	var v float64
	var err error
	switch strings.TrimSuffix(strings.TrimSuffix(quantity, " saturated"), " dry") {
	case "dry bulb":
		v = a.T
	case "wet bulb":
		v, err = a.WetBulb()
	case "dew point":
		v, err = a.DewPoint()
	case "humidity ratio", "saturation humidity ratio":
		v = a.W
	case "relative humidity":
		v = 100 * a.RelHum()
	case "enthalpy":
		v = a.Enthalpy()
	case "specific volume":
		v = a.Volume()
	case "vapour pressure":
		v = a.VapourPressure()
	default:
		return 0, errors.New("unknown quantity")
	}
	switch unit {
	case "F":
		v = 1.8*v + 32
	case "Btu/lb_da":
		// The inch-pound scale counts dry air from 0 °F, 17.78 K lower.
		v = (v + 1006*32/1.8) / joulePerBtuLb
	case "ft3/lb_da":
		v /= cubicFootLb
	}
	return v, err
}

// exampleFour mixes 2 m³/s of air of 4 °C dry and 2 °C wet bulb with
// 6.25 m³/s of 25 °C and 50 % at sea level, adiabatically: the balances of
// dry air, water and enthalpy of ASHRAE Fundamentals ch. 1 "Adiabatic Mixing
// of Two Moist Airstreams".
func exampleFour() (psychro.Air, error) {
	cold, err := psychro.FromWetBulb(4, 2, psychro.SeaLevelPressure)
	if err != nil {
		return cold, err
	}
	warm, err := psychro.FromRelHum(25, 0.50, psychro.SeaLevelPressure)
	if err != nil {
		return warm, err
	}
	m1, m2 := 2/cold.Volume(), 6.25/warm.Volume()
	w := (m1*cold.W + m2*warm.W) / (m1 + m2)
	h := (m1*cold.Enthalpy() + m2*warm.Enthalpy()) / (m1 + m2)
	t := (h - 2501e3*w) / (1006 + 1860*w) // eq. 30 solved for t
	return psychro.FromHumidityRatio(t, w, psychro.SeaLevelPressure)
}

// Standard air is dry air of 70 °F at sea level, 0.075 lb/ft³ (ASHRAE
// Fundamentals 2017 ch. 1), which is written as 1.2 kg/m³.
func TestStandardAir(t *testing.T) {
	air := psychro.Air{T: (70 - 32) / 1.8, P: psychro.SeaLevelPressure}
	require.InDelta(t, psychro.StandardDensity, 1/air.Volume(), 0.002)
	require.InDelta(t, psychro.StandardDensity, 0.075/cubicFootLb, 0.002)
}
