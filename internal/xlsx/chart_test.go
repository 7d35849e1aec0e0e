package xlsx_test

import (
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The points kept in a chart are those of the cells it refers to.
func TestChartPoints(t *testing.T) {
	all := parts(t, demo(60))
	sheets := map[string]map[string]*node{
		"Data":   cellsOf(t, all["xl/worksheets/sheet2.xml"]),
		"Result": cellsOf(t, all["xl/worksheets/sheet3.xml"]),
	}
	refs := 0
	for name, part := range all {
		if !strings.HasPrefix(name, "xl/charts/chart") {
			continue
		}
		root := parse(t, part)
		for _, ref := range append(root.all("numRef"), root.all("strRef")...) {
			refs++
			sheet, cells, _ := strings.Cut(ref.one(t, "f").Text, "!")
			from, to, ok := strings.Cut(strings.ReplaceAll(cells, "$", ""), ":")
			if !ok {
				to = from
			}
			col := strings.TrimRight(from, "0123456789")
			first, _ := strconv.Atoi(from[len(col):])
			last, _ := strconv.Atoi(to[len(col):])
			assert.Equal(t, strconv.Itoa(last-first+1), ref.one(t, "ptCount").attr("val"), name)
			points := map[string]string{}
			for _, p := range ref.all("pt") {
				points[p.attr("idx")] = p.one(t, "v").Text
			}
			for row := first; row <= last; row++ {
				samePoint(t, name+" "+col+strconv.Itoa(row), sheets[sheet][col+strconv.Itoa(row)], points, row-first)
			}
		}
	}
	assert.Greater(t, refs, 20)
}

func samePoint(t *testing.T, at string, cell *node, points map[string]string, i int) {
	t.Helper()
	require.NotNil(t, cell, at)
	got, there := points[strconv.Itoa(i)]
	if len(cell.Children) == 0 {
		require.False(t, there, "%s: a point for a blank cell", at)
		return
	}
	if cell.attr("t") == "inlineStr" {
		require.Equal(t, cell.one(t, "t").Text, got, at)
		return
	}
	want, err := strconv.ParseFloat(cell.one(t, "v").Text, 64)
	require.NoError(t, err)
	have, err := strconv.ParseFloat(got, 64)
	require.NoError(t, err, at)
	require.InEpsilon(t, want, have, 5e-12, at) // half of the twelfth digit, the last that is kept
}

// sequence is the order of the elements of a series, by kind of chart. Source:
// ECMA-376 part 1, 21.2.2 (CT_BarSer, CT_LineSer, CT_AreaSer, CT_ScatterSer).
var sequence = strings.Fields("idx order tx spPr invertIfNegative marker cat xVal val yVal smooth")

// axisSequence is the order of the elements of an axis (CT_CatAx, CT_ValAx, CT_DateAx).
var axisSequence = strings.Fields("axId scaling delete axPos majorGridlines title numFmt majorTickMark minorTickMark tickLblPos spPr txPr " +
	"crossAx crosses crossBetween auto lblAlgn lblOffset tickLblSkip tickMarkSkip noMultiLvlLbl baseTimeUnit majorUnit majorTimeUnit")

func TestChartElementsInOrder(t *testing.T) {
	kinds := map[string]bool{}
	for name, part := range parts(t, demo(60)) {
		if !strings.HasPrefix(name, "xl/charts/chart") {
			continue
		}
		root := parse(t, part)
		axes := map[string]bool{}
		for _, element := range []string{"catAx", "valAx", "dateAx"} {
			for _, a := range root.all(element) {
				inOrder(t, name, a, axisSequence)
				axes[a.one(t, "axId").attr("val")] = true
			}
		}
		for _, s := range root.all("ser") {
			inOrder(t, name, s, sequence)
		}
		for _, group := range root.one(t, "plotArea").Children {
			if !strings.HasSuffix(group.XMLName.Local, "Chart") {
				continue
			}
			kinds[group.XMLName.Local] = true
			for _, id := range group.all("axId") {
				assert.True(t, axes[id.attr("val")], "%s: no axis %s", name, id.attr("val"))
			}
		}
		for _, a := range root.all("crossAx") {
			assert.True(t, axes[a.attr("val")], name)
		}
	}
	assert.Len(t, kinds, 4, "all kinds of chart are tried: %v", kinds)
}

func inOrder(t *testing.T, name string, n *node, order []string) {
	t.Helper()
	last := -1
	for _, c := range n.Children {
		at := -1
		for i, o := range order {
			if o == c.XMLName.Local {
				at = i
			}
		}
		require.GreaterOrEqual(t, at, last, "%s: %s in %s", name, c.XMLName.Local, n.XMLName.Local)
		last = at
	}
}

func TestChartFrames(t *testing.T) {
	drawing := parse(t, parts(t, demo(60))["xl/drawings/drawing1.xml"])
	anchors := drawing.all("oneCellAnchor")
	require.Len(t, anchors, 9)
	assert.Equal(t, "609600", anchors[0].Children[1].attr("cx"), "64 pixels")
	assert.Equal(t, "609600", anchors[0].Children[1].attr("cy"), "in proportion")
	chart := anchors[1]
	assert.Equal(t, "5", chart.one(t, "from").one(t, "row").Text, "row 6, counted from 0")
	assert.Equal(t, strconv.Itoa(560*9525), chart.Children[1].attr("cx"))
	assert.Equal(t, "An invented chart", chart.one(t, "cNvPr").attr("descr"))
}
