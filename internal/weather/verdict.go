package weather

import (
	"math"
	"strconv"
)

// Grade is how far a file can be trusted.
type Grade int

// The grades of files that are read at all; what is refused is an error.
const (
	Good     Grade = iota
	Usable         // some hours are left out
	Doubtful       // look at it before you rely on it
)

// Verdict is the judgement on a series: its grade, how many hours were left out
// because of their values, and the notes that make it doubtful.
type Verdict struct {
	Grade   Grade
	LeftOut int // hours, counted once for each quantity
	Because []Note
}

// Marks of a doubtful file: our own.
const (
	manySpikes  = 24 // hours: the station had more than a single slip
	manyMissing = 0.05

	farthestHeight = 500 // m between the stated elevation and the one pressures fit: more than a slip
)

// Verdict judges a series by its notes: what the reader took out of it and what
// it could not make sense of. It is worked out from the notes alone, so a series
// made in memory is judged once it went through Read.
func (s *Series) Verdict() Verdict {
	var v Verdict
	doubt := func(n Note) { v.Grade, v.Because = Doubtful, append(v.Because, n) }
	for _, n := range s.Notes {
		switch n.Kind {
		case NoteImpossible, NoteSpikes, NoteAboveDryBulb:
			v.LeftOut += n.Count
			if n.Count >= manySpikes {
				doubt(n)
			}
		case NoteLeftOut:
			if q := n.Of; q == limits[dryBulb].name && float64(n.Count) > manyMissing*float64(len(s.Hours)) {
				doubt(n)
			}
		case NoteWarmestHour, NoteClockChange, NoteShortSeason, NoteHeaderRemoved,
			NoteNoSun, NoteSunOff, NoteZoneOff, NoteHemisphere, NoteCold, NoteStill, NoteSeaLevel, NoteSpareAbove:
			doubt(n)
		case NoteElevationFitted:
			if stated, err := strconv.ParseFloat(n.Other, 64); err == nil && math.Abs(n.Value-stated) > farthestHeight {
				doubt(n)
			}
		}
	}
	if v.Grade == Good && v.LeftOut > 0 {
		v.Grade = Usable
	}
	return v
}
