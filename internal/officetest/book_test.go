package officetest

import (
	"archive/zip"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"
)

func pdfPages(t *testing.T, path string) int {
	t.Helper()
	Require(t, Poppler)
	text, err := exec.Command("pdfinfo", path).Output()
	require.NoError(t, err)
	n, err := strconv.Atoi(string(regexp.MustCompile(`Pages:\s+(\d+)`).FindSubmatch(text)[1]))
	require.NoError(t, err)
	return n
}

func TestRef(t *testing.T) {
	for text, ref := range map[string]Ref{"A1": {1, 1}, "Z9": {9, 26}, "AA10": {10, 27}, "AZ2": {2, 52}, "XFD1048576": {1048576, 16384}} {
		assert.Equal(t, text, ref.String())
		got, err := ParseRef(text)
		require.NoError(t, err)
		assert.Equal(t, ref, got)
	}
	for _, text := range []string{"", "A", "1", "A0", "a1", "$A$1", "A1B", "ABCD1"} {
		_, err := ParseRef(text)
		assert.Error(t, err, text)
	}
}

// Every form a cell can have in the file, written out by hand. The forms are
// those of ECMA-376 part 1, 18.3.1.4 (c), 18.3.1.40 (f) and 18.4.8 (si).
func TestReadBookForms(t *testing.T) {
	path := writeParts(t, map[string]string{
		"xl/workbook.xml": `<?xml version="1.0"?><x:workbook xmlns:x="m" xmlns:r="r"><x:sheets>
			<x:sheet name="A &amp; B" sheetId="1" r:id="rId7"/></x:sheets></x:workbook>`,
		"xl/_rels/workbook.xml.rels": `<Relationships>
			<Relationship Id="rId7" Type="http://x/worksheet" Target="/xl/worksheets/one.xml"/>
			<Relationship Id="rId8" Type="http://x/sharedStrings" Target="sharedStrings.xml"/></Relationships>`,
		"xl/sharedStrings.xml": `<sst><si><t>plain</t></si><si><r><t>ri</t></r><r><rPr><b/></rPr><t xml:space="preserve">ch </t></r><rPh><x>no</x></rPh></si><si><t/></si></sst>`,
		"xl/worksheets/one.xml": `<x:worksheet xmlns:x="m"><x:cols><x:c r="no"/></x:cols><!-- <c> --><x:sheetData>
			<x:row r="2"><x:c r="A2" t="s"><x:v>1</x:v></x:c><x:c><x:v>1.5e-3</x:v></x:c><x:c s="3"/><x:c s='a>b'><x:v>4</x:v></x:c></x:row>
			<x:row><x:c t="str"><x:f>"a"&amp;&quot;&lt;&#233;&#x4e2d;</x:f><x:v>a&lt;b</x:v></x:c><x:c t="b"><x:f>TRUE()</x:f><x:v>1</x:v></x:c>
			<x:c t="e"><x:f>1/0</x:f><x:v>#DIV/0!</x:v></x:c><x:c><x:f t="shared" si="0"/><x:v>8</x:v></x:c><x:c t="str"><x:f>""</x:f><x:v></x:v></x:c>
			<x:c t="inlineStr"><x:is><x:t>in</x:t><x:t>line</x:t></x:is></x:c><x:c t="s"><x:v>2</x:v></x:c></x:row></x:sheetData></x:worksheet>`,
	})
	b, err := ReadBook(path)
	require.NoError(t, err)
	require.Len(t, b.Sheets, 1)
	assert.Equal(t, "A & B", b.Sheets[0].Name)
	assert.Equal(t, []Cell{
		{Ref: Ref{2, 1}, Value: "rich "},
		{Ref: Ref{2, 2}, Value: 0.0015},
		{Ref: Ref{2, 4}, Value: 4.0},
		{Ref: Ref{3, 1}, HasFormula: true, Formula: `"a"&"<é中`, Value: "a<b"},
		{Ref: Ref{3, 2}, HasFormula: true, Formula: "TRUE()", Value: true},
		{Ref: Ref{3, 3}, HasFormula: true, Formula: "1/0", Value: CellError("#DIV/0!")},
		{Ref: Ref{3, 4}, HasFormula: true, Shared: 1, Value: 8.0},
		{Ref: Ref{3, 5}, HasFormula: true, Formula: `""`},
		{Ref: Ref{3, 6}, Value: "inline"},
		{Ref: Ref{3, 7}},
	}, b.Sheets[0].Cells)
}

