package solar

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
)

// Golden, Colorado, as in the worked example of the NREL solar position
// algorithm: Reda and Andreas, NREL/TP-560-34302 (2003), appendix A.5.
const goldenLat, goldenLon = 39.742476, -105.1786

func mst(y int, m time.Month, d, h, min, s int) time.Time {
	return time.Date(y, m, d, h, min, s, 0, time.FixedZone("MST", -7*3600))
}

func elevation(t time.Time, lat, lon float64) float64 {
	return math.Asin(CosZenith(t, lat, lon)) / rad
}

// Meeus (1998), example 25.a: 13 October 1992 at 0h TD, apparent declination
// -7° 47' 06", right ascension 198.38083°; the book states 0.01° accuracy.
// Example 28.b: equation of time of that instant +13m 42.7s (example 28.a has
// the high-accuracy 13m 42.6s).
func TestSunMeeusExample25a(t *testing.T) {
	sun := At(time.Date(1992, 10, 13, 0, 0, 0, 0, time.UTC))
	assert.InDelta(t, -(7 + 47/60. + 6/3600.), sun.Declination, 0.01)
	assert.InDelta(t, 13+42.6/60, sun.EquationOfTime, 5/60.)
}

// NREL/TP-560-34302: 17 October 2003 12:30:30 MST, zenith 50.111622° with
// refraction, elevation 39.872046° without it, as the tests of pvlib-python
// (test_solarposition.py) quote them. 0.02° is twice the method's accuracy, for
// the sun's parallax (0.002°) is left out too.
func TestZenithNRELExample(t *testing.T) {
	assert.InDelta(t, 39.872046, elevation(mst(2003, 10, 17, 12, 30, 30), goldenLat, goldenLon), 0.02)
	assert.InDelta(t, 39.505196, elevation(mst(2003, 10, 18, 12, 30, 30), goldenLat, goldenLon), 0.02)
}

// Rise, transit and set from NREL's SPA web calculator, quoted in pvlib-python,
// test_solarposition.py. At rise and set the sun's centre stands at -0.8333°
// (refraction 0.5667° and semidiameter 0.2667°), at transit due south.
//
// Known disagreement: the same list has the sunset of 2 August 2015 at 19:13:58,
// which is one minute later than its own rise and transit allow, and than the
// US Naval Observatory's 19:13 (to the minute) in the list beside it. That one
// is checked against the Observatory, to half a minute (0.1°).
func TestRiseTransitSetNREL(t *testing.T) {
	for _, c := range []struct {
		name               string
		rise, transit, set time.Time
		lat, lon           float64
		setTolerance       float64
	}{
		{"Golden 2 January 2015", mst(2015, 1, 2, 7, 21, 55), mst(2015, 1, 2, 12, 4, 45), mst(2015, 1, 2, 16, 47, 43), goldenLat, goldenLon, 0.02},
		{"Golden 2 August 2015", mst(2015, 8, 2, 5, 0, 27), mst(2015, 8, 2, 12, 6, 58), mst(2015, 8, 2, 19, 13, 0), goldenLat, goldenLon, 0.1},
		{"35 S 5 July 1996", time.Date(1996, 7, 5, 7, 8, 15, 0, time.UTC), time.Date(1996, 7, 5, 12, 4, 36, 0, time.UTC), time.Date(1996, 7, 5, 17, 1, 4, 0, time.UTC), -35, 0, 0.02},
		{"35 S 4 December 2004", time.Date(2004, 12, 4, 4, 38, 57, 0, time.UTC), time.Date(2004, 12, 4, 11, 50, 22, 0, time.UTC), time.Date(2004, 12, 4, 19, 2, 3, 0, time.UTC), -35, 0, 0.02},
	} {
		t.Run(c.name, func(t *testing.T) {
			assert.InDelta(t, -0.8333, elevation(c.rise, c.lat, c.lon), 0.02, "rise")
			assert.InDelta(t, -0.8333, elevation(c.set, c.lat, c.lon), c.setTolerance, "set")
			// the cosine is symmetric about transit
			before := CosZenith(c.transit.Add(-2*time.Hour), c.lat, c.lon)
			after := CosZenith(c.transit.Add(2*time.Hour), c.lat, c.lon)
			assert.InDelta(t, before, after, 5e-4, "transit")
		})
	}
}

// pvlib-python, test_clearsky.py, test_haurwitz, lists GHI at these elevations
// with the coefficient 0.059; ours is 0.057 (see extinction). Put onto the same
// coefficient the values must agree to rounding.
func TestClearSkyGHIPvlibTable(t *testing.T) {
	for _, c := range []struct{ elevation, ghi float64 }{
		{-20, 0}, {-0.05, 0}, {5, 48.6298687941956}, {10, 135.741748091813},
		{30, 487.894132885425}, {50, 778.766689344363}, {90, 1035.09203253450},
	} {
		cosZ := math.Sin(c.elevation * rad)
		want := c.ghi
		if cosZ > 0 {
			want *= math.Exp((0.059 - extinction) / cosZ)
		}
		assert.InDelta(t, want, ClearSkyGHI(cosZ), 1e-9*1000, "elevation %g", c.elevation)
	}
	assert.Zero(t, ClearSkyGHI(0))
}

func TestClearSkyIsMidHour(t *testing.T) {
	start := time.Date(2015, 8, 2, 11, 0, 0, 0, time.UTC) // local standard time
	want := ClearSkyGHI(CosZenith(mst(2015, 8, 2, 11, 30, 0), goldenLat, goldenLon))
	assert.InDelta(t, want, ClearSky(start, goldenLat, goldenLon, -7), 1e-9)
	assert.Greater(t, want, 900.)
	night := time.Date(2015, 8, 2, 0, 0, 0, 0, time.UTC)
	assert.Zero(t, ClearSky(night, goldenLat, goldenLon, -7))
}

// Bounds from geometry alone: the sun stays between the tropics, sundials
// within 17 minutes of clocks, and the equinox day is twelve hours anywhere.
func TestSunProperties(t *testing.T) {
	for d := range 366 {
		sun := At(time.Date(2024, 1, 1+d, 12, 0, 0, 0, time.UTC))
		assert.LessOrEqual(t, math.Abs(sun.Declination), 23.45)
		assert.LessOrEqual(t, math.Abs(sun.EquationOfTime), 17.)
	}
	for _, lat := range []float64{-60, 0, 41, 60} {
		up := 0
		for m := range 24 * 60 {
			if CosZenith(time.Date(2024, 3, 20, 0, m, 0, 0, time.UTC), lat, 0) > 0 {
				up++
			}
		}
		assert.InDelta(t, 720, up, 4, "latitude %g", lat)
	}
}
