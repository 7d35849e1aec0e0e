package xlsx_test

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"path"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/internal/xlsx"
)

// parts unzips a book.
func parts(t *testing.T, b *xlsx.Book) map[string][]byte {
	t.Helper()
	file := written(t, b)
	z, err := zip.NewReader(bytes.NewReader(file), int64(len(file)))
	require.NoError(t, err)
	out := map[string][]byte{}
	var order []string
	for _, f := range z.File {
		assert.Equal(t, 1980, f.Modified.Year(), f.Name)
		assert.Nil(t, out[f.Name], "%s is there twice", f.Name)
		r, err := f.Open()
		require.NoError(t, err)
		out[f.Name], err = io.ReadAll(r)
		require.NoError(t, err)
		order = append(order, f.Name)
	}
	assert.Equal(t, "[Content_Types].xml", order[0])
	assert.True(t, slices.IsSorted(order[2:]), order)
	return out
}

// node is any element.
type node struct {
	XMLName  xml.Name
	Attrs    []xml.Attr `xml:",any,attr"`
	Children []*node    `xml:",any"`
	Text     string     `xml:",chardata"`
}

func (n *node) attr(name string) string {
	for _, a := range n.Attrs {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}

// all are the elements of a name anywhere below n.
func (n *node) all(name string) []*node {
	var out []*node
	for _, c := range n.Children {
		if c.XMLName.Local == name {
			out = append(out, c)
		}
		out = append(out, c.all(name)...)
	}
	return out
}

func (n *node) one(t *testing.T, name string) *node {
	t.Helper()
	found := n.all(name)
	require.Len(t, found, 1, name)
	return found[0]
}

func parse(t *testing.T, part []byte) *node {
	t.Helper()
	require.NotNil(t, part)
	n := &node{}
	require.NoError(t, xml.Unmarshal(part, n))
	return n
}

func TestPartsAreWellFormed(t *testing.T) {
	for name, part := range parts(t, demo(365)) {
		if path.Ext(name) != ".xml" && path.Ext(name) != ".rels" {
			continue
		}
		d := xml.NewDecoder(bytes.NewReader(part))
		for {
			_, err := d.Token()
			if errors.Is(err, io.EOF) {
				break
			}
			require.NoError(t, err, name)
		}
	}
}

// Every part has a content type, every relation a target.
func TestPackage(t *testing.T) {
	all := parts(t, demo(30))
	types := parse(t, all["[Content_Types].xml"])
	known, extensions := map[string]bool{}, map[string]bool{}
	for _, o := range types.all("Override") {
		name := strings.TrimPrefix(o.attr("PartName"), "/")
		assert.False(t, known[name], "%s twice", name)
		assert.NotNil(t, all[name], "content type for the missing part %s", name)
		known[name] = true
	}
	for _, d := range types.all("Default") {
		extensions["."+d.attr("Extension")] = true
	}
	for name := range all {
		if path.Ext(name) == ".xml" && name != "[Content_Types].xml" {
			assert.True(t, known[name], "no content type for %s", name)
		}
		assert.True(t, known[name] || extensions[path.Ext(name)], name)
		if path.Ext(name) != ".rels" {
			continue
		}
		base := path.Dir(path.Dir(name))
		for _, r := range parse(t, all[name]).all("Relationship") {
			target := r.attr("Target")
			if r.attr("TargetMode") == "External" {
				continue
			}
			if !strings.HasPrefix(target, "/") {
				target = path.Join("/", base, target)
			}
			assert.NotNil(t, all[target[1:]], "%s: %s", name, target)
		}
	}
}

func TestRowsAndCells(t *testing.T) {
	all := parts(t, demo(365))
	styles := len(parse(t, all["xl/styles.xml"]).one(t, "cellXfs").Children)
	assert.Greater(t, styles, 5)
	for _, name := range []string{"xl/worksheets/sheet1.xml", "xl/worksheets/sheet2.xml", "xl/worksheets/sheet3.xml"} {
		lastRow := 0
		for _, row := range parse(t, all[name]).one(t, "sheetData").Children {
			r, err := strconv.Atoi(row.attr("r"))
			require.NoError(t, err)
			require.Greater(t, r, lastRow, name)
			lastRow = r
			lastCol := ""
			for _, c := range row.Children {
				ref := c.attr("r")
				col := strings.TrimRight(ref, "0123456789")
				require.Equal(t, col+strconv.Itoa(r), ref, name)
				require.True(t, len(col) > len(lastCol) || len(col) == len(lastCol) && col > lastCol, "%s %s after %s", name, col, lastCol)
				lastCol = col
				checkCell(t, c, styles)
			}
		}
	}
}

func checkCell(t *testing.T, c *node, styles int) {
	t.Helper()
	at := c.attr("r")
	if s := c.attr("s"); s != "" {
		n, err := strconv.Atoi(s)
		require.NoError(t, err)
		require.Less(t, n, styles, at)
	}
	formula, values := c.all("f"), c.all("v")
	switch c.attr("t") {
	case "":
		for _, v := range values {
			_, err := strconv.ParseFloat(v.Text, 64)
			require.NoError(t, err, at)
		}
		require.Len(t, values, min(1, len(c.Children)), at)
	case "b":
		require.Contains(t, []string{"0", "1"}, c.one(t, "v").Text, at)
	case "str":
		require.Len(t, formula, 1, at)
		require.Len(t, values, 1, at)
	case "inlineStr":
		require.Empty(t, formula, at)
		require.NotEmpty(t, c.one(t, "t").Text, at)
	default:
		t.Fatalf("%s has type %q", at, c.attr("t"))
	}
}

// cellsOf maps the cells of a sheet part.
func cellsOf(t *testing.T, part []byte) map[string]*node {
	out := map[string]*node{}
	for _, c := range parse(t, part).all("c") {
		out[c.attr("r")] = c
	}
	return out
}

func TestCachedValues(t *testing.T) {
	all := parts(t, demo(60))
	data := cellsOf(t, all["xl/worksheets/sheet2.xml"])
	assert.Equal(t, "B5*0.6+2", data["C5"].one(t, "f").Text)
	assert.Equal(t, "18.8", data["C5"].one(t, "v").Text)
	assert.Equal(t, "E5+SUM(D6)", data["E6"].one(t, "f").Text)
	assert.Equal(t, "str", data["F5"].attr("t"))
	assert.Equal(t, "b", data["G5"].attr("t"))
	assert.Equal(t, `IF(B5>30,"hot","")`, data["F5"].one(t, "f").Text)
	assert.Empty(t, data["C12"].Children, "a missing day has neither formula nor value")
	assert.NotEmpty(t, data["C12"].attr("s"), "but its style")
	result := cellsOf(t, all["xl/worksheets/sheet3.xml"])
	assert.Equal(t, "MAX(Data!$B$5:$B$64)", result["B2"].one(t, "f").Text)
	inputs := cellsOf(t, all["xl/worksheets/sheet1.xml"])
	assert.Equal(t, `In_pads="wet"`, inputs["B5"].one(t, "f").Text)
	assert.Equal(t, "Inputs!$B$3", definedName(t, all, "In_eff"))
	assert.Equal(t, "Data!$D$5:$D$64", definedName(t, all, "D_supply"))
}

func definedName(t *testing.T, all map[string][]byte, name string) string {
	for _, n := range parse(t, all["xl/workbook.xml"]).all("definedName") {
		if n.attr("name") == name {
			return n.Text
		}
	}
	t.Errorf("no name %s", name)
	return ""
}

func TestPageAndView(t *testing.T) {
	all := parts(t, demo(60))
	data := parse(t, all["xl/worksheets/sheet2.xml"])
	assert.Equal(t, "true", data.one(t, "pageSetUpPr").attr("fitToPage"), "kept beside a filter")
	assert.Equal(t, "0", data.one(t, "pageSetup").attr("fitToHeight"))
	assert.Equal(t, "B5", data.one(t, "pane").attr("topLeftCell"))
	assert.Equal(t, "Data!$A:$A,Data!$3:$4", definedName(t, all, "_xlnm.Print_Titles"))
	assert.Equal(t, "Data!$A$1:$G$100", definedName(t, all, "_xlnm.Print_Area"))
	inputs := parse(t, all["xl/worksheets/sheet1.xml"])
	assert.Equal(t, "FF0072B2", inputs.one(t, "tabColor").attr("rgb"))
	assert.Equal(t, "true", inputs.one(t, "sheetProtection").attr("sheet"))
	assert.Equal(t, "false", inputs.one(t, "sheetProtection").attr("formatColumns"), "changing widths stays allowed")
	assert.Equal(t, "D55E00", parse(t, all["xl/theme/theme1.xml"]).one(t, "accent2").one(t, "srgbClr").attr("val"))
	unlocked := parse(t, all["xl/styles.xml"]).all("protection")
	require.NotEmpty(t, unlocked)
	assert.Equal(t, "false", unlocked[0].attr("locked"))
}
