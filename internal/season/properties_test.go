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
	require.NoError(rt, j.Set("cooler.drive", rapid.SampledFrom([]string{"one-speed", "two-speed", "variable"}).Draw(rt, "drive")))
	draw("cooler.low_speed_power", 0.05, 0.9)
	draw("cooler.duct_gain", 0, 2)
	draw("site.warmer", -2, 4)
	draw("house.floor_area", 30, 400)
	draw("house.thermal_mass", 0, 400)
	draw("house.moving_air", 0, 4)
	draw("house.infiltration", 0.1, 2)
	draw("house.people", 0, 10)
	draw("house.heat_loss", 0.8, 4)
	draw("house.solar_share", 0, 0.08)
	draw("house.setpoint", 20, 30)
	draw("house.humidity_limit", 0.4, 1)
	require.NoError(rt, j.Resolve("drawn", 500, ""))
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

// TestBalances: in every hour the house takes up what the weather, the gains,
// the blown and the leaking air bring, in heat and in moisture, at the indoor
// state the hour reports; the water evaporated is what the supply has gained and
// the indirect stage has taken; and each hour begins where the last one ended.
func TestBalances(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		j := drawJob(rt)
		c := drawClimate(rt, j.Site)
		s := runDrawn(rt, c, j)
		before, refBefore := s.House.Setpoint, s.House.Setpoint
		for i := range s.Hours {
			h, in := &s.Hours[i], &c.Hours[i]
			if h.Before != before || h.RefBefore != refBefore {
				rt.Fatalf("hour %d begins at %v and %v, the last ended at %v and %v", i, h.Before, h.RefBefore, before, refBefore)
			}
			before, refBefore = h.House, h.RefHouse
			if h.Outcome.Need() {
				checkBalance(rt, s, h, in)
			} else {
				checkIdle(rt, s, h, in)
			}
			checkRefrigerated(rt, s, h, in)
		}
	})
}

// stored is what the walls take up in an hour, W.
func stored(s *Season, before, after float64) float64 {
	return 1000 * s.Job.House.ThermalMass * s.Job.House.FloorArea / 3600 * (after - before)
}

func checkBalance(rt *rapid.T, s *Season, h *Hour, in *climate.Hour) {
	stream := h.Supply.Stream
	if h.Outcome == Vent {
		stream = h.Vented
	}
	flow, rest := stream.MassFlow*h.Share, 1-h.Running.Fraction
	heat := s.House.UA*(in.Air.T-h.Indoor) + s.House.Aperture*in.GHI + s.House.Sensible + rest*s.House.Infiltration*1006*(in.Air.T-h.Indoor)
	near(rt, heat, flow*stream.SpecificHeat*(h.Indoor-stream.T)+stored(s, h.Before, h.House), 1000, "sensible balance, W")
	if h.Outcome != Warm {
		near(rt, h.Load.Sensible+rest*h.Load.Leak, flow*stream.SpecificHeat*(s.House.Setpoint-stream.T), 1000, "load, W")
	}
	if h.IndoorRH < 1 {
		e := h.IndoorRH * psychro.SaturationPressure(h.Indoor)
		w := 0.621945 * e / (in.Air.P - e)
		near(rt, s.House.Latent, cooler.EvaporationHeat*(flow*(w-stream.W)+rest*s.House.Infiltration*(w-in.Air.W)), 1000, "moisture balance, W")
	}
	water := 0.0
	if h.Outcome.Wet() {
		water = 3600 * flow * (max(0, h.Supply.Leaving.W-in.Air.W) + (1006+1860*in.Air.W)*(in.Air.T-h.Supply.T1)/cooler.EvaporationHeat)
	}
	near(rt, water, h.Evaporated, 1, "water, kg")
	held := h.IndoorRH <= s.House.HumidityLimit && h.IndoorRH <= 1
	if h.Outcome.Held() && !held || h.House != h.Indoor || h.Indoor < s.House.Setpoint || h.Outcome == Warm && h.Indoor > h.Shut {
		rt.Fatalf("%v hour: %v °C and %v indoors, %v shut, left at %v", h.Outcome, h.Indoor, h.IndoorRH, h.Shut, h.House)
	}
}

