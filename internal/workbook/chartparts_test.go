package workbook

import (
	"archive/zip"
	"encoding/xml"
	"io"
	"path"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/internal/officetest"
)

// drawn charts as the file has them. Source: ECMA-376 part 1, 21.2.
type (
	chartPart struct {
		Title []string `xml:"chart>title>tx>rich>p>r>t"`
		Plot  struct {
			Groups []chartGroup `xml:",any"`
		} `xml:"chart>plotArea"`
	}
	// chartGroup is a kind of chart with its series, or an axis.
	chartGroup struct {
		XMLName  xml.Name
		Grouping struct {
			Val string `xml:"val,attr"`
		} `xml:"grouping"`
		Series []chartSeries `xml:"ser"`
		Title  []string      `xml:"title>tx>rich>p>r>t"`
		Place  struct {
			Val string `xml:"val,attr"`
		} `xml:"axPos"`
	}
	chartSeries struct {
		Name    string      `xml:"tx>v"`
		NameRef string      `xml:"tx>strRef>f"`
		Named   []string    `xml:"tx>strRef>strCache>pt>v"`
		Cat     chartValues `xml:"cat"`
		X       chartValues `xml:"xVal"`
		Val     chartValues `xml:"val"`
		Y       chartValues `xml:"yVal"`
	}
	chartValues struct {
		Number chartRef `xml:"numRef"`
		Text   chartRef `xml:"strRef"`
	}
	chartRef struct {
		Range  string       `xml:"f"`
		Count  chartCount   `xml:"numCache>ptCount"`
		Points []chartPoint `xml:"numCache>pt"`
		Texts  []chartPoint `xml:"strCache>pt"`
	}
	chartCount struct {
		N int `xml:"val,attr"`
	}
	chartPoint struct {
		At int    `xml:"idx,attr"`
		V  string `xml:"v"`
	}
	relationsPart struct {
		All []struct {
			ID     string `xml:"Id,attr"`
			Type   string `xml:"Type,attr"`
			Target string `xml:"Target,attr"`
		} `xml:"Relationship"`
	}
)

// ref is the range of values that are there.
func (v chartValues) ref() chartRef {
	if v.Number.Range != "" {
		return v.Number
	}
	return v.Text
}

func (r chartRef) points() []chartPoint {
	return append(append([]chartPoint(nil), r.Points...), r.Texts...)
}

// chartOn is a chart and the sheet it lies on.
type chartOn struct {
	sheet string
	chartPart
}

// chartsOf reads all charts of a book, sheet by sheet.
func chartsOf(t *testing.T, file string) (all []chartOn) {
	t.Helper()
	z, err := zip.OpenReader(file)
	require.NoError(t, err)
	defer z.Close()
	var book bookPart
	readPart(t, z, "xl/workbook.xml", &book)
	for i, s := range book.Sheets {
		sheet := "xl/worksheets/sheet" + strconv.Itoa(i+1) + ".xml"
		for _, drawing := range targets(t, z, sheet, "/drawing") {
			for _, chart := range targets(t, z, drawing, "/chart") {
				c := chartOn{sheet: s.Name}
				readPart(t, z, chart, &c.chartPart)
				all = append(all, c)
			}
		}
	}
	return all
}

// targets are the parts of a kind that a part refers to, in the order of the file.
func targets(t *testing.T, z *zip.ReadCloser, part, kind string) (out []string) {
	t.Helper()
	f, err := z.Open(path.Join(path.Dir(part), "_rels", path.Base(part)+".rels"))
	if err != nil {
		return nil // it refers to nothing
	}
	defer f.Close()
	text, err := io.ReadAll(f)
	require.NoError(t, err)
	var r relationsPart
	require.NoError(t, xml.Unmarshal(text, &r))
	for _, rel := range r.All {
		if strings.HasSuffix(rel.Type, kind) {
			target := rel.Target
			if !strings.HasPrefix(target, "/") {
				target = path.Join(path.Dir(part), target)
			}
			out = append(out, strings.TrimPrefix(target, "/"))
		}
	}
	return out
}

// rangeOf splits a range such as Months!$B$8:$B$19.
func rangeOf(t *testing.T, text string) (sheet string, from, to officetest.Ref) {
	t.Helper()
	sheet, cells, ok := strings.Cut(strings.ReplaceAll(text, "$", ""), "!")
	require.True(t, ok, text)
	first, last, ok := strings.Cut(cells, ":")
	if !ok {
		last = first
	}
	from, err := officetest.ParseRef(first)
	require.NoError(t, err, text)
	to, err = officetest.ParseRef(last)
	require.NoError(t, err, text)
	return strings.Trim(sheet, "'"), from, to
}
