// Package cooler models one evaporative cooler: the air it supplies in one
// hour, as direct, indirect or two-stage unit, and what its fan draws.
//
// Equation numbers are those of docs/model.md. Effectiveness is constant with
// flow, which is careful: it rises a little at low fan speed. Fan heat is that of
// full speed, which is careful too.
package cooler

import (
	"fmt"

	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/psychro"
)

// RatedDensity is the air density to which fan power is stated, kg/m³.
const RatedDensity = psychro.StandardDensity

// EvaporationHeat is the latent heat taken up per kg of water evaporated in
// the house and on the wet side of an indirect stage, J/kg.
// Source: ASHRAE Handbook Fundamentals 2017 ch. 1, steam tables near 20 °C.
const EvaporationHeat = 2.45e6

// Unit is a cooler as it stands, with pads in their present condition.
type Unit struct {
	Kind          job.CoolerKind
	Airflow       float64 // m³/s at full speed
	Effectiveness float64 // of the direct stage with the pads as they are, 0..1; eq. 14
	Indirect      float64 // wet-bulb effectiveness of the indirect stage, 0..1
	FanPower      float64 // W at full speed in air of RatedDensity
	PumpPower     float64 // W
	Variable      bool    // the drive turns the fan at any speed above the lowest
	LowestSpeed   float64 // share of full speed, 0..1
	LowSpeedPower float64 // of fixed speeds the share of full power at the lowest, of a variable drive what it always loses
	DuctGain      float64 // K gained between the unit and the room
}

// New takes the unit from a resolved job (airflow and fan power filled in).
func New(c job.Cooler) Unit {
	return Unit{
		Kind:          c.Kind,
		Airflow:       c.Airflow,
		Effectiveness: c.Effectiveness * c.PadCondition, // (14)
		Indirect:      c.IndirectEffectiveness,
		FanPower:      c.FanPower,
		PumpPower:     c.PumpPower,
		Variable:      c.Drive == job.Variable,
		LowestSpeed:   c.LowestSpeed,
		LowSpeedPower: c.LowSpeedPower,
		DuctGain:      c.DuctGain,
	}
}

// Stream is the air a unit delivers at full speed.
type Stream struct {
	MassFlow     float64 // kg dry air/s
	SpecificHeat float64 // J/(kg K) per kg dry air
	FanPower     float64 // W at this density
	T            float64 // °C as it enters the house, fan heat and duct gain included
	W            float64 // kg/kg
}

// Supply is a Stream cooled by water, with the states on its way.
type Supply struct {
	Stream
	T1          float64     // °C after the indirect stage; outdoor dry bulb without one
	WetBulb1    float64     // °C wet bulb entering the direct stage
	Leaving     psychro.Air // leaving the pads (or the indirect stage), before the fan
	Evaporating float64     // kg water per kg dry air, both stages; eq. 21
}

// Vent is outdoor air alone: the fan runs, the pump does not.
func (u Unit) Vent(outdoor psychro.Air) Stream { return u.blow(outdoor) }

// blow sends air of the given state through the fan: eqs. 12 and 13. A fan
// moves volume, so mass flow and fan power fall with density.
func (u Unit) blow(a psychro.Air) Stream {
	v := a.Volume()
	s := Stream{
		MassFlow:     u.Airflow / v, // (12)
		SpecificHeat: a.SpecificHeat(),
		FanPower:     u.FanPower * (1 + a.W) / v / RatedDensity, // (13)
		W:            a.W,
	}
	s.T = a.T + s.FanPower/(s.MassFlow*s.SpecificHeat) + u.DuctGain // (13)
	return s
}

// Water is the air supplied with the pump running.
//
// wetBulb is the outdoor thermodynamic wet bulb in °C, at or below the dry
// bulb. It returns an error where the moist-air functions do.
// Source: definitions of saturation and wet-bulb effectiveness, ANSI/ASHRAE
// Standards 133 and 143; constant wet bulb across wetted media.
func (u Unit) Water(outdoor psychro.Air, wetBulb float64) (Supply, error) {
	wetBulb = min(wetBulb, outdoor.T)
	s := Supply{T1: outdoor.T, WetBulb1: wetBulb, Leaving: outdoor}
	if u.Kind != job.Direct {
		s.T1 = outdoor.T - u.Indirect*(outdoor.T-wetBulb) // (10)
		s.Leaving.T = s.T1
	}
	if u.Kind == job.TwoStage {
		tw, err := s.Leaving.WetBulb() // (11)
		if err != nil {
			return Supply{}, fmt.Errorf("wet bulb after the indirect stage: %w", err)
		}
		s.WetBulb1 = min(tw, s.T1)
	}
	if u.Kind != job.Indirect {
		t2 := s.T1 - u.Effectiveness*(s.T1-s.WetBulb1) // (9)
		a, err := psychro.FromWetBulb(t2, s.WetBulb1, outdoor.P)
		if err != nil {
			return Supply{}, fmt.Errorf("air leaving the pads: %w", err)
		}
		s.Leaving = a
	}
	s.Stream = u.blow(s.Leaving)
	s.Evaporating = max(0, s.Leaving.W-outdoor.W) + outdoor.SpecificHeat()*(outdoor.T-s.T1)/EvaporationHeat // (21)
	return s, nil
}

// Running is what one hour at a share of full flow takes.
type Running struct {
	Fraction float64 // of the hour that the fan runs
	Fan      float64 // W averaged over the hour
	Pump     float64 // W averaged over the hour, if the pump runs with the fan
}

// Run spreads a share of full flow, above 0 and at most 1, over the hour: below
// the lowest speed the fan runs for part of the hour only. Eq. 19; at no share
// everything rests.
func (u Unit) Run(share, fanPower float64) Running {
	fraction := u.Fraction(share)
	return Running{Fraction: fraction, Fan: fanPower * u.PowerShare(share) * fraction, Pump: u.PumpPower * fraction}
}

// Fraction is the part of the hour that the fan runs at a share of full flow.
func (u Unit) Fraction(share float64) float64 { return min(1, share/u.LowestSpeed) }

// PowerShare is the fan's mean power while it runs over that at full speed. A
// motor of fixed speeds cycles at the lowest, or alternates between lowest and
// full; only a variable drive goes with the cube of speed.
func (u Unit) PowerShare(share float64) float64 {
	level := max(share, u.LowestSpeed)
	switch {
	case u.Variable:
		return u.LowSpeedPower + (1-u.LowSpeedPower)*level*level*level
	case u.LowestSpeed >= 1:
		return 1
	default:
		full := (level - u.LowestSpeed) / (1 - u.LowestSpeed)
		return u.LowSpeedPower*(1-full) + full
	}
}
