package weather

import (
	"fmt"
	"math"
	"time"
)

// Year is one cooling year of a series: a calendar year north of the equator,
// July to June south of it, so that the season stands in one piece.
type Year struct {
	Label  string  // "2019", south of the equator "2019/20"; "typical" for a typical year
	Series *Series // its hours; shares memory with the series it was cut from
	Valid  int     // hours of the warm half-year with dry bulb and humidity
	Want   int     // hours the warm half-year has
}

// Whole tells whether at least nine tenths of the warm half-year are there.
func (y *Year) Whole() bool { return float64(y.Valid) >= seasonShare*float64(y.Want) }

// LeftOut is the note on a year of a file that is not whole.
func (y *Year) LeftOut(file string) Note {
	return Note{Kind: NoteYearLeftOut, Of: y.Label, Other: file, Count: y.Valid, Want: y.Want}
}

// aYear is the number of hours up to which a series is taken as one year,
// wherever it begins: a leap year and a day on either side.
const aYear = leapHours + 48

// Years cuts a series into cooling years. A typical year and a series no longer
// than a year stay in one piece, whatever day they begin on.
func (s *Series) Years() []Year {
	if s.Typical {
		return []Year{s.year("typical", 0, len(s.Hours))}
	}
	north := s.northern()
	if len(s.Hours) <= aYear {
		mid := s.Start(len(s.Hours) / 2)
		return []Year{s.year(yearLabel(mid, north), 0, len(s.Hours))}
	}
	var out []Year
	for from := 0; from < len(s.Hours); {
		label := yearLabel(s.Start(from), north)
		to := from
		for to < len(s.Hours) && yearLabel(s.Start(to), north) == label {
			to += 24 // whole days
		}
		out = append(out, s.year(label, from, min(to, len(s.Hours))))
		from = to
	}
	return out
}

// yearLabel names the cooling year that holds t.
func yearLabel(t time.Time, north bool) string {
	if north {
		return fmt.Sprintf("%04d", t.Year())
	}
	first := t.Year()
	if t.Month() < time.July {
		first--
	}
	return fmt.Sprintf("%04d/%02d", first, (first+1)%100)
}

// year cuts one year out.
func (s *Series) year(label string, from, to int) Year {
	cut := *s
	cut.Hours = s.Hours[from:to:to]
	if s.Spare != nil {
		cut.Spare = s.Spare[from:to:to]
	}
	cut.Source = s.sourceAt(cut.Start(len(cut.Hours) / 2))
	y := Year{Label: label, Series: &cut}
	y.Valid, y.Want = cut.warmHours(s.northern())
	return y
}

// warmHours counts the hours of the warm half-year that have dry bulb and
// humidity, and those it should have.
func (s *Series) warmHours(north bool) (valid, want int) {
	want = octoberToMarch
	if north {
		want = aprilToSeptember
	}
	seen := 0
	for i := range s.Hours {
		if aprilOn(s.Start(i).Month()) != north {
			continue
		}
		seen++
		if h := &s.Hours[i]; !math.IsNaN(h.DryBulb) && !math.IsNaN(h.Humidity) {
			valid++
		}
	}
	return valid, max(want, seen)
}
