package psychro

import "fmt"

// Constants of moist air as a perfect gas.
// Source: ASHRAE Fundamentals 2017 ch. 1, eqs. 1, 20, 26 and 30.
const (
	MassRatio      = 0.621945 // molar mass of water over that of dry air, eq. 20
	GasConstant    = 287.042  // of dry air, J/(kg K), eq. 1
	VolumeOfVapour = 1.607858 // 1/MassRatio as the handbook rounds it, eq. 26
	HeatDryAir     = 1006.0   // specific heat of dry air, J/(kg K), eq. 30
	HeatVapour     = 1860.0   // specific heat of water vapour, J/(kg K), eq. 30
	LatentHeat     = 2501e3   // of evaporation at 0 °C, J/kg, eq. 30
)

// StandardDensity is the density of standard air, kg/m³, to which fans are rated
// and infiltration is stated.
// Source: ASHRAE Fundamentals 2017 ch. 1.
const StandardDensity = 1.2

// Limits of a state. They hold every surface site and catch pressures given
// in hPa or kPa; the equations themselves need only a positive pressure.
const (
	MinPressure      = 10e3 // Pa, about 16 km of altitude
	MaxPressure      = 1e6  // Pa
	MaxHumidityRatio = 10.0 // kg/kg of dry air
)

// FogTolerance is how far relative humidity may exceed 1 and still be taken
// for rounding or light fog; the state is then capped at saturation. It
// covers a relative humidity rounded to whole percent and a dew point or wet
// bulb 0.1 K above the dry bulb, at -20 °C and warmer. Anything above is an
// error.
const FogTolerance = 0.01

// dryTolerance is the negative humidity ratio in kg/kg that rounding of the
// wet bulb of dry air may give; it is taken for 0. About 1e-6 K of wet bulb.
const dryTolerance = 1e-9

// Air is a state of moist air. Take it from one of the From functions, which
// check it; the methods without an error result do not check again.
type Air struct {
	T float64 // dry bulb, °C, MinTemperature to MaxTemperature
	W float64 // humidity ratio, kg of water vapour per kg of dry air
	P float64 // total pressure, Pa, MinPressure to MaxPressure
}

// FromRelHum returns air of dry bulb t °C and relative humidity rh (0 dry, 1
// saturated; over ice up to TriplePoint) at p Pa.
//
// rh above 1 up to 1 + FogTolerance gives saturated air. Outside
// 0..1+FogTolerance, or t or p out of range: [RangeError]. It wraps
// [ErrBoiling] where rh times the saturation pressure reaches p.
//
// Source: ASHRAE Fundamentals 2017 ch. 1 eqs. 12 and 20.
func FromRelHum(t, rh, p float64) (Air, error) {
	if err := checkInput(t, p); err != nil {
		return Air{}, err
	}
	if err := within("relative humidity", rh, "", 0, 1+FogTolerance); err != nil {
		return Air{}, err
	}
	ps, _ := saturation(t)
	return fromVapour(t, min(rh, 1)*ps, p) // (12)
}

// FromDewPoint returns air of dry bulb t °C and dew point tdp °C (frost point
// up to TriplePoint) at p Pa.
//
// A dew point above the dry bulb gives saturated air as long as the relative
// humidity is within 1 + FogTolerance; beyond it wraps [ErrSupersaturated].
// t, tdp or p out of range: [RangeError]. At or above boiling: [ErrBoiling].
//
// Source: ASHRAE Fundamentals 2017 ch. 1 eqs. 20 and 36.
func FromDewPoint(t, tdp, p float64) (Air, error) {
	if err := checkInput(t, p); err != nil {
		return Air{}, err
	}
	return saturatedAt("dew point", t, tdp, p) // (36)
}

