package readback

import (
	"archive/zip"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/data/sample"
	"github.com/evapbook/evapbook/internal/hint"
	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/officetest"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/weather"
	"github.com/evapbook/evapbook/internal/workbook"
	"github.com/evapbook/evapbook/internal/workbook/figures"
	"github.com/evapbook/evapbook/internal/xlsx"
)

// written writes the workbook of two weeks of the sample for a job with the given
// inputs: what is read back does not hang on the hours, and office programs open
// a small file in a moment.
func written(t testing.TB, sys units.System, set map[string]string, change func(*figures.Case)) string {
	t.Helper()
	r, name := sample.Open()
	s, err := weather.Read(r, name, weather.Options{})
	require.NoError(t, err)
	s.Hours = s.Hours[180*24 : 194*24]
	j := job.New()
	for k, v := range set {
		require.NoError(t, j.Set(k, v))
	}
	require.NoError(t, j.Resolve(s.Station.Name, s.Station.Elevation, s.Station.Region()))
	c, err := figures.Compute(s, j, sys, "test")
	require.NoError(t, err)
	if change != nil {
		change(c)
	}
	path := filepath.Join(t.TempDir(), "renamed by someone.xlsx")
	f, err := os.Create(path)
	require.NoError(t, err)
	require.NoError(t, workbook.Write(f, c))
	require.NoError(t, f.Close())
	return path
}

// statedIn lists the stated inputs of a job, as a person would write them.
func statedIn(j *job.Job, sys units.System) map[string]string {
	all := map[string]string{}
	for _, in := range job.Inputs() {
		if j.Stated(in.Key) {
			all[in.Key] = in.Text(j, sys)
			if !in.Numeric() {
				all[in.Key] = in.Words(j)
			}
		}
	}
	return all
}

// What was stated comes back as it was, to the digits a person wrote; the rest
// stays unstated.
func TestReadAsWritten(t *testing.T) {
	stated := map[string]string{
		"site.name": "Hill Street 12", "site.altitude": "5430 ft", "cooler.kind": "two-stage", "cooler.effectiveness": "0.85",
		"cooler.airflow": "4600 cfm", "house.setpoint": "76.5 °F", "house.design_load": "31000 Btu/h", "price.electricity": "0.31 /kWh",
		"ac.windows_open": "no", "proposal.note": "a draft", "cooler.sump": "7 gal", "price.ac_life": "18 years",
	}
	for _, sys := range units.Systems {
		for _, values := range []bool{false, true} {
			path := written(t, sys, stated, func(c *figures.Case) {
				c.ValuesOnly = values
				c.Given = figures.Given{Path: "../somewhere/town.csv", Flags: "--humidity=relative --allow-gaps"}
			})
			b, err := Read(path)
			require.NoError(t, err)
			assert.Empty(t, b.Notes)
			assert.Equal(t, sys, b.Units)
			assert.Equal(t, "../somewhere/town.csv", b.Weather.Path)
			assert.Equal(t, []string{"--humidity=relative", "--allow-gaps"}, b.Weather.Flags)
			assert.Len(t, b.Weather.SHA256, 64)
			got := statedIn(b.Job, units.IP)
			for key := range got {
				assert.Contains(t, stated, key, "%s is not to be stated (%v, values %v)", key, sys, values)
			}
			for key, want := range stated {
				assert.Equal(t, want, got[key], "%s (%v, values %v)", key, sys, values)
			}
		}
	}
}

// Edited, given more rows and saved by LibreOffice, the workbook still reads.
func TestReadSavedByLibreOffice(t *testing.T) {
	if testing.Short() {
		t.Skip("SKIPPED: -short leaves out what needs an office program")
	}
	officetest.RequireOffice(t)
	s, err := officetest.Open(written(t, units.IP, map[string]string{"cooler.airflow": "4500 cfm"}, nil))
	require.NoError(t, err)
	defer s.Close()
	require.NoError(t, s.Set(map[string]any{
		"In_cooler_effectiveness": 0.9, "In_house_setpoint": 75.0, "In_cooler_kind": "two-stage", "In_site_altitude": 6100.0,
		"In_cooler_airflow": "=Rule_cooler_airflow", "In_cooler_fan_power": 900.0, "In_proposal_prepared_for": "the Ortegas", "In_house_floor_area": "=1500+250",
	}))
	require.NoError(t, s.InsertRows("Inputs", 3, 4))
	require.NoError(t, s.InsertRows("Inputs", 30, 1))
	require.NoError(t, s.Recalculate())
	path := filepath.Join(t.TempDir(), "by-libreoffice.xlsx")
	require.NoError(t, s.SaveAs(path))

	b, err := Read(path)
	require.NoError(t, err)
	assert.Empty(t, b.Notes)
	assert.Equal(t, map[string]string{
		"cooler.effectiveness": "0.9", "house.setpoint": "75 °F", "cooler.kind": "two-stage", "site.altitude": "6100 ft",
		"cooler.fan_power": "900 W", "proposal.prepared_for": "the Ortegas", "house.floor_area": "1750 ft²",
	}, statedIn(b.Job, units.IP))
}

