package cli

import (
	"encoding/json"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A town's state reaches the price of electricity: EIA, Electric Power Annual
// 2023, residential average (job.TestPriceByState).
func TestPriceOfATownsState(t *testing.T) {
	var figures struct {
		Energy struct {
			Refrigerated float64 `json:"refrigerated_kwh"`
		}
		Money struct{ Refrigerated struct{ Energy float64 } }
	}
	out := done(t, "write", "--place", "Phoenix, AZ", "--values", "--json", "-q", "-o", filepath.Join(t.TempDir(), "house.xlsx"))
	require.NoError(t, json.Unmarshal([]byte(out), &figures))
	assert.InEpsilon(t, 0.1402, figures.Money.Refrigerated.Energy/figures.Energy.Refrigerated, 1e-9)
}
