package psychro

// VapourPressure returns the partial pressure of water vapour, Pa.
//
// Source: ASHRAE Fundamentals 2017 ch. 1 eq. 20, solved for the pressure.
func (a Air) VapourPressure() float64 {
	return a.P * a.W / (MassRatio + a.W) // (20)
}

// RelHum returns the relative humidity: vapour pressure over saturation
// pressure, 1 when saturated, over ice up to TriplePoint. It does not depend
// on how the air was made and comes out above 1 where water would condense.
//
// Source: ASHRAE Fundamentals 2017 ch. 1 eq. 22.
func (a Air) RelHum() float64 {
	return a.VapourPressure() / SaturationPressure(a.T) // (22)
}

// Enthalpy returns the enthalpy of moist air in J per kg of dry air, 0 for
// dry air and liquid water at 0 °C. (The inch-pound scale is 0 at 0 °F, so a
// conversion needs an offset.)
//
// Source: ASHRAE Fundamentals 2017 ch. 1 eq. 30.
func (a Air) Enthalpy() float64 {
	return HeatDryAir*a.T + a.W*(LatentHeat+HeatVapour*a.T) // (30)
}

// Volume returns the volume of moist air in m³ per kg of dry air.
//
// Source: ASHRAE Fundamentals 2017 ch. 1 eq. 26.
func (a Air) Volume() float64 {
	return GasConstant * (a.T + ZeroCelsius) * (1 + VolumeOfVapour*a.W) / a.P // (26)
}

// Density returns the density of moist air, kg of air and vapour per m³.
//
// Source: ASHRAE Fundamentals 2017 ch. 1 eq. 11.
func (a Air) Density() float64 {
	return (1 + a.W) / a.Volume() // (11)
}

// SpecificHeat returns the heat capacity of moist air at constant pressure
// and humidity ratio in J per K and kg of dry air: the slope of [Air.Enthalpy]
// with temperature.
//
// Source: ASHRAE Fundamentals 2017 ch. 1 eq. 30, differentiated.
func (a Air) SpecificHeat() float64 {
	return HeatDryAir + HeatVapour*a.W
}
