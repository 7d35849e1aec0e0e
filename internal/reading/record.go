package reading

import (
	"math"

	"github.com/evapbook/evapbook/internal/units"
)

// Record is a reading for another program, in SI; null where there is no
// value.
type Record struct {
	Altitude       float64       `json:"altitude_m"`
	Pressure       float64       `json:"pressure_pa"`
	Outdoor        float64       `json:"outdoor_c"`
	RelHum         *float64      `json:"relative_humidity"`
	DewPoint       *float64      `json:"dew_point_c"`
	WetBulb        *float64      `json:"wet_bulb_c"`
	Depression     *float64      `json:"depression_k"`
	Supply         float64       `json:"supply_c"`
	Effectiveness  *float64      `json:"effectiveness"`
	EffLow         *float64      `json:"effectiveness_low"`
	EffHigh        *float64      `json:"effectiveness_high"`
	ExpectedSupply *float64      `json:"expected_supply_c"`
	FanHeat        float64       `json:"fan_heat_k"`
	Gap            *float64      `json:"gap_k"`
	GapLow         *float64      `json:"gap_low_k"`
	GapHigh        *float64      `json:"gap_high_k"`
	Verdict        string        `json:"verdict"`
	Meaning        string        `json:"meaning"`
	Notes          []string      `json:"notes"`
	Causes         []CauseRecord `json:"causes"`
	Band           *BandRecord   `json:"band"`
}

// CauseRecord is a likely cause.
type CauseRecord struct {
	Cause string `json:"cause"`
	Look  string `json:"look"`
}

// BandRecord is what to accept of the stated pads.
type BandRecord struct {
	Pad    string  `json:"pad"`
	Accept float64 `json:"accept_effectiveness"`
	Mark   string  `json:"mark"`
	Met    bool    `json:"met"`
}

// Record gives the figures of a reading.
func (r *Result) Record() *Record {
	j := &Record{
		Altitude: r.Visit.Altitude, Pressure: r.Pressure, Outdoor: r.Visit.Outdoor, RelHum: orNull(r.RelHum), DewPoint: orNull(r.DewPoint),
		WetBulb: orNull(r.WetBulb), Depression: orNull(r.Depression), Supply: r.Visit.Supply,
		Effectiveness: orNull(r.Effectiveness.Value), EffLow: orNull(r.Effectiveness.Low), EffHigh: orNull(r.Effectiveness.High),
		ExpectedSupply: orNull(r.Expected), FanHeat: r.FanHeat, Gap: orNull(r.Gap.Value), GapLow: orNull(r.Gap.Low), GapHigh: orNull(r.Gap.High),
		Verdict: string(r.Verdict), Meaning: r.Verdict.Meaning(), Notes: r.NotesIn(units.SI), Causes: []CauseRecord{},
	}
	for _, c := range r.Causes {
		j.Causes = append(j.Causes, CauseRecord{c.What, c.Look})
	}
	if b := r.Band; b != nil {
		j.Band = &BandRecord{string(b.Pads), b.Accept, b.Mark(), r.InBand}
	}
	return j
}

// NotesIn are the notes of a reading in a unit system.
func (r *Result) NotesIn(sys units.System) []string {
	all := []string{}
	for _, n := range r.Notes {
		all = append(all, n.In(sys))
	}
	return all
}

func orNull(v float64) *float64 {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return nil
	}
	return &v
}
