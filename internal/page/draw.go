package page

import (
	"math"
	"time"

	"github.com/evapbook/evapbook/internal/season"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/workbook/figures"
)

// Heat counts the hours of each outcome by month, January first, and hour of
// the day, 0 the one after midnight; outcomes in the order of Outcomes.
type Heat struct {
	Outcomes []string       `json:"outcomes"`
	Cells    [12][24][6]int `json:"cells"`
}

// Month is one month's hours by outcome and what it takes.
type Month struct {
	Name         string `json:"name"`
	Hours        [6]int `json:"hours"`
	Cooler       string `json:"cooler"`       // energy
	Refrigerated string `json:"refrigerated"` // energy
	Water        string `json:"water"`
}

// Week is seven days hour by hour, temperatures in the units asked for; null in
// hours without weather.
type Week struct {
	Title    string     `json:"title"`
	Unit     string     `json:"unit"`
	Setpoint float64    `json:"setpoint"`
	Days     []string   `json:"days"` // label of each day
	Outdoor  []*float64 `json:"outdoor"`
	Supply   []*float64 `json:"supply"`
	Indoor   []*float64 `json:"indoor"`
	Outcome  []string   `json:"outcome"`
}

// draw adds what the charts show.
func draw(a *Answer, c *figures.Case) {
	s := c.Season
	for o := season.Missing; o <= season.Warm; o++ {
		a.Heat.Outcomes = append(a.Heat.Outcomes, o.String())
	}
	for i := range s.Hours {
		at := s.Climate.Hours[i].Start
		if s.Hours[i].Outcome == season.Missing {
			at = c.Series.Start(i)
		}
		a.Heat.Cells[at.Month()-1][at.Hour()][s.Hours[i].Outcome]++
	}
	for m := range s.Months {
		month := &s.Months[m]
		a.Months = append(a.Months, Month{
			Name: time.Month(m + 1).String()[:3], Hours: month.Hours,
			Cooler: units.Energy.Show(month.CoolerKWh, c.Units), Refrigerated: units.Energy.Show(month.RefKWh, c.Units),
			Water: units.Volume.Show(s.WaterTotal(month.Water), c.Units),
		})
	}
	a.Week = week(c)
}

// week is the one with most uncovered hours; where none is uncovered, the one
// around the hottest day.
func week(c *figures.Case) Week {
	s, unit := c.Season, units.Temperature.Unit(c.Units)
	first, title := s.Totals.WorstWeek, "The worst week: most hours not covered"
	if first < 0 {
		first, title = s.Climate.Calendar.Hottest-season.WeekDays/2, "The week of the hottest day"
	}
	days := s.Climate.Days
	first = max(0, min(first, len(days)-season.WeekDays))
	w := Week{Title: title, Unit: unit.Symbol, Setpoint: unit.FromSI(s.House.Setpoint)}
	for d := first; d < min(first+season.WeekDays, len(days)); d++ {
		w.Days = append(w.Days, days[d].Date.Format("2 Jan"))
		for i := days[d].First; i < days[d].Last; i++ {
			w.add(c, i)
		}
	}
	return w
}

func (w *Week) add(c *figures.Case, i int) {
	unit := units.Temperature.Unit(c.Units)
	h := &c.Season.Hours[i]
	there := h.Outcome != season.Missing
	value := func(v float64, there bool) *float64 {
		if !there || math.IsNaN(v) {
			return nil
		}
		v = math.Round(100*unit.FromSI(v)) / 100
		return &v
	}
	w.Outdoor = append(w.Outdoor, value(c.Season.Climate.Hours[i].Air.T, there))
	w.Supply = append(w.Supply, value(h.Supply.T, there && h.Outcome.Wet()))
	w.Indoor = append(w.Indoor, value(h.House, there))
	w.Outcome = append(w.Outcome, h.Outcome.String())
}
