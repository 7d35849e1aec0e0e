package weather

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/internal/hint"
)

// A quiet year around the hours of a case: a daily swing of 5 K on an even
// seasonal level.
func around(level float64, hours []float64) (t []float64, at int) {
	t = make([]float64, 8760)
	for i := range t {
		t[i] = level + 5*math.Sin(2*math.Pi*float64(i%24-9)/24)
	}
	at = 4000
	copy(t[at:], hours)
	if n := len(hours); n > 0 { // twelve hours lead there and back
		const lead = 12
		for k := 1; k < lead; k++ {
			in, out := at-k, at+n-1+k
			t[in] = hours[0] + (t[at-lead]-hours[0])*float64(k)/lead
			t[out] = hours[n-1] + (t[at+n-1+lead]-hours[n-1])*float64(k)/lead
		}
	}
	return t, at
}

// Hours of the TMY3 set (Wilcox and Marion, NREL/TP-581-43156), as printed
// there, with one to four hours before and after.
func TestJumpsOutAndBackAreSpikes(t *testing.T) {
	for _, c := range []struct {
		name   string
		level  float64
		hours  []float64
		marked []int
	}{
		{"Fayetteville Pope AFB, 9 June", 24, []float64{22.7, 25.0, 27.2, 26.6, -13.9, 24.4, 23.8, 24.4}, []int{4}},
		{"San Antonio Kelly AFB, 24 June, the hour after filled in", 26, []float64{25.5, 25.5, 25.0, 25.0, -13.9, 7.7, 29.4, 31.6}, []int{4, 5}},
		{"Charlottesville, 21 August, a slide of bad filling", 20, []float64{19.2, 18.8, 17.5, 8.1, -30.3, -6.6, 16.1, 14.7}, []int{4, 5}},
		{"Elmira, 13 August, three hours", 19, []float64{19.4, 19.4, 19.4, 18.8, -11.7, -10.6, -10.6, 18.8, 18.8}, []int{4, 5, 6}},
		{"Barbers Point, 12 July, eleven hours", 27, []float64{25.6, 25, 25.6, -9.3, -9.3, -9.3, -9.3, -9.3, -9.3, -9.3, -9.3, -9.3, -9.3, -9.3, 32.8, 32.8, 31.7}, []int{3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13}},
		{"Palestine TX, 4 June, nine kelvin against the season", 24, []float64{23.7, 22.7, 21.6, 21.7, 40.6, 20.7, 20.8, 23.0}, []int{4}},
	} {
		year, at := around(c.level, c.hours)
		var want []int
		for _, k := range c.marked {
			want = append(want, at+k)
		}
		assert.Equal(t, want, spikes(year, make([]bool, len(year)), true), c.name)
	}
}

// Nine kelvin out and back are a spike where the season contradicts, a tenth less
// is none: the tolerance of WMO-No. 305 (spikes.go).
func TestTheLeastSpike(t *testing.T) {
	year, at := around(0, []float64{6, 6, 15, 6, 6})
	assert.Equal(t, []int{at + 2}, spikes(year, make([]bool, len(year)), true))
	year, _ = around(0, []float64{6.1, 6.1, 15, 6.1, 6.1})
	assert.Empty(t, spikes(year, make([]bool, len(year)), true))
}

// Hours of the same set around which the publisher filled others in (f): the jump
// has become a slide. The first two of a row fit the level.
func TestSlidesOfBadFilling(t *testing.T) {
	for _, c := range []struct {
		name  string
		level float64
		hours string
		spike int // how many hours are taken out
	}{
		{"Goldsboro NC, 26 July", 26, "25 25 19.6f 16.8f 13.7f 10.1f 6.7f 3.4f 0.4f -2.7f -6 -6 24.4 24.4 24.4 25 27.4f", 10},
		{"Hillsboro OR, 29 October", 10, "12 11 31.6f 34.3f 36f 37.7f 39.4f 41.1f 41.8f 42.5f 44.2f 44.9f 45.6f 45.3f 45 5 4.8f 5 4.9f 4.9f 5", 13},
		{"Delta UT, 18 April, a clear day whose morning was filled in", 14, "2.3f 2f 4 8f 12.2f 16.4f 19.5f 22.2f 24 24 23.9f 23.2f 24 22.3f 16.1f 16f 13f 9.9f 9", 0},
		{"a front in November, the hours before filled in", 12, "18 17f 16f 15f 14f 13f -2 -3 -4 -4 -5 -5", 0},
	} {
		var hours []float64
		var flags []bool
		for _, cell := range strings.Fields(c.hours) {
			text, isFilled := strings.CutSuffix(cell, "f")
			v, err := strconv.ParseFloat(text, 64)
			require.NoError(t, err)
			hours, flags = append(hours, v), append(flags, isFilled)
		}
		year, at := around(c.level, hours)
		filled := make([]bool, len(year))
		copy(filled[at:], flags)
		assert.Len(t, spikes(year, filled, true), c.spike, c.name)
	}
}