func writeParts(t *testing.T, parts map[string]string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "forms.xlsx")
	f, err := os.Create(path)
	require.NoError(t, err)
	z := zip.NewWriter(f)
	for name, text := range parts {
		w, err := z.Create(name)
		require.NoError(t, err)
		_, err = w.Write([]byte(text))
		require.NoError(t, err)
	}
	require.NoError(t, z.Close())
	require.NoError(t, f.Close())
	return path
}

func TestReadBookRefusesDamage(t *testing.T) {
	good := func() map[string]string {
		return map[string]string{
			"xl/workbook.xml":            `<workbook><sheets><sheet name="S" r:id="r1"/></sheets></workbook>`,
			"xl/_rels/workbook.xml.rels": `<Relationships><Relationship Id="r1" Target="s.xml"/></Relationships>`,
			"xl/s.xml":                   `<worksheet><sheetData><row r="1"><c r="A1"><v>1</v></c></row></sheetData></worksheet>`,
		}
	}
	_, err := ReadBook(writeParts(t, good()))
	require.NoError(t, err)
	for name, damage := range map[string]struct{ part, text, message string }{
		"number":    {"xl/s.xml", `<sheetData><c r="A1"><v>x</v></c>`, `cell A1: value "x" is not a number`},
		"cut short": {"xl/s.xml", `<sheetData><c r="A1"><v>1`, "cell A1: <v> does not end"},
		"no end":    {"xl/s.xml", `<sheetData><c r="A1"><v>1</v></c>`, "<sheetData> does not end"},
		"reference": {"xl/s.xml", `<sheetData><c r="1A"><v>1</v></c>`, `cell "1A"`},
		"shared":    {"xl/s.xml", `<sheetData><c r="A1" t="s"><v>3</v></c>`, "shared text"},
		"type":      {"xl/s.xml", `<sheetData><c r="A1" t="z"><v>3</v></c>`, `type "z"`},
		"relation":  {"xl/_rels/workbook.xml.rels", `<Relationships/>`, `sheet "S" has no file`},
	} {
		t.Run(name, func(t *testing.T) {
			parts := good()
			parts[damage.part] = damage.text
			_, err := ReadBook(writeParts(t, parts))
			assert.ErrorContains(t, err, damage.message)
		})
	}
	_, err = ReadBook("nosuch.xlsx")
	assert.ErrorIs(t, err, os.ErrNotExist)
}

// The reader agrees with excelize's on every cell of a book excelize wrote.
func TestReadBookAgreesWithExcelize(t *testing.T) {
	path := standIn{hours: 40, columns: 8}.write(t)
	b, err := ReadBook(path)
	require.NoError(t, err)
	f, err := excelize.OpenFile(path)
	require.NoError(t, err)
	defer f.Close()
	for _, s := range b.Sheets {
		for _, c := range s.Cells {
			formula, err := f.GetCellFormula(s.Name, c.Ref.String())
			require.NoError(t, err)
			assert.Equal(t, formula, c.Formula)
			text, err := f.GetCellValue(s.Name, c.Ref.String(), excelize.Options{RawCellValue: true})
			require.NoError(t, err)
			switch v := c.Value.(type) {
			case float64:
				x, err := strconv.ParseFloat(text, 64)
				require.NoError(t, err)
				assert.Equal(t, x, v)
			case string:
				assert.Equal(t, text, v)
			case nil:
				assert.Empty(t, text)
			}
		}
	}
	assert.Len(t, b.Sheet("Hours").Cells, 3+40*10)
	assert.Nil(t, b.Sheet("nosuch"))
}

func BenchmarkReadBook(b *testing.B) {
	path := standIn{hours: 8760, columns: 60}.write(b)
	for b.Loop() {
		if _, err := ReadBook(path); err != nil {
			b.Fatal(err)
		}
	}
}
