// Package refrigeration models the refrigerated air conditioner that an
// evaporative cooler is compared with: a single-speed split unit whose
// capacity and efficiency follow outdoor temperature, altitude and part load.
//
// Equation numbers are those of docs/model.md. Indoor fan energy is taken as
// part of the stated EER2.
package refrigeration

import (
	"math"

	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/units"
)

// BtuPerWattHour converts EER in Btu/h per W into COP. Source: NIST SP 811
// (2008) app. B.8, Btu_IT.
const BtuPerWattHour = 3.412142

// HalfTon is half a ton of refrigeration in W, the step in which units are
// sold; HalfTonBtu the same in Btu/h, exact.
const (
	HalfTonBtu = 6000
	HalfTon    = HalfTonBtu * units.JoulesPerBtu / 3600
)

// The condition at which capacity and EER2 are rated: entering wet bulb and
// outdoor dry bulb in °F. Source: ANSI/AHRI Standard 210/240, from memory.
const RatedWetBulbF, RatedDryBulbF = 67, 95

// A Biquadratic is a + b x + c x² + d y + e y² + f x y with x the entering
// wet bulb and y the outdoor dry bulb, both in °F.
type Biquadratic struct{ A, B, C, D, E, F float64 }

// Single-speed air conditioner performance curves.
// Source: Cutler, Winkler, Kruis, Christensen, Brandemuehl, "Improved Modeling
// of Residential Air Conditioners and Heat Pumps for Energy Calculations",
// NREL/TP-5500-56354, 2013.
var (
	CapacityCurve = Biquadratic{3.670270705, -0.098652414, 0.000955906, 0.006552414, -0.0000156, -0.000131877}
	EIRCurve      = Biquadratic{-3.302695861, 0.137871531, -0.001056996, -0.012573945, 0.000214638, -0.000145054}
)

// At evaluates the curve.
func (q Biquadratic) At(x, y float64) float64 {
	return q.A + q.B*x + q.C*x*x + q.D*y + q.E*y*y + q.F*x*y
}

// relative is the curve divided by its value at the rating condition, so that
// a unit delivers its rating there. Eq. 26.
func (q Biquadratic) relative(x, y float64) float64 {
	return q.At(x, y) / q.At(RatedWetBulbF, RatedDryBulbF)
}

// AltitudeRow is a row of AltitudeTable.
type AltitudeRow struct {
	Altitude float64 // m
	Factor   float64 // capacity at altitude over capacity at sea level
}

// AltitudeTable gives the capacity of air-cooled condensing units by altitude:
// 0.98, 0.97, 0.95, 0.93 at 2,500, 5,000, 7,500, 10,000 ft, one at sea level.
// Source: air-conditioning design manual, table 4-2, effects of altitude.
var AltitudeTable = []AltitudeRow{
	{0, 1}, {2500 * 0.3048, 0.98}, {5000 * 0.3048, 0.97}, {7500 * 0.3048, 0.95}, {10000 * 0.3048, 0.93},
}

// AltitudeFactor is linear between the rows of AltitudeTable and constant
// beyond its ends: below sea level it is 1, and above 10,000 ft, where the
// source says nothing, 0.93.
func AltitudeFactor(altitude float64) float64 {
	t := AltitudeTable
	if altitude <= t[0].Altitude {
		return t[0].Factor
	}
	for i := 1; i < len(t); i++ {
		if altitude <= t[i].Altitude {
			a, b := t[i-1], t[i]
			return a.Factor + (b.Factor-a.Factor)*(altitude-a.Altitude)/(b.Altitude-a.Altitude)
		}
	}
	return t[len(t)-1].Factor
}

// Unit is an air conditioner at a site.
type Unit struct {
	Capacity       float64 // W rated
	COP            float64 // rated
	FieldShare     float64 // share of the rated efficiency an installed unit reaches, 0..1
	Cycling        float64 // degradation coefficient Cd
	IndoorWetBulbF float64 // °F entering the coil
	AltitudeFactor float64
}

// New takes the unit from a resolved job; altitude in m.
func New(a job.AC, altitude float64) Unit {
	return Unit{
		Capacity:       a.Capacity,
		COP:            a.EER2 / BtuPerWattHour,
		FieldShare:     a.FieldShare,
		Cycling:        a.Cycling,
		IndoorWetBulbF: fahrenheit(a.IndoorWetBulb),
		AltitudeFactor: AltitudeFactor(altitude),
	}
}

func fahrenheit(c float64) float64 { return c*1.8 + 32 }

// CapacityShare is the capacity at outdoor dry bulb t in °C over the rated
// capacity, altitude included. Eq. 26.
func (u Unit) CapacityShare(t float64) float64 {
	return CapacityCurve.relative(u.IndoorWetBulbF, fahrenheit(t)) * u.AltitudeFactor
}

// EIRShare is the energy input ratio at outdoor dry bulb t in °C over its
// rated value: power does not fall with altitude although capacity does. Eq. 26.
func (u Unit) EIRShare(t float64) float64 {
	return EIRCurve.relative(u.IndoorWetBulbF, fahrenheit(t)) / u.AltitudeFactor
}

// Energy is the electricity in kWh that meets (as far as the unit can) a load
// in W through one hour, given the two shares of that hour. Eq. 27.
func (u Unit) Energy(load, capacityShare, eirShare float64) float64 {
	capacity := u.Capacity * capacityShare
	plr := min(1, load/capacity)
	plf := 1 - u.Cycling*(1-plr)
	return plr * capacity * eirShare / (plf * u.FieldShare * u.COP) / 1000
}

// Size is the smallest half ton in W that is at least need, the rated
// capacity asked for. It is never less than half a ton.
func Size(need float64) float64 {
	return math.Max(1, math.Ceil(need/HalfTon)) * HalfTon
}
