package cooler_test

import (
	"fmt"

	"github.com/evapbook/evapbook/internal/cooler"
	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/psychro"
)

// One example for each numbered equation of docs/model.md: air of 35 °C with a
// wet bulb of 15 °C at 83 kPa, a cooler of 2 m³/s, 800 W and new pads of 0.80.
func exampleUnit(kind job.CoolerKind) cooler.Unit {
	return cooler.New(job.Cooler{Kind: kind, Airflow: 2, Effectiveness: 0.8, PadCondition: 1, IndirectEffectiveness: 0.5,
		FanPower: 800, PumpPower: 50, LowestSpeed: 0.67, LowSpeedPower: 0.45})
}

func supplied(u cooler.Unit) cooler.Supply {
	air, err := psychro.FromWetBulb(35, 15, 83000)
	if err != nil {
		panic(err)
	}
	s, err := u.Water(air, 15)
	if err != nil {
		panic(err)
	}
	return s
}

// Eq. 9: 35 less 0.8 of 20 K.
func ExampleUnit_Water_direct() {
	fmt.Printf("%.1f °C", supplied(exampleUnit(job.Direct)).Leaving.T)
	// Output: 19.0 °C
}

// Eq. 10: 35 less 0.5 of 20 K, the humidity kept.
func ExampleUnit_Water_indirect() {
	s := supplied(exampleUnit(job.Indirect))
	fmt.Printf("%.1f °C, %.0f W", s.Leaving.T, s.MassFlow*(s.Evaporating*cooler.EvaporationHeat-s.SpecificHeat*10))
	// Output: 25.0 °C, 0 W
}

// Eq. 11: the direct stage starts from 25 °C at a wet bulb that has fallen too;
// the two figures by the Python of tools/independent.
func ExampleUnit_Water_twoStage() {
	s := supplied(exampleUnit(job.TwoStage))
	fmt.Printf("%.1f °C, wet bulb %.2f, %.3f °C", s.T1, s.WetBulb1, s.Leaving.T)
	// Output: 25.0 °C, wet bulb 11.52, 14.212 °C
}

// Eq. 12: what the fan moves is volume: kilograms a second times m³ a kilogram.
func ExampleStream_equation12() {
	s := supplied(exampleUnit(job.Direct))
	fmt.Printf("%.3f m³/s, %.3f", s.MassFlow*s.Leaving.Volume(), s.SpecificHeat/(1006+1860*s.W))
	// Output: 2.000 m³/s, 1.000
}

// Eq. 13: a fan of 800 W at 1.2 kg/m³ takes 800 ρ/1.2 and warms the air by it;
// the ducts add theirs, to vent air too.
func ExampleStream_equation13() {
	u := exampleUnit(job.Direct)
	u.DuctGain = 1.5
	s := supplied(u)
	density := (1 + s.W) / s.Leaving.Volume()
	vent := u.Vent(psychro.Air{T: 20, W: 0, P: 83000})
	fmt.Printf("%.1f, %.3f K, %.3f K", s.FanPower/density, s.T-s.Leaving.T-s.FanPower/(s.MassFlow*s.SpecificHeat), vent.T-20-vent.FanPower/(vent.MassFlow*1006))
	// Output: 666.7, 1.500 K, 1.500 K
}

// Eq. 14: pads in their usual condition reach 0.736 of a rated 0.80.
func ExampleNew_equation14() {
	fmt.Printf("%.3f", cooler.New(job.Cooler{Effectiveness: 0.8, PadCondition: 0.92, IndirectEffectiveness: 0.5}).Effectiveness)
	// Output: 0.736
}

// Eq. 19: two speeds take 0.45 of full power at 0.67; half of that flow is half
// the hour, half-way above it half of each. A variable drive goes by the cube.
func ExampleUnit_Run() {
	const full = 800
	two := exampleUnit(job.Direct)
	variable := two
	variable.Variable, variable.LowestSpeed, variable.LowSpeedPower = true, 0.3, 0.08
	one := two
	one.LowestSpeed = 1
	for _, share := range []float64{0, 0.335, 0.67, 0.835, 1} {
		fmt.Printf("%.3f: %.4f %.4f %.4f\n", share, one.Run(share, full).Fan/full, two.Run(share, full).Fan/full, variable.Run(share, full).Fan/full)
	}
	half := two.Run(0.335, full)
	fmt.Printf("%.2f of the hour, pump %.0f W", half.Fraction, half.Pump)
	// Output:
	// 0.000: 0.0000 0.0000 0.0000
	// 0.335: 0.3350 0.2250 0.1146
	// 0.670: 0.6700 0.4500 0.3567
	// 0.835: 0.8350 0.7250 0.6156
	// 1.000: 1.0000 1.0000 1.0000
	// 0.50 of the hour, pump 25 W
}

// Eq. 21: what evaporates is the rise of the humidity ratio.
func ExampleUnit_Water_evaporated() {
	s := supplied(exampleUnit(job.Direct))
	before, err := psychro.FromWetBulb(35, 15, 83000)
	fmt.Printf("%.4f g/kg, %v", 1000*(s.Evaporating-(s.Leaving.W-before.W)), err)
	// Output: 0.0000 g/kg, <nil>
}
