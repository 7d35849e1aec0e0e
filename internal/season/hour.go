// Package season runs a cooler and a house through the hours of a climate:
// what becomes of each hour, what it takes in water and power, and what a
// refrigerated air conditioner would take for the same house.
//
// Equation numbers are those of docs/model.md. Everything here is a pure
// function of plain values; each hour stands alone (no thermal mass).
package season

import (
	"fmt"

	"github.com/evapbook/evapbook/internal/climate"
	"github.com/evapbook/evapbook/internal/cooler"
	"github.com/evapbook/evapbook/internal/house"
	"github.com/evapbook/evapbook/internal/refrigeration"
)

// Outcome is what becomes of an hour.
type Outcome int

// The outcomes. Every hour but the idle and the missing ones needs cooling;
// vent and evap hours are held, damp and warm hours are not.
const (
	Missing Outcome = iota // no weather
	Idle                   // no cooling load
	Vent                   // held by outdoor air alone
	Evap                   // held with water
	Damp                   // temperature held, humidity over the limit
	Warm                   // temperature over the setpoint at full flow
)

var outcomeNames = [...]string{"missing", "idle", "vent", "evap", "damp", "warm"}

// String is the outcome's name as it stands in tables.
func (o Outcome) String() string { return outcomeNames[o] }

// Need says whether the hour needs cooling.
func (o Outcome) Need() bool { return o >= Vent }

// Held says whether the cooler holds temperature and humidity.
func (o Outcome) Held() bool { return o == Vent || o == Evap }

// Uncovered says whether the hour needs cooling and is not held.
func (o Outcome) Uncovered() bool { return o == Damp || o == Warm }

// Wet says whether the pump runs.
func (o Outcome) Wet() bool { return o >= Evap }

// Trial is one way of carrying the load: outdoor air alone, or with water.
type Trial struct {
	Full   float64 // °C indoors at full flow; eq. 18
	Share  float64 // of full flow, 1 where full flow does not hold the setpoint; eq. 19
	RelHum float64 // indoors at the setpoint at that share; eq. 20
}

// Hour is everything computed for one hour. In missing hours only Outcome is set.
type Hour struct {
	Outcome Outcome
	Load    float64 // W sensible at the setpoint; eq. 17

	Supply cooler.Supply // with water
	Vented cooler.Stream // outdoor air alone
	Vent   Trial
	Evap   Trial

	Share      float64        // of full flow; 0 when idle
	Running    cooler.Running // averages over the hour
	Indoor     float64        // °C; not set when idle
	IndoorRH   float64        // 0..1; not set when idle
	Over       float64        // K above the setpoint
	CoolerKWh  float64
	Evaporated float64 // kg; eq. 21

	ClosedLoad    float64 // W on the refrigerated unit; eq. 25
	CapacityShare float64 // eq. 26
	EIRShare      float64 // eq. 26
	NeededRating  float64 // W of rated capacity that meets ClosedLoad
	ClosedKWh     float64 // windows never open; eq. 27
	RefKWh        float64 // refrigeration with windows as stated
	BothKWh       float64 // cooler in held hours, refrigeration in the others
	Unmet         bool    // load above the unit's capacity
}

// plant is what stays the same through all hours.
type plant struct {
	cooler      cooler.Unit
	house       house.House
	ac          refrigeration.Unit
	windowsOpen bool
}

// carry finds the outcome of an hour and what the cooler takes for it.
func (p *plant) carry(h *Hour, in *climate.Hour) error {
	var err error
	if h.Supply, err = p.cooler.Water(in.Air, in.WetBulb); err != nil {
		return fmt.Errorf("%s: %w", in.Time.Format("2006-01-02 15:04"), err)
	}
	h.Vented = p.cooler.Vent(in.Air)
	h.Load = p.house.Load(in.Air.T, in.GHI)
	h.Vent = p.try(h.Load, in, h.Vented)
	h.Evap = p.try(h.Load, in, h.Supply.Stream)
	h.Outcome = p.outcome(h)
	switch h.Outcome {
	case Idle:
		return nil
	case Vent:
		p.run(h, h.Vent, h.Vented)
	default:
		p.run(h, h.Evap, h.Supply.Stream)
		h.Evaporated = 3600 * h.Supply.MassFlow * h.Share * h.Supply.Evaporating // (21)
	}
	if h.Outcome == Warm {
		h.Indoor = h.Evap.Full
		h.IndoorRH = p.house.RelHum(h.Indoor, in.Air.P, 1, h.Supply.Stream)
		h.Over = h.Indoor - p.house.Setpoint
	}
	return nil
}

// try carries the load with the stream at full or part flow.
func (p *plant) try(load float64, in *climate.Hour, s cooler.Stream) Trial {
	t := Trial{Full: p.house.FullFlow(in.Air.T, in.GHI, s), Share: 1}
	if load > 0 && t.Full <= p.house.Setpoint {
		t.Share = p.house.Share(load, s)
	}
	t.RelHum = p.house.RelHum(p.house.Setpoint, in.Air.P, t.Share, s)
	return t
}

func (p *plant) outcome(h *Hour) Outcome {
	set, limit := p.house.Setpoint, p.house.HumidityLimit
	switch {
	case h.Load <= 0:
		return Idle
	case h.Vent.Full <= set && h.Vent.RelHum <= limit:
		return Vent
	case h.Evap.Full > set:
		return Warm
	case h.Evap.RelHum <= limit:
		return Evap
	default:
		return Damp
	}
}

// run sets what the cooler draws; the setpoint is held unless the caller says
// otherwise.
func (p *plant) run(h *Hour, t Trial, s cooler.Stream) {
	h.Share = t.Share
	h.Running = p.cooler.Run(t.Share, s.FanPower)
	if !h.Outcome.Wet() {
		h.Running.Pump = 0
	}
	h.Indoor, h.IndoorRH = p.house.Setpoint, t.RelHum
	h.CoolerKWh = (h.Running.Fan + h.Running.Pump) / 1000
}

// close finds the refrigerated load and the rating it asks for.
func (p *plant) close(h *Hour, in *climate.Hour) {
	h.CapacityShare = p.ac.CapacityShare(in.Air.T)
	h.EIRShare = p.ac.EIRShare(in.Air.T)
	if h.Load > 0 {
		h.ClosedLoad = p.house.ClosedLoad(h.Load, in.Air)
	}
	h.NeededRating = h.ClosedLoad / h.CapacityShare
}

// refrigerate finds what refrigeration takes, once its capacity is known.
func (p *plant) refrigerate(h *Hour) {
	h.ClosedKWh = p.ac.Energy(h.ClosedLoad, h.CapacityShare, h.EIRShare)
	h.Unmet = h.NeededRating > p.ac.Capacity
	h.RefKWh = h.ClosedKWh
	if p.windowsOpen && h.Outcome == Vent {
		h.RefKWh = 0
	}
	h.BothKWh = h.CoolerKWh
	if h.Outcome.Uncovered() {
		h.BothKWh = h.ClosedKWh
	}
}
