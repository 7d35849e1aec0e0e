// Package season runs a cooler and a house through the hours of a climate:
// what becomes of each hour, what it takes in water and power, and what a
// refrigerated air conditioner would take for the same house.
//
// Equation numbers are those of docs/model.md. Everything here is a pure
// function of plain values. An hour knows of the one before only the temperature
// at which it left the house.
package season

import (
	"fmt"

	"github.com/evapbook/evapbook/internal/climate"
	"github.com/evapbook/evapbook/internal/cooler"
	"github.com/evapbook/evapbook/internal/house"
	"github.com/evapbook/evapbook/internal/job"
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
	Full     float64 // °C indoors at full flow; eq. 18
	Share    float64 // of full flow, 1 where full flow does not hold the setpoint; eq. 19
	Fraction float64 // of the hour that the fan runs at that share; eq. 19
	W        float64 // kg/kg indoors at that share, before any condenses; eq. 20
	RelHum   float64 // indoors at the setpoint at that share; eq. 20
}

// Hour is everything computed for one hour. In missing hours only Outcome and
// the temperatures of the houses are set.
type Hour struct {
	Outcome Outcome
	Before  float64    // °C in the house at the end of the hour before
	Load    house.Load // at the setpoint; eq. 17
	Shut    float64    // °C in the house if left shut; eq. 17a

	Supply cooler.Supply // with water
	Vented cooler.Stream // outdoor air alone
	Vent   Trial
	Evap   Trial

	Share      float64        // of full flow; 0 when idle and when the cooler would not help
	Running    cooler.Running // averages over the hour
	Indoor     float64        // °C; not set when idle
	IndoorW    float64        // kg/kg before any condenses; not set when idle
	IndoorRH   float64        // 0..1; not set when idle
	Over       float64        // K above the setpoint
	Moving     bool           // not held, but comfortable in moving air
	House      float64        // °C in the house at the end of the hour; eq. 17a
	CoolerKWh  float64
	Evaporated float64 // kg; eq. 21

	RefBefore     float64 // °C in the refrigerated house at the end of the hour before
	RefSensible   float64 // W sensible load of the refrigerated house; eq. 17
	RefHouse      float64 // °C in the refrigerated house at the end of the hour; eq. 17a
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

// newPlant takes a resolved job to a climate. The capacity of the refrigerated
// unit is 0 where the hours are to find it.
func newPlant(c *climate.Climate, j *job.Job) (*plant, error) {
	h, err := house.New(j.House, c.Pressure)
	if err != nil {
		return nil, err
	}
	if j.House.DesignLoad > 0 {
		if err := h.FitDesignLoad(j.House.DesignLoad, c.Design.DryBulb[climate.One].Value, c.Design.GHI); err != nil {
			return nil, err
		}
	}
	return &plant{cooler: cooler.New(j.Cooler), house: h, ac: refrigeration.New(j.AC, j.Site.Altitude), windowsOpen: j.AC.WindowsOpen}, nil
}

// blow finds the air that the cooler can supply.
func (p *plant) blow(h *Hour, in *climate.Hour) error {
	var err error
	if h.Supply, err = p.cooler.Water(in.Air, in.WetBulb); err != nil {
		return fmt.Errorf("%s: %w", in.Time.Format("2006-01-02 15:04"), err)
	}
	h.Vented = p.cooler.Vent(in.Air)
	return nil
}

// carry finds the outcome of an hour with its air blown, what the cooler takes
// for it and how it leaves the house, which it found at before °C.
func (p *plant) carry(h *Hour, in *climate.Hour, before float64) {
	a := house.Around{T: in.Air.T, GHI: in.GHI, Before: before}
	h.Before = before
	h.Load = p.house.Load(a)
	h.Shut = p.house.Shut(a)
	h.Vent = p.try(&h.Load, a, in, &h.Vented)
	h.Evap = p.try(&h.Load, a, in, &h.Supply.Stream)
	h.House = p.house.Setpoint
	switch h.Outcome = p.outcome(h); h.Outcome {
	case Idle:
		h.House = p.house.Drift(h.Shut)
	case Vent:
		p.run(h, h.Vent, &h.Vented)
	case Warm:
		p.warm(h, in)
	default:
		p.run(h, h.Evap, &h.Supply.Stream)
	}
	if h.Outcome.Uncovered() {
		h.Moving = p.house.ComfortableInMovingAir(h.Indoor, h.IndoorRH)
	}
}

// try carries the load with the stream at full or part flow.
func (p *plant) try(l *house.Load, a house.Around, in *climate.Hour, s *cooler.Stream) Trial {
	t := Trial{Full: p.house.FullFlow(a, *s), Share: 1}
	if l.Need() && t.Full <= p.house.Setpoint {
		t.Share = p.house.Share(*l, p.cooler.LowestSpeed, *s)
	}
	t.Fraction = p.cooler.Fraction(t.Share)
	t.W = p.house.Moisture(in.Air.W, t.Share, t.Fraction, *s)
	t.RelHum = p.house.RelHum(p.house.Setpoint, t.W, in.Air.P)
	return t
}

func (p *plant) outcome(h *Hour) Outcome {
	set, limit := p.house.Setpoint, p.house.HumidityLimit
	switch {
	case !h.Load.Need():
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

// run sets what the cooler draws in an hour that holds the setpoint.
func (p *plant) run(h *Hour, t Trial, s *cooler.Stream) {
	p.draw(h, t.Share, s)
	h.Indoor, h.IndoorW, h.IndoorRH = p.house.Setpoint, t.W, t.RelHum
}

// draw runs the fan, and outside vent hours the pump, at a share of full flow.
func (p *plant) draw(h *Hour, share float64, s *cooler.Stream) {
	h.Share = share
	h.Running = p.cooler.Run(share, s.FanPower)
	if h.Outcome.Wet() {
		h.Evaporated = 3600 * s.MassFlow * share * h.Supply.Evaporating // (21)
	} else {
		h.Running.Pump = 0
	}
	h.CoolerKWh = (h.Running.Fan + h.Running.Pump) / 1000
}

// warm is an hour that full flow does not hold. The cooler runs flat out if that
// helps, and stays off where the house is cooler shut. Eq. 18a.
func (p *plant) warm(h *Hour, in *climate.Hour) {
	s := &h.Supply.Stream
	if h.Evap.Full < h.Shut {
		p.draw(h, 1, s)
		h.Indoor = h.Evap.Full
	} else {
		h.Indoor = h.Shut
	}
	h.IndoorW = p.house.Moisture(in.Air.W, h.Share, h.Running.Fraction, *s)
	h.IndoorRH = p.house.RelHum(h.Indoor, h.IndoorW, in.Air.P)
	h.Over = h.Indoor - p.house.Setpoint
	h.House = h.Indoor
}

// close finds the load of the refrigerated house, found at before °C, the
// rating it asks for, and how the hour leaves it. Eq. 25.
func (p *plant) close(h *Hour, in *climate.Hour, before float64) {
	a := house.Around{T: in.Air.T, GHI: in.GHI, Before: before}
	l := p.house.Load(a)
	h.RefBefore, h.RefSensible = before, l.Sensible
	h.CapacityShare = p.ac.CapacityShare(in.Air.T)
	h.EIRShare = p.ac.EIRShare(in.Air.T)
	if l.Need() {
		h.ClosedLoad = p.house.ClosedLoad(l, in.Air)
		h.RefHouse = p.house.Setpoint
	} else {
		h.RefHouse = p.house.Drift(p.house.Shut(a))
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
