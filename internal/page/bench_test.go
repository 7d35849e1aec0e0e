package page

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/require"
)

// BenchmarkAnswer is one change on the page: of the setpoint, at one site.
func BenchmarkAnswer(b *testing.B) {
	var p Page
	ask := func(name string, args any) {
		text, err := json.Marshal(args)
		require.NoError(b, err)
		result, _, ok := p.Call(name, text, nil)
		require.True(b, ok, "%s: %s", name, result)
	}
	ask("weather", Source{Kind: "sample"})
	setpoints := []string{"78 °F", "79 °F"}
	for i := 0; b.Loop(); i++ {
		ask("answer", Question{Units: "ip", Inputs: map[string]string{"house.setpoint": setpoints[i%2]}})
	}
}
