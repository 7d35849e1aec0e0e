package readback

import (
	"archive/zip"
	"bytes"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/workbook/figures"
	"github.com/evapbook/evapbook/internal/xlsx"
)

// bookPart is a part of a real workbook, unpacked.
type bookPart struct {
	name string
	data []byte
}

func unpacked(t testing.TB, path string) []bookPart {
	t.Helper()
	z, err := zip.OpenReader(path)
	require.NoError(t, err)
	defer z.Close()
	var parts []bookPart
	for _, f := range z.File {
		r, err := f.Open()
		require.NoError(t, err)
		data, err := io.ReadAll(r)
		require.NoError(t, err)
		if strings.Contains(f.Name, "chart") || strings.Contains(f.Name, "drawing") {
			continue // not read, and slow to pack
		}
		parts = append(parts, bookPart{f.Name, data})
	}
	return parts
}

func packed(t testing.TB, parts []bookPart) string {
	t.Helper()
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	for _, p := range parts {
		w, err := z.CreateHeader(&zip.FileHeader{Name: p.name, Method: zip.Store})
		require.NoError(t, err)
		_, err = w.Write(p.data)
		require.NoError(t, err)
	}
	require.NoError(t, z.Close())
	path := filepath.Join(t.TempDir(), "b.xlsx")
	require.NoError(t, os.WriteFile(path, b.Bytes(), 0o600))
	return path
}

// FuzzBook changes the parts of a real workbook: some bytes of one part are
// taken out and others put in. Whatever comes of it is read, or refused with
// the name of the file, without panic.
func FuzzBook(f *testing.F) {
	parts := unpacked(f, written(f, units.IP, map[string]string{"site.altitude": "6000ft"}, func(c *figures.Case) { c.ValuesOnly = true }))
	for i, p := range parts {
		f.Add(uint8(i), uint32(len(p.data)/2), uint16(1), []byte("<"))
	}
	f.Add(uint8(0), uint32(0), uint16(65535), []byte{})
	f.Fuzz(func(t *testing.T, part uint8, at uint32, out uint16, in []byte) {
		changed := append([]bookPart(nil), parts...)
		p := &changed[int(part)%len(changed)]
		from := int(at) % (len(p.data) + 1)
		to := min(len(p.data), from+int(out))
		p.data = bytes.Join([][]byte{p.data[:from], in, p.data[to:]}, nil)
		path := packed(t, changed)
		b, err := Read(path)
		if err != nil {
			if !strings.HasPrefix(err.Error(), path) {
				t.Fatalf("no name of the file: %v", err)
			}
			return
		}
		if err := b.Job.Clone().Resolve("X", 100, ""); err != nil && err.Error() == "" {
			t.Fatal("an error without words")
		}
	})
}

// Text in a cell is a number as on the command line: as people write it.
func TestHexadecimalIsNoNumber(t *testing.T) {
	in, ok := job.Find("house.people")
	require.True(t, ok)
	for _, bad := range []string{"0x1p2", "0x10", "inf", "1_000"} {
		r := &reader{book: &Book{Job: job.New(), Units: units.SI}}
		require.Error(t, r.state(in, xlsx.Found{Value: bad}), bad)
	}
	r := &reader{book: &Book{Job: job.New(), Units: units.SI}}
	require.Error(t, r.state(in, xlsx.Found{Value: "abc"}))
}
