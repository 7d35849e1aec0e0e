// Package house models the building as one zone with one heat capacity: its
// sensible load at the setpoint, the temperature and humidity the supplied air
// can hold, where it drifts when left shut, and the load of the same house
// closed up for refrigeration.
//
// Equation numbers are those of docs/model.md. An hour is one step of backward
// Euler from the temperature at the end of the hour before.
package house

import (
	"fmt"

	"github.com/evapbook/evapbook/internal/cooler"
	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/psychro"
)

// Gains inside the house: sensible 136 + 2.2 A + 22 N W and latent
// 20 + 0.22 A + 12 N W, A in m² of floor, N people.
// Source: ASHRAE Handbook Fundamentals 2017 ch. 17, residential internal gains.
const (
	SensibleBase, SensiblePerArea, SensiblePerPerson = 136, 2.2, 22
	LatentBase, LatentPerArea, LatentPerPerson       = 20, 0.22, 12
)

// Infiltrating air of the closed house; eq. 25.
const (
	StandardDensity  = psychro.StandardDensity // kg/m³ at sea level
	InfiltrationHeat = psychro.HeatDryAir      // J/(kg K)
	ClosedRoomRelHum = 0.50                    // indoor humidity the refrigerated house keeps
)

// HeatedTo is the temperature in °C, at most the setpoint, below which a shut
// house does not drift: it is heated. Eq. 17a; common practice, no source.
const HeatedTo = 20

// House is a building with its loads resolved.
type House struct {
	UA            float64 // W/K
	Aperture      float64 // m² of solar aperture
	Sensible      float64 // W internal gain
	Latent        float64 // W internal gain
	Storage       float64 // W/K, heat capacity over one hour; eq. 17
	Setpoint      float64 // °C
	HumidityLimit float64 // 0..1
	MovingAir     float64 // K above the setpoint still comfortable in moving air
	Infiltration  float64 // kg/s of outdoor air into the closed house
	roomW         float64 // kg/kg in the closed house
	setpointPS    float64 // Pa, saturation pressure at the setpoint; asked for in every hour
	movingPS      float64 // Pa, the same MovingAir above it
}

// New resolves the house at a site of the given standard pressure in Pa.
// It returns an error if the setpoint is no possible room state there.
func New(h job.House, sitePressure float64) (House, error) {
	room, err := psychro.FromRelHum(h.Setpoint, ClosedRoomRelHum, sitePressure)
	if err != nil {
		return House{}, fmt.Errorf("room air at the setpoint: %w", err)
	}
	b := House{
		UA:            h.HeatLoss * h.FloorArea,   // (15)
		Aperture:      h.SolarShare * h.FloorArea, // (15)
		Sensible:      SensibleBase + SensiblePerArea*h.FloorArea + SensiblePerPerson*h.People,
		Latent:        LatentBase + LatentPerArea*h.FloorArea + LatentPerPerson*h.People, // (16)
		Storage:       1000 * h.ThermalMass * h.FloorArea / 3600,                         // (17)
		HumidityLimit: h.HumidityLimit,
		MovingAir:     h.MovingAir,
		Infiltration:  h.Infiltration * h.FloorArea * h.Ceiling / 3600 * StandardDensity * sitePressure / psychro.SeaLevelPressure, // (25)
		roomW:         room.W,
	}
	b.keep(h.Setpoint)
	return b, nil
}

// keep sets the setpoint.
func (h *House) keep(setpoint float64) {
	h.Setpoint = setpoint
	h.setpointPS = psychro.SaturationPressure(setpoint)
	h.movingPS = psychro.SaturationPressure(setpoint + h.MovingAir)
}

// InMovingAir is the same house with people who set the cooler MovingAir higher.
func (h House) InMovingAir() House {
	h.keep(h.Setpoint + h.MovingAir)
	return h
}

// FitDesignLoad replaces UA so that the sensible load at the given dry bulb
// (°C) and irradiance (W/m²) equals load in W: eq. 17 solved for UA, with
// nothing stored.
func (h *House) FitDesignLoad(load, t, ghi float64) error {
	if t <= h.Setpoint {
		return fmt.Errorf("house.design_load: the 1 %% dry bulb %.1f °C is not above the setpoint %.1f °C, so no heat loss can give that load; state house.heat_loss instead", t, h.Setpoint)
	}
	ua := (load - h.Aperture*ghi - h.Sensible) / (t - h.Setpoint)
	if ua <= 0 {
		return fmt.Errorf("house.design_load: sun and people alone bring %.0f W at the design hour, more than the %.0f W stated; state a larger load or a smaller house.solar_share", h.Aperture*ghi+h.Sensible, load)
	}
	h.UA = ua
	return nil
}