// checkIdle: a shut house keeps its heat balance unless windows or heating hold
// it at the setpoint or 20 °C, and takes nothing.
func checkIdle(rt *rapid.T, s *Season, h *Hour, in *climate.Hour) {
	low := min(20, s.House.Setpoint)
	if h.House < low || h.House > s.House.Setpoint || h.CoolerKWh != 0 || h.Evaporated != 0 || h.Share != 0 {
		rt.Fatalf("idle hour left at %v °C, %v kWh, %v kg", h.House, h.CoolerKWh, h.Evaporated)
	}
	if h.House > low && h.House < s.House.Setpoint {
		heat := (s.House.UA+s.House.Infiltration*1006)*(in.Air.T-h.House) + s.House.Aperture*in.GHI + s.House.Sensible
		near(rt, heat, stored(s, h.Before, h.House), 1000, "shut house, W")
	}
}

// checkRefrigerated: the closed house is at the setpoint after an hour with load,
// and the load is what keeps it there, moisture apart.
func checkRefrigerated(rt *rapid.T, s *Season, h *Hour, in *climate.Hour) {
	if h.ClosedLoad == 0 {
		return
	}
	heat := (s.House.UA+s.House.Infiltration*1006)*(in.Air.T-s.House.Setpoint) + s.House.Aperture*in.GHI + s.House.Sensible - stored(s, h.RefBefore, s.House.Setpoint)
	if h.RefHouse != s.House.Setpoint || heat <= 0 || h.ClosedLoad < heat+s.House.Latent-1e-6 {
		rt.Fatalf("refrigerated house left at %v °C, %v W of heat, load %v W", h.RefHouse, heat, h.ClosedLoad)
	}
}

// TestNoMassNoMemory: without heat capacity an hour is the same whatever came
// before it.
func TestNoMassNoMemory(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		j := drawJob(rt)
		require.NoError(rt, j.SetSI("house.thermal_mass", 0))
		require.NoError(rt, j.SetSI("ac.capacity", 8000))
		c := drawClimate(rt, j.Site)
		all := runDrawn(rt, c, j)
		k := rapid.IntRange(0, len(c.Hours)-1).Draw(rt, "hour")
		p := plant{cooler: all.Cooler, house: all.House, ac: all.AC, windowsOpen: j.AC.WindowsOpen}
		var alone Hour
		require.NoError(rt, p.blow(&alone, &c.Hours[k]))
		p.carry(&alone, &c.Hours[k], rapid.Float64Range(0, 50).Draw(rt, "before"))
		p.close(&alone, &c.Hours[k], rapid.Float64Range(0, 50).Draw(rt, "refrigerated before"))
		p.refrigerate(&alone)
		alone.Before, alone.RefBefore = all.Hours[k].Before, all.Hours[k].RefBefore
		if alone != all.Hours[k] {
			rt.Fatalf("hour %d alone %+v, in its place %+v", k, alone, all.Hours[k])
		}
	})
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
			tot.LongestRun <= tot.Hours.Uncovered() && 0 <= tot.Moving && tot.Moving <= tot.Hours.Uncovered() &&
			tot.Hours.WetNeed()+tot.Hours[Vent] == need && tot.DampestIndoor <= 1 && tot.RefKWh <= tot.ClosedKWh*(1+1e-12)
		if !ok {
			rt.Fatalf("hours %v of %d, load %v of %v, over %v, run %d", tot.Hours, all, tot.HeldLoad, tot.Load, tot.Over, tot.LongestRun)
		}
	})
}

