package cli_test

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/internal/cli"
)

// The JSON of a reading has the keys other programs count on, with the figures
// of the printed one.
func TestReadingJSON(t *testing.T) {
	var out, complaints bytes.Buffer
	status := cli.Run(strings.Fields("reading --altitude 6035ft --outdoor 91F --rh 14% --supply 66F --json"), strings.NewReader(""), &out, &complaints)
	require.Zero(t, status, complaints.String())
	var got map[string]any
	require.NoError(t, json.Unmarshal(out.Bytes(), &got))
	for key, want := range map[string]float64{
		"wet_bulb_c": (58.1 - 32) / 1.8, "effectiveness": 0.76, "effectiveness_low": 0.71, "effectiveness_high": 0.81,
		"expected_supply_c": (66.8 - 32) / 1.8, "gap_k": -0.8 / 1.8,
	} {
		require.InDelta(t, want, got[key], 0.05, key)
	}
	require.Equal(t, "good", got["verdict"])
	out.Reset()
	cli.Run(strings.Fields("reading --altitude 0ft --outdoor 77F --rh 100% --supply 77F --json"), strings.NewReader(""), &out, &complaints)
	got = nil
	require.NoError(t, json.Unmarshal(out.Bytes(), &got), "saturated air has no effectiveness, and NaN is not JSON")
	require.Nil(t, got["effectiveness"])
	require.Equal(t, "cannot tell", got["verdict"])
}