// Hours that come back by exactly half the step still stay off; a little further
// they do not.
func TestHalfTheStepStaysOff(t *testing.T) {
	for middle, want := range map[float64]bool{20: true, 19.9: false} {
		assert.Equal(t, want, staysOff([]float64{10, 30, middle, 30, 10}, 0, 4, []int{1, 2, 3}, true, 10), "%g", middle)
		assert.Equal(t, want, staysOff([]float64{-10, -30, -middle, -30, -10}, 0, 4, []int{1, 2, 3}, false, 10), "-%g", middle)
	}
}

// Real fronts, storms and foehn of the same set survive.
func TestFrontsAreNoSpikes(t *testing.T) {
	for _, c := range []struct {
		name  string
		level float64
		hours []float64
	}{
		{"Dalhart TX, 8 February, a front of 21.7 K in an hour", 3, []float64{17.7, 16.6, 16.6, 16.1, 15.0, -6.7, -8.9, -10.0, -10.6, -11.2, -11.7, -12.8, -13.4}},
		{"Tucson AZ, 2 August, a thunderstorm", 31, []float64{35.6, 37.8, 38.3, 38.9, 37.2, 21.1, 23.9, 23.9, 24.4, 24.4, 24.4}},
		{"Mobridge SD, 11 May, a front", 14, []float64{24.0, 27.0, 28.0, 29.0, 32.0, 14.0, 11.0, 8.0, 7.0, 5.0, 4.0}},
		{"Livingston MT, 28 January, a chinook", -6, []float64{-22.2, -22.2, -22.2, -21.7, -20.0, -0.6, 2.2, 2.8, 3.9, 5.6, 4.4}},
	} {
		year, _ := around(c.level, c.hours)
		assert.Empty(t, spikes(year, make([]bool, len(year)), true), c.name)
	}
}

// 432 July hours of a station at 55° N (703884 of the same set) are in °F; a
// cold wave and a warm spell in winter are not.
func TestSpellsInTheWrongUnit(t *testing.T) {
	year, _ := around(14, nil)
	for i := 4344; i < 4344+432; i++ {
		year[i] = year[i]*1.8 + 32
	}
	assert.Equal(t, []spell{{4344, 4776, "°F"}}, wrongUnit(year, true))

	year, _ = around(28, nil)
	for i := 4344; i < 4344+240; i++ {
		year[i] = (year[i] - 32) / 1.8
	}
	assert.Equal(t, []spell{{4344, 4584, "°C"}}, wrongUnit(year, true))

	for _, c := range []struct{ level, there float64 }{{4, -18}, {-21, 2}, {15, -6}} {
		year, _ = around(c.level, nil)
		for i := 240; i < 240+96; i++ {
			year[i] += c.there - c.level
		}
		assert.Empty(t, wrongUnit(year, true), "%v", c)
	}
}

func TestSpellRefusesTheFile(t *testing.T) {
	text := tmy3Text(func(row int, f []string) {
		v, _ := strconv.ParseFloat(f[31], 64)
		v -= 18 // a cold place
		if row >= 4344 && row < 4344+432 {
			v = v*1.8 + 32
		}
		f[31] = strconv.FormatFloat(v, 'f', 1, 64)
	})
	_, err := readText(text, Options{})
	require.ErrorContains(t, told(err), "for 432 h is")
	require.ErrorContains(t, told(err), "it looks like °F")
	requirePlace(t, err)
}

