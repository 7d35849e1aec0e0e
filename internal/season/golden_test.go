package season

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/internal/climate"
	"github.com/evapbook/evapbook/internal/cooler"
	"github.com/evapbook/evapbook/internal/house"
	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/psychro"
	"github.com/evapbook/evapbook/internal/refrigeration"
)

// goldenHour is one hour worked by hand-checkable steps in a script that
// shares no code with this program: 1650 m, 34.9/15.5 °C, effectiveness 0.80,
// 4,000 cfm, fan 500 W, pump 40 W, UA 300 W/K, aperture 5 m², 800 W/m²,
// 149 m² of floor, 3 people, setpoint 25.6 °C. Its fan power is the power at
// site density, which 500 W there stand for; equations as docs/model.md, for a
// house without heat capacity that does not breathe while the fan rests.
func goldenHour(t *testing.T) (plant, climate.Hour) {
	t.Helper()
	const p = 83011
	a, err := psychro.FromWetBulb(34.9, 15.5, p)
	require.NoError(t, err)
	h, err := house.New(job.House{FloorArea: 149, Ceiling: 2.44, People: 3, HeatLoss: 300. / 149, SolarShare: 5. / 149,
		Setpoint: 25.6, HumidityLimit: 0.7}, p)
	require.NoError(t, err)
	u := cooler.Unit{Kind: job.Direct, Airflow: 4000 * math.Pow(0.3048, 3) / 60, Effectiveness: 0.8, FanPower: 500, PumpPower: 40, LowestSpeed: 1, LowSpeedPower: 1}
	s, err := u.Water(a, 15.5)
	require.NoError(t, err)
	u.FanPower = 500 * 500 / s.FanPower
	ac := refrigeration.New(job.AC{Capacity: 6 * refrigeration.HalfTon, EER2: 11.7, Cycling: 0.25, FieldShare: 1, IndoorWetBulb: (63 - 32) / 1.8}, 0)
	return plant{cooler: u, house: h, ac: ac}, climate.Hour{Time: time.Now(), Air: a, WetBulb: 15.5, GHI: 800}
}

func TestGoldenHour(t *testing.T) {
	p, in := goldenHour(t)
	var h Hour
	require.NoError(t, p.blow(&h, &in))
	p.carry(&h, &in, 25.6)
	p.close(&h, &in, 25.6)
	p.refrigerate(&h)

	// Each tolerance is half a unit of the last digit the worked hour prints.
	assert.InDelta(t, 5.483, in.Air.W*1000, 6e-4, "outdoor humidity ratio, g/kg")
	assert.InDelta(t, 19.38, h.Supply.Leaving.T, 5e-3)
	assert.InDelta(t, 11.863, h.Supply.W*1000, 6e-4)
	assert.InDelta(t, 1.8313, h.Supply.MassFlow, 6e-5)
	assert.InDelta(t, 0.266, h.Supply.T-h.Supply.Leaving.T, 6e-4, "fan rise")
	assert.InDelta(t, 19.646, h.Supply.T, 6e-4)
	assert.InDelta(t, 7319.8, h.Load.Sensible, 0.06)
	assert.InDelta(t, 11211, h.Supply.MassFlow*h.Supply.SpecificHeat*(25.6-h.Supply.T), 1)
	assert.InDelta(t, 0.6529, h.Share, 6e-5)
	assert.InDelta(t, 27.46, h.Evaporated, 6e-3, "kg/h")
	assert.InDelta(t, 353, h.CoolerKWh*1000, 0.6, "single speed: fan and pump together")
	assert.InDelta(t, 0.474, h.IndoorRH, 6e-4)
	assert.Equal(t, Evap, h.Outcome)
	assert.InDelta(t, 23.82, h.Evap.Full, 6e-3)
	assert.InDelta(t, 0.527, p.house.RelHum(h.Evap.Full, p.house.Moisture(in.Air.W, 1, 1, h.Supply.Stream), in.Air.P), 6e-4)

	// The worked hour uses the curves as published, not relative to rating.
	const wetBulbF, dryBulbF, load = 63, 94.82, 7759
	capacity, eir := refrigeration.CapacityCurve.At(wetBulbF, dryBulbF), refrigeration.EIRCurve.At(wetBulbF, dryBulbF)
	assert.InDelta(t, 0.9424, capacity, 6e-5)
	assert.InDelta(t, 1.0590, eir, 6e-5)
	assert.InDelta(t, 0.780, load/(p.ac.Capacity*capacity), 6e-4)
	assert.InDelta(t, 2.536, p.ac.Energy(load, capacity, eir), 1e-3)
}

// Bleed of the golden hour: make-up 14.54, 10.90 and 9.69 US gal/h at 2, 3 and
// 4 cycles. And a published worked case: 1,620 gal/h at 2 cycles bleeds 1,620
// (water-treatment article on cycles of concentration).
func TestBleed(t *testing.T) {
	const gal = 3.785411784
	for _, r := range []struct{ cycles, want float64 }{{2, 14.54}, {3, 10.90}, {4, 9.69}} {
		w := Water{Evaporated: 27.46}
		c := job.Cooler{WaterCare: job.Bleed, Cycles: r.cycles}
		assert.InDelta(t, r.want, w.Total(c)/gal, 0.04, "the worked hour's gallon is of water at 20 °C") // 7.27 gal against 7.254
	}
	assert.Equal(t, 1620., Water{Evaporated: 1620}.Drained(job.Cooler{WaterCare: job.Bleed, Cycles: 2}))
}

func TestPurge(t *testing.T) {
	w := Water{Evaporated: 500, PumpHours: 20, DaysOfUse: 3}
	c := job.Cooler{WaterCare: job.Purge, Sump: 15, PurgeInterval: 8}
	assert.Equal(t, 15*(20./8+3), w.Drained(c))
	c.WaterCare = job.NoCare
	assert.Equal(t, 500., w.Total(c))
}
