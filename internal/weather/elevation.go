package weather

import (
	"math"
	"strconv"
)

// farHeight is how far in m recorded pressures may stand from the elevation in
// the file before they are believed instead. At true elevations yearly means of
// dry western stations stand up to 100 m low of the standard atmosphere (Golden
// 821 against 812 hPa, Leadville 706 against 699).
const farHeight = 100

// enoughPressures is the number of hours, about half a year, whose mean pressure
// is not that of a spell of weather.
const enoughPressures = 4000

// fitElevation takes the height that the recorded pressures fit for the
// station's where the file states one that they contradict. All that is made of
// the elevation is a ratio of standard pressures (eq. 8 of docs/model.md) that
// moves the recorded pressure to the site: from the wrong height it would be
// moved by the wrong difference. An elevation the user states stays, with a note.
//
// Where the columns were told by their headings (guessed), pressures that fit sea
// level at an elevation far above are most likely reduced to it, and put aside.
func (s *Series) fitElevation(stated, guessed bool) {
	sum, n := 0.0, 0
	for i := range s.Hours {
		h := &s.Hours[i]
		if math.IsNaN(h.DryBulb) || math.IsNaN(h.Humidity) {
			continue
		}
		sum += h.Pressure
		n++
	}
	fits := math.Round(heightOf(sum / float64(n)))                                // NaN where one pressure is missing
	if n < enoughPressures || !(math.Abs(fits-s.Station.Elevation) > farHeight) { // NaN: nothing to compare
		return
	}
	if guessed && math.Abs(fits) <= farHeight && s.Station.Elevation > 2*farHeight {
		s.note(Note{Kind: NoteSeaLevel, Other: strconv.FormatFloat(s.Station.Elevation, 'f', -1, 64)})
		for i := range s.Hours {
			s.Hours[i].Pressure = math.NaN()
		}
		return
	}
	note := Note{Kind: NoteElevationFitted, Value: fits, Other: strconv.FormatFloat(s.Station.Elevation, 'f', -1, 64)}
	if stated {
		note.Kind = NoteElevationDoubted
	} else {
		s.Station.Elevation = fits
	}
	s.note(note)
}

// heightOf is the height in m at which the standard atmosphere has pressure p
// in Pa: ASHRAE Fundamentals 2017 ch. 1 eq. 3 solved for the height.
func heightOf(p float64) float64 {
	return (1 - math.Pow(p/101325, 1/5.2559)) / 2.25577e-5
}
