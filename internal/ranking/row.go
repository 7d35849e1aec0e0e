package ranking

import (
	"cmp"
	"math"
	"strings"

	"github.com/evapbook/evapbook/internal/climate"
	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/money"
	"github.com/evapbook/evapbook/internal/season"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/weather"
)

// Row is one kind of cooler at one site, in SI. Column names carry the unit;
// nil and "" are values that do not exist there. The columns are those of the
// CSV and Parquet tables, in this order, followed by one for each varied input.
type Row struct {
	File             string   `csv:"file" parquet:"file"`
	Site             string   `csv:"site" parquet:"site"`
	Elevation        float64  `csv:"elevation_m" parquet:"elevation_m"`             // altitude of the house
	Kind             string   `csv:"kind" parquet:"kind,dict"`                      // of the cooler
	NeedHours        int64    `csv:"need_hours" parquet:"need_hours"`               // hours that need cooling
	Held             *float64 `csv:"held" parquet:"held"`                           // share of them held in temperature and humidity
	TemperatureHeld  *float64 `csv:"temperature_held" parquet:"temperature_held"`   // the same, humidity aside
	LoadHeld         *float64 `csv:"load_held" parquet:"load_held"`                 // share of the sensible load that falls in held hours
	Over             float64  `csv:"degree_hours_over" parquet:"degree_hours_over"` // K h above the setpoint
	Evaporated       float64  `csv:"evaporated_l" parquet:"evaporated_l"`
	CoolerKWh        float64  `csv:"cooler_kwh" parquet:"cooler_kwh"`
	RefKWh           float64  `csv:"refrigerated_kwh" parquet:"refrigerated_kwh"`
	BothKWh          float64  `csv:"both_kwh" parquet:"both_kwh"`
	ClosedKWh        float64  `csv:"refrigerated_closed_kwh" parquet:"refrigerated_closed_kwh"` // windows never open
	Drained          float64  `csv:"drained_l" parquet:"drained_l"`
	BothWater        float64  `csv:"both_water_l" parquet:"both_water_l"`
	VentHours        int64    `csv:"vent_hours" parquet:"vent_hours"`
	EvapHours        int64    `csv:"evap_hours" parquet:"evap_hours"`
	DampHours        int64    `csv:"damp_hours" parquet:"damp_hours"`
	WarmHours        int64    `csv:"warm_hours" parquet:"warm_hours"`
	LongestUncovered int64    `csv:"longest_uncovered_hours" parquet:"longest_uncovered_hours"`
	HottestIndoor    float64  `csv:"hottest_indoor_c" parquet:"hottest_indoor_c"`
	WorstMonth       int64    `csv:"worst_month" parquet:"worst_month"` // 0: no month needs cooling
	WorstMonthHeld   *float64 `csv:"worst_month_held" parquet:"worst_month_held"`
	ACCapacity       float64  `csv:"refrigerated_capacity_w" parquet:"refrigerated_capacity_w"`
	CoolerCost       float64  `csv:"cooler_cost" parquet:"cooler_cost"` // a year
	RefCost          float64  `csv:"refrigerated_cost" parquet:"refrigerated_cost"`
	BothCost         float64  `csv:"both_cost" parquet:"both_cost"`
	DesignSupply     float64  `csv:"design_supply_c" parquet:"design_supply_c"` // at the 1 % dry bulb

	DesignDryBulb    float64  `csv:"design_dry_bulb_c" parquet:"design_dry_bulb_c"` // 1 %
	DesignCoincident float64  `csv:"design_coincident_wet_bulb_c" parquet:"design_coincident_wet_bulb_c"`
	DesignDepression float64  `csv:"design_depression_k" parquet:"design_depression_k"`
	DesignWetBulb    float64  `csv:"design_wet_bulb_c" parquet:"design_wet_bulb_c"` // 1 %
	DesignWBDryBulb  float64  `csv:"design_coincident_dry_bulb_c" parquet:"design_coincident_dry_bulb_c"`
	ThermalZone      int64    `csv:"thermal_zone" parquet:"thermal_zone"`
	Dryness          string   `csv:"dryness" parquet:"dryness,dict"`
	CDD10            float64  `csv:"cdd10_k_d" parquet:"cdd10_k_d"`
	HDD18            float64  `csv:"hdd18_k_d" parquet:"hdd18_k_d"`
	WarmDepression   *float64 `csv:"warm_depression_k" parquet:"warm_depression_k"` // mean of the warm hours
	LastFreeze       string   `csv:"last_freeze" parquet:"last_freeze"`             // month-day
	FirstFreeze      string   `csv:"first_freeze" parquet:"first_freeze"`
	FrostFreeDays    *int64   `csv:"frost_free_days" parquet:"frost_free_days"`
	Latitude         *float64 `csv:"latitude" parquet:"latitude"`
	Longitude        *float64 `csv:"longitude" parquet:"longitude"`
	Country          string   `csv:"country" parquet:"country,dict"`
	Format           string   `csv:"format" parquet:"format,dict"`
	Hours            int64    `csv:"hours" parquet:"hours"`             // in the file
	ValidHours       int64    `csv:"valid_hours" parquet:"valid_hours"` // with weather
	Notes            string   `csv:"notes" parquet:"notes"`

	Order       int64 `csv:"file_order" parquet:"file_order"`   // place of the file in the run, from 0
	Combination int64 `csv:"combination" parquet:"combination"` // of varied inputs, from 0

	WithWater          *float64 `csv:"with_water" parquet:"with_water"`                       // share held of the hours that outdoor air alone does not hold
	MovingAir          *float64 `csv:"moving_air" parquet:"moving_air"`                       // share held, or comfortable in moving air, of the hours that need cooling
	MovingAirWithWater *float64 `csv:"moving_air_with_water" parquet:"moving_air_with_water"` // the same of the hours that outdoor air alone does not hold

	Varied []Value `csv:"-" parquet:"-"` // parallel to the axes
}

