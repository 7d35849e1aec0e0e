package weather

import (
	"fmt"
	"math"
	"time"
)

// longestBridge is how many missing hours in a row are interpolated; longer
// gaps stay missing. Common practice, no source.
const longestBridge = 3

// bridgeGaps interpolates short gaps of each quantity in place and notes what
// was filled and what stays missing.
func (s *Series) bridgeGaps(rows []observation, c humidityChoice) {
	used := []quantity{dryBulb, c.used, pressure, irradiance}
	if c.hasSpare {
		used = append(used, c.spare)
	}
	for _, q := range used {
		if !anyValue(rows, q) {
			if q == pressure || q == irradiance {
				s.note(Note{Kind: NoteAbsent, Of: limits[q].name})
			}
			continue
		}
		filled, left := bridge(rows, q)
		if filled > 0 {
			s.note(Note{Kind: NoteInterpolated, Of: limits[q].name, Count: filled, Value: longestBridge})
		}
		if left > 0 {
			s.note(Note{Kind: NoteLeftOut, Of: limits[q].name, Count: left})
		}
	}
}

// bridge fills runs of at most longestBridge missing values on a straight line
// between their neighbours and counts filled and remaining ones.
func bridge(rows []observation, q quantity) (filled, left int) {
	for i := 0; i < len(rows); {
		if !math.IsNaN(rows[i].values[q]) {
			i++
			continue
		}
		end := i
		for end < len(rows) && math.IsNaN(rows[end].values[q]) {
			end++
		}
		if i == 0 || end == len(rows) || end-i > longestBridge {
			left += end - i
			i = end
			continue
		}
		a, b := rows[i-1].values[q], rows[end].values[q]
		for k := i; k < end; k++ {
			rows[k].values[q] = a + (b-a)*float64(k-i+1)/float64(end-i+1)
			rows[k].filled = rows[k].filled || q == dryBulb
		}
		filled += end - i
		i = end
	}
	return filled, left
}

// Hours of the warm half-year, April to September, and of the other half.
const (
	aprilToSeptember = 183 * 24
	octoberToMarch   = 182 * 24
	seasonShare      = 0.9
)

// checkSeason refuses data of which more than a tenth of the warm half-year is
// missing, as in a file that ends in June. Of several years one must be whole.
func (s *Series) checkSeason(file string, allow bool) error {
	name := "April to September"
	if !s.northern() {
		name = "October to March"
	}
	years := s.Years()
	best := 0
	for i := range years {
		if years[i].Whole() {
			return nil
		}
		if years[i].Valid > years[best].Valid {
			best = i
		}
	}
	what := fmt.Sprintf("only %d of %d hours of the warm half-year (%s) have dry bulb and humidity", years[best].Valid, years[best].Want, name)
	if len(years) > 1 {
		what = fmt.Sprintf("in the best of %d years, %s, %s", len(years), years[best].Label, what)
	}
	if !allow {
		return unsaid(file, "get a file with the whole year, or go on with what there is by --allow-gaps", what)
	}
	n := Note{Kind: NoteShortSeason, Of: name, Count: years[best].Valid, Want: years[best].Want}
	if len(years) > 1 {
		n.Other, n.Value = years[best].Label, float64(len(years))
	}
	s.note(n)
	return nil
}

func aprilOn(m time.Month) bool { return m >= time.April && m <= time.September }

// northern tells the hemisphere, where the latitude is unknown by which half
// of the year is warmer.
func (s *Series) northern() bool {
	if !math.IsNaN(s.Station.Latitude) {
		return s.Station.Latitude >= 0
	}
	var sum, n [2]float64
	for i, h := range s.Hours {
		half := 0
		if aprilOn(s.Start(i).Month()) {
			half = 1
		}
		if !math.IsNaN(h.DryBulb) {
			sum[half] += h.DryBulb
			n[half]++
		}
	}
	return n[0] == 0 || n[1] == 0 || sum[1]/n[1] >= sum[0]/n[0]
}

// Clock hours between which the mean day is warmest. In the files this project
// was checked with it is 12 to 16 by local stamps and 20 to 23 in those that
// are in UTC and west of Greenwich.
const warmestFrom, warmestTo = 12, 18

// checkClock notes a mean day whose warmest hour is not in the afternoon, the
// mark of stamps in another time zone.
func (s *Series) checkClock() {
	var sum, n [24]float64
	for _, h := range s.Hours {
		if !math.IsNaN(h.DryBulb) {
			sum[h.Time.Hour()] += h.DryBulb
			n[h.Time.Hour()]++
		}
	}
	warmest := 0
	for hour := range sum {
		if n[hour] < 10 {
			return // too few days for a mean day
		}
		if sum[hour]/n[hour] > sum[warmest]/n[warmest] {
			warmest = hour
		}
	}
	if warmest < warmestFrom || warmest > warmestTo {
		s.note(Note{Kind: NoteWarmestHour, Value: float64(warmest)})
	}
}
