package weather

import (
	"math"
	"strconv"
)

// What a file says of its hours and what its hours say, set against each other.
// The marks are our own, wide of all 1,009 stations of TMY3 (docs/stations.md).
const (
	halfYear     = 4000 // hours that are more than a spell of weather
	weakestSun   = 100  // W/m²: half a year has hours far above, also near the poles
	sunOff       = 2    // hours between the middle of the sun's day and noon by place and clock
	evenSun      = 0.3  // of 1: a mean day that is the same at all hours tells no noon
	zoneOff      = 4    // hours from the sun's time; Kashgar on Beijing's time has 3 (from memory)
	tropics      = 25   // degrees: poleward of them the half-years are told apart
	wrongSummer  = 3    // K by which the other half-year is the warmer one
	coldestYear  = 10   // °C: where no hour of a warm half-year is above, nobody cools
	mostAbove    = 0.1  // of the hours, dew points above the dry bulb; two stations of TMY3 have 0.02
	longestStill = 72   // hours of one and the same dry bulb, to the last digit
)

// contradictions notes what cannot all be true. Irradiance that is none is put
// aside, so that it is estimated as where there is none.
func (s *Series) contradictions() {
	s.checkSun()
	s.checkZone()
	s.checkHalfYears()
	s.checkStill()
	s.checkSpare()
}

// checkSun looks whether irradiance is that of the sun, and at its time.
func (s *Series) checkSun() {
	n, highest := 0, 0.
	var sum, east, north float64 // of irradiance, by the clock as an angle
	for i := range s.Hours {
		v := s.Hours[i].GHI
		if math.IsNaN(v) {
			continue
		}
		at := s.Start(i)
		angle := (float64(at.Hour()) + float64(at.Minute())/60 + 0.5) / 24 * 2 * math.Pi
		n++
		highest, sum = max(highest, v), sum+v
		east, north = east+v*math.Sin(angle), north+v*math.Cos(angle)
	}
	if n < halfYear {
		return
	}
	if highest < weakestSun {
		for i := range s.Hours {
			s.Hours[i].GHI = math.NaN()
		}
		s.note(Note{Kind: NoteNoSun, Value: math.Round(highest*1000) / 1000})
		return
	}
	noon := 12 + s.Station.UTCOffset - s.Station.Longitude/15
	middle := math.Atan2(east, north) / (2 * math.Pi) * 24
	if off := clockApart(middle, noon); off > sunOff && math.Hypot(east, north) > evenSun*sum {
		s.note(Note{Kind: NoteSunOff, Value: math.Round(math.Mod(middle+24, 24)), Want: int(math.Mod(math.Round(noon)+24, 24))})
	}
}

// clockApart is how far apart two clock times are in hours, at most 12; NaN where
// one is not known.
func clockApart(a, b float64) float64 { return math.Abs(math.Remainder(a-b, 24)) }

// checkZone sets the clock against the longitude.
func (s *Series) checkZone() {
	st := s.Station
	if off := clockApart(st.UTCOffset, st.Longitude/15); off > zoneOff {
		s.note(Note{Kind: NoteZoneOff, Value: st.UTCOffset, Other: strconv.FormatFloat(st.Longitude, 'f', -1, 64), Count: int(math.Round(off))})
	}
}

// checkHalfYears looks whether the warm half-year is the warmer one, and warm.
func (s *Series) checkHalfYears() {
	var sum, n [2]float64
	highest := math.Inf(-1)
	for i := range s.Hours {
		if v := s.Hours[i].DryBulb; !math.IsNaN(v) {
			half := 0
			if aprilOn(s.Start(i).Month()) {
				half, highest = 1, max(highest, v)
			} else if !s.northern() {
				highest = max(highest, v)
			}
			sum[half], n[half] = sum[half]+v, n[half]+1
		}
	}
	if min(n[0], n[1]) < seasonShare*octoberToMarch {
		return
	}
	if highest < coldestYear {
		s.note(Note{Kind: NoteCold, Value: math.Round(highest*10) / 10})
	}
	warmer := sum[1]/n[1] - sum[0]/n[0] // April to September
	if lat := s.Station.Latitude; math.Abs(lat) > tropics && warmer*math.Copysign(1, lat) < -wrongSummer {
		s.note(Note{Kind: NoteHemisphere, Value: lat})
	}
}

// checkStill looks for a thermometer that stands still.
func (s *Series) checkStill() {
	longest, from, start := 0, 0, 0
	for i := 1; i <= len(s.Hours); i++ {
		if i < len(s.Hours) && s.Hours[i].DryBulb == s.Hours[start].DryBulb { // never of NaN
			continue
		}
		if i-start > longest {
			longest, from = i-start, start
		}
		start = i
	}
	if longest >= longestStill {
		h := &s.Hours[from]
		s.note(Note{Kind: NoteStill, Count: longest, Value: h.DryBulb, Places: []Place{{Time: h.Time, Value: h.DryBulb}}})
	}
}

// checkSpare looks whether the humidity that is not used belongs to the dry bulb
// that is: if two columns are exchanged, relative humidity alone does not tell.
func (s *Series) checkSpare() {
	of, above := dewPoint, 0
	switch s.SpareKind {
	case DewPoint:
	case WetBulb:
		of = wetBulb
	default:
		return
	}
	for i, v := range s.Spare {
		if v-s.Hours[i].DryBulb > sensorsApart {
			above++
		}
	}
	if float64(above) > mostAbove*float64(len(s.Hours)) {
		s.note(Note{Kind: NoteSpareAbove, Of: limits[of].name, Count: above, Want: len(s.Hours)})
	}
}

// belowDryBulb puts a dew point or wet bulb above the dry bulb right, which no air
// has: by up to a kelvin it is two sensors' disagreement in saturated air, above
// that the value is wrong, and where many are the file is refused.
func (s *Series) belowDryBulb(file string, rows []observation, q quantity) error {
	if q == relHum {
		return nil // see saturate
	}
	var slight, wrong []int
	for i := range rows {
		switch above := rows[i].values[q] - rows[i].values[dryBulb]; {
		case above > sensorsApart:
			wrong = append(wrong, i)
		case above > 0:
			slight = append(slight, i)
		}
	}
	if len(wrong) > placesNamed && float64(len(wrong)) > mostImpossible*float64(len(rows)) {
		r := &rows[wrong[0]]
		e := fileError(file, "are the two columns exchanged, or is one in another unit?",
			"%s is above the dry bulb in %d of %d hours, here %.4g and %.4g °C", limits[q].name, len(wrong), len(rows), r.values[q], r.values[dryBulb])
		e.Line = r.line
		return e
	}
	s.noteAbove(rows, NoteAboveDryBulb, q, wrong)
	s.noteAbove(rows, NoteCutToDryBulb, q, slight)
	for _, i := range wrong {
		rows[i].values[q] = math.NaN()
	}
	for _, i := range slight {
		rows[i].values[q] = rows[i].values[dryBulb]
	}
	return nil
}

// sensorsApart is how far in K a dew point or wet bulb may be measured above the
// dry bulb. Common practice, no source.
const sensorsApart = 1

func (s *Series) noteAbove(rows []observation, kind NoteKind, q quantity, hours []int) {
	if len(hours) == 0 {
		return
	}
	n := Note{Kind: kind, Of: limits[q].name, Other: limits[q].si, Count: len(hours)}
	for _, i := range hours[:min(len(hours), placesNamed)] {
		n.Places = append(n.Places, Place{Line: rows[i].line, Time: rows[i].time, Value: rows[i].values[q]})
	}
	s.note(n)
}
