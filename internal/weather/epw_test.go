package weather

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const epwHeader = `LOCATION,Nowhere,XX,USA,Invented,999999,41.20,-105.00,-7.0,-17.0
DESIGN CONDITIONS,0
TYPICAL/EXTREME PERIODS,1,Summer - "hot, week,Extreme, 8/ 3,8/ 9
GROUND TEMPERATURES,0
HOLIDAYS/DAYLIGHT SAVINGS,No,0,0,0
COMMENTS 1,"quotes, commas; and an extra header line follow
COMMENTS 1b,invented
COMMENTS 2, -- invented
DATA PERIODS,1,1,Data,Sunday, 1/ 1,12/31
`

// epwText writes an invented EPW year; change may alter a row's 35 fields.
func epwText(year int, change func(row int, fields []string)) string {
	var b strings.Builder
	b.WriteString(epwHeader)
	row := 0
	for t := date(year, 1, 1); t.Year() == year; t = t.Add(time.Hour) {
		f := make([]string, 35)
		for i := range f {
			f[i] = "9"
		}
		for i, v := range []int{year, int(t.Month()), t.Day(), t.Hour() + 1, 60} {
			f[i] = fmt.Sprint(v)
		}
		f[5] = "?9?9?9?9E0?9*9*_*9"
		f[6] = fmt.Sprintf("%.1f", inventedDryBulb(t))
		f[7], f[8], f[9], f[13] = "1.5", "99.9", "85000", "999"
		if change != nil {
			change(row, f)
		}
		b.WriteString(strings.Join(f, ",") + "\r\n")
		row++
	}
	return b.String()
}

func TestEPW(t *testing.T) {
	s, err := readText(epwText(2012, nil), Options{})
	require.NoError(t, err)
	assert.Len(t, s.Hours, 8784) // leap day, although DATA PERIODS tells nothing of it
	assert.Equal(t, Station{"Nowhere, XX", 41.2, -105, 1457, -7, "USA", "XX"}, s.Station)
	assertNote(t, s, "fit a height of 1457 m, not its elevation of -17 m") // 850 hPa all year
	assert.True(t, s.HourEnding)
	assert.False(t, s.Typical)
	h := s.Hours[23]
	assert.Equal(t, date(2012, 1, 2), h.Time) // hour 24, whatever the minute field says
	assert.Equal(t, 85000., h.Pressure)
	// 99.9 % and 999 W/m² are real; 99.9 °C, 999 % and 9999 W/m² are not
	assert.InDelta(t, 0.999, h.Humidity, 1e-12)
	assert.Equal(t, 999., h.GHI)
}

func TestEPWMissingCodes(t *testing.T) {
	s, err := readText(epwText(2013, func(row int, f []string) {
		if row >= 50 && row < 60 {
			f[6], f[7], f[8], f[9], f[13] = "99.9", "99.9", "999", "999999", "9999"
		}
	}), Options{})
	require.NoError(t, err)
	h := s.Hours[55]
	for _, v := range []float64{h.DryBulb, h.Humidity, h.Pressure, h.GHI, s.Spare[55]} {
		assert.True(t, math.IsNaN(v))
	}
	assert.Contains(t, texts(s), "dry bulb: 10 hours are missing and left out")
}

func TestEPWJoinedYears(t *testing.T) {
	s, err := readText(epwText(2013, func(_ int, f []string) {
		if f[1] == "2" {
			f[0] = "1988"
		}
	}), Options{})
	require.NoError(t, err)
	assert.True(t, s.Typical)
	assert.Len(t, s.Hours, 8760)
}

// Made by PVGIS: no name, no station number (FORMATS.md).
func TestEPWNamelessLocation(t *testing.T) {
	text := strings.Replace(epwText(2013, nil), "LOCATION,Nowhere,XX,USA,Invented,999999,41.20,-105.00,-7.0,-17.0",
		"LOCATION,unknown,-,unknown,ECMWF/ERA,unknown,45.000000,8.000000,1,250", 1)
	s, err := readText(text, Options{})
	require.NoError(t, err)
	assert.Equal(t, Station{"unknown", 45, 8, 1457, 1, "unknown", ""}, s.Station)
}

func TestEPWFlaws(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"hour 25", epwText(2013, setCell(3, 3, "25")), `x.csv:13:4: column "hour": there is no time 25:00`},
		{"hour 0", epwText(2013, setCell(3, 3, "0")), `x.csv:13:4: column "hour": hour 0: hours run from 1 to 24`},
		{"pressure", strings.ReplaceAll(epwText(2013, nil), ",85000,", ",850,"), `x.csv:10:10: column "atmospheric station pressure (Pa)": 850 is not a possible station pressure`},
		{"year", epwText(2013, setCell(3, 0, "20x3")), `x.csv:13:1: column "year": "20x3" is not a whole number`},
		{"quarter hours", strings.Replace(epwText(2013, nil), "DATA PERIODS,1,1,", "DATA PERIODS,1,4,", 1), `x.csv:9:3: column "DATA PERIODS": 4 records an hour`},
		{"no DATA PERIODS", strings.Replace(epwText(2013, nil), "DATA PERIODS", "DATA", 1), `x.csv:10: data begins before a DATA PERIODS line`},
		{"header only", epwHeader[:200], `the file ends before the DATA PERIODS line`},
		{"short LOCATION", "LOCATION,a,b\n", `x.csv:1: the LOCATION line needs ten fields`},
		{"cut", cutAfter(epwText(2013, nil), "\r\n2013,12,30,"), `the row has 4 columns, the headings need 14`},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := readText(c.text, Options{})
			require.ErrorContains(t, told(err), c.want)
			requirePlace(t, err)
		})
	}
}