// TestHarder: worse pads, warmer ducts or a lower setpoint never hold the
// temperature in more hours, and leave the house no nearer to its setpoint in any.
// (Hours held in humidity too may increase with worse pads: less water in the
// supply. That is no fault.)
func TestHarder(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		j := drawJob(rt)
		c := drawClimate(rt, j.Site)
		easy := runDrawn(rt, c, j)
		harder := j.Clone()
		switch rapid.SampledFrom([]string{"pads", "ducts", "setpoint"}).Draw(rt, "harder by") {
		case "pads":
			harder.Cooler.Effectiveness *= rapid.Float64Range(0.3, 1).Draw(rt, "worn")
			harder.Cooler.IndirectEffectiveness *= rapid.Float64Range(0.3, 1).Draw(rt, "indirect worn")
		case "ducts":
			harder.Cooler.DuctGain += rapid.Float64Range(0, 3).Draw(rt, "gain")
		case "setpoint":
			harder.House.Setpoint -= rapid.Float64Range(0, 4).Draw(rt, "down")
		}
		hard := runDrawn(rt, c, harder)
		if hard.Totals.Hours[Warm] < easy.Totals.Hours[Warm] || hard.Totals.Over < easy.Totals.Over-1e-9 {
			rt.Fatalf("warm hours %v, harder %v", easy.Totals.Hours, hard.Totals.Hours)
		}
		for i := range easy.Hours {
			a, b := easy.Hours[i].House-easy.House.Setpoint, hard.Hours[i].House-hard.House.Setpoint
			if b < a-1e-9 {
				rt.Fatalf("hour %d: %v K from the setpoint, harder %v K", i, a, b)
			}
		}
	})
}

// The same over the sample year, as shares: each step down holds the temperature
// in a smaller share of the hours.
func TestTemperatureCoverageFalls(t *testing.T) {
	year := sampleYear(t)
	for key, steps := range map[string][]string{
		"house.setpoint":       {"27 C", "26 C", "25 C", "24 C"},
		"cooler.effectiveness": {"0.9", "0.8", "0.7", "0.6"},
		"cooler.duct_gain":     {"0 K", "0.5 K", "1 K", "2 K"},
		"site.warmer":          {"-1 K", "0 K", "1 K", "2 K", "3 K"},
	} {
		last := 1.0
		for _, step := range steps {
			h := runJob(t, year, key, step).Totals.Hours
			share := float64(h.Held()+h[Damp]) / float64(h.Need())
			if !(share < last) {
				t.Errorf("%s %s: %v, the step before %v", key, step, share, last)
			}
			last = share
		}
	}
}

// The lower end of a range is the season of the same house kept MovingAir
// warmer, and is not above the upper end.
func TestLow(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		j := drawJob(rt)
		c := drawClimate(rt, j.Site)
		s := runDrawn(rt, c, j)
		low := s.Low()
		raised := j.Clone()
		raised.House.Setpoint += j.House.MovingAir
		want := runDrawn(rt, c, raised)
		near(rt, want.Totals.CoolerKWh, low.CoolerKWh, 1, "cooler, kWh")
		near(rt, want.WaterTotal(want.Totals.Water), s.WaterTotal(low.Water), 1, "water, L")
	})
}

// What is found briefly is what the hours add up to.
func TestBrief(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		j := drawJob(rt)
		c := drawClimate(rt, j.Site)
		want := &runDrawn(rt, c, j).Totals
		got, err := RunBriefly(c, j)
		if err != nil {
			rt.Fatal(err)
		}
		if got.Hours != want.Hours || got.Water.DaysOfUse != want.Water.DaysOfUse {
			rt.Fatalf("hours %v, briefly %v; days of use %d, briefly %d", want.Hours, got.Hours, want.Water.DaysOfUse, got.Water.DaysOfUse)
		}
		near(rt, want.CoolerKWh, got.CoolerKWh, 1, "cooler, kWh")
		near(rt, want.Water.Evaporated, got.Water.Evaporated, 1, "evaporated, L")
		near(rt, want.Water.PumpHours, got.Water.PumpHours, 1, "pump, h")
	})
}

// TestWaterRisesWithLoad: more sun through the windows takes more water in
// every hour that needs water either way. (A mild hour may turn from evap or
// damp to vent, for more air then dilutes the moisture of the people. And a
// cooler that blows less than the leaks let in may be left off: the hotter the
// house, the more the leaks do for it.)
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
			leftOff := b.Outcome == Warm && b.Share == 0 && b.Supply.MassFlow*b.Supply.SpecificHeat < 1006*more.House.Infiltration
			fewer := a.Outcome.Wet() && b.Outcome.Wet() && b.Evaporated < a.Evaporated*(1-1e-12)
			if b.Load.Sensible < a.Load.Sensible || fewer && !leftOff {
				rt.Fatalf("hour %d: %v kg at %v W, %v kg at %v W", i, a.Evaporated, a.Load.Sensible, b.Evaporated, b.Load.Sensible)
			}
		}
	})
}
