package xlsx_test

import (
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"github.com/evapbook/evapbook/internal/xlsx"
)

// recalcAlways makes LibreOffice work out every formula on loading; by default
// it shows the cached values.
const recalcAlways = `<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry" xmlns:xs="http://www.w3.org/2001/XMLSchema" xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance">
<item oor:path="/org.openoffice.Office.Calc/Formula/Load"><prop oor:name="OOXMLRecalcMode" oor:op="fuse"><value>0</value></prop></item>
</oor:items>`

// recalculated is the file after a hard recalculation in LibreOffice.
func recalculated(t *testing.T, file []byte) *excelize.File {
	t.Helper()
	office, err := exec.LookPath("soffice")
	if err != nil {
		t.Skip("SKIPPED: soffice (LibreOffice) is not installed, formulas are not recalculated")
	}
	dir := t.TempDir()
	require.NoError(t, os.MkdirAll(filepath.Join(dir, "profile", "user"), 0o755))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "profile", "user", "registrymodifications.xcu"), []byte(recalcAlways), 0o644))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "book.xlsx"), file, 0o644))
	run := exec.Command(office, "-env:UserInstallation=file://"+dir+"/profile", "--headless", "--convert-to", "xlsx:Calc MS Excel 2007 XML",
		"--outdir", filepath.Join(dir, "out"), filepath.Join(dir, "book.xlsx"))
	run.Env = append(os.Environ(), "HOME="+dir)
	out, err := run.CombinedOutput()
	require.NoError(t, err, string(out))
	f, err := excelize.OpenFile(filepath.Join(dir, "out", "book.xlsx"))
	require.NoError(t, err, string(out))
	t.Cleanup(func() { f.Close() })
	return f
}

// Every cached value is what LibreOffice makes of the formula, to 1e-9 of it: sums
// of some hundred terms lose three of the cached digits.
func TestCacheAgainstLibreOffice(t *testing.T) {
	if testing.Short() {
		t.Skip("SKIPPED: starts LibreOffice; run without -short")
	}
	b := demo(365)
	b.Sheets[0].SetAt("B9", xlsx.Cell{Value: 1, Formula: "1+1"}) // a wrong cache, to see it found
	f := compareWithOffice(t, b, 1500)
	got, err := f.GetCellValue("Inputs", "B9", excelize.Options{RawCellValue: true})
	require.NoError(t, err)
	assert.Equal(t, "2", got, "LibreOffice did not recalculate")
}

// wrong is where a test plants a wrong cache.
const wrong = "Inputs!B9"

// compareWithOffice compares all cached values, at least so many, with
// LibreOffice's.
func compareWithOffice(t *testing.T, b *xlsx.Book, least int) *excelize.File {
	t.Helper()
	all := parts(t, b)
	f := recalculated(t, written(t, b))
	compared := 0
	for i, s := range b.Sheets {
		for ref, c := range cellsOf(t, all["xl/worksheets/sheet"+strconv.Itoa(i+1)+".xml"]) {
			if len(c.all("f")) == 0 || s.Name+"!"+ref == wrong {
				continue
			}
			got, err := f.GetCellValue(s.Name, ref, excelize.Options{RawCellValue: true})
			require.NoError(t, err)
			compared++
			want := c.one(t, "v").Text
			assert.True(t, same(want, got), "%s!%s: cached %q, recalculated %q", s.Name, ref, want, got)
		}
	}
	assert.GreaterOrEqual(t, compared, least)
	return f
}

func same(want, got string) bool {
	a, err1 := strconv.ParseFloat(want, 64)
	b, err2 := strconv.ParseFloat(got, 64)
	if err1 != nil || err2 != nil {
		return want == got
	}
	return math.Abs(a-b) <= 1e-9*math.Max(1, math.Abs(a))
}
