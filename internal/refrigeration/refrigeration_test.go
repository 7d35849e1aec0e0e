package refrigeration_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/refrigeration"
)

// Values of the NREL/TP-5500-56354 curves at points of a table worked from
// the published coefficients by a script independent of this code.
func TestCurves(t *testing.T) {
	rows := []struct{ x, y, capacity, eir float64 }{
		{67, 75, 1.0926, 0.7252}, {67, 82, 1.0595, 0.8051}, {67, 95, 0.9939, 1.0092}, {67, 105, 0.9399, 1.2155},
		{67, 115, 0.8827, 1.4648}, {63, 95, 0.9416, 1.0624}, {63, 105, 0.8928, 1.2746},
	}
	for _, r := range rows {
		assert.InDelta(t, r.capacity, refrigeration.CapacityCurve.At(r.x, r.y), 5e-5)
		assert.InDelta(t, r.eir, refrigeration.EIRCurve.At(r.x, r.y), 5e-5)
	}
}

// 36,000 Btu/h at EER 11.7: at 105 °F 34,043 Btu/h and 3.505 kW, at 115 °F
// 31,973 Btu/h and 3.967 kW, at full load (same independent table).
func TestOutdoorTemperature(t *testing.T) {
	const btu = 1055.05585262 / 3600
	u := refrigeration.New(job.AC{Capacity: 36000 * btu, EER2: 11.7, Cycling: 0.2, FieldShare: 1, IndoorWetBulb: (67 - 32) / 1.8}, 0)
	for _, r := range []struct{ f, btuh, kW float64 }{{105, 34043, 3.505}, {115, 31973, 3.967}} {
		c := (r.f - 32) / 1.8
		capacity := u.Capacity * u.CapacityShare(c)
		assert.InDelta(t, r.btuh, capacity/btu, 1)
		assert.InDelta(t, r.kW, u.Energy(capacity, u.CapacityShare(c), u.EIRShare(c)), 6e-4)
	}
}

// PLF = 1 - Cd (1 - PLR): Cd 0.25 and PLR 0.5 give 0.875 (from memory, the
// part-load form of the United States test procedure).
func TestPartLoad(t *testing.T) {
	u := refrigeration.Unit{Capacity: 10000, COP: 4, Cycling: 0.25, FieldShare: 1}
	assert.InDelta(t, 0.5*10/(4*0.875), u.Energy(5000, 1, 1), 1e-12)
	assert.InDelta(t, 2.5, u.Energy(20000, 1, 1), 1e-12, "never more than the unit can")
	assert.Zero(t, u.Energy(0, 1, 1))
	u.FieldShare = 0.8
	assert.InDelta(t, 2.5/0.8, u.Energy(20000, 1, 1), 1e-12, "an installed unit falls short of its rating")
}

func TestAltitudeFactor(t *testing.T) {
	const ft = 0.3048
	for _, r := range []struct{ ft, want float64 }{
		{-50, 1}, {0, 1}, {1250, 0.99}, {2500, 0.98}, {5000, 0.97}, {6250, 0.96}, {7500, 0.95}, {10000, 0.93}, {12000, 0.93},
	} {
		assert.InDelta(t, r.want, refrigeration.AltitudeFactor(r.ft*ft), 1e-12, "%v ft", r.ft)
	}
}

func TestSize(t *testing.T) {
	half := refrigeration.HalfTon
	assert.InDelta(t, 1758.4264, half, 1e-4)
	assert.Equal(t, half, refrigeration.Size(0))
	assert.Equal(t, 6*half, refrigeration.Size(5.01*half))
	assert.Equal(t, 5*half, refrigeration.Size(5*half))
}