// Single impossible values of a known format are missing hours, named.
func TestIsolatedImpossibleValues(t *testing.T) {
	text := tmy3Text(func(row int, f []string) {
		switch row {
		case 100, 300, 500, 700:
			f[31] = "64"
		case 200:
			f[37] = "140"
		case 201:
			f[40], f[4] = "300", "1600"
		}
	})
	s, err := readText(text, Options{})
	require.NoError(t, err)
	assertNote(t, s, "dry bulb: 4 values no air can have count as missing (64 °C on line 103, 64 °C on line 303, 64 °C on line 503, and 1 more)")
	assertNote(t, s, "relative humidity: 1 values no air can have count as missing (140 % on line 203)")
	assertNote(t, s, "station pressure: 1 values no air can have count as missing (300 hPa on line 204)")
	assertNote(t, s, "global irradiance: 1 values no air can have count as missing (1600 W/m² on line 204)")
	v := s.Verdict()
	assert.Equal(t, Usable, v.Grade)
	assert.Equal(t, 7, v.LeftOut)
	assert.Less(t, s.Hours[100].DryBulb, 40., "bridged like any missing hour")
	assert.True(t, s.Hours[100].Filled)
}

// More than a hundredth, or more than a day in a row, is refused in one run, in
// at most six lines, with what it looks like.
func TestManyImpossibleValuesRefuseTheFile(t *testing.T) {
	for name, bad := range map[string]func(row int) bool{
		"every eightieth": func(row int) bool { return row%80 == 0 },
		"25 in a row":     func(row int) bool { return row >= 1000 && row < 1025 },
	} {
		_, err := readText(tmy3Text(func(row int, f []string) {
			if bad(row) {
				f[40] = "29.5"
			}
		}), Options{})
		require.ErrorContains(t, told(err), `column "Pressure (mbar)": 29.5 is not a possible station pressure`, name)
		require.ErrorContains(t, told(err), "it looks like inHg", name)
		require.ErrorContains(t, told(err), "more like these", name)
		assert.LessOrEqual(t, strings.Count(hint.Text(err), "\n")+1, 6, name)
	}
	_, err := readText(tmy3Text(func(row int, f []string) {
		if row >= 1000 && row < 1024 {
			f[40] = "29.5"
		}
	}), Options{})
	require.NoError(t, err, "a day in a row may be bad")
}

// Above saturation: a sensor's 102 % in damp air, an error in dry air.
func TestHumidityAboveSaturation(t *testing.T) {
	text := tmy3Text(func(row int, f []string) {
		switch row {
		case 99, 101:
			f[37] = "96"
		case 100:
			f[37] = "108"
		case 200:
			f[37] = "102"
		}
	})
	s, err := readText(text, Options{})
	require.NoError(t, err)
	assert.Equal(t, 1., s.Hours[100].Humidity)
	assertNote(t, s, "relative humidity: 1 values above 100 % between damp hours were read as 100 % (108 %")
	assertNote(t, s, "relative humidity: 1 values no air can have count as missing (102 %")
	assert.Less(t, s.Hours[200].Humidity, 0.9)
}

// The flags of TMY3 and EPW for filled data are kept; where most nights are
// filled, they count as observed.
func TestFilledHours(t *testing.T) {
	flagged := func(every int) string {
		return tmy3Text(func(row int, f []string) {
			if row%every == 0 {
				f[32] = "E"
			}
		})
	}
	s, err := readText(flagged(10), Options{})
	require.NoError(t, err)
	assert.True(t, s.Hours[10].Filled)
	assert.False(t, s.Hours[11].Filled)
	assertNote(t, s, "dry bulb: 876 of 8760 hours were filled in by the publisher, not observed")
	s, err = readText(flagged(1), Options{})
	require.NoError(t, err)
	assert.False(t, s.Hours[10].Filled)
	assertNote(t, s, "most of the nights among them")

	s, err = readText(epwText(2013, func(row int, f []string) {
		f[5] = "A7A7A7A7E0?9"
		if row == 7 {
			f[5] = "B8A7A7A7E0?9"
		}
	}), Options{})
	require.NoError(t, err)
	assert.True(t, s.Hours[7].Filled)
	assert.False(t, s.Hours[8].Filled)
}
