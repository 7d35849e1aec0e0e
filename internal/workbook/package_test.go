package workbook

import (
	"archive/zip"
	"encoding/xml"
	"errors"
	"io"
	"path"
	"testing"

	"github.com/stretchr/testify/require"
)

// Every part of a real workbook is well-formed, with elements closed and no
// attribute twice. The causes of a repair prompt that lie deeper are listed in
// docs/recalculation.md with the test that catches each.
func TestPartsAreWellFormed(t *testing.T) {
	z, err := zip.OpenReader(writeBook(t, bookKinds[0].compute(t, fourWeeks)))
	require.NoError(t, err)
	defer z.Close()
	require.Greater(t, len(z.File), 40)
	for _, f := range z.File {
		if ext := path.Ext(f.Name); ext != ".xml" && ext != ".rels" && ext != ".vml" {
			continue
		}
		r, err := f.Open()
		require.NoError(t, err)
		d := xml.NewDecoder(r)
		for {
			token, err := d.Token()
			if errors.Is(err, io.EOF) {
				break
			}
			require.NoError(t, err, f.Name)
			if e, ok := token.(xml.StartElement); ok {
				seen := map[xml.Name]bool{}
				for _, a := range e.Attr {
					require.False(t, seen[a.Name], "%s: <%s> has %s twice", f.Name, e.Name.Local, a.Name.Local)
					seen[a.Name] = true
				}
			}
		}
		require.NoError(t, r.Close())
	}
}
