package workbook

import (
	"io"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/units"
)

// BenchmarkWrite is the workbook of the sample year, written to nowhere;
// BenchmarkCompute is what comes before it, from the file's hours to the money.
func BenchmarkWrite(b *testing.B) {
	c := benchmarkCase(b)
	b.ReportAllocs()
	for b.Loop() {
		require.NoError(b, c.Write(io.Discard))
	}
}

func BenchmarkCompute(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		benchmarkCase(b)
	}
}

func benchmarkCase(b *testing.B) *Case {
	b.Helper()
	s := readSample(b)
	j := job.New()
	require.NoError(b, j.Resolve(s.Station.Name, s.Station.Elevation))
	c, err := Compute(s, j, units.IP, "benchmark")
	require.NoError(b, err)
	return c
}
