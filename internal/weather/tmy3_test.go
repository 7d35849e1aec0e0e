package weather

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// tmy3Text writes an invented TMY3 file: months from different years, a warm
// afternoon, every column filled. change may alter a row's fields.
func tmy3Text(change func(row int, fields []string)) string {
	var b strings.Builder
	b.WriteString("999999,\"NOWHERE, INVENTED AP\",XX,-7.0,41.200,-105.000,1480\n")
	headings := tmy3Headings()
	b.WriteString(strings.Join(headings, ",") + "\n")
	row := 0
	for month := 1; month <= 12; month++ {
		year := 1980 + month*7%20
		for day := 1; day <= daysIn(2001, month); day++ {
			for hour := 1; hour <= 24; hour++ {
				f := make([]string, len(headings))
				for i := range f {
					f[i] = []string{"120", "E", "9"}[i%3] // about as wide as NREL's rows
				}
				f[0] = fmt.Sprintf("%02d/%02d/%d", month, day, year)
				f[1] = fmt.Sprintf("%02d:00", hour)
				t := 12 - 12*math.Cos(float64(month)/6*math.Pi) - 7*math.Cos(float64(hour-3)/12*math.Pi)
				f[4] = "150"
				f[31], f[32] = fmt.Sprintf("%.1f", t), "A"
				f[34] = "-12.0"
				f[37] = "40"
				f[40] = "850"
				if change != nil {
					change(row, f)
				}
				b.WriteString(strings.Join(f, ",") + "\n")
				row++
			}
		}
	}
	return b.String()
}

// tmy3Headings are 71 headings in NREL's order; those not read are shortened.
func tmy3Headings() []string {
	h := make([]string, 71)
	for i := range h {
		h[i] = fmt.Sprintf("column %d", i+1)
	}
	h[0], h[1], h[4] = "Date (MM/DD/YYYY)", "Time (HH:MM)", "GHI (W/m^2)"
	h[32] = "Dry-bulb source"
	h[31], h[34], h[37], h[40] = "Dry-bulb (C)", "Dew-point (C)", "RHum (%)", "Pressure (mbar)"
	return h
}

func readText(text string, opt Options) (*Series, error) {
	return Read(strings.NewReader(text), "x.csv", opt)
}

// setCell replaces the cell of one row.
func setCell(row, column int, value string) func(int, []string) {
	return func(r int, f []string) {
		if r == row {
			f[column] = value
		}
	}
}

func TestTMY3(t *testing.T) {
	s, err := readText(tmy3Text(nil), Options{})
	require.NoError(t, err)
	assert.Len(t, s.Hours, 8760)
	assert.Equal(t, "TMY3", s.Source.Format)
	assert.Equal(t, Station{"NOWHERE, INVENTED AP, XX", 41.2, -105, 1480, -7, "US", "XX"}, s.Station)
	assert.True(t, s.Typical)
	assert.True(t, s.HourEnding)
	assert.Equal(t, RelHum, s.Humidity)
	assert.Equal(t, DewPoint, s.SpareKind)
	assert.Equal(t, Hour{s.Hours[0].Time, -4.5, 0.4, 85000, 150, false}, roundDryBulb(s.Hours[0]))
	assert.Equal(t, "1987-01-01 01:00", s.Hours[0].Time.Format("2006-01-02 15:04"))
	// hour 24 belongs to the day of its row
	assert.Equal(t, "1987-01-02 00:00", s.Hours[23].Time.Format("2006-01-02 15:04"))
	assert.Equal(t, 1, s.Start(23).Day())
}

func roundDryBulb(h Hour) Hour {
	h.DryBulb = math.Round(h.DryBulb*10) / 10
	return h
}

func TestTMY3PrefersDewPointOnRequest(t *testing.T) {
	s, err := readText(tmy3Text(nil), Options{Humidity: PreferDewPoint})
	require.NoError(t, err)
	assert.Equal(t, DewPoint, s.Humidity)
	assert.Equal(t, -12., s.Hours[100].Humidity)
	assert.Equal(t, 0.4, s.Spare[100])
}

// Copies re-saved by a spreadsheet: no quotes and padding on line 1, CRLF,
// 1/1/1995, 1:00, 24:00:00, and a 72nd column without heading (FORMATS.md).
func TestTMY3ResavedCopyReadsTheSame(t *testing.T) {
	want, err := readText(tmy3Text(nil), Options{})
	require.NoError(t, err)
	text := tmy3Text(func(_ int, f []string) {
		var m, d, y int
		_, err := fmt.Sscanf(f[0], "%d/%d/%d", &m, &d, &y)
		require.NoError(t, err)
		f[0] = fmt.Sprintf("%d/%d/%d", m, d, y)
		f[1] = strings.TrimPrefix(f[1], "0")
		if f[1] == "24:00" {
			f[1] = "24:00:00"
		}
		f[70] += ",283.15"
	})
	text = strings.Replace(text, `"NOWHERE, INVENTED AP"`, "NOWHERE, INVENTED AP", 1)
	text = strings.Replace(text, "1480\n", "1480"+strings.Repeat(",", 65)+"\n", 1)
	text = strings.ReplaceAll(text, "\n", "\r\n")
	got, err := readText(text, Options{})
	require.NoError(t, err)
	assert.Equal(t, want.Hours, got.Hours)
	assert.Equal(t, want.Station, got.Station)
	assert.Equal(t, want.Notes, got.Notes)
}

