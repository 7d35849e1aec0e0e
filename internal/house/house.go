// Package house models the building as one quasi-steady zone: its sensible
// load at the setpoint, the temperature and humidity the supplied air can
// hold, and the load of the same house closed up for refrigeration.
//
// Equation numbers are those of docs/model.md. There is no thermal mass: an
// afternoon load is overstated a little and an evening load understated.
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
	StandardDensity   = 1.2    // kg/m³ at sea level
	InfiltrationHeat  = 1006   // J/(kg K)
	ClosedRoomRelHum  = 0.50   // indoor humidity the refrigerated house keeps
	standardSeaLevelP = 101325 // Pa
)

// House is a building with its loads resolved.
type House struct {
	UA            float64 // W/K
	Aperture      float64 // m² of solar aperture
	Sensible      float64 // W internal gain
	Latent        float64 // W internal gain
	Setpoint      float64 // °C
	HumidityLimit float64 // 0..1
	Infiltration  float64 // kg/s of outdoor air into the closed house
	roomW         float64 // kg/kg in the closed house
	setpointPS    float64 // Pa, saturation pressure at the setpoint; asked for in every hour
}

// New resolves the house at a site of the given standard pressure in Pa.
// It returns an error if the setpoint is no possible room state there.
func New(h job.House, sitePressure float64) (House, error) {
	room, err := psychro.FromRelHum(h.Setpoint, ClosedRoomRelHum, sitePressure)
	if err != nil {
		return House{}, fmt.Errorf("room air at the setpoint: %w", err)
	}
	return House{
		UA:            h.HeatLoss * h.FloorArea,   // (15)
		Aperture:      h.SolarShare * h.FloorArea, // (15)
		Sensible:      SensibleBase + SensiblePerArea*h.FloorArea + SensiblePerPerson*h.People,
		Latent:        LatentBase + LatentPerArea*h.FloorArea + LatentPerPerson*h.People, // (16)
		Setpoint:      h.Setpoint,
		HumidityLimit: h.HumidityLimit,
		Infiltration:  h.Infiltration * h.FloorArea * h.Ceiling / 3600 * StandardDensity * sitePressure / standardSeaLevelP, // (25)
		roomW:         room.W,
		setpointPS:    psychro.SaturationPressure(h.Setpoint),
	}, nil
}

// FitDesignLoad replaces UA so that the sensible load at the given dry bulb
// (°C) and irradiance (W/m²) equals load in W: eq. 17 solved for UA.
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

// Load is the sensible load in W that keeps the setpoint at outdoor dry bulb
// t in °C and irradiance ghi in W/m²; zero or less is an idle hour. Eq. 17.
func (h House) Load(t, ghi float64) float64 {
	return h.UA*(t-h.Setpoint) + h.Aperture*ghi + h.Sensible
}

// FullFlow is the indoor temperature in °C with the stream at full flow. Eq. 18.
func (h House) FullFlow(t, ghi float64, s cooler.Stream) float64 {
	mc := s.MassFlow * s.SpecificHeat
	return (h.UA*t + h.Aperture*ghi + h.Sensible + mc*s.T) / (h.UA + mc)
}

// Share is the share of full flow that carries the load at the setpoint:
// eq. 19. It is meaningful where FullFlow is at or below the setpoint.
func (h House) Share(load float64, s cooler.Stream) float64 {
	return load / (s.MassFlow * s.SpecificHeat * (h.Setpoint - s.T))
}

// RelHum is the indoor relative humidity (1 = saturated) at temperature t in
// °C and pressure p in Pa, with the stream at the given share of full flow.
// The latent gains are carried by less air at part flow. Eq. 20. It may come
// out above 1, which says that water would condense.
func (h House) RelHum(t, p, share float64, s cooler.Stream) float64 {
	w := s.W + h.Latent/(cooler.EvaporationHeat*s.MassFlow*share)
	a := psychro.Air{T: t, W: w, P: p}
	if t == h.Setpoint && h.setpointPS > 0 {
		return a.VapourPressure() / h.setpointPS
	}
	return a.RelHum()
}

// ClosedLoad is the total load in W on a refrigerated air conditioner with
// the house closed: sensible load plus infiltration, and latent gains. Eq. 25.
func (h House) ClosedLoad(load float64, outdoor psychro.Air) float64 {
	sensible := max(0, load+h.Infiltration*InfiltrationHeat*(outdoor.T-h.Setpoint))
	return sensible + h.Latent + h.Infiltration*cooler.EvaporationHeat*max(0, outdoor.W-h.roomW)
}
