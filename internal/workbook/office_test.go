//go:build long

package workbook

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/internal/officetest"
)

// LibreOffice and Gnumeric, which nobody here wrote and which share no code,
// work a book of four weeks of each kind of weather out to the values in the file;
// TestLongAsWritten has the book of several years, of which four weeks are none.
func TestLongEveryKind(t *testing.T) {
	t.Parallel()
	heavy(t, officetest.LibreOffice, officetest.GnumericConvert)
	files := map[string]string{}
	for _, k := range bookKinds {
		if !k.years {
			files[k.name] = writeBook(t, k.compute(t, fourWeeks))
		}
	}
	t.Run("Gnumeric", func(t *testing.T) {
		t.Parallel()
		for name, file := range files {
			t.Run(name, func(t *testing.T) { gnumericAgrees(t, file) })
		}
	})
	t.Run("LibreOffice", func(t *testing.T) {
		t.Parallel()
		s, err := officetest.Open(files[bookKinds[0].name])
		require.NoError(t, err)
		defer s.Close()
		for name, file := range files {
			t.Run(name, func(t *testing.T) {
				require.NoError(t, s.Load(file))
				report, err := s.Check(officetest.DefaultTolerance)
				require.NoError(t, err)
				agrees(t, report)
			})
		}
	})
}

// lackedByGnumeric are the functions the second engine may lack. There are
// none: a function that is not in all programs is not to be used.
var lackedByGnumeric []string

func gnumericAgrees(t *testing.T, file string) {
	results, err := officetest.Gnumeric(file)
	require.NoError(t, err)
	b := readBook(t, file)
	assert.Equal(t, lackedByGnumeric, officetest.LackingFunctions(b, results))
	agrees(t, officetest.Compare(b, "Gnumeric", results, officetest.DefaultTolerance))
}
