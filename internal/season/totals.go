package season

// Count is the number of hours of each outcome.
type Count [Warm + 1]int

// Need is the number of hours that need cooling.
func (c Count) Need() int { return c[Vent] + c[Evap] + c[Damp] + c[Warm] }

// WetNeed is the number of hours that need cooling and that outdoor air alone
// does not hold.
func (c Count) WetNeed() int { return c[Evap] + c[Damp] + c[Warm] }

// Held is the number of hours held in temperature and humidity.
func (c Count) Held() int { return c[Vent] + c[Evap] }

// Uncovered is the number of hours that need cooling and are not held.
func (c Count) Uncovered() int { return c[Damp] + c[Warm] }

// Sums are amounts that add up over hours.
type Sums struct {
	Hours     Count
	Moving    int     // hours not held, but comfortable in moving air
	Load      float64 // Wh sensible over need hours, storage left out
	HeldLoad  float64 // Wh sensible over held hours, storage left out
	Over      float64 // K h above the setpoint
	CoolerKWh float64
	ClosedKWh float64
	RefKWh    float64
	BothKWh   float64
	Water     Water // cooler alone
	BothWater Water // cooler in held hours only
}

func (s *Sums) add(h *Hour) {
	s.Hours[h.Outcome]++
	if h.Outcome.Need() {
		s.Load += h.Load.Steady
	}
	if h.Outcome.Held() {
		s.HeldLoad += h.Load.Steady
		s.BothWater.add(h)
	}
	if h.Moving {
		s.Moving++
	}
	s.Over += h.Over
	s.CoolerKWh += h.CoolerKWh
	s.ClosedKWh += h.ClosedKWh
	s.RefKWh += h.RefKWh
	s.BothKWh += h.BothKWh
	s.Water.add(h)
}

func (s *Sums) include(o *Sums) {
	for i := range o.Hours {
		s.Hours[i] += o.Hours[i]
	}
	s.Moving += o.Moving
	s.Load += o.Load
	s.HeldLoad += o.HeldLoad
	s.Over += o.Over
	s.CoolerKWh += o.CoolerKWh
	s.ClosedKWh += o.ClosedKWh
	s.RefKWh += o.RefKWh
	s.BothKWh += o.BothKWh
	s.Water = s.Water.plus(o.Water)
	s.BothWater = s.BothWater.plus(o.BothWater)
}

// Day is a day of the season, parallel to climate.Climate.Days.
type Day struct {
	Sums
	MaxSupply float64 // °C, highest of the day's supply temperatures with water; NaN on a day without weather
	Week      int     // uncovered hours in this day and the six after it
}

// Month is a calendar month, all its days together.
type Month struct {
	Sums
	PeakCooler float64 // kW, highest hourly mean
	PeakRef    float64 // kW
	PeakClosed float64 // kW
	Cooling    float64 // degree-days, K d
	Heating    float64 // degree-days, K d
}

// Totals are the season's totals and extremes.
type Totals struct {
	Sums
	PeakCooler    float64 // kW, highest hourly mean
	PeakRef       float64 // kW
	PeakDayWater  float64 // L, evaporated and drained
	PeakHourWater float64 // L evaporated in the hour that takes most
	LongestRun    int     // consecutive uncovered hours
	LongestRunEnd int     // its last hour, -1 if none
	WorstWeek     int     // first day of the seven with most uncovered hours, -1 if none
	HottestIndoor float64 // °C; the setpoint if never above
	DampestIndoor float64 // highest indoor relative humidity of need hours, 0..1
	UnmetHours    int     // refrigeration cannot carry the load
	FirstEvap     int     // first day of the season with an evap hour, -1 if none
	LastEvap      int     // last such day, -1 if none
	EvapOpens     int     // day by which 5 % of the evap hours have passed, -1 if none
	EvapCloses    int     // day by which 95 % of them have passed, -1 if none
}