// weatherRow fills in what the weather alone decides.
func weatherRow(s *weather.Series, c *climate.Climate) Row {
	d := &c.Design
	dry, wet := d.DryBulb[climate.One], d.WetBulb[climate.One]
	class := classify(c)
	r := Row{
		Site: s.Place(), Elevation: c.Site.Altitude,
		DesignDryBulb: dry.Value, DesignCoincident: dry.Coincident, DesignDepression: dry.Value - dry.Coincident,
		DesignWetBulb: wet.Value, DesignWBDryBulb: wet.Coincident,
		ThermalZone: int64(class.Zone), Dryness: class.Dryness, CDD10: class.CDD10, HDD18: class.HDD18, WarmDepression: known(class.Depression),
		LastFreeze: monthDay(c, c.Calendar.LastFreeze), FirstFreeze: monthDay(c, c.Calendar.FirstFreeze), FrostFreeDays: frostFree(c),
		Latitude: known(s.Station.Latitude), Longitude: known(s.Station.Longitude),
		Country: s.Station.Country, Format: s.Source.Format, Hours: int64(len(c.Hours)), ValidHours: int64(c.Valid),
	}
	var notes []string
	for _, n := range s.Notes {
		notes = append(notes, n.Text())
	}
	r.Notes = strings.Join(append(notes, c.Notes(units.SI)...), "; ")
	return r
}

// add fills in what one kind of cooler does there.
func (r *Row) add(s *season.Season, kind job.CoolerKind) {
	t, m := &s.Totals, money.Compare(s)
	need := float64(t.Hours.Need())
	r.Kind, r.NeedHours = string(kind), int64(t.Hours.Need())
	r.Held = share(float64(t.Hours.Held()), need)
	r.TemperatureHeld = share(need-float64(t.Hours[season.Warm]), need)
	r.LoadHeld = share(t.HeldLoad, t.Load)
	wet, evap, moving := float64(t.Hours.WetNeed()), float64(t.Hours[season.Evap]), float64(t.Moving)
	r.WithWater = share(evap, wet)
	r.MovingAir = share(float64(t.Hours.Held())+moving, need)
	r.MovingAirWithWater = share(evap+moving, wet)
	r.Over, r.Evaporated, r.Drained = t.Over, t.Water.Evaporated, t.Water.Drained(s.Job.Cooler)
	r.BothWater = s.WaterTotal(t.BothWater)
	r.CoolerKWh, r.RefKWh, r.BothKWh, r.ClosedKWh = t.CoolerKWh, t.RefKWh, t.BothKWh, t.ClosedKWh
	r.VentHours, r.EvapHours = int64(t.Hours[season.Vent]), int64(t.Hours[season.Evap])
	r.DampHours, r.WarmHours = int64(t.Hours[season.Damp]), int64(t.Hours[season.Warm])
	r.LongestUncovered, r.HottestIndoor = int64(t.LongestRun), t.HottestIndoor
	r.WorstMonth, r.WorstMonthHeld = worstMonth(s)
	r.ACCapacity = s.AC.Capacity
	r.CoolerCost, r.RefCost, r.BothCost = m.Options[money.Cooler].Total(), m.Options[money.Refrigerated].Total(), m.Options[money.Both].Total()
	r.DesignSupply = s.Design.DryBulb[climate.One].Supply.T
}

// worthAMonth is the share of the year's need hours from which a month counts
// in the search for the worst.
const worthAMonth = 0.05

// worstMonth is the month, of those that matter, with the least share of its
// need hours held. It tells a damp season within a dry year.
func worstMonth(s *season.Season) (int64, *float64) {
	worst, least := int64(0), math.Inf(1)
	for i := range s.Months {
		h := &s.Months[i].Hours
		if need := float64(h.Need()); need > 0 && need >= worthAMonth*float64(s.Totals.Hours.Need()) {
			if held := float64(h.Held()) / need; held < least {
				worst, least = int64(i+1), held
			}
		}
	}
	if worst == 0 {
		return 0, nil
	}
	return worst, &least
}

func share(part, whole float64) *float64 {
	if whole == 0 {
		return nil
	}
	v := part / whole
	return &v
}

func known(v float64) *float64 {
	if math.IsNaN(v) {
		return nil
	}
	return &v
}

func monthDay(c *climate.Climate, day int) string {
	if day < 0 {
		return ""
	}
	return c.Days[day].Date.Format("01-02")
}

// frostFree is the number of days between the last and the first freeze; nil
// where the file has no freeze on one of the sides.
func frostFree(c *climate.Climate) *int64 {
	days, ok := c.FrostFree()
	if !ok {
		return nil
	}
	n := int64(days)
	return &n
}

// compareRows is the order of rows in a table.
func compareRows(a, b Row) int {
	return cmp.Or(cmp.Compare(a.Order, b.Order), cmp.Compare(a.Combination, b.Combination), cmp.Compare(kindOrder(a.Kind), kindOrder(b.Kind)))
}

func kindOrder(kind string) int {
	for i, k := range Kinds {
		if string(k) == kind {
			return i
		}
	}
	return len(Kinds)
}