// Around is what an hour meets: the weather, and the house as the hour before
// left it.
type Around struct {
	T      float64 // °C outdoor dry bulb
	GHI    float64 // W/m²
	Before float64 // °C in the house at the end of the hour before
}

// Load is the heat in W to be carried away in the hour.
type Load struct {
	Sensible float64 // at the setpoint, with what the house gives up from storage; eq. 17
	Leak     float64 // what leaks into the closed house in addition; eq. 17
	Steady   float64 // Sensible without storage, at least 0: what coverage by load counts
}

// Load is the load of an hour. Eq. 17.
func (h House) Load(a Around) Load {
	steady := h.UA*(a.T-h.Setpoint) + h.Aperture*a.GHI + h.Sensible
	return Load{
		Sensible: steady + h.Storage*(a.Before-h.Setpoint),
		Leak:     h.Infiltration * InfiltrationHeat * (a.T - h.Setpoint),
		Steady:   max(0, steady),
	}
}

// Need says whether the hour needs cooling: the house would rise above the
// setpoint open or shut. Eq. 17.
func (l Load) Need() bool { return l.Sensible > 0 && l.Sensible+l.Leak > 0 }

// Shut is the temperature in °C at the end of the hour of a house left shut. Eq. 17a.
func (h House) Shut(a Around) float64 {
	loss := h.UA + h.Infiltration*InfiltrationHeat
	return (loss*a.T + h.Aperture*a.GHI + h.Sensible + h.Storage*a.Before) / (loss + h.Storage)
}

// Drift is where a house without cooling load ends the hour, given Shut: it is
// not let above the setpoint, and heated when cold. Eq. 17a.
func (h House) Drift(shut float64) float64 {
	return max(min(HeatedTo, h.Setpoint), min(h.Setpoint, shut))
}

// FullFlow is the indoor temperature in °C with the stream at full flow. Eq. 18.
func (h House) FullFlow(a Around, s cooler.Stream) float64 {
	mc := s.MassFlow * s.SpecificHeat
	return (h.UA*a.T + h.Aperture*a.GHI + h.Sensible + h.Storage*a.Before + mc*s.T) / (h.UA + h.Storage + mc)
}

// Share is the share of full flow that carries the load at the setpoint, where
// a fan that cannot go below the lowest share rests for part of the hour and
// lets the house leak meanwhile. Eq. 19. It is meaningful for a load with Need
// where FullFlow is at or below the setpoint.
func (h House) Share(l Load, lowest float64, s cooler.Stream) float64 {
	full := s.MassFlow * s.SpecificHeat * (h.Setpoint - s.T)
	if l.Sensible >= lowest*full {
		return l.Sensible / full
	}
	return (l.Sensible + l.Leak) / (full + l.Leak/lowest)
}

// Moisture is the indoor humidity ratio in kg/kg before any condenses: the
// stream at a share of full flow brings its own, outdoor air of humidity ratio w
// leaks in while the fan rests, and people add theirs. fraction is the part of
// the hour the fan runs. Eq. 20.
func (h House) Moisture(w, share, fraction float64, s cooler.Stream) float64 {
	blown, leaked := s.MassFlow*share, h.Infiltration*(1-fraction)
	return (blown*s.W + leaked*w + h.Latent/cooler.EvaporationHeat) / (blown + leaked)
}

// RelHum is the indoor relative humidity, at most 1, of humidity ratio w at
// temperature t in °C and pressure p in Pa. Eq. 20.
func (h House) RelHum(t, w, p float64) float64 {
	a := psychro.Air{T: t, W: w, P: p}
	if t == h.Setpoint && h.setpointPS > 0 {
		return min(1, a.VapourPressure()/h.setpointPS)
	}
	return min(1, a.RelHum())
}

// ComfortableInMovingAir says whether people who feel the air move are content
// with t °C and relative humidity rh indoors: no warmer than MovingAir above
// the setpoint, and within the humidity limit at that temperature.
func (h House) ComfortableInMovingAir(t, rh float64) bool {
	return t <= h.Setpoint+h.MovingAir && rh*psychro.SaturationPressure(t)/h.movingPS <= h.HumidityLimit
}

// ClosedLoad is the total load in W on a refrigerated air conditioner with
// the house closed: sensible load plus infiltration, and latent gains. Eq. 25.
func (h House) ClosedLoad(l Load, outdoor psychro.Air) float64 {
	return max(0, l.Sensible+l.Leak) + h.Latent + h.Infiltration*cooler.EvaporationHeat*max(0, outdoor.W-h.roomW)
}
