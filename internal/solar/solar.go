// Package solar gives the position of the sun and the irradiance of a cloudless
// sky on level ground.
//
// It serves files that carry no irradiance. Assumptions: the geometric sun
// without refraction (it lifts a low sun by up to 0.6°, where the irradiance is
// a few W/m²), one mean clear atmosphere for every place and season. Left out:
// altitude, turbidity, water vapour, the changing distance of the sun (±3.3 %).
//
// Sources: Jean Meeus, Astronomical Algorithms, 2nd edition (1998), chapters 7,
// 12, 22 and 25, the method behind NOAA's solar calculator; B. Haurwitz,
// Insolation in relation to cloudiness and cloud density, Journal of
// Meteorology 2 (1945), 154-166.
package solar

import (
	"math"
	"time"
)

const rad = math.Pi / 180

// Sun is the place of the sun on the celestial sphere at one instant.
type Sun struct {
	Declination    float64 // degrees north of the celestial equator
	EquationOfTime float64 // minutes by which sundial time is ahead of mean time
}

// At is the sun at an instant. Valid for 1900 to 2100; stated accuracy of the
// low-accuracy method is 0.01° in longitude.
//
// Source: Meeus (1998), chapter 25, and for the equation of time chapter 28.
func At(t time.Time) Sun {
	T := centuries(t)
	L0 := 280.46646 + T*(36000.76983+T*0.0003032) // eq. 25.2, mean longitude
	M := 357.52911 + T*(35999.05029-T*0.0001537)  // eq. 25.3, mean anomaly
	C := (1.914602-T*(0.004817+T*0.000014))*math.Sin(M*rad) +
		(0.019993-T*0.000101)*math.Sin(2*M*rad) +
		0.000289*math.Sin(3*M*rad) // equation of the centre
	omega := 125.04 - 1934.136*T
	lambda := L0 + C - 0.00569 - 0.00478*math.Sin(omega*rad) // apparent longitude
	eps := obliquity(T) + 0.00256*math.Cos(omega*rad)        // eq. 25.8
	sinL := math.Sin(lambda * rad)
	alpha := math.Atan2(math.Cos(eps*rad)*sinL, math.Cos(lambda*rad)) / rad // eq. 25.6
	return Sun{
		Declination:    math.Asin(math.Sin(eps*rad)*sinL) / rad, // eq. 25.7
		EquationOfTime: 4 * turn(L0-0.0057183-alpha),            // eq. 28.1
	}
}

// centuries of 36525 days since noon of 1 January 2000. The difference between
// dynamical and universal time, about a minute, moves the sun by 0.0007°.
func centuries(t time.Time) float64 {
	j2000 := time.Date(2000, 1, 1, 12, 0, 0, 0, time.UTC)
	return t.Sub(j2000).Hours() / 24 / 36525
}

// obliquity is the mean tilt of the ecliptic in degrees (eq. 22.2).
func obliquity(T float64) float64 {
	return 23 + (26+(21.448-T*(46.8150+T*(0.00059-T*0.001813)))/60)/60
}

// turn brings an angle in degrees to -180..180.
func turn(deg float64) float64 {
	return deg - 360*math.Round(deg/360)
}

// CosZenith is the cosine of the angle between the sun and the vertical at an
// instant, negative at night. Latitude and longitude are in degrees, north and
// east positive.
//
// Source: Meeus (1998), eq. 13.6.
func CosZenith(t time.Time, latitude, longitude float64) float64 {
	sun := At(t)
	utc := t.UTC()
	minutes := float64(utc.Hour()*60+utc.Minute()) + float64(utc.Second())/60
	hourAngle := (minutes+sun.EquationOfTime)/4 - 180 + longitude
	phi, delta := latitude*rad, sun.Declination*rad
	return math.Sin(phi)*math.Sin(delta) + math.Cos(phi)*math.Cos(delta)*math.Cos(hourAngle*rad)
}

// extinction is the coefficient of the clear-sky relation as given in the
// project's model description and, from memory, in Reno, Hansen and Stein,
// Sandia report SAND2012-2389 (2012). Sandia's and pvlib's own code have 0.059;
// the difference is 0.2 % with the sun overhead and 1 % at a zenith of 78°.
const extinction = 0.057

// ClearSkyGHI is the global irradiance on level ground under a cloudless sky in
// W/m², from the cosine of the solar zenith angle; 0 with the sun below the
// horizon. It is an average over clear days at one station near sea level, with
// no term for altitude or haze.
//
// Source: Haurwitz (1945), converted from 94.4 cal/(cm² h).
func ClearSkyGHI(cosZenith float64) float64 {
	if cosZenith <= 0 {
		return 0
	}
	return 1098 * cosZenith * math.Exp(-extinction/cosZenith)
}

// ClearSky is ClearSkyGHI in the middle of the hour that begins at start. The
// start is in local standard time (its own zone is ignored), utcOffset in hours
// ahead of UTC, latitude and longitude in degrees north and east.
func ClearSky(start time.Time, latitude, longitude, utcOffset float64) float64 {
	local := time.Date(start.Year(), start.Month(), start.Day(), start.Hour(), start.Minute(), 0, 0, time.UTC)
	middle := local.Add(30*time.Minute - time.Duration(utcOffset*float64(time.Hour)))
	return ClearSkyGHI(CosZenith(middle, latitude, longitude))
}
