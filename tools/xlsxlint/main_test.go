package main

import (
	"archive/zip"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// sound is a small workbook without a fault.
var sound = map[string]string{
	"[Content_Types].xml": `<Types><Default Extension="rels" ContentType="r"/><Override PartName="/xl/workbook.xml" ContentType="w"/>` +
		`<Override PartName="/xl/worksheets/sheet1.xml" ContentType="s"/><Override PartName="/xl/styles.xml" ContentType="y"/><Override PartName="/xl/tables/table1.xml" ContentType="t"/></Types>`,
	"_rels/.rels": `<Relationships><Relationship Id="r1" Type="x/officeDocument" Target="xl/workbook.xml"/></Relationships>`,
	"xl/workbook.xml": `<workbook><sheets><sheet name="One" sheetId="1" r:id="r1" xmlns:r="r"/></sheets>` +
		`<definedNames><definedName name="In_area">'One'!$A$2</definedName></definedNames></workbook>`,
	"xl/_rels/workbook.xml.rels": `<Relationships><Relationship Id="r1" Type="x/worksheet" Target="worksheets/sheet1.xml"/></Relationships>`,
	"xl/styles.xml":              `<styleSheet><cellXfs><xf/></cellXfs></styleSheet>`,
	"xl/worksheets/sheet1.xml": `<worksheet xmlns:r="r"><sheetData><row r="1"><c r="A1" t="inlineStr"><is><t>a</t></is></c></row>` +
		`<row r="2"><c r="A2"><v>1</v></c><c r="B2"><f>SUM(One!A2,In_area)</f><v>2</v></c></row></sheetData>` +
		`<mergeCells><mergeCell ref="D1:E1"/></mergeCells><tableParts><tablePart r:id="r1"/></tableParts></worksheet>`,
	"xl/worksheets/_rels/sheet1.xml.rels": `<Relationships><Relationship Id="r1" Type="x/table" Target="../tables/table1.xml"/></Relationships>`,
	"xl/tables/table1.xml":                `<table ref="A1:A2" displayName="T"><tableColumns><tableColumn name="a"/></tableColumns></table>`,
}

func packed(t *testing.T, parts map[string]string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "b.xlsx")
	f, err := os.Create(path)
	require.NoError(t, err)
	z := zip.NewWriter(f)
	for _, name := range slices.Sorted(maps.Keys(parts)) {
		w, err := z.Create(name)
		require.NoError(t, err)
		_, err = w.Write([]byte(parts[name]))
		require.NoError(t, err)
	}
	require.NoError(t, z.Close())
	require.NoError(t, f.Close())
	return path
}

func TestSoundBook(t *testing.T) { assert.Empty(t, check(packed(t, sound))) }

// Each rule finds the fault that it is for, and nothing else does.
func TestFaultsAreFound(t *testing.T) {
	const sheet = "xl/worksheets/sheet1.xml"
	for _, c := range []struct{ part, old, new, want string }{
		{"[Content_Types].xml", `<Override PartName="/xl/styles.xml" ContentType="y"/>`, "", "no content type for xl/styles.xml"},
		{"[Content_Types].xml", "/xl/styles.xml", "/xl/style.xml", "which is missing"},
		{"xl/_rels/workbook.xml.rels", "sheet1.xml", "sheet2.xml", "is missing"},
		{"xl/workbook.xml", `name="One"`, `name="One/Two"`, "no name for a sheet"},
		{"xl/workbook.xml", `name="In_area"`, `name="A1"`, "no name for a range"},
		{"xl/workbook.xml", "'One'!$A$2", "'Two'!$A$2", `no sheet "Two"`},
		{sheet, "SUM(One!A2", "=SUM(One!A2", "begins with ="},
		{sheet, "SUM(One!A2,In_area)", "SUM(One!A2,In_area", "parentheses"},
		{sheet, "SUM(", "XLOOKUP(", "function XLOOKUP"},
		{sheet, "One!A2", "Two!A2", `no sheet "Two"`},
		{sheet, "In_area", "In_volume", "unknown name In_volume"},
		{sheet, `<v>1</v>`, `<v>one</v>`, `number "one"`},
		{sheet, `<c r="A2">`, `<c r="A2" s="1">`, "style 1 of 1"},
		{sheet, `<c r="A2">`, `<c r="A2" t="s">`, "shared text"},
		{sheet, `<c r="B2">`, `<c r="A2">`, "cell out of order"},
		{sheet, `<row r="2">`, `<row r="1">`, "row 1 after 1"},
		{sheet, "<t>a</t>", "<t>b</t>", `heads column "a"`},
		{sheet, `ref="D1:E1"`, `ref="A2:B2"`, "inside table T"},
		{sheet, `<mergeCell ref="D1:E1"/>`, `<mergeCell ref="D1:E1"/><mergeCell ref="E1:E2"/>`, "overlap"},
		{sheet, `<tablePart r:id="r1"/>`, "", "0 tableParts for 1 tables"},
		{sheet, `</sheetData>`, `</sheetData><cols/>`, "out of order"},
		{sheet, `</worksheet>`, ``, "not well-formed"},
		{"xl/tables/table1.xml", `ref="A1:A2"`, `ref="A1:B2"`, "1 columns in a range of 2"},
	} {
		parts := maps.Clone(sound)
		parts[c.part] = strings.Replace(parts[c.part], c.old, c.new, 1)
		require.NotEqual(t, sound[c.part], parts[c.part], c.want)
		assert.Contains(t, strings.Join(check(packed(t, parts)), "\n"), c.want, "%s: %s", c.part, c.new)
	}
}