// saturatedAt is air of dry bulb t that holds as much vapour as saturated air
// of ts, the named quantity.
func saturatedAt(quantity string, t, ts, p float64) (Air, error) {
	if err := checkTemperature(quantity, ts); err != nil {
		return Air{}, err
	}
	e, _ := saturation(ts)
	ps, _ := saturation(t)
	if e > ps*(1+FogTolerance) {
		return Air{}, fmt.Errorf("%w: %s %g °C, dry bulb %g °C", ErrSupersaturated, quantity, ts, t)
	}
	return fromVapour(t, min(e, ps), p)
}

// FromWetBulb returns air of dry bulb t °C and thermodynamic wet bulb twb °C
// at p Pa; the wick is iced below 0 °C and wet from 0 °C up, within
// FreezingMargin.
//
// A wet bulb above the dry bulb is judged as a dew point there is: saturated
// air within FogTolerance, beyond it wraps [ErrSupersaturated]. A wet bulb
// below that of dry air wraps [ErrTooDry], one at or above the boiling point
// of p [ErrBoiling]; t, twb or p out of range give a [RangeError].
//
// Source: ASHRAE Fundamentals 2017 ch. 1 eqs. 33 and 35.
func FromWetBulb(t, twb, p float64) (Air, error) {
	if err := checkInput(t, p); err != nil {
		return Air{}, err
	}
	if !(twb <= t) {
		return saturatedAt("wet bulb", t, twb, p) // saturated, or an error
	}
	ws, err := SaturationHumidityRatio(twb, p)
	if err != nil {
		return Air{}, fmt.Errorf("wet bulb: %w", err)
	}
	w := wickAt(twb).HumidityRatio(t, twb, ws) // (33), (35)
	if w < -dryTolerance {
		return Air{}, fmt.Errorf("%w: wet bulb %g °C, dry bulb %g °C, %g Pa", ErrTooDry, twb, t, p)
	}
	return FromHumidityRatio(t, max(w, 0), p)
}

// FromHumidityRatio returns air of dry bulb t °C and humidity ratio w kg/kg
// at p Pa after checking that such air exists.
//
// A relative humidity above 1 up to 1 + FogTolerance gives saturated air;
// beyond, it wraps [ErrSupersaturated]. t, w (0 to MaxHumidityRatio) or p out
// of range give a [RangeError].
func FromHumidityRatio(t, w, p float64) (Air, error) {
	a := Air{T: t, W: w, P: p}
	ps, _, err := a.check()
	if err != nil {
		return Air{}, err
	}
	if ps < p {
		a.W = min(w, MassRatio*ps/(p-ps))
	}
	return a, nil
}

// fromVapour is air of vapour pressure e, at or below saturation.
func fromVapour(t, e, p float64) (Air, error) {
	if e >= p {
		return Air{}, fmt.Errorf("%w: %g Pa at %g °C, total pressure %g Pa", ErrBoiling, e, t, p)
	}
	a := Air{T: t, W: MassRatio * e / (p - e), P: p} // (20)
	if err := within("humidity ratio", a.W, "kg/kg", 0, MaxHumidityRatio); err != nil {
		return Air{}, err
	}
	return a, nil
}

func checkInput(t, p float64) error {
	if err := checkTemperature("dry bulb", t); err != nil {
		return err
	}
	return checkPressure(p)
}

// check returns the saturation pressure and d ln ps/dT at the dry bulb of a
// state that exists.
func (a Air) check() (ps, slope float64, err error) {
	if err := checkInput(a.T, a.P); err != nil {
		return 0, 0, err
	}
	if err := within("humidity ratio", a.W, "kg/kg", 0, MaxHumidityRatio); err != nil {
		return 0, 0, err
	}
	ps, slope = saturation(a.T)
	if e := a.VapourPressure(); e > ps*(1+FogTolerance) {
		return 0, 0, fmt.Errorf("%w: humidity ratio %g kg/kg at %g °C and %g Pa is %.4g times saturation in relative humidity, limit %g",
			ErrSupersaturated, a.W, a.T, a.P, e/ps, 1+FogTolerance)
	}
	return ps, slope, nil
}
