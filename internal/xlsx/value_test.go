package xlsx

import (
	"math"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestNumbers(t *testing.T) {
	for _, c := range []struct {
		in               any
		constant, cached string
	}{
		{0.1, "0.1", "0.1"},
		{1.0 / 3, "0.3333333333333333", "0.333333333333"},
		{8760.0, "8760", "8760"},
		{-12, "-12", "-12"},
		{uint8(7), "7", "7"},
		{float32(0.1), "0.1", "0.1"},
		{math.Copysign(0, -1), "0", "0"},
		{1e-310, "0", "0"},
		{1.5e300, "1.5e+300", "1.5e+300"},
		{123456789012345678.0, "1.2345678901234568e+17", "1.23456789012e+17"},
		{time.Duration(5), "5", "5"}, // any integer kind
	} {
		v, err := toValue(c.in)
		require.NoError(t, err)
		assert.Equal(t, c.constant, string(v.appendNumber(nil, false)), "%v", c.in)
		assert.Equal(t, c.cached, string(v.appendNumber(nil, true)), "%v", c.in)
	}
}

func TestNoNumbers(t *testing.T) {
	for _, v := range []any{math.NaN(), math.Inf(1), math.Inf(-1), 1e308} {
		_, err := toValue(v)
		assert.ErrorContains(t, err, "not a number a cell can hold", "%v", v)
	}
	_, err := toValue([]int{1})
	assert.ErrorContains(t, err, "cannot hold a []int")
	_, err = toValue("a\x01b")
	assert.ErrorContains(t, err, "control character")
	_, err = toValue("a\xff")
	assert.ErrorContains(t, err, "not UTF-8")
	_, err = toValue(strings.Repeat("x", 32_768))
	assert.ErrorContains(t, err, "32768 characters")
	_, err = toValue(strings.Repeat("é", 32_767))
	assert.NoError(t, err)
}

// Serials of the 1900 system. Source: ECMA-376 part 1, 18.17.4.1 counts days
// from 1899-12-30; the examples there give 1900-03-01 as 61.
func TestSerial(t *testing.T) {
	assert.Equal(t, 61.0, serial(time.Date(1900, 3, 1, 0, 0, 0, 0, time.UTC)))
	assert.Equal(t, 45658.0, serial(time.Date(2025, 1, 1, 0, 0, 0, 0, time.FixedZone("", -7*3600))), "wall clock")
	assert.Equal(t, 45658.75, serial(time.Date(2025, 1, 1, 18, 0, 0, 0, time.UTC)))
}

// Every hour of a year reads back as that hour by the rule the programs use,
// INT(MOD(serial,1)*24) after their rounding to a millisecond.
func TestSerialKeepsTheHour(t *testing.T) {
	start := time.Date(2025, 1, 1, 0, 0, 0, 0, time.UTC)
	for i := range 8760 {
		v, err := toValue(start.Add(time.Duration(i) * time.Hour))
		require.NoError(t, err)
		back, err := strconv.ParseFloat(string(v.appendNumber(nil, true)), 64)
		require.NoError(t, err)
		ms := math.Round((back - math.Floor(back)) * 86400e3)
		require.Equal(t, i%24, int(ms/3600e3)%24, "hour %d", i)
	}
}

func TestText(t *testing.T) {
	assert.Equal(t, `a&amp;b&lt;c&gt;"`, string(appendText(nil, `a&b<c>"`)))
	assert.Equal(t, "_x005F_x000D_", string(appendText(nil, "_x000D_")), "readers take _x000D_ for a control character")
	assert.Equal(t, "in_x_y", string(appendText(nil, "in_x_y")))
	assert.Contains(t, string(appendInline(nil, " padded")), `xml:space="preserve"`)
	assert.NotContains(t, string(appendInline(nil, "plain text")), "preserve")
}

func TestColumnNames(t *testing.T) {
	for col, name := range map[int]string{1: "A", 26: "Z", 27: "AA", 52: "AZ", 53: "BA", 702: "ZZ", 703: "AAA", maxCols: "XFD"} {
		assert.Equal(t, name, colName(col))
		row, back, ok := parseCell("$" + name + "$12")
		assert.True(t, ok)
		assert.Equal(t, [2]int{12, col}, [2]int{row, back})
	}
	for _, bad := range []string{"A0", "XFE1", "A1048577", "1A", "A", "AAAA1", ""} {
		_, _, ok := parseCell(bad)
		assert.False(t, ok, bad)
	}
}

func TestNumberFormats(t *testing.T) {
	for _, good := range []string{
		"", "General", "0.0", "#,##0", "0%", "yyyy-mm-dd hh:mm", "[h]:mm", `0.0" °C"`, "0.0;[Red]-0.0;\"–\"", "0.00E+00", `#,##0\ [$€-407]`, "mmm", "d mmm", "_-* #,##0_-",
	} {
		assert.NoError(t, badNumFmt(good), good)
	}
	for _, bad := range []string{`0.0"`, "0;0;0;0;0", "0.0 kWh", "0 C"} {
		assert.Error(t, badNumFmt(bad), bad)
	}
}
