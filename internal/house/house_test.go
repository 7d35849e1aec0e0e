package house_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/internal/cooler"
	"github.com/evapbook/evapbook/internal/house"
	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/psychro"
)

// btu is in J; gallon in m³. Source: NIST SP 811 (2008), appendix B.
const btu, gallon = 1055.05585262, 3.785411784e-3

func newHouse(t *testing.T, edit func(*job.House)) house.House {
	t.Helper()
	in := job.House{FloorArea: 149, Ceiling: 2.44, People: 3, HeatLoss: 300. / 149, SolarShare: 5. / 149,
		Setpoint: 25.6, HumidityLimit: 0.7, Infiltration: 0.5}
	if edit != nil {
		edit(&in)
	}
	h, err := house.New(in, 83011)
	require.NoError(t, err)
	return h
}

// Gains of 149 m² with three people: 529.8 W sensible and 88.8 W latent
// (engineering reference §7, by ASHRAE Fundamentals ch. 17), to the printed digit.
func TestInternalGains(t *testing.T) {
	h := newHouse(t, nil)
	assert.InDelta(t, 529.8, h.Sensible, 0.05)
	assert.InDelta(t, 88.8, h.Latent, 0.05)
}

// Standard air: 1.2 kg/m³ (0.075 lb/ft³). Source: ASHRAE Fundamentals 2017 ch. 1.
func TestStandardDensity(t *testing.T) {
	assert.InDelta(t, 0.075*0.45359237/(0.3048*0.3048*0.3048), house.StandardDensity, 0.002)
}

// Load of the golden hour, 7,319.8 W, and what infiltration adds to it when the
// house is closed, 440 W (engineering reference §7, to its last digit). The
// reference's hour carries no latent load; 88.8 W and dry air are added here.
func TestGoldenHourLoads(t *testing.T) {
	h := newHouse(t, nil)
	at := house.Around{T: 34.9, GHI: 800, Before: h.Setpoint}
	q := h.Load(at)
	assert.InDelta(t, 7319.8, q.Sensible, 0.05)
	outdoor, err := psychro.FromWetBulb(34.9, 15.5, 83011)
	require.NoError(t, err)
	infiltration := h.ClosedLoad(q, outdoor) - q.Sensible - h.Latent
	assert.InDelta(t, 440, infiltration/outdoor.Volume()/(house.StandardDensity*83011/101325), 0.5)
	assert.InDelta(t, 23.82, h.FullFlow(at, cooler.Stream{MassFlow: 1.8313, SpecificHeat: 1006 + 1860*0.011863, T: 19.646}), 5e-3)
}

// A gallon evaporated removes "almost 8,700 Btu" (state design manual, reference
// §11 row 6; 8,684 at 90 °F, 8,788 at 68 °F): the latent heat of the model is
// that of 20 °C water, so 8,788 within 0.3 % and 8,700 within 1 %. Two gallons:
// 17,400.
func TestGallonOfWater(t *testing.T) {
	const density = 998.2 // kg/m³ of water at 20 °C, from memory
	perGallon := cooler.EvaporationHeat * density * gallon / btu
	assert.InEpsilon(t, 8788, perGallon, 0.003)
	assert.InEpsilon(t, 8700, perGallon, 0.01)
	assert.InEpsilon(t, 17400, 2*perGallon, 0.01)
}

// A stated design load is met exactly at the design hour (eq. 17 solved for UA).
func TestFitDesignLoad(t *testing.T) {
	h := newHouse(t, nil)
	require.NoError(t, h.FitDesignLoad(9000, 35, 700))
	assert.InDelta(t, 9000, h.Load(house.Around{T: 35, GHI: 700, Before: h.Setpoint}).Sensible, 1e-9)

	require.ErrorContains(t, h.FitDesignLoad(9000, 25, 700), "not above the setpoint")
	require.ErrorContains(t, h.FitDesignLoad(1000, 35, 700), "state a larger load")
}

// Outdoor air drier than the room brings no latent load; humid air does.
func TestClosedLoadLatent(t *testing.T) {
	h := newHouse(t, func(in *job.House) { in.People = 0 })
	dry, err := psychro.FromRelHum(30, 0.05, 83011)
	require.NoError(t, err)
	damp, err := psychro.FromRelHum(30, 0.80, 83011)
	require.NoError(t, err)
	leak := house.Load{Leak: h.Infiltration * house.InfiltrationHeat * (30 - 25.6)}
	assert.InDelta(t, leak.Leak+h.Latent, h.ClosedLoad(leak, dry), 1e-9)
	assert.Greater(t, h.ClosedLoad(leak, damp), h.ClosedLoad(leak, dry)+100)
	assert.Equal(t, h.Latent, h.ClosedLoad(house.Load{Sensible: -1e4}, dry), "no credit for a house that is cold")
}

// Moving air is judged against the humidity limit at the temperature people
// then keep: the limit's vapour pressure there, whatever the room's own
// temperature.
func TestComfortableInMovingAir(t *testing.T) {
	h := newHouse(t, func(in *job.House) { in.MovingAir = 2.2 })
	assert.True(t, h.ComfortableInMovingAir(27.8, 0.7), "both at the limit")
	assert.False(t, h.ComfortableInMovingAir(27.81, 0.5), "too warm")
	assert.False(t, h.ComfortableInMovingAir(27.8, 0.701), "too damp")
	// In a room of 25.6 °C the same vapour is 0.70·3,738/3,283 = 0.797 of
	// saturation (pressures of saturation at 27.8 and 25.6 °C from memory, ±2 Pa).
	assert.True(t, h.ComfortableInMovingAir(25.6, 0.795))
	assert.False(t, h.ComfortableInMovingAir(25.6, 0.80))
}

// Indoor air is never wetter than saturated, at the setpoint and beside it.
func TestRelHumIsAtMostOne(t *testing.T) {
	h := newHouse(t, nil)
	for _, at := range []float64{h.Setpoint, h.Setpoint - 3, h.Setpoint + 3} {
		assert.Equal(t, 1.0, h.RelHum(at, 0.05, 83011), "at %g °C", at)
		assert.Less(t, h.RelHum(at, 0.005, 83011), 0.3, "at %g °C", at)
	}
}

// The relative humidity of a room is that at its own temperature: what is within
// the limit in a room that got warm would not be at the setpoint.
func TestRelHumIsOfTheRoom(t *testing.T) {
	h := newHouse(t, nil)
	for _, at := range []float64{h.Setpoint - 3, h.Setpoint, h.Setpoint + 4} {
		air := psychro.Air{T: at, W: 0.012, P: 83011}
		assert.InDelta(t, air.RelHum(), h.RelHum(at, air.W, air.P), 1e-12, "at %g °C", at)
	}
}

// An hour needs cooling only where the house would get warmer than the setpoint
// both open and shut: not where opening the windows would do, and not where it
// has cool to give. Eq. 17.
func TestNeedIsOpenAndShut(t *testing.T) {
	for _, c := range []struct {
		sensible, leak float64
		need           bool
	}{{100, 50, true}, {100, -50, true}, {100, -150, false}, {-100, 150, false}, {-100, -50, false}, {0, 50, false}} {
		assert.Equal(t, c.need, house.Load{Sensible: c.sensible, Leak: c.leak}.Need(), "%+v", c)
	}
}