func TestTMY3Flaws(t *testing.T) {
	for _, c := range []struct {
		name, text, want string
	}{
		{"letters", tmy3Text(setCell(4, 31, "abc")), `x.csv:7:32: column "Dry-bulb (C)": "abc" is not a number`},
		{"infinite", tmy3Text(setCell(4, 31, "inf")), `"inf" is not a number`},
		{"hexadecimal", tmy3Text(setCell(4, 31, "0x10")), `"0x10" is not a number`},
		{"pressure", strings.ReplaceAll(tmy3Text(nil), ",850,", ",30,"), `x.csv:3:41: column "Pressure (mbar)": 30 is not a possible station pressure (500 to 1100 hPa)`},
		{"irradiance", strings.ReplaceAll(tmy3Text(nil), ",150,", ",-33,"), `x.csv:3:5: column "GHI (W/m^2)": -33 is not a possible global irradiance`},
		{"date", tmy3Text(setCell(0, 0, "13/01/1987")), `x.csv:3:1: column "Date (MM/DD/YYYY)": there is no day 1987-13-01`},
		{"no leap year", tmy3Text(setCell(0, 0, "02/29/1987")), `there is no day 1987-02-29`},
		{"clock", tmy3Text(setCell(0, 1, "25:00")), `there is no time 25:00`},
		{"twice", tmy3Text(setCell(9, 1, "09:00")), `x.csv:12: second row for the hour of 1987-01-01 09:00, the first is on line 11`},
		{"backward", tmy3Text(setCell(9, 1, "03:00")), `x.csv:12: time goes back`},
		{"two headings", strings.Replace(tmy3Text(nil), "column 50", "RHum (%)", 1), `the heading occurs twice`},
		{"cut row", cutAfter(tmy3Text(nil), "08/05/1996,03:00,9,"), `the row has 4 columns, the headings need 41`},
		{"station", strings.Replace(tmy3Text(nil), "41.200", "141.2", 1), `x.csv:1: station latitude 141.2 is outside -90 to 90`},
		{"short station", strings.Replace(tmy3Text(nil), ",41.200,-105.000,1480", "", 1), `x.csv:1: the station line needs`},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := readText(c.text, Options{})
			require.ErrorContains(t, told(err), c.want)
			requirePlace(t, err)
		})
	}
}

// cutAfter ends a text behind a mark, as a broken download does.
func cutAfter(text, mark string) string {
	i := strings.Index(text, mark)
	if i < 0 {
		panic("weather test: no " + mark)
	}
	return text[:i+len(mark)]
}

// requirePlace asserts that an error is ours and says where the flaw is.
func requirePlace(t *testing.T, err error) {
	t.Helper()
	var flaw *Error
	require.ErrorAs(t, err, &flaw)
	assert.Positive(t, flaw.Line, flaw.Text)
}

func TestMissingColumnsAreNamedAtOnce(t *testing.T) {
	text := strings.Replace(tmy3Text(nil), "Dry-bulb (C)", "Dry bulb", 1)
	text = strings.Replace(text, "RHum (%)", "RH", 1)
	text = strings.Replace(text, "Dew-point (C)", "Dew", 1)
	_, err := readText(text, Options{})
	require.ErrorContains(t, told(err), `missing column "Dry-bulb (C)" and a humidity column ("Dew-point (C)" or "RHum (%)")`)
	require.ErrorContains(t, told(err), "headings seen: Date (MM/DD/YYYY), Time (HH:MM), column 3")
	requirePlace(t, err)
}

func TestTMY3MissingCode(t *testing.T) {
	s, err := readText(tmy3Text(func(row int, f []string) {
		if row >= 10 && row < 12 {
			f[31] = "-9900"
		}
		if row >= 100 && row < 104 {
			f[37] = "-9900"
		}
		if row == 200 {
			f[40] = ""
		}
	}), Options{})
	require.NoError(t, err)
	a, b := s.Hours[9].DryBulb, s.Hours[12].DryBulb
	assert.InDelta(t, a+(b-a)/3, s.Hours[10].DryBulb, 1e-9)
	assert.InDelta(t, a+(b-a)*2/3, s.Hours[11].DryBulb, 1e-9)
	for i := 100; i < 104; i++ {
		assert.True(t, math.IsNaN(s.Hours[i].Humidity))
		assert.Equal(t, -12., s.Spare[i])
	}
	assert.Equal(t, 85000., s.Hours[200].Pressure)
	assert.Contains(t, texts(s), "dry bulb: 2 missing hours in gaps of up to 3 h were interpolated")
	assert.Contains(t, texts(s), "relative humidity: 4 hours are missing and left out")
	assert.Contains(t, texts(s), "station pressure: 1 missing hours in gaps of up to 3 h were interpolated")
}
