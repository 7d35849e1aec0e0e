package csvcell_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/internal/csvcell"
)

func TestHarmless(t *testing.T) {
	for _, c := range []string{"", "Boise", "-12.5", "+3", "-1e-05", ".5", "-", "12", "a=b", "1-2"} {
		assert.Equal(t, c, csvcell.Harmless(c))
	}
	for _, c := range []string{"=1+1", "+A1", "-A1", "@SUM(A1)", "\t=1", "\r=1", "\n=1", "＝1", "-1+cmd", "--1", "=HYPERLINK(\"x\")", "+", "-1e", "- 1"} {
		assert.Equal(t, "'"+c, csvcell.Harmless(c))
	}
}

func TestMarshal(t *testing.T) {
	rows := []struct {
		Site string  `csv:"site"`
		T    float64 `csv:"t"`
		None *string `csv:"none"`
	}{{`=cmd|'/c calc'!A1`, -3.5, nil}}
	var safe, raw strings.Builder
	require.NoError(t, csvcell.Marshal(rows, &safe, false))
	require.NoError(t, csvcell.Marshal(rows, &raw, true))
	assert.Equal(t, "site,t,none\n'=cmd|'/c calc'!A1,-3.5,\n", safe.String())
	assert.Equal(t, "site,t,none\n=cmd|'/c calc'!A1,-3.5,\n", raw.String())
}
