package main

import (
	"bytes"
	"io"
	"runtime"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/data/sample"
)

// The committed file must be what the program writes, to the byte.
func TestWriteGivesTheCommittedFile(t *testing.T) {
	if runtime.GOARCH != "amd64" {
		t.Skip("SKIPPED: fused multiply-add on", runtime.GOARCH, "may round a last digit the other way")
	}
	r, _ := sample.Open()
	want, err := io.ReadAll(r)
	require.NoError(t, err)
	var got bytes.Buffer
	require.NoError(t, write(&got))
	assert.True(t, bytes.Equal(want, got.Bytes()), "run go generate ./data/sample")
}
