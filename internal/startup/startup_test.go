package startup

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// Sea-level orifice rows of engineering.md §3, Cd 0.6: 500 fpm 0.043 in w.c.,
// 750 fpm 0.097, 1,000 fpm 0.173 (computed there).
func TestBackPressure(t *testing.T) {
	for i, inches := range []float64{0.043, 0.097, 0.173} {
		require.InDelta(t, inches, BackPressure(FaceVelocities[i], 1.2)/249.089, 0.0006)
	}
}

// US national-laboratory consumer text: 1 to 2 ft² of opening per 1,000 cfm.
func TestOpeningArea(t *testing.T) {
	const squareFoot, cfm = 0.3048 * 0.3048, 0.3048 * 0.3048 * 0.3048 / 60
	require.InDelta(t, 2.0, OpeningArea(1000*cfm, FaceVelocities[0])/squareFoot, 1e-9)
	require.InDelta(t, 1.0, OpeningArea(1000*cfm, FaceVelocities[2])/squareFoot, 1e-9)
	require.InDelta(t, 0.5, WindowOpening(1.8, 4, 0.9), 1e-12)
}

// The same formula in United States units, p = 4.52 Q^1.85 / (C^1.85 d^4.87) in
// psi per foot, gal/min and inches (NFPA 13, from memory), within a percent.
func TestLineCapacity(t *testing.T) {
	got := TapLine.Capacity() / 3.785411784 / 60 // gal/min
	require.InEpsilon(t, 0.447, got, 0.01)
	wide := TapLine
	wide.Diameter *= 2
	require.InEpsilon(t, 6.19, wide.Capacity()/TapLine.Capacity(), 0.01, "2^2.63")
}

func TestDates(t *testing.T) {
	d := func(y int, m time.Month, d int) time.Time { return time.Date(y, m, d, 0, 0, 0, 0, time.UTC) }
	for _, c := range []struct {
		day   int
		south bool
		want  time.Time
	}{
		{0, false, d(2028, 1, 1)}, {59, false, d(2028, 3, 1)}, {364, false, d(2028, 12, 31)}, {-1, false, d(2027, 12, 31)}, {370, false, d(2029, 1, 6)},
		{0, true, d(2028, 7, 1)}, {183, true, d(2028, 12, 31)}, {184, true, d(2029, 1, 1)}, {364, true, d(2029, 6, 30)}, {-1, true, d(2028, 6, 30)},
	} {
		require.Equal(t, c.want, Date(c.day, 2028, c.south), "%d south %v", c.day, c.south)
		require.Equal(t, (c.day+365)%365, dayOfYear(c.want, c.south))
	}
	require.Equal(t, dayOfYear(d(2027, 2, 28), false), dayOfYear(d(2028, 2, 29), false))
}

func TestOneYearKeepsTheMargin(t *testing.T) {
	p := PlanOf([]Year{{LastFreeze: 120, FirstFreeze: 280, FirstNeed: 150, Opens: 165, Closes: 245, LastNeed: 255}}, FreezeMargin)
	require.False(t, p.Percentiles)
	require.Equal(t, 135, p.SafeFrom)
	require.Equal(t, 265, p.SafeUntil)
	require.Equal(t, Window{From: 135, By: 164, Best: 158}, p.StartUp)
	require.Equal(t, Window{From: 246, By: 265, Best: 246}, p.CloseDown)
}

// Ten years: nine of ten are safe, no days added. Of ten sorted dates that is
// the ninth latest and the second earliest.
func TestTenYearsUsePercentiles(t *testing.T) {
	var years []Year
	for i := range 10 {
		years = append(years, Year{LastFreeze: 100 + i, FirstFreeze: 290 + i, FirstNeed: 150 + i, Opens: 160 + i, Closes: 240 + i, LastNeed: 250 + i})
	}
	p := PlanOf(years, FreezeMargin)
	require.True(t, p.Percentiles)
	require.Equal(t, 109, p.SafeFrom, "the day after the ninth of ten last freezes")
	require.Equal(t, 290, p.SafeUntil, "the day before the second of ten first freezes")
	require.Equal(t, 109, p.LastFreeze)
	require.Equal(t, 151, p.FirstNeed)
	require.Equal(t, 258, p.LastNeed)
	require.Equal(t, Window{From: 109, By: 160, Best: 154}, p.StartUp)
	require.Equal(t, Window{From: 249, By: 290, Best: 249}, p.CloseDown)
}

