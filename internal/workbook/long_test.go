//go:build long

package workbook

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/internal/officetest"
	"github.com/evapbook/evapbook/internal/units"
)

// The long sets, for make recalc: whole years in LibreOffice and Gnumeric, and
// changed inputs on real sites, typed into the book open in LibreOffice. The
// short tests hold the same books against package evaluator. These programs use
// one processor each, so two sets run side by side.

func TestLongAsWritten(t *testing.T) {
	t.Parallel()
	officetest.Heavy(t, officetest.LibreOffice, officetest.GnumericConvert)
	var s *officetest.Session
	for _, k := range []bookKind{bookKinds[1], bookKinds[3], bookKinds[len(bookKinds)-1]} {
		t.Run(k.name, func(t *testing.T) {
			file := writeBook(t, k.compute(t, everyHour))
			var err error
			if s == nil {
				s, err = officetest.Open(file)
			} else {
				err = s.Load(file)
			}
			require.NoError(t, err)
			report, err := s.Check(officetest.DefaultTolerance)
			require.NoError(t, err)
			agrees(t, report)
			gnumericAgrees(t, file)
		})
	}
	require.NoError(t, s.Close())
}

const casesPerSite = 5

// siteResult is a line of the table in docs/recalculation.md.
type siteResult struct {
	recalcResult
	site  string
	units units.System
}

func TestLongChangedInputs(t *testing.T) {
	t.Parallel()
	officetest.Heavy(t, officetest.LibreOffice)
	var results []siteResult
	for _, site := range realSites {
		t.Run(site.name, func(t *testing.T) {
			series := readShared(t, site.file)
			base := compute(t, series, site.units, nil)
			path := writeBook(t, base)
			written := readBook(t, path)
			s, err := officetest.Open(path)
			require.NoError(t, err)
			defer s.Close()
			formulas := func() (officetest.Outcome, error) { return s.Formulas() }
			for k := range casesPerSite {
				c := draw(site.seed, k, series.Station.Elevation)
				t.Run(fmt.Sprint(k+1), func(t *testing.T) {
					r := changedCase(t, s, formulas, "LibreOffice", base, written, c)
					results = append(results, siteResult{r, site.name, site.units})
				})
			}
		})
	}
	writeTable(t, results)
}
