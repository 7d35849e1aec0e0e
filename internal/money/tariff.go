package money

import (
	"math"
	"time"

	"github.com/evapbook/evapbook/internal/job"
)

// Tariff is what one more kWh costs, hour by hour: a price for most of the
// year, one for the months of a season, and one for the peak hours of the
// season's days. All three may be the same. Of a tariff in steps the price of
// the step that the last kWh falls in is the one that counts: what a cooler
// saves, it saves from the top.
type Tariff struct {
	Base   float64 // per kWh
	Season float64 // per kWh, in the months of the season
	Peak   float64 // per kWh, in the peak hours of those months

	First, Last time.Month // of the season, both included; it may pass the new year
	From, To    int        // peak hours on the civil clock: From <= hour < To, 0 to 24
	PeakDays    float64    // share of the days that have peak hours: 1, or Weekdays
	SummerTime  job.SummerTime
}

// Weekdays is the share of days that are Monday to Friday. A typical year is
// joined from months of different years and has no weekdays of its own, so
// each day counts as five sevenths of one.
const Weekdays = 5.0 / 7

// TariffOf is the tariff that a job states.
func TariffOf(p *job.Price) Tariff {
	whole := func(v float64) int { return int(math.Round(v)) }
	t := Tariff{Base: p.Electricity, Season: p.SeasonElectricity, Peak: p.PeakElectricity, PeakDays: 1, SummerTime: p.SummerTime,
		First: time.Month(whole(p.SeasonFirst)), Last: time.Month(whole(p.SeasonLast)), From: whole(p.PeakFrom), To: whole(p.PeakTo)}
	if p.PeakDays == job.Weekdays {
		t.PeakDays = Weekdays
	}
	return t
}

// At is the price in the hour that begins at start, local standard time.
// Months are those of standard time.
func (t *Tariff) At(start time.Time) float64 {
	switch {
	case !t.inSeason(start.Month()):
		return t.Base
	case !t.isPeak(t.CivilHour(start)):
		return t.Season
	default:
		return t.PeakMean()
	}
}

// PeakMean is the price in peak hours, as the mean of days with and without.
func (t *Tariff) PeakMean() float64 { return t.PeakDays*t.Peak + (1-t.PeakDays)*t.Season }

// CivilHour is the hour by the clock on the wall, 0 to 23.
func (t *Tariff) CivilHour(start time.Time) int {
	return (start.Hour() + ahead(t.SummerTime, start)) % 24
}

func (t *Tariff) inSeason(m time.Month) bool {
	if t.First <= t.Last {
		return t.First <= m && m <= t.Last
	}
	return m >= t.First || m <= t.Last
}

func (t *Tariff) isPeak(hour int) bool {
	if t.From <= t.To {
		return t.From <= hour && hour < t.To
	}
	return hour >= t.From || hour < t.To // over midnight
}

// Changes are the first days, as month*100+day, on which clocks are ahead and
// on which they no longer are; equal where they never are. They are the middle
// of the week in which the Sunday of the change falls, years differing: in the
// United States the second Sunday of March to the first of November (15 U.S.C.
// 260a), in the European Union the last of March to the last of October
// (Directive 2000/84/EC), in south-east Australia, from memory, the first of
// October to the first of April; eq. 28a.
func Changes(s job.SummerTime) (ahead, back int) {
	switch s {
	case job.SummerTimeUS:
		return 311, 1104
	case job.SummerTimeEU:
		return 328, 1028
	case job.SummerTimeSouth:
		return 1004, 404
	default:
		return 0, 0
	}
}

// ahead is by how many hours civil clocks are ahead on a day.
func ahead(s job.SummerTime, t time.Time) int {
	from, to := Changes(s)
	day := int(t.Month())*100 + t.Day()
	on := from <= day && day < to
	if from > to {
		on = day >= from || day < to
	}
	if on {
		return 1
	}
	return 0
}
