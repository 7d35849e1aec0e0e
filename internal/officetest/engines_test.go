package officetest

import (
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestGnumericAgrees(t *testing.T) {
	Require(t, GnumericConvert)
	r, err := CheckGnumeric(standIn{hours: 100, columns: 8}.write(t), DefaultTolerance)
	require.NoError(t, err)
	assert.Equal(t, 800, r.Formulas())
	assert.Empty(t, r.Failures(), r.String())
}

func TestGnumericCatchesPlantedFaults(t *testing.T) {
	Require(t, GnumericConvert)
	path := standIn{
		hours: 20, columns: 8,
		wrong: map[string]any{"C5": 12.5, "F7": "two-stage"},
		extra: map[Ref]formula{{13, 12}: {"NOSUCHFUNCTION(ABS(1))", 7}, {14, 12}: {"ABS(-1)", 1}},
	}.write(t)
	r, err := CheckGnumeric(path, DefaultTolerance)
	require.NoError(t, err)
	var cells []string
	for _, d := range r.Failures() {
		cells = append(cells, d.Ref.String())
	}
	assert.Equal(t, []string{"C5", "F7", "L13"}, cells)

	b, err := ReadBook(path)
	require.NoError(t, err)
	results, err := Gnumeric(path)
	require.NoError(t, err)
	assert.Equal(t, []string{"NOSUCHFUNCTION"}, LackingFunctions(b, results))
}

func TestReadersAgree(t *testing.T) {
	path := standIn{hours: 100, columns: 8, extra: map[Ref]formula{{5, 12}: {"1+1", 2}}}.write(t)
	b, err := ReadBook(path)
	require.NoError(t, err)
	samples := b.Sample(100)
	own := b.Reading(samples)
	require.Greater(t, len(own.Values), 50)
	for _, reader := range readers {
		t.Run(reader.name, func(t *testing.T) {
			Require(t, reader.program)
			other, err := reader.read(path, samples)
			require.NoError(t, err)
			assert.Empty(t, own.Differences(other, DefaultTolerance))
			assert.Equal(t, 801, other.Sheets[1].Formulas)
			assert.Equal(t, 12, other.Sheets[1].Columns)
		})
	}
}

var readers = []struct {
	name    string
	program Program
	read    func(string, []string) (*Reading, error)
}{
	{"openpyxl", PythonOpenPyXL, OpenPyXL},
	{"SheetJS", NodeSheetJS, SheetJS},
}

func TestReadersSayWhatFails(t *testing.T) {
	path := filepath.Join(t.TempDir(), "broken.xlsx")
	require.NoError(t, os.WriteFile(path, []byte("PK no workbook"), 0o644))
	for _, reader := range readers {
		t.Run(reader.name, func(t *testing.T) {
			Require(t, reader.program)
			_, err := reader.read(path, nil)
			assert.ErrorContains(t, err, "broken.xlsx: exit status 1: ")
		})
	}
}

func TestDifferencesBetweenReadings(t *testing.T) {
	reading := func() *Reading {
		return &Reading{Sheets: []SheetReading{{Name: "S", Rows: 1, Columns: 2, Numbers: 2, Sum: 3}},
			Values: map[string]any{"S!A1": 1.0, "S!B1": "x"}}
	}
	assert.Empty(t, reading().Differences(reading(), DefaultTolerance))
	for name, change := range map[string]func(*Reading){
		"sheet name":   func(r *Reading) { r.Sheets[0].Name = "T" },
		"sheets":       func(r *Reading) { r.Sheets = nil },
		"sum":          func(r *Reading) { r.Sheets[0].Sum = 3.1 },
		"count":        func(r *Reading) { r.Sheets[0].Texts++ },
		"value":        func(r *Reading) { r.Values["S!A1"] = 1.1 },
		"no value":     func(r *Reading) { delete(r.Values, "S!B1") },
		"a value more": func(r *Reading) { r.Values["S!C1"] = 1.0 },
	} {
		other := reading()
		change(other)
		assert.Len(t, reading().Differences(other, DefaultTolerance), 1, name)
	}
}

func TestNotInstalledSaysWhatToDo(t *testing.T) {
	t.Setenv("PATH", t.TempDir())
	err := Installed(GnumericConvert)
	assert.ErrorIs(t, err, ErrNotInstalled)
	assert.EqualError(t, err, "officetest: Gnumeric's ssconvert is not installed; hint: apt-get install gnumeric")
	_, err = Open("any.xlsx")
	assert.ErrorIs(t, err, ErrNotInstalled)
	_, err = Gnumeric("any.xlsx")
	assert.ErrorIs(t, err, ErrNotInstalled)
}

// spy records what Require does to a test.
type spy struct {
	testing.TB
	skipped, failed string
}

func (s *spy) Helper()                   {}
func (s *spy) Skipf(f string, a ...any)  { s.skipped = fmt.Sprintf(f, a...) }
func (s *spy) Fatalf(f string, a ...any) { s.failed = fmt.Sprintf(f, a...) }

func TestRequireSkipsLoudlyOrFails(t *testing.T) {
	missing := Program{"Nothing", "apt-get install nothing", func() bool { return false }}
	t.Setenv(NoSkip, "")
	s := &spy{}
	Require(s, missing)
	assert.Equal(t, "SKIPPED: officetest: Nothing is not installed; hint: apt-get install nothing", s.skipped)
	t.Setenv(NoSkip, "1")
	s = &spy{}
	Require(s, missing)
	assert.Contains(t, s.failed, "Nothing is not installed")
	assert.Empty(t, s.skipped)
}
