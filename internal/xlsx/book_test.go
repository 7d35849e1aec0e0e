package xlsx_test

import (
	"os"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestSameBytes(t *testing.T) {
	first := written(t, demo(365))
	for range 5 {
		require.True(t, string(first) == string(written(t, demo(365))), "bytes differ between two writes of equal books")
	}
	book := demo(365)
	written(t, book)
	require.True(t, string(first) == string(written(t, book)), "a book cannot be written twice")
	if name := os.Getenv("XLSX_DEMO"); name != "" {
		require.NoError(t, os.WriteFile(name, first, 0o644))
	}
}
