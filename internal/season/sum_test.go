package season

import (
	"reflect"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"github.com/evapbook/evapbook/internal/climate"
	"github.com/evapbook/evapbook/internal/house"
	"github.com/evapbook/evapbook/internal/job"
)

// Every amount of one part of a season is in its sum, once.
func TestSumsIncludeEveryAmount(t *testing.T) {
	var part Sums
	fill(reflect.ValueOf(&part).Elem())
	var sum Sums
	sum.include(&part)
	assert.Equal(t, part, sum)
	sum.include(&part)
	assert.Equal(t, 2*part.BothKWh, sum.BothKWh)
	assert.Equal(t, 2*part.Hours.Need(), sum.Hours.Need())
}

// fill gives every number its own value.
func fill(v reflect.Value) {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			fill(v.Field(i))
		}
	case reflect.Array:
		for i := range v.Len() {
			fill(v.Index(i))
		}
	case reflect.Int:
		v.SetInt(int64(next()))
	case reflect.Float64:
		v.SetFloat(float64(next()))
	default:
		panic("a sum of " + v.Kind().String())
	}
}

var numbers int

func next() int { numbers++; return numbers }

// daysOf is a season of so many days from a date, in the order of the year.
func daysOf(n int) *Season {
	s := &Season{Job: &job.Job{}, Climate: &climate.Climate{}, Days: make([]Day, n)}
	for i := range n {
		s.Climate.Days = append(s.Climate.Days, climate.Day{Date: time.Date(2023, 6, 1+i, 0, 0, 0, 0, time.UTC), Season: i})
	}
	return s
}

// The water season opens on the day by which 5 % of the evap hours have passed
// and closes on the one by which 95 % have (docs/model.md 9).
func TestEvapSeason(t *testing.T) {
	s := daysOf(30)
	s.evapSeason()
	assert.Equal(t, []int{-1, -1, -1, -1}, []int{s.Totals.EvapOpens, s.Totals.EvapCloses, s.Totals.FirstEvap, s.Totals.LastEvap}, "no hour with water")

	for i := 5; i < 25; i++ { // 20 days of 5 hours: 100 hours, 5 of them by the sixth day
		s.Days[i].Hours[Evap] = 5
	}
	s.Totals.Hours[Evap] = 100
	s.evapSeason()
	assert.Equal(t, []int{5, 23, 5, 24}, []int{s.Totals.EvapOpens, s.Totals.EvapCloses, s.Totals.FirstEvap, s.Totals.LastEvap})

	s = daysOf(3)
	for i := range s.Days { // a file that begins in the season
		s.Days[i].Hours[Evap] = 5
	}
	s.Totals.Hours[Evap] = 15
	s.evapSeason()
	assert.Equal(t, []int{0, 2}, []int{s.Totals.FirstEvap, s.Totals.LastEvap})
}

// Of spells that are equally bad the first is named, and of none there is none.
func TestWorstWeek(t *testing.T) {
	s := daysOf(30)
	s.totals()
	assert.Equal(t, -1, s.Totals.WorstWeek)
	for _, i := range []int{3, 12, 20} {
		s.Days[i].Week = 9
	}
	s.totals()
	assert.Equal(t, 3, s.Totals.WorstWeek)
	s.Days[20].Week = 10
	s.totals()
	assert.Equal(t, 20, s.Totals.WorstWeek)
}

// What stands exactly at the setpoint and the limit is held.
func TestOutcomeAtTheLimits(t *testing.T) {
	p := &plant{house: house.House{Setpoint: 25, HumidityLimit: 0.7}}
	h := Hour{Vent: Trial{Full: 26, RelHum: 0.3}, Evap: Trial{Full: 25, RelHum: 0.7}}
	h.Load.Sensible, h.Load.Steady = 1000, 1000
	assert.Equal(t, Evap, p.outcome(&h))
	h.Evap.Full = 25.001
	assert.Equal(t, Warm, p.outcome(&h))
	h.Evap.Full, h.Evap.RelHum = 25, 0.701
	assert.Equal(t, Damp, p.outcome(&h))
	h.Vent = Trial{Full: 25, RelHum: 0.7}
	assert.Equal(t, Vent, p.outcome(&h))
}

// The peaks of a month are those of its hours, the year's those of its months.
func TestPeaks(t *testing.T) {
	s := daysOf(31) // 1 June to 1 July
	for i := range s.Days {
		s.Climate.Days[i].First, s.Climate.Days[i].Last = i, i+1
		s.Hours = append(s.Hours, Hour{CoolerKWh: 0.1 + float64(i%7), RefKWh: 0.2 + float64(i%11), ClosedKWh: 0.3 + float64(i%13), Outcome: Idle})
	}
	s.months()
	s.totals()
	june, july := &s.Months[5], &s.Months[6]
	assert.Equal(t, []float64{6.1, 10.2, 12.3}, []float64{june.PeakCooler, june.PeakRef, june.PeakClosed})
	assert.Equal(t, []float64{2.1, 8.2, 4.3}, []float64{july.PeakCooler, july.PeakRef, july.PeakClosed}, "the thirtieth day: 30 % 7, 11, 13")
	assert.Equal(t, []float64{6.1, 10.2}, []float64{s.Totals.PeakCooler, s.Totals.PeakRef})
}
