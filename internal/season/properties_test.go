package season

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/evapbook/evapbook/internal/climate"
	"github.com/evapbook/evapbook/internal/cooler"
	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/psychro"
	"github.com/evapbook/evapbook/internal/weather"
)

// drawJob and drawClimate make any house, cooler and two days of any weather.
func drawJob(rt *rapid.T) *job.Job {
	j := job.New()
	draw := func(key string, low, high float64) {
		require.NoError(rt, j.SetSI(key, rapid.Float64Range(low, high).Draw(rt, key)))
	}
	require.NoError(rt, j.Set("cooler.kind", rapid.SampledFrom([]string{"direct", "indirect", "two-stage"}).Draw(rt, "kind")))
	require.NoError(rt, j.Set("cooler.water_care", rapid.SampledFrom([]string{"bleed", "purge", "none"}).Draw(rt, "care")))
	draw("site.altitude", -100, 3500)
	draw("cooler.effectiveness", 0.4, 1)
	draw("cooler.indirect_effectiveness", 0.3, 0.8)
	draw("cooler.pad_condition", 0.5, 1)
	draw("cooler.airflow", 0.3, 4)
	draw("cooler.lowest_speed", 0.3, 1)
	draw("house.floor_area", 30, 400)
	draw("house.people", 0, 10)
	draw("house.heat_loss", 0.8, 4)
	draw("house.solar_share", 0, 0.08)
	draw("house.setpoint", 20, 30)
	draw("house.humidity_limit", 0.4, 1)
	require.NoError(rt, j.Resolve("drawn", 500))
	return j
}

func drawClimate(rt *rapid.T, site job.Site) *climate.Climate {
	s := &weather.Series{Station: weather.Station{Name: "drawn", Latitude: 40, Longitude: -105, UTCOffset: -7, Elevation: 500}, Humidity: weather.RelHum}
	for i := range 48 {
		t, driest := rapid.Float64Range(0, 50).Draw(rt, "t"), 0.02
		if t < 25 {
			driest = 0.2 // drier than any cold hour; a mean of dry hours would lie below dry air
		}
		s.Hours = append(s.Hours, weather.Hour{
			Time:     time.Date(2023, 7, 1, i, 0, 0, 0, time.UTC),
			DryBulb:  t,
			Humidity: rapid.Float64Range(driest, 1).Draw(rt, "rh"),
			Pressure: rapid.Float64Range(90000, 98000).Draw(rt, "p"),
			GHI:      rapid.Float64Range(0, 1100).Draw(rt, "ghi"),
		})
	}
	c, err := climate.AtSite(s, site)
	require.NoError(rt, err)
	return c
}

func runDrawn(rt *rapid.T, c *climate.Climate, j *job.Job) *Season {
	s, err := Run(c, j)
	require.NoError(rt, err)
	return s
}

func near(rt *rapid.T, want, got, scale float64, what string) {
	if !(math.Abs(want-got) <= 1e-9*max(math.Abs(want), scale)) {
		rt.Fatalf("%s: %v, want %v", what, got, want)
	}
}

// TestBalances: in every hour that needs cooling the air carries away the heat
// and the moisture, at the indoor state the hour reports, and the water
// evaporated is what the supply has gained and the indirect stage has taken.
func TestBalances(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		j := drawJob(rt)
		c := drawClimate(rt, j.Site)
		s := runDrawn(rt, c, j)
		for i := range s.Hours {
			h, in := &s.Hours[i], &c.Hours[i]
			if h.Outcome.Need() {
				checkBalance(rt, s, h, in)
			}
		}
	})
}

