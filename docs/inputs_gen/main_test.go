package main

import (
	"bytes"
	"os"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"
)

func TestInputsPageIsUpToDate(t *testing.T) {
	got, err := os.ReadFile("../inputs.md")
	require.NoError(t, err)
	var want bytes.Buffer
	write(&want)
	if diff := cmp.Diff(want.String(), string(bytes.ReplaceAll(got, []byte("\r\n"), []byte("\n")))); diff != "" {
		t.Errorf("docs/inputs.md is out of date (run go run ./docs/inputs_gen):\n%s", diff)
	}
}
