package ranking

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/internal/hint"
	"github.com/evapbook/evapbook/internal/units"
)

func TestParseAxis(t *testing.T) {
	for _, c := range []struct {
		text, column string
		want         []string // in IP
	}{
		{"cooler.effectiveness=0.6:0.95:0.05", "cooler_effectiveness", []string{"0.6", "0.65", "0.7", "0.75", "0.8", "0.85", "0.9", "0.95"}},
		{"cooler.airflow=3000cfm:4000cfm:500cfm", "cooler_airflow_m3_s", []string{"3000 cfm", "3500 cfm", "4000 cfm"}},
		{"house.setpoint=76F:80F:2F", "house_setpoint_c", []string{"76 °F", "78 °F", "80 °F"}},
		{"house.setpoint=80F:76F:-2F", "house_setpoint_c", []string{"80 °F", "78 °F", "76 °F"}},
		{"cooler.effectiveness=0.6:0.79:0.1", "cooler_effectiveness", []string{"0.6", "0.7"}},
		{"cooler.effectiveness = 0.7, 85 %", "cooler_effectiveness", []string{"0.7", "0.85"}},
		{"cooler.water_care=bleed,none", "cooler_water_care", []string{"bleed", "none"}},
	} {
		a, err := ParseAxis(c.text)
		require.NoError(t, err, c.text)
		assert.Equal(t, c.column, a.Column())
		var got []string
		for _, v := range a.Values {
			got = append(got, a.Text(v, units.IP))
		}
		assert.Equal(t, c.want, got, c.text)
	}
}

func TestParseAxisRefuses(t *testing.T) {
	for text, want := range map[string]string{
		"cooler.effectiveness":               "no = between",
		"cooler.effectivness=0.6":            "cooler.effectiveness", // the hint
		"cooler.effectiveness=0.6:0.9":       "not from:to:step",
		"cooler.effectiveness=0.6:0.9:0":     "does not lead",
		"cooler.effectiveness=0.6:0.9:-0.1":  "does not lead",
		"cooler.effectiveness=0.6:1.9:0.1":   "outside",
		"cooler.effectiveness=0.6:0.9:1e-9":  "does not lead",
		"cooler.airflow=3000:4000:500":       "unit",
		"cooler.kind=direct":                 "all kinds",
		"cooler.water_care=sometimes":        "not a choice",
		"cooler.effectiveness=0.6:0.9:0.1:2": "not from:to:step",
	} {
		_, err := ParseAxis(text)
		assert.Contains(t, hint.Text(err), want, text)
	}
}

func TestCombinations(t *testing.T) {
	two, three := Axis{Key: "a", Values: []Value{{SI: 1}, {SI: 2}}}, Axis{Key: "b", Values: []Value{{SI: 3}, {SI: 4}, {SI: 5}}}
	all, err := combinations([]Axis{two, three})
	require.NoError(t, err)
	require.Len(t, all, 6)
	assert.Equal(t, []Value{{SI: 1}, {SI: 3}}, all[0])
	assert.Equal(t, []Value{{SI: 1}, {SI: 5}}, all[2])
	assert.Equal(t, []Value{{SI: 2}, {SI: 3}}, all[3])
	_, err = combinations([]Axis{two, two})
	assert.ErrorContains(t, err, "twice")
	many := Axis{Key: "c", Values: make([]Value, maxCombinations)}
	_, err = combinations([]Axis{two, many})
	assert.ErrorContains(t, err, "combinations")
}
