package inspect

import (
	"fmt"
	"strings"

	"github.com/evapbook/evapbook/internal/weather"
)

// judge puts the verdict on the file into words. A file read in UTC for want of
// its zone is not doubted for its clock.
func (r *Report) judge(s *weather.Series, zoneless bool) {
	v := s.Verdict()
	r.LeftOut = v.LeftOut
	var because []string
	for _, n := range v.Because {
		if !zoneless || n.Kind != weather.NoteWarmestHour {
			because = append(because, n.Text())
		}
	}
	switch {
	case len(because) > 0:
		r.Verdict = "doubtful because " + strings.Join(because, "; ")
	case v.LeftOut == 1:
		r.Verdict = "usable with 1 hour left out"
	case v.LeftOut > 0:
		r.Verdict = fmt.Sprintf("usable with %d hours left out", v.LeftOut)
	default:
		r.Verdict = "good"
	}
}
