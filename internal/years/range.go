package years

import (
	"math"
	"slices"
)

// Quantity is one figure of a year that is compared over the years.
type Quantity struct {
	Key string // in JSON
	Of  func(*Row) float64
}

// Quantities lists what is compared, in the order of the sheet.
var Quantities = []Quantity{
	{"hours_need", func(r *Row) float64 { return float64(r.Hours.Need()) }},
	{"hours_held", func(r *Row) float64 { return float64(r.Hours.Held()) }},
	{"hours_uncovered", func(r *Row) float64 { return float64(r.Hours.Uncovered()) }},
	{"coverage", Coverage},
	{"degree_hours_over", func(r *Row) float64 { return r.Over }},
	{"water_l", func(r *Row) float64 { return r.Water }},
	{"cooler_kwh", func(r *Row) float64 { return r.CoolerKWh }},
	{"refrigeration_kwh", func(r *Row) float64 { return r.RefKWh }},
	{"both_kwh", func(r *Row) float64 { return r.BothKWh }},
	{"design_dry_bulb_c", func(r *Row) float64 { return r.DesignDry }},
	{"cooling_degree_days", func(r *Row) float64 { return r.Cooling }},
}

// Range is how one quantity spreads over the years; NaN where no year has it.
type Range struct {
	Median, Tenth, Ninetieth float64
	Lowest, Highest          float64
	LowestIn, HighestIn      string // the years, the first of equals
}

// Range is the spread of a quantity over the years that count.
func (t *Table) Range(of func(*Row) float64) Range {
	return t.RangeAt(func(i int) float64 { return of(&t.Rows[i]) })
}

// RangeAt is the spread of what of gives for the years that count, by row.
func (t *Table) RangeAt(of func(i int) float64) Range {
	nan := math.NaN()
	r := Range{Lowest: nan, Highest: nan}
	var sorted []float64
	for i := range t.Rows[:t.Counts] {
		v := of(i)
		if math.IsNaN(v) {
			continue
		}
		sorted = append(sorted, v)
		if !(v >= r.Lowest) {
			r.Lowest, r.LowestIn = v, t.Rows[i].Label
		}
		if !(v <= r.Highest) {
			r.Highest, r.HighestIn = v, t.Rows[i].Label
		}
	}
	slices.Sort(sorted)
	r.Median, r.Tenth, r.Ninetieth = percentile(sorted, 0.5), percentile(sorted, 0.1), percentile(sorted, 0.9)
	return r
}

// Coverage is the share of the hours that need cooling which is held.
func Coverage(r *Row) float64 { return r.Coverage }

// percentile interpolates between sorted values as the PERCENTILE function of
// spreadsheets does: Hyndman and Fan, Sample quantiles in statistical packages,
// The American Statistician 50 (1996), definition 7. NaN for no values.
func percentile(sorted []float64, share float64) float64 {
	n := len(sorted)
	if n == 0 {
		return math.NaN()
	}
	at := share * float64(n-1)
	i := int(at)
	if i+1 >= n {
		return sorted[n-1]
	}
	return sorted[i] + (at-float64(i))*(sorted[i+1]-sorted[i])
}
