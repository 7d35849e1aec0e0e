package refrigeration_test

import (
	"fmt"

	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/refrigeration"
)

// Eq. 26: at 67 °F entering wet bulb and 95 °F outdoors a unit at sea level is
// what its plate says; at 2,500 ft it keeps 0.98 of its capacity for the same
// power, half-way to 5,000 ft 0.975, and 0.93 at 10,000 ft and above.
func ExampleUnit_CapacityShare() {
	for _, feet := range []float64{-100, 0, 2500, 3750, 10000, 12000} {
		u := refrigeration.New(job.AC{IndoorWetBulb: 175. / 9, FieldShare: 1}, feet*0.3048)
		fmt.Printf("%.0f ft: capacity %.3f, power %.3f\n", feet, u.CapacityShare(35), u.CapacityShare(35)*u.EIRShare(35))
	}
	// Output:
	// -100 ft: capacity 1.000, power 1.000
	// 0 ft: capacity 1.000, power 1.000
	// 2500 ft: capacity 0.980, power 1.000
	// 3750 ft: capacity 0.975, power 1.000
	// 10000 ft: capacity 0.930, power 1.000
	// 12000 ft: capacity 0.930, power 1.000
}

// Eq. 27: 10 kW of EER2 10.236426, a COP of 3, of which 0.9 is reached. At half
// load it loses a twentieth by cycling: 5,000/(0.95 × 2.7); at twice its
// capacity it runs all hour: 10,000/2.7.
func ExampleUnit_Energy() {
	u := refrigeration.New(job.AC{Capacity: 10000, EER2: 3 * refrigeration.BtuPerWattHour, Cycling: 0.1, FieldShare: 0.9}, 0)
	fmt.Printf("%.4f %.4f %.4f kWh", u.Energy(0, 1, 1), u.Energy(5000, 1, 1), u.Energy(20000, 1, 1))
	// Output: 0.0000 1.9493 3.7037 kWh
}

// Eq. 27: the next half ton, 1,758.426 W, at least one.
func ExampleSize() {
	half := refrigeration.HalfTon
	fmt.Printf("%.3f W: %.0f %.0f %.0f %.0f", half, refrigeration.Size(0)/half, refrigeration.Size(1)/half, refrigeration.Size(2*half)/half, refrigeration.Size(2*half+1)/half)
	// Output: 1758.426 W: 1 1 2 3
}
