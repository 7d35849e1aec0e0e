package workbook

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"

	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/units"
)

// changes are inputs to be changed in a workbook that was written with the
// defaults: SI numbers and words, by key.
type changes map[string]any

// drawn is the range a number is drawn from, in SI: wide enough that every
// branch of the formulas is met, narrow enough that the job stays one that
// somebody might have.
type drawn struct {
	key       string
	low, high float64
}

// drawnNumbers are the inputs changed in about two of three draws. The others are
// left as they are; those with a rule then follow it.
var drawnNumbers = []drawn{
	{"site.clearness", 0.6, 0.9}, {"site.warmer", 0, 3},
	{"cooler.airflow", 0.8, 3}, {"cooler.effectiveness", 0.55, 0.92}, {"cooler.indirect_effectiveness", 0.45, 0.75},
	{"cooler.pad_condition", 0.7, 1}, {"cooler.fan_power", 200, 1200}, {"cooler.pump_power", 20, 90},
	{"cooler.lowest_speed", 0.3, 0.8}, {"cooler.low_speed_power", 0.1, 0.6}, {"cooler.duct_gain", 0, 1.5},
	{"cooler.cycles", 2, 5}, {"cooler.sump", 8, 40}, {"cooler.purge_interval", 4, 12},
	{"house.floor_area", 90, 320}, {"house.ceiling", 2.3, 3.2}, {"house.people", 1, 6}, {"house.heat_loss", 1, 2.8},
	{"house.solar_share", 0.01, 0.06}, {"house.setpoint", 23, 27}, {"house.humidity_limit", 0.55, 0.8}, {"house.infiltration", 0.2, 0.9},
	{"house.thermal_mass", 0, 370}, {"house.moving_air", 0.5, 3},
	{"ac.seer2", 13, 18}, {"ac.cycling", 0.05, 0.3}, {"ac.field_share", 0.7, 1}, {"ac.indoor_wet_bulb", 15, 19},
	{"price.electricity", 0.08, 0.4}, {"price.water", 0.5, 5}, {"price.sewer", 0, 4},
	{"price.cooler_installed", 1500, 6000}, {"price.ac_installed", 5000, 15000}, {"price.cooler_care", 0, 400}, {"price.ac_care", 0, 400},
	{"price.cooler_life", 5, 25}, {"price.ac_life", 5, 25}, {"price.discount", 0, 0.07}, {"price.escalation", -0.02, 0.04},
	{"plant.water", 0, 8}, {"plant.co2", 0.1, 0.8},
}

// draw makes the k-th set of changes for a station. Kind, water care, speeds
// and windows go through their choices, so that each is met on each site; the
// rest is left to chance, the same chance on every run.
func draw(seed uint64, k int, elevation float64) changes {
	r := rand.New(rand.NewPCG(seed, uint64(k)))
	c := changes{
		"cooler.kind":       []string{"direct", "two-stage", "indirect"}[k%3],
		"cooler.water_care": []string{"purge", "bleed", "none"}[(k+k/3)%3],
		"cooler.drive":      []string{"variable", "one-speed", "two-speed"}[(k+2*(k/3))%3],
		"ac.windows_open":   []string{"no", "yes"}[k%2],
	}
	if k%4 != 3 { // else the house stands beside the station
		up := []float64{1500, -1500}[k%2]
		c["site.altitude"] = max(-400, elevation+up) // -430 m is the lowest allowed
	}
	if k%2 == 0 {
		c["site.lapse_rate"] = between(r, 2, 9)
	}
	if k%5 == 1 {
		c["house.design_load"] = between(r, 7000, 16000)
	}
	if k%5 == 2 {
		c["ac.eer2"] = between(r, 8, 12)
	}
	if k%5 == 4 {
		c["ac.capacity"] = between(r, 3000, 16000)
	}
	for _, n := range drawnNumbers {
		if in, _ := job.Find(n.key); r.Float64() < 0.65 {
			v := between(r, n.low, n.high)
			if in.Whole {
				v = math.Round(v)
			}
			c[n.key] = v
		}
	}
	return c
}

func between(r *rand.Rand, low, high float64) float64 { return low + (high-low)*r.Float64() }

// keys in order, for messages.
func (c changes) keys() []string {
	var keys []string
	for k := range c {
		keys = append(keys, k)
	}
	slices.Sort(keys)
	return keys
}

// state applies the changes to a job.
func (c changes) state(j *job.Job) error {
	for _, key := range c.keys() {
		var err error
		switch v := c[key].(type) {
		case float64:
			err = j.SetSI(key, v)
		case string:
			err = j.Set(key, v)
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// cells are the same changes typed into the yellow cells of a workbook. A word
// already there is left alone.
func (c changes) cells(sys units.System, before *job.Job) map[string]any {
	cells := map[string]any{}
	for key, v := range c {
		in, _ := job.Find(key)
		switch v := v.(type) {
		case float64:
			cells["In_"+in.CellName()] = in.Kind.Unit(sys).FromSI(v)
		case string:
			if in.Words(before) != v {
				cells["In_"+in.CellName()] = v
			}
		}
	}
	return cells
}

// differing counts the changes that differ from the job the workbook was
// written for: a draw may hit what is there already.
func (c changes) differing(before *job.Job) (n int) {
	for key, v := range c {
		in, _ := job.Find(key)
		switch v := v.(type) {
		case float64:
			if math.Abs(v-in.SI(before)) > 1e-9*math.Abs(v) {
				n++
			}
		case string:
			if v != in.Words(before) {
				n++
			}
		}
	}
	return n
}

// String tells what a set is about, for the table in docs.
func (c changes) String() string {
	words := []string{fmt.Sprint(c["cooler.kind"]), "care " + fmt.Sprint(c["cooler.water_care"]),
		fmt.Sprint(c["cooler.drive"]), "windows " + fmt.Sprint(c["ac.windows_open"])}
	for _, s := range []struct{ key, format string }{
		{"site.altitude", "altitude %.0f m"}, {"site.lapse_rate", "lapse %.1f K/km"}, {"house.design_load", "design load %.0f W"},
		{"ac.eer2", "EER2 %.1f"}, {"ac.capacity", "capacity %.0f W"},
	} {
		if v, ok := c[s.key]; ok {
			words = append(words, fmt.Sprintf(s.format, v))
		}
	}
	return strings.Join(words, ", ")
}
