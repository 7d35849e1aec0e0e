package page

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// BenchmarkAnswer is one change on the page: of the setpoint, at one site.
func BenchmarkAnswer(b *testing.B) {
	var p Page
	must[Opened](b, &p, "weather", Source{Kind: "sample"}, nil)
	setpoints := []string{"78 °F", "79 °F"}
	for i := 0; b.Loop(); i++ {
		result, _, ok := call(b, &p, "answer", Question{Units: "ip", Inputs: map[string]string{"house.setpoint": setpoints[i%2]}}, nil)
		require.True(b, ok, "%s", result)
	}
}
