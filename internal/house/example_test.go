package house_test

import (
	"fmt"

	"github.com/evapbook/evapbook/internal/cooler"
	"github.com/evapbook/evapbook/internal/house"
	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/psychro"
)

// One example for each numbered equation of docs/model.md, its figures worked
// out by hand: 100 m², three people, at sea level, kept at 25 °C; heat capacity
// 108 kJ/K per m², so 3,000 W/K over an hour.
func example() house.House {
	h, err := house.New(job.House{FloorArea: 100, Ceiling: 2.5, People: 3, HeatLoss: 2, SolarShare: 0.03, ThermalMass: 108,
		Setpoint: 25, HumidityLimit: 0.7, Infiltration: 0.5, MovingAir: 2}, 101325)
	if err != nil {
		panic(err)
	}
	return h
}

// An afternoon of 35 °C and 500 W/m²; the house was at 24 °C an hour ago.
var (
	afternoon = house.Around{T: 35, GHI: 500, Before: 24}
	// 2 kg/s at 18 °C; 2,040 W/K.
	air = cooler.Stream{MassFlow: 2, SpecificHeat: 1020, T: 18, W: 0.010}
)

// Eq. 15: UA is 2 times 100, the aperture 0.03 times 100.
func ExampleNew_equation15() {
	h := example()
	fmt.Printf("%.0f W/K, %.0f m²", h.UA, h.Aperture)
	// Output: 200 W/K, 3 m²
}

// Eq. 16: 136 + 220 + 66 and 20 + 22 + 36.
func ExampleNew_equation16() {
	h := example()
	fmt.Printf("%.0f W sensible, %.0f W latent", h.Sensible, h.Latent)
	// Output: 422 W sensible, 78 W latent
}

// Eq. 17: 2,000 + 1,500 + 422, less the 3,000 W that one kelvin of the walls
// takes up; 125 m³/h of air of 1.2 kg/m³ leak in, 10 K too warm.
func ExampleHouse_Load() {
	l := example().Load(afternoon)
	fmt.Printf("%.0f W, of it %.0f W from storage; leaks %.1f W; need %t", l.Sensible, l.Sensible-l.Steady, l.Leak, l.Need())
	// Output: 922 W, of it -3000 W from storage; leaks 419.2 W; need true
}

// Eq. 17a: (241.917 × 35 + 1,922 + 3,000 × 24)/3,241.917; a house that drifts is
// not let above the setpoint and is heated to 20 °C.
func ExampleHouse_Shut() {
	h := example()
	shut := h.Shut(afternoon)
	fmt.Printf("%.3f °C; ends at %.0f, %.1f and %.0f", shut, h.Drift(shut), h.Drift(22.5), h.Drift(12))
	// Output: 25.414 °C; ends at 25, 22.5 and 20
}

// Eq. 18: (7,000 + 1,922 + 72,000 + 36,720)/(200 + 3,000 + 2,040).
func ExampleHouse_FullFlow() {
	fmt.Printf("%.3f °C", example().FullFlow(afternoon, air))
	// Output: 22.451 °C
}

// Eq. 19: full flow carries 2,040 × 7 = 14,280 W. Of 10,710 W three quarters; a
// load of 3,000 W with 400 W of leaks is below the lowest 0.67, so the fan
// rests: 3,400/(14,280 + 400/0.67).
func ExampleHouse_Share() {
	h := example()
	fmt.Printf("%.4f %.4f", h.Share(house.Load{Sensible: 10710, Leak: 400}, 0.67, air), h.Share(house.Load{Sensible: 3000, Leak: 400}, 0.67, air))
	// Output: 0.7500 0.2285
}

// Eq. 20: half the flow, the fan running for half the hour: 1 kg/s of 10 g/kg,
// 0.020833 kg/s of 5 g/kg leaking in, and 78 W/2.45 MJ/kg.
func ExampleHouse_Moisture() {
	h := example()
	w := h.Moisture(0.005, 0.5, 0.5, air)
	fmt.Printf("%.3f g/kg, %.3f; never above %.0f", 1000*w, h.RelHum(25, w, 101325), h.RelHum(25, 0.1, 101325))
	// Output: 9.929 g/kg, 0.502; never above 1
}

// Eq. 25: infiltration 0.5 × 250 m³/h × 1.2 kg/m³ is 0.041667 kg/s; 922 + 419.2 +
// 78 W, and its water above that of 25 °C and 50 % at 2.45 MJ/kg.
func ExampleHouse_ClosedLoad() {
	h := example()
	l := h.Load(afternoon)
	dry := h.ClosedLoad(l, psychro.Air{T: 35, W: 0.005, P: 101325})
	damp := h.ClosedLoad(l, psychro.Air{T: 35, W: 0.015, P: 101325})
	fmt.Printf("%.6f kg/s; %.1f W in dry air, %.1f W in damp", h.Infiltration, dry, damp)
	// Output: 0.041667 kg/s; 1419.2 W in dry air, 1941.7 W in damp
}