// What cannot be read is named with its cell, all at once.
func TestReadNamesWhatIsWrong(t *testing.T) {
	if testing.Short() {
		t.Skip("SKIPPED: -short leaves out what needs an office program")
	}
	officetest.RequireOffice(t)
	s, err := officetest.Open(written(t, units.SI, nil, nil))
	require.NoError(t, err)
	defer s.Close()
	require.NoError(t, s.Set(map[string]any{
		"In_cooler_effectiveness": 8.5, "In_house_setpoint": "warm", "In_cooler_kind": "swamp", "In_site_altitude": nil, "In_cooler_cycles": "=1/0",
		"In_house_people": "4",
	}))
	require.NoError(t, s.Recalculate())
	path := filepath.Join(t.TempDir(), "wrong.xlsx")
	require.NoError(t, s.SaveAs(path))
	_, err = Read(path)
	require.Error(t, err)
	for _, part := range []string{
		"cooler.effectiveness: 8.5 is outside", `house.setpoint: "warm" does not start with a number`, `cooler.kind: "swamp" is not a choice`,
		"site.altitude: is empty", "type =Rule_site_altitude", "cooler.cycles: shows #DIV/0!", "Inputs!B",
	} {
		assert.Contains(t, hint.Text(err), part)
	}
	assert.NotContains(t, err.Error(), "people", "a number typed as text is a number")
}

func TestReadOtherFiles(t *testing.T) {
	path := filepath.Join(t.TempDir(), "other.xlsx")
	f, err := os.Create(path)
	require.NoError(t, err)
	b := &xlsx.Book{}
	b.AddSheet("Inputs").Set(1, 1, xlsx.Cell{Value: 1, Name: "In_nothing"})
	require.NoError(t, b.Write(f))
	require.NoError(t, f.Close())
	_, err = Read(path)
	assert.ErrorContains(t, err, "no input cells of evapbook")
	_, err = Read("readback.go")
	assert.ErrorContains(t, err, "not a workbook that can be read")
}

// edited is a workbook of which somebody changed the text of a part.
func edited(t *testing.T, path, part string, change func(text string) string) string {
	t.Helper()
	in, err := zip.OpenReader(path)
	require.NoError(t, err)
	defer in.Close()
	path = filepath.Join(t.TempDir(), "edited.xlsx")
	f, err := os.Create(path)
	require.NoError(t, err)
	defer f.Close()
	out := zip.NewWriter(f)
	for _, m := range in.File {
		r, err := m.Open()
		require.NoError(t, err)
		text, err := io.ReadAll(r)
		require.NoError(t, err)
		if m.Name == part {
			before := string(text)
			text = []byte(change(before))
			require.NotEqual(t, before, string(text))
		}
		w, err := out.Create(m.Name)
		require.NoError(t, err)
		_, err = w.Write(text)
		require.NoError(t, err)
	}
	require.NoError(t, out.Close())
	return path
}

// With the sheet of the inputs all of them are gone: no defaults pass for them.
func TestReadWithoutInputs(t *testing.T) {
	path := edited(t, written(t, units.SI, nil, nil), "xl/workbook.xml", func(text string) string {
		return regexp.MustCompile(`(<definedName name="In_[^>]*>)[^<]*`).ReplaceAllString(text, "$1#REF!")
	})
	_, err := Read(path)
	assert.ErrorContains(t, err, "no input cells of evapbook")
}

// An emptied choice is no choice, as an emptied number is no number.
func TestReadEmptiedChoice(t *testing.T) {
	path := written(t, units.SI, map[string]string{"cooler.kind": "two-stage"}, nil)
	kind := regexp.MustCompile(`<t>two-stage</t>`)
	path = edited(t, path, inputsPart, func(text string) string {
		at := kind.FindStringIndex(text)
		require.NotNil(t, at)
		return text[:at[0]] + "<t></t>" + text[at[1]:]
	})
	_, err := Read(path)
	require.Error(t, err)
	assert.Regexp(t, `Inputs!B\d+: cooler.kind: is empty\nhint: choose one of direct, indirect, two-stage`, hint.Text(err))
}

// inputsPart is the sheet Inputs in the archive: the third of a workbook.
const inputsPart = "xl/worksheets/sheet3.xml"