func checkBalance(rt *rapid.T, s *Season, h *Hour, in *climate.Hour) {
	stream := h.Supply.Stream
	if h.Outcome == Vent {
		stream = h.Vented
	}
	flow := stream.MassFlow * h.Share
	heat := s.House.UA*(in.Air.T-h.Indoor) + s.House.Aperture*in.GHI + s.House.Sensible
	near(rt, heat, flow*stream.SpecificHeat*(h.Indoor-stream.T), 1000, "sensible balance, W")
	if h.Outcome != Warm {
		near(rt, h.Load, flow*stream.SpecificHeat*(s.House.Setpoint-stream.T), 1000, "load, W")
	}
	e := h.IndoorRH * psychro.SaturationPressure(h.Indoor)
	w := 0.621945 * e / (in.Air.P - e)
	near(rt, s.House.Latent, flow*cooler.EvaporationHeat*(w-stream.W), 1000, "moisture balance, W")
	water := 0.0
	if h.Outcome.Wet() {
		water = 3600 * flow * (max(0, h.Supply.Leaving.W-in.Air.W) + (1006+1860*in.Air.W)*(in.Air.T-h.Supply.T1)/cooler.EvaporationHeat)
	}
	near(rt, water, h.Evaporated, 1, "water, kg")
}

// TestCoverage: the four coverages stay in their bounds, and the hours add up.
func TestCoverage(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		j := drawJob(rt)
		s := runDrawn(rt, drawClimate(rt, j.Site), j)
		tot := &s.Totals
		all := 0
		for _, n := range tot.Hours {
			all += n
		}
		held, need := tot.Hours.Held(), tot.Hours.Need()
		ok := all == len(s.Hours) && 0 <= held && held <= held+tot.Hours[Damp] && held+tot.Hours[Damp] <= need &&
			0 <= tot.HeldLoad && tot.HeldLoad <= tot.Load*(1+1e-12) && tot.Over >= 0 && (tot.Over > 0) == (tot.Hours[Warm] > 0) &&
			tot.LongestRun <= tot.Hours.Uncovered() && tot.RefKWh <= tot.ClosedKWh*(1+1e-12)
		if !ok {
			rt.Fatalf("hours %v of %d, load %v of %v, over %v, run %d", tot.Hours, all, tot.HeldLoad, tot.Load, tot.Over, tot.LongestRun)
		}
	})
}

// TestEffectiveness: worse pads never hold the temperature in more hours, and
// no hour becomes cooler. (Hours held in humidity too may increase: less water
// in the supply. That is no fault.)
func TestEffectiveness(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		j := drawJob(rt)
		c := drawClimate(rt, j.Site)
		good := runDrawn(rt, c, j)
		worse := j.Clone()
		worse.Cooler.Effectiveness *= rapid.Float64Range(0.3, 1).Draw(rt, "worn")
		worse.Cooler.IndirectEffectiveness *= rapid.Float64Range(0.3, 1).Draw(rt, "indirect worn")
		bad := runDrawn(rt, c, worse)
		if bad.Totals.Hours[Warm] < good.Totals.Hours[Warm] || bad.Totals.Over < good.Totals.Over-1e-9 {
			rt.Fatalf("warm hours %v, with worse pads %v", good.Totals.Hours, bad.Totals.Hours)
		}
		for i := range good.Hours {
			if a, b := &good.Hours[i], &bad.Hours[i]; b.Supply.T < a.Supply.T-1e-6 || b.Over < a.Over-1e-9 {
				rt.Fatalf("hour %d: supply %v, with worse pads %v", i, a.Supply.T, b.Supply.T)
			}
		}
	})
}

// TestWaterRisesWithLoad: more sun through the windows takes more water in
// every hour that needs water either way. (A mild hour may turn from evap or
// damp to vent, for more air then dilutes the moisture of the people.)
func TestWaterRisesWithLoad(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		j := drawJob(rt)
		c := drawClimate(rt, j.Site)
		less := runDrawn(rt, c, j)
		sunny := j.Clone()
		sunny.House.SolarShare += rapid.Float64Range(0, 0.05).Draw(rt, "more sun")
		more := runDrawn(rt, c, sunny)
		for i := range less.Hours {
			a, b := &less.Hours[i], &more.Hours[i]
			if b.Load < a.Load || a.Outcome.Wet() && b.Outcome.Wet() && b.Evaporated < a.Evaporated*(1-1e-12) {
				rt.Fatalf("hour %d: %v kg at %v W, %v kg at %v W", i, a.Evaporated, a.Load, b.Evaporated, b.Load)
			}
		}
	})
}
