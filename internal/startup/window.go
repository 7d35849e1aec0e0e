package startup

import (
	"math"
	"slices"
	"time"

	"github.com/evapbook/evapbook/internal/season"
)

// None is the day of something that never happens.
const None = math.MinInt32

// Margins and spans in days; our own marks.
const (
	FreezeMargin = 14 // kept from the freeze dates of fewer than FewYears years
	VisitDays    = 7  // a visit is planned for a week
	NoFreezeLead = 28 // length of the windows where it never freezes
	FewYears     = 5  // years from which percentiles are used instead
)

// Shares of the years that a date is safe in, where there are FewYears.
const safeShare = 0.9

// Year is what one cooling year says, as days counted from its first day: 1
// January, south of the equator 1 July. Days of neighbouring years go below 0
// and above 364.
type Year struct {
	Label       string
	LastFreeze  int // last day at or below 0 °C before midsummer
	FirstFreeze int // first such day after it
	FirstNeed   int // first day that needs water
	Opens       int // 5 % of the hours that need water have passed
	Closes      int // 95 %
	LastNeed    int // last day that needs water
}

// YearOf reads a season. South says that its year begins in July.
func YearOf(label string, s *season.Season, south bool) Year {
	c, t := s.Climate, &s.Totals
	middle := dayOfYear(c.Days[c.Calendar.Midsummer].Date, south)
	day := func(i int, from func(i int) int) int {
		if i < 0 {
			return None
		}
		return middle + from(i)
	}
	// By way of midsummer, so that a season stays in one piece.
	season := func(i int) int { return c.Days[i].Season }
	before := func(i int) int { return -c.UntilMidsummer(i) }
	return Year{
		Label: label, LastFreeze: day(c.Calendar.LastFreeze, before), FirstFreeze: day(c.Calendar.FirstFreeze, c.SinceMidsummer),
		FirstNeed: day(t.FirstEvap, season), Opens: day(t.EvapOpens, season), Closes: day(t.EvapCloses, season), LastNeed: day(t.LastEvap, season),
	}
}

// dayOfYear counts days of a common year: 29 February is 28 February, so that
// years can be compared by date.
func dayOfYear(t time.Time, south bool) int {
	month, day := t.Month(), t.Day()
	if month == time.February && day == 29 {
		day = 28
	}
	n := time.Date(2001, month, day, 0, 0, 0, 0, time.UTC).YearDay() - 1
	if south {
		n = (n + 365 - firstOfJuly) % 365
	}
	return n
}

const firstOfJuly = 181 // days of a common year before 1 July

// Date is a counted day in the cooling year that begins in a calendar year.
func Date(day, year int, south bool) time.Time {
	if south {
		day += firstOfJuly
	}
	for ; day < 0; day += 365 {
		year--
	}
	for ; day >= 365; day -= 365 {
		year++
	}
	common := time.Date(2001, time.January, 1+day, 0, 0, 0, 0, time.UTC)
	return time.Date(year, common.Month(), common.Day(), 0, 0, 0, 0, time.UTC)
}

// Window is when a visit can be made, days ends included.
type Window struct {
	From, By int  // None where open
	Best     int  // first day of the week to plan
	Tight    bool // the need and the frost leave no week between them
}

// Plan is the start-up and the close-down of a place.
type Plan struct {
	Years       int
	Percentiles bool // margins are percentiles of the years, else days
	Margin      int  // days kept from the freeze dates otherwise

	// Freeze dates as planned with, margin included; None where it never freezes.
	SafeFrom, SafeUntil int
	// Freeze dates as they stand: the latest last and the earliest first freeze.
	LastFreeze, FirstFreeze int
	FirstNeed, LastNeed     int // of any hour: earliest and latest of the years, or their percentiles
	Opens, Closes           int // of the season in earnest: a twentieth of the hours lies before and after
	StartUp, CloseDown      Window
}

// Needed tells whether any year needs water.
func (p *Plan) Needed() bool { return p.FirstNeed != None }

