package workbook

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/internal/officetest"
)

// LibreOffice and Gnumeric, which nobody here wrote and which share no code,
// work one book of each kind out to the values in the file: four weeks of each
// kind of weather and all of the sample's year. make recalc has the whole years
// of all of them.
func TestOtherProgramsAgree(t *testing.T) {
	heavy(t, officetest.LibreOffice, officetest.GnumericConvert)
	files := map[string]string{"sample": writeBook(t, bookKinds[0].compute(t, everyHour))}
	for _, k := range bookKinds[1:] {
		which := fourWeeks
		if k.years { // a year of four weeks is none
			which = everyHour
		}
		files[k.name] = writeBook(t, k.compute(t, which))
	}
	t.Run("Gnumeric", func(t *testing.T) {
		t.Parallel()
		for name, file := range files {
			t.Run(name, func(t *testing.T) { gnumericAgrees(t, file) })
		}
	})
	t.Run("LibreOffice", func(t *testing.T) {
		t.Parallel()
		s, err := officetest.Open(files["sample"])
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
