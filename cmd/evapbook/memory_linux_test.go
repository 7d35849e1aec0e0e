package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The program as it is released needs no more than 1.5 GB of address space, of
// which Go takes 1.2 GB before main begins. With the C library it would need
// more: that one sets 64 MB apart for each thread. Two threads work, as on a
// small machine; each further one of rank takes what it works with.
func TestUnderALimitOfAddressSpace(t *testing.T) {
	const limit = "1500000" // kB
	folder := t.TempDir()
	program := filepath.Join(folder, "evapbook")
	build := exec.Command("go", "build", "-o", program, ".")
	build.Env = append(os.Environ(), "CGO_ENABLED=0")
	out, err := build.CombinedOutput()
	require.NoError(t, err, "%s", out)
	weather, err := os.ReadFile("../../data/sample/ostrel-flat.csv")
	require.NoError(t, err)
	require.NoError(t, os.Mkdir(filepath.Join(folder, "sites"), 0o755))
	require.NoError(t, os.WriteFile(filepath.Join(folder, "sites", "a.csv"), weather, 0o644))
	run := func(args ...string) {
		limited := exec.Command("sh", append([]string{"-c", "ulimit -v " + limit + ` && exec "$0" "$@"`, program}, args...)...)
		limited.Dir = folder
		limited.Env = append(os.Environ(), "GOMAXPROCS=2")
		out, err := limited.CombinedOutput()
		assert.NoError(t, err, "%q: %.2000s", args, out)
	}
	run("write", "-q", "-o", "a.xlsx")
	run("write", "-q", "--from", "a.xlsx", "-o", "b.xlsx")
	run("rank", "sites", "-q", "-o", "sites.xlsx", "--parquet", "part.parquet")
	run("rank", "--join", "part.parquet", "-q", "--csv", "sites.csv")
}