// PlanOf plans from one or several years, keeping margin days from the freezes
// where there are too few years for percentiles.
func PlanOf(years []Year, margin int) Plan {
	p := Plan{Years: len(years), Percentiles: len(years) >= FewYears, Margin: margin}
	last := collect(years, func(y *Year) int { return y.LastFreeze })
	first := collect(years, func(y *Year) int { return y.FirstFreeze })
	p.LastFreeze, p.FirstFreeze = late(last, 1), early(first, 1)
	p.SafeFrom, p.SafeUntil = p.LastFreeze, p.FirstFreeze
	share := 1.0
	if p.Percentiles {
		share, p.Margin = safeShare, 0
		p.SafeFrom, p.SafeUntil = late(last, share), early(first, share)
	}
	p.SafeFrom, p.SafeUntil = shift(p.SafeFrom, 1+p.Margin), shift(p.SafeUntil, -1-p.Margin)
	p.FirstNeed = early(collect(years, func(y *Year) int { return y.FirstNeed }), share)
	p.LastNeed = late(collect(years, func(y *Year) int { return y.LastNeed }), share)
	p.Opens = early(collect(years, func(y *Year) int { return y.Opens }), share)
	p.Closes = late(collect(years, func(y *Year) int { return y.Closes }), share)
	if p.Needed() {
		p.StartUp, p.CloseDown = p.open(), p.shut()
	}
	return p
}

// open is the window of start-up: after the frost, before the season is on in
// earnest. The week to plan is its last.
func (p *Plan) open() Window {
	w := Window{From: p.SafeFrom, By: p.Opens - 1}
	if w.From == None {
		w.From = w.By - NoFreezeLead + 1
	}
	if w.By-w.From < VisitDays-1 {
		w.Tight, w.By = true, w.From+VisitDays-1
	}
	w.Best = w.By - VisitDays + 1
	return w
}

// shut is the window of close-down: after the season, before the frost. The
// week to plan is its first.
func (p *Plan) shut() Window {
	w := Window{From: p.Closes + 1, By: p.SafeUntil}
	if w.By == None {
		w.By = w.From + NoFreezeLead - 1
	}
	if w.By-w.From < VisitDays-1 {
		w.Tight, w.From = true, w.By-VisitDays+1
	}
	w.Best = w.From
	return w
}

// Safe is the first day after the last freezes and the last day before the
// first freezes of FewYears years or more, safe in nine years of ten; None where
// it never freezes. Zero times are years without.
func Safe(last, first []time.Time, south bool) (from, until int) {
	days := func(dates []time.Time, within func(day int) int) []int {
		var all []int
		for _, d := range dates {
			if !d.IsZero() {
				all = append(all, within(dayOfYear(d, south)))
			}
		}
		slices.Sort(all)
		return all
	}
	// The only freezes of a year may lie before midsummer or after it: one of last
	// December comes before the season, one of next spring after it.
	const midsummer, spring = 200, 150
	before := days(last, func(d int) int {
		if d > midsummer {
			return d - 365
		}
		return d
	})
	after := days(first, func(d int) int {
		if d < spring {
			return d + 365
		}
		return d
	})
	return shift(late(before, safeShare), 1), shift(early(after, safeShare), -1)
}

func shift(day, by int) int {
	if day == None {
		return None
	}
	return day + by
}

// collect are the sorted days of the years that have one.
func collect(years []Year, of func(*Year) int) []int {
	var days []int
	for i := range years {
		if d := of(&years[i]); d != None {
			days = append(days, d)
		}
	}
	slices.Sort(days)
	return days
}

// late is the day that a share of the years do not go past, early the day that
// a share of them do not come before; 1 is all. Counted on the careful side:
// the next day of the list, none between.
func late(sorted []int, share float64) int {
	if len(sorted) == 0 {
		return None
	}
	return sorted[int(math.Ceil(share*float64(len(sorted))-1e-9))-1]
}

func early(sorted []int, share float64) int {
	if len(sorted) == 0 {
		return None
	}
	return sorted[len(sorted)-int(math.Ceil(share*float64(len(sorted))-1e-9))]
}
