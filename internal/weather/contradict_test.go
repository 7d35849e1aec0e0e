package weather

import (
	"archive/zip"
	"bytes"
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// sunnyYear is plainYear with a sun that stands highest at noon of its place.
func sunnyYear(scale float64, late time.Duration) string {
	return plainYear(2023, func(at time.Time, row string) string {
		height := -math.Cos((float64(at.Add(-late).Hour()) + 0.5) / 12 * math.Pi)
		return strings.TrimSuffix(row, "150") + fmt.Sprintf("%.3f", scale*max(0, 900*height))
	})
}

func TestWhatContradictsItselfIsDoubted(t *testing.T) {
	sound := sunnyYear(1, 0)
	for name, c := range map[string]struct{ text, note string }{
		"kW for W":             {sunnyYear(0.001, 0), "global irradiance never exceeds 0.892 W/m² and is not used"},
		"no sun at all":        {sunnyYear(0, 0), "global irradiance never exceeds 0 W/m² and is not used"},
		"sun by another clock": {sunnyYear(1, 7*time.Hour), "the sun in the file stands highest around 19:00, at its place and by its clock it does around 12:00"},
		"longitude's sign":     {strings.Replace(sound, "longitude: -105", "longitude: 105", 1), "UTC offset -7 h lies 10 hours from the sun's time at longitude 105"},
		"offset's sign":        {strings.Replace(sound, "offset_h: -7", "offset_h: 7", 1), "UTC offset +7 h lies 10 hours from the sun's time at longitude -105"},
		"latitude's sign":      {strings.Replace(sound, "latitude: 41", "latitude: -41", 1), "at latitude -41.2 the months of summer are the colder ones"},
		"°C under °F":          {strings.Replace(sound, "temperature_c", "temperature_f", 1), "no hour of the warm half-year is above -0.6 °C"},
		"sea-level pressure":   {strings.ReplaceAll(sound, ",850.0,", ",1015.0,"), "the pressures in the file are those of sea level, not of its elevation of 1480 m; they are not used"},
		"pressure in mmHg":     {strings.ReplaceAll(sound, ",850.0,", ",637.0,"), "the pressures in the file fit a height of 3747 m"},
		"columns exchanged":    {strings.Replace(strings.ReplaceAll(sound, ",40,850.0", ",40,30"), "pressure_hpa", "dew_point_c", 1), "dew point, which is not used, is above the dry bulb in 8464 of 8760 hours"},
		"a thermometer is stuck": {plainYear(2023, func(at time.Time, row string) string {
			if at.Month() == time.July {
				return row[:16] + ",25.0,40,850.0,150"
			}
			return row
		}), "dry bulb: 25 °C in each of 744 hours from 2023-07-01 00:00, as of a sensor that is stuck"},
	} {
		t.Run(name, func(t *testing.T) {
			s, err := readText(c.text, Options{})
			require.NoError(t, err)
			v := s.Verdict()
			assert.Equal(t, Doubtful, v.Grade)
			var all []string
			for _, n := range v.Because {
				all = append(all, n.Text())
			}
			assert.Contains(t, strings.Join(all, "\n"), c.note)
		})
	}
	s, err := readText(sound, Options{})
	require.NoError(t, err)
	assert.Empty(t, s.Notes)
}

// What cannot be believed is estimated as where there is none.
func TestDoubtedColumnsAreNotUsed(t *testing.T) {
	s, err := readText(sunnyYear(0.001, 0), Options{})
	require.NoError(t, err)
	assert.True(t, math.IsNaN(s.Hours[12].GHI))
	s, err = readText(strings.ReplaceAll(sunnyYear(1, 0), ",850.0,", ",1015.0,"), Options{})
	require.NoError(t, err)
	assert.True(t, math.IsNaN(s.Hours[12].Pressure))
	assert.Equal(t, 1480., s.Station.Elevation)
}

// dewPoints is a year with a dew point each hour that lies so far above the dry
// bulb.
func dewPoints(above func(time.Time) float64) string {
	return strings.Replace(plainYear(2023, func(at time.Time, row string) string {
		f := strings.Split(row, ",")
		var dry float64
		fmt.Sscan(f[1], &dry)
		f[2] = fmt.Sprintf("%.1f", dry+above(at))
		return strings.Join(f, ",")
	}), "relative_humidity_pct", "dew_point_c", 1)
}

func TestDewPointAboveTheDryBulb(t *testing.T) {
	_, err := readText(dewPoints(func(time.Time) float64 { return 3 }), Options{})
	require.ErrorContains(t, told(err), "dew point is above the dry bulb in 8760 of 8760 hours, here -1.6 and -4.6 °C; hint: are the two columns exchanged")
	s, err := readText(dewPoints(func(at time.Time) float64 {
		switch {
		case at.Month() == 7 && at.Day() == 1 && at.Hour() == 3:
			return 5
		case at.Month() == 7 && at.Hour() == 4:
			return 0.5
		}
		return -4
	}), Options{})
	require.NoError(t, err)
	assertNote(t, s, "dew point: 1 values above the dry bulb, which no air has, count as missing (21.6 °C at 2023-07-01 03:00)")
	h := at(t, s, "2023-07-02 04:00")
	assert.Equal(t, h.DryBulb, h.Humidity)
	assertNote(t, s, "dew point: 31 values up to 1 °C above the dry bulb were read as equal to it (17.3 °C at 2023-07-01 04:00, 17.4 °C at 2023-07-02 04:00, 17.4 °C at 2023-07-03 04:00, and 28 more)")
}

func TestHeaderThatContradictsItself(t *testing.T) {
	_, err := readText("# latitude: -41.2\n"+plainYear(2023, nil), Options{})
	require.ErrorContains(t, told(err), "stands twice, as -41.2 and as 41.2")
	_, err = readText("# latitude: 41.2\n"+plainYear(2023, nil), Options{})
	require.NoError(t, err)
	_, err = readText("Elevation;1200\nElevation;1300 ft\nDate;Hour;Temp (C);RH (%)\n2023-07-01;1;20;30\n", Options{AllowGaps: true})
	require.ErrorContains(t, told(err), "stands twice, as 1200 and as 396.24")
}

// Spreadsheet programs show no date before 1900.
func TestYearsWithoutWeather(t *testing.T) {
	for _, year := range []int{1, 1850, 1900, 2201, 9999} {
		_, err := readText(plainYear(year, nil), Options{})
		require.ErrorContains(t, told(err), fmt.Sprintf("x.csv:%d: the year %04d is none of weather", strings.Count(plainHeader, "\n")+2, year))
	}
}

func TestLockedArchive(t *testing.T) {
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	w, err := z.CreateHeader(&zip.FileHeader{Name: "w.csv", Flags: encrypted})
	require.NoError(t, err)
	_, err = w.Write([]byte(plainYear(2023, nil)))
	require.NoError(t, err)
	require.NoError(t, z.Close())
	_, err = Read(&b, "w.zip", Options{})
	require.ErrorContains(t, told(err), "w.zip: zip member w.csv is locked with a password; hint: unpack it")
}

// What our own form does not take, other headings do, and the hint says so.
func TestPlainStampOfAnotherForm(t *testing.T) {
	text := strings.ReplaceAll(plainYear(2023, nil), "2023-01-01 0", "01/01/2023 0")
	_, err := readText(text, Options{})
	require.ErrorContains(t, told(err), "hint: write times as 2023-07-01 14:00; to have others told")
}