func TestTightPlaces(t *testing.T) {
	p := PlanOf([]Year{{LastFreeze: 140, FirstFreeze: 250, FirstNeed: 120, Opens: 145, Closes: 240, LastNeed: 260}}, FreezeMargin)
	require.Equal(t, Window{From: 155, By: 161, Best: 155, Tight: true}, p.StartUp, "after the frost, whatever the need")
	require.Equal(t, Window{From: 229, By: 235, Best: 229, Tight: true}, p.CloseDown, "before the frost, whatever the need")
}

func TestWithoutFreezeOrNeed(t *testing.T) {
	p := PlanOf([]Year{{LastFreeze: None, FirstFreeze: None, FirstNeed: 60, Opens: 90, Closes: 300, LastNeed: 330}}, FreezeMargin)
	require.Equal(t, None, p.SafeFrom)
	require.Equal(t, Window{From: 62, By: 89, Best: 83}, p.StartUp)
	require.Equal(t, Window{From: 301, By: 328, Best: 301}, p.CloseDown)
	p = PlanOf([]Year{{LastFreeze: 130, FirstFreeze: 280, FirstNeed: None, Opens: None, Closes: None, LastNeed: None}}, FreezeMargin)
	require.False(t, p.Needed())
}

// Whatever the dates: the planned week lies in its window, start-up never
// before the frost is over and close-down never after it is back.
func TestWindowsHold(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var years []Year
		for range rapid.IntRange(1, 12).Draw(t, "years") {
			day := func(low, high int, name string) int { return rapid.IntRange(low, high).Draw(t, name) }
			y := Year{LastFreeze: day(0, 170, "last freeze"), FirstFreeze: day(200, 360, "first freeze"), FirstNeed: day(20, 190, "first need"), LastNeed: day(195, 350, "last need")}
			y.Opens, y.Closes = min(191, y.FirstNeed+day(0, 30, "opens")), max(194, y.LastNeed-day(0, 30, "closes"))
			if rapid.Bool().Draw(t, "no freeze") {
				y.LastFreeze, y.FirstFreeze = None, None
			}
			years = append(years, y)
		}
		p := PlanOf(years, FreezeMargin)
		for _, w := range []Window{p.StartUp, p.CloseDown} {
			require.GreaterOrEqual(t, w.By-w.From, VisitDays-1)
			require.GreaterOrEqual(t, w.Best, w.From)
			require.LessOrEqual(t, w.Best+VisitDays-1, w.By)
		}
		if p.SafeFrom != None {
			require.GreaterOrEqual(t, p.StartUp.From, p.SafeFrom)
			require.LessOrEqual(t, p.CloseDown.By, p.SafeUntil)
		}
	})
}

// Ten years with two freezes on the far side of New Year: the same days as the
// plan has, and None where it never freezes.
func TestSafe(t *testing.T) {
	var last, first []time.Time
	for i := range 10 {
		last = append(last, Date(90+i, 2010+i, false))
		first = append(first, Date(290+i, 2010+i, false))
	}
	last[0], first[9] = Date(-10, 2010, false), Date(370, 2019, false)
	from, until := Safe(last, first, false)
	require.Equal(t, 90+8+1, from)
	require.Equal(t, 290+1-1, until)
	from, until = Safe(make([]time.Time, 10), make([]time.Time, 10), false)
	require.Equal(t, None, from)
	require.Equal(t, None, until)
}
