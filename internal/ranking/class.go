package ranking

import (
	"math"

	"github.com/evapbook/evapbook/internal/climate"
)

// Class is the computed class of a climate. It is not the climate zone of a
// building code: codes go by tables of counties drawn from older records, and
// their moisture letters by rain, which hourly files do not carry reliably.
type Class struct {
	Zone       int     // thermal zone, 0 (hottest) to 8
	CDD10      float64 // K d a year above 10 °C (50 °F)
	HDD18      float64 // K d a year below 18.3 °C (65 °F)
	Dryness    string  // one of Drynesses
	Depression float64 // K, mean wet-bulb depression of the warm hours; NaN without any
}

// Drynesses from the best for evaporative cooling to the worst, and where no
// hour is warm.
var Drynesses = [...]string{"very dry", "dry", "mixed", "humid", "cool"}

// Bounds of the drynesses in K of mean wet-bulb depression over the hours of
// WarmBase and warmer. They are this program's own, no source: a direct stage of
// 0.8 takes 12 K of depression down 9.6 K, and 8 K only 6.4 K.
const (
	VeryDryFrom = 16
	DryFrom     = 12
	MixedFrom   = 8
)

// WarmBase is the dry bulb in °C (80 °F) from which hours count as warm: the
// base of the cooling degree-hours of the ASHRAE Handbook Fundamentals 2009
// ch. 14.
const WarmBase = (80 - 32) / 1.8

// baseCDD is the base of cooling degree-days of the thermal criteria, °C.
const baseCDD = 10

// yearDays brings degree-days of longer and broken records to one year.
const yearDays = 365

func classify(c *climate.Climate) Class {
	var k Class
	days := 0
	for i := range c.Days {
		if d := &c.Days[i]; d.Valid > 0 {
			days++
			k.CDD10 += max(0, d.Mean-baseCDD)
			k.HDD18 += d.Heating()
		}
	}
	k.CDD10 *= yearDays / float64(days)
	k.HDD18 *= yearDays / float64(days)
	k.Zone = ThermalZone(k.CDD10, k.HDD18)
	k.Depression = warmDepression(c.Hours)
	k.Dryness = dryness(k.Depression)
	return k
}

// ThermalZone is the computed thermal zone, 0 to 8, from cooling degree-days
// over 10 °C and heating degree-days under 18.3 °C, K d.
//
// Source: thermal criteria of ANSI/ASHRAE Standard 169, from memory as noted
// in the project's reference notes (engineering.md section 8).
func ThermalZone(cdd10, hdd18 float64) int {
	switch {
	case cdd10 > 6000:
		return 0
	case cdd10 > 5000:
		return 1
	case cdd10 > 3500:
		return 2
	case hdd18 <= 2000:
		return 3
	case hdd18 <= 3000:
		return 4
	case hdd18 <= 4000:
		return 5
	case hdd18 <= 5000:
		return 6
	case hdd18 <= 7000:
		return 7
	default:
		return 8
	}
}

func warmDepression(hours []climate.Hour) float64 {
	sum, n := 0.0, 0
	for i := range hours {
		if h := &hours[i]; !h.Missing && h.Air.T >= WarmBase {
			sum += h.Air.T - h.WetBulb
			n++
		}
	}
	if n == 0 {
		return math.NaN()
	}
	return sum / float64(n)
}

func dryness(depression float64) string {
	switch {
	case math.IsNaN(depression):
		return Drynesses[4]
	case depression >= VeryDryFrom:
		return Drynesses[0]
	case depression >= DryFrom:
		return Drynesses[1]
	case depression >= MixedFrom:
		return Drynesses[2]
	default:
		return Drynesses[3]
	}
}
