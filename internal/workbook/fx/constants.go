package fx

import (
	"github.com/evapbook/evapbook/internal/climate"
	"github.com/evapbook/evapbook/internal/cooler"
	"github.com/evapbook/evapbook/internal/house"
	"github.com/evapbook/evapbook/internal/psychro"
)

// The engine's constants as formulas write them. Their values, units and sources
// stand where the engine has them; formula text holds no number of physics of its
// own (constants_test.go).
var (
	Zero       = Num(psychro.ZeroCelsius) // 0 °C in kelvin
	massRatio  = Num(psychro.MassRatio)
	heatDryAir = Num(psychro.HeatDryAir) // J/(kg K)
	heatVapour = Num(psychro.HeatVapour) // J/(kg K)

	// LatentHeat is cooler.EvaporationHeat, J/kg.
	LatentHeat = Num(cooler.EvaporationHeat)

	infiltrationHeat = Num(house.InfiltrationHeat) // J/(kg K)

	// GasConstant is that of dry air, J/(kg K).
	GasConstant = Num(psychro.GasConstant)

	// DegreeDayBase is the base of degree-days in °C.
	DegreeDayBase = "(" + Num(climate.DegreeDayBaseF) + "-32)/1.8"
)

// Kelvin is a temperature in °C as kelvin.
func Kelvin(celsius string) string { return "(" + celsius + "+" + Zero + ")" }
