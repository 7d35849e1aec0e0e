package years

import (
	"math"
	"time"

	"github.com/evapbook/evapbook/internal/climate"
	"github.com/evapbook/evapbook/internal/season"
	"github.com/evapbook/evapbook/internal/weather"
)

// Row is what one year comes to, in SI.
type Row struct {
	Label       string
	File        string
	Missing     int // hours of a year of 8,760 without weather
	Hours       season.Count
	Coverage    float64   // held hours of those that need cooling, 0..1; NaN if none does
	Water       float64   // L evaporated and drained
	CoolerKWh   float64   // the cooler alone
	RefKWh      float64   // refrigeration
	BothKWh     float64   // the cooler, and refrigeration where it does not hold
	Over        float64   // K h above the setpoint
	DesignDry   float64   // °C, dry bulb exceeded in 1 % of the hours
	Cooling     float64   // degree-days, K d
	LastFreeze  time.Time // last day at or below 0 °C before midsummer; zero if none
	FirstFreeze time.Time // first such day after it; zero if none
}

func row(y *weather.Year, s *season.Season) Row {
	t := &s.Totals
	r := Row{
		Label: y.Label, File: y.Series.Source.Name, Missing: max(0, yearHours-s.Climate.Valid), Hours: t.Hours,
		Coverage: coverage(t.Hours), Water: s.WaterTotal(t.Water),
		CoolerKWh: t.CoolerKWh, RefKWh: t.RefKWh, BothKWh: t.BothKWh, Over: t.Over,
		DesignDry: s.Climate.Design.DryBulb[climate.One].Value,
	}
	for i := range s.Months {
		r.Cooling += s.Months[i].Cooling
	}
	cal := s.Climate.Calendar
	r.LastFreeze, r.FirstFreeze = dayOf(s.Climate, cal.LastFreeze), dayOf(s.Climate, cal.FirstFreeze)
	return r
}

func dayOf(c *climate.Climate, i int) time.Time {
	if i < 0 {
		return time.Time{}
	}
	return c.Days[i].Date
}

// coverage is the share of the hours that need cooling which is held; NaN where
// none does.
func coverage(hours season.Count) float64 {
	if need := hours.Need(); need > 0 {
		return float64(hours.Held()) / float64(need)
	}
	return math.NaN()
}
