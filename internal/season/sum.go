package season

import (
	"math"

	"github.com/evapbook/evapbook/internal/job"
)

// WeekDays is the length of the spells compared for the worst week.
const WeekDays = 7

// The shares of evap hours by which the season counts as opened and closed; docs/model.md 9.
const OpensAfter, ClosesAfter = 0.05, 0.95

func (s *Season) days() {
	s.Days = make([]Day, len(s.Climate.Days))
	for i, cd := range s.Climate.Days {
		d := &s.Days[i]
		d.MaxSupply = math.NaN()
		for k := cd.First; k < cd.Last; k++ {
			h := &s.Hours[k]
			d.add(h)
			if h.Outcome != Missing && !(h.Supply.T <= d.MaxSupply) {
				d.MaxSupply = h.Supply.T
			}
		}
		d.Water.DaysOfUse = used(d.Water)
		d.BothWater.DaysOfUse = used(d.BothWater)
	}
	for i := range s.Days {
		for k := i; k < min(i+WeekDays, len(s.Days)); k++ {
			s.Days[i].Week += s.Days[k].Hours.Uncovered()
		}
	}
}

func used(w Water) int {
	if w.PumpHours > 0 {
		return 1
	}
	return 0
}

func (s *Season) months() {
	for i := range s.Days {
		cd := s.Climate.Days[i]
		m := &s.Months[cd.Date.Month()-1]
		m.include(&s.Days[i].Sums)
		if cd.Valid > 0 {
			m.Cooling += cd.Cooling()
			m.Heating += cd.Heating()
		}
		for k := cd.First; k < cd.Last; k++ {
			h := &s.Hours[k]
			m.PeakCooler = max(m.PeakCooler, h.CoolerKWh)
			m.PeakRef = max(m.PeakRef, h.RefKWh)
			m.PeakClosed = max(m.PeakClosed, h.ClosedKWh)
		}
	}
}

func (s *Season) totals() {
	t := &s.Totals
	for i := range s.Months {
		m := &s.Months[i]
		t.include(&m.Sums)
		t.PeakCooler, t.PeakRef = max(t.PeakCooler, m.PeakCooler), max(t.PeakRef, m.PeakRef)
	}
	t.HottestIndoor = s.House.Setpoint
	for i := range s.Hours {
		s.extremes(&s.Hours[i])
	}
	s.longestRun()
	t.WorstWeek = -1
	for i := range s.Days {
		d := &s.Days[i]
		t.PeakDayWater = max(t.PeakDayWater, d.Water.Total(s.Job.Cooler))
		if d.Week > 0 && (t.WorstWeek < 0 || d.Week > s.Days[t.WorstWeek].Week) {
			t.WorstWeek = i
		}
	}
	s.evapSeason()
}

func (s *Season) extremes(h *Hour) {
	t := &s.Totals
	if h.Unmet {
		t.UnmetHours++
	}
	if !h.Outcome.Need() {
		return
	}
	t.HottestIndoor = max(t.HottestIndoor, h.Indoor)
	t.DampestIndoor = max(t.DampestIndoor, h.IndoorRH)
	t.PeakHourWater = max(t.PeakHourWater, h.Evaporated)
}

func (s *Season) longestRun() {
	t, run := &s.Totals, 0
	t.LongestRunEnd = -1
	for i := range s.Hours {
		if !s.Hours[i].Outcome.Uncovered() {
			run = 0
			continue
		}
		if run++; run > t.LongestRun {
			t.LongestRun, t.LongestRunEnd = run, i
		}
	}
}

// evapSeason finds the days on which the water season opens and closes.
func (s *Season) evapSeason() {
	t := &s.Totals
	t.EvapOpens, t.EvapCloses = s.evapQuantile(OpensAfter), s.evapQuantile(ClosesAfter)
	t.FirstEvap, t.LastEvap = -1, -1
	for _, i := range s.seasonOrder() {
		if s.Days[i].Hours[Evap] == 0 {
			continue
		}
		if t.FirstEvap < 0 {
			t.FirstEvap = i
		}
		t.LastEvap = i
	}
}

// evapQuantile is the day by which the given share of the evap hours has
// passed, counting through the season; -1 if there are none.
func (s *Season) evapQuantile(share float64) int {
	total := s.Totals.Hours[Evap]
	if total == 0 {
		return -1
	}
	passed := 0
	for _, i := range s.seasonOrder() {
		if passed += s.Days[i].Hours[Evap]; float64(passed) >= share*float64(total) {
			return i
		}
	}
	return -1
}

// seasonOrder lists day indexes by their place in the season.
func (s *Season) seasonOrder() []int {
	days := s.Climate.Days
	order := make([]int, len(days))
	first := days[0].Season
	for i := range days {
		first = min(first, days[i].Season)
	}
	for i := range days {
		order[days[i].Season-first] = i
	}
	return order
}

// WaterTotal is evaporated and drained water of a part of the season, L.
func (s *Season) WaterTotal(w Water) float64 { return w.Total(s.Job.Cooler) }

// Bleeding says whether the cooler bleeds, as against purging or neither.
func (s *Season) Bleeding() bool { return s.Job.Cooler.WaterCare == job.Bleed }
