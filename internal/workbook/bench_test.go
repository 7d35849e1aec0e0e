package workbook

import (
	"bytes"
	"io"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/workbook/figures"
)

// BenchmarkWrite is the workbook of the sample year, written to nowhere. Beside
// it stand the part of it that computes the what-if variants, and a bare writer
// of the same cells, in one thread and with formatting beside compressing as the
// workbook has it; "ratio" does them in turn and compares. BenchmarkCompute is
// what comes before, from the file's hours to the money.
func BenchmarkWrite(b *testing.B) {
	c := benchmarkCase(b)
	run := func(name string, f func() error) {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				require.NoError(b, f())
			}
		})
	}
	run("full", func() error { return Write(io.Discard, c) })
	run("whatif", func() error { return computeVariants(c) })
	var file bytes.Buffer
	require.NoError(b, Write(&file, c))
	sheets := bareOf(b, file.Bytes())
	run("bare", func() error { return writeBare(io.Discard, sheets, false) })
	run("bare_piped", func() error { return writeBare(io.Discard, sheets, true) })
	b.Run("ratio", func(b *testing.B) { benchmarkBeside(b, c, sheets) })
}

func BenchmarkCompute(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		benchmarkCase(b)
	}
}

func benchmarkCase(b *testing.B) *figures.Case {
	b.Helper()
	s := readSample(b)
	j := job.New()
	require.NoError(b, j.Resolve(s.Station.Name, s.Station.Elevation, s.Station.Region()))
	c, err := figures.Compute(s, j, units.IP, "benchmark")
	require.NoError(b, err)
	return c
}
