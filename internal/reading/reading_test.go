package reading

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/internal/hint"
	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/units"
)

func celsius(f float64) float64    { return (f - 32) / 1.8 }
func fahrenheit(c float64) float64 { return c*1.8 + 32 }

// feet is an altitude in m.
func feet(ft float64) float64 { return ft * 0.3048 }

func judge(t *testing.T, v Visit, c Cooler) *Result {
	t.Helper()
	r, err := Judge(v, c)
	require.NoError(t, err)
	return r
}

// Published cooler outputs, each a dry bulb, a relative humidity and the supply
// that a source gives for it. The altitude is that of the source, sea
// level where it says none.
func TestPublishedFieldExamples(t *testing.T) {
	for _, c := range []struct {
		source           string
		altitude         float64 // m
		outdoor, rh      float64 // °F, %
		supply           float64 // °F as published
		wetBulb          float64 // °F; 0: not re-computed
		low, high        float64 // effectiveness
		expected, within float64 // expected supply °F at e, tolerance °F
		stated           float64 // effectiveness to state
	}{
		{"syndicated science column on coolers and humidity: 90 °F 50 % -> 79 °F", 0, 90, 50, 79, 74.91, 0.724, 0.734, 79, 0.5, 0.725},
		{"same column: 90 °F 10 % -> 67 °F", 0, 90, 10, 67, 57.99, 0.714, 0.724, 67, 0.5, 0.725},
		{"Tucson service firm: 96 °F 25 % -> about 75 °F, supply = WB + 0.2 (DB - WB)", 787, 96, 25, 75, 0, 0.70, 0.90, 75, 1.3, 0.80},
		{"Tucson service firm: 105 °F 40 % -> at best 88 °F", 787, 105, 40, 88, 0, 0.70, 0.90, 88, 1.3, 0.80},
		{"pig and poultry page, North Carolina State data: 90 °F 20 % can reach 67 °F", 0, 90, 20, 67, 62.80, 0.841, 0.851, 67, 0.5, 0.85},
	} {
		t.Run(c.source, func(t *testing.T) {
			s := Default()
			s.Effectiveness, s.Condition = c.stated, 1
			r := judge(t, Visit{Altitude: c.altitude, Outdoor: celsius(c.outdoor), Humidity: Humidity{RelHum, c.rh / 100}, Supply: celsius(c.supply)}, s)
			if c.wetBulb != 0 {
				require.InDelta(t, c.wetBulb, fahrenheit(r.WetBulb), 0.01, "wet bulb as re-computed in engineering.md §11")
			}
			require.GreaterOrEqual(t, r.Effectiveness.Value, c.low)
			require.LessOrEqual(t, r.Effectiveness.Value, c.high)
			require.InDelta(t, c.expected, fahrenheit(r.Expected), c.within)
			require.Contains(t, []Verdict{Good, Watch}, r.Verdict)
		})
	}
}

// Kulkarni and Rajput, IJAET 2013: 39.9 °C, 32.8 % and effectiveness 0.89, 0.90,
// 0.91. Wet bulb and supply re-computed in engineering.md §11, to the digits
// given there.
func TestPublishedPadShapes(t *testing.T) {
	for e, supply := range map[float64]float64{0.89: 27.37, 0.90: 27.22, 0.91: 27.08} {
		s := Default()
		s.Effectiveness, s.Condition = e, 1
		r := judge(t, Visit{Outdoor: 39.9, Humidity: Humidity{RelHum, 0.328}, Supply: supply}, s)
		require.InDelta(t, 25.82, r.WetBulb, 0.005)
		require.InDelta(t, supply, r.Expected, 0.005+0.005)
		require.InDelta(t, e, r.Effectiveness.Value, 0.001)
		require.Equal(t, Good, r.Verdict)
	}
}

// The same page as the 90 °F 20 % example says 90 °F 60 % reaches 86 °F:
// effectiveness 0.34, which engineering.md §11 rejects. So does the verdict.
func TestPublishedExampleThatIsRejected(t *testing.T) {
	r := judge(t, Visit{Outdoor: celsius(90), Humidity: Humidity{RelHum, 0.60}, Supply: celsius(86)}, Default())
	require.InDelta(t, 0.34, r.Effectiveness.Value, 0.01)
	require.NotEqual(t, Good, r.Verdict)
	require.NotEqual(t, Watch, r.Verdict)
}

// Service-trade cooler index note, Yuma: supply 3 °F or more above the expected
// index means fault. (Re-computed 3 °F from what this package expects.)
func TestThreeDegreesFahrenheitIsFault(t *testing.T) {
	v := Visit{Altitude: feet(140), Outdoor: celsius(105), Humidity: Humidity{RelHum, 0.15}}
	v.Supply = judge(t, v, Default()).Expected
	for gap, want := range map[float64]Verdict{0: Good, 1.4: Good, 1.6: Watch, 2.9: Watch, 3.1: Fault, -2.9: Good, -3.1: Better} {
		w := v
		w.Supply += gap / 1.8
		r := judge(t, w, Default())
		require.Equal(t, want, r.Verdict, "gap %v °F", gap)
		require.InDelta(t, gap, r.Gap.Value*1.8, 1e-9)
	}
}

// Whole direct coolers, Saudi test: 0.85 to 0.93; indirect and direct 0.95 to
// 1.10. A two-stage cooler may blow colder than the outdoor wet bulb.
func TestTwoStageMayGoBelowTheWetBulb(t *testing.T) {
	s := Default()
	s.Kind, s.Effectiveness, s.Indirect, s.Condition = job.TwoStage, 0.85, 0.60, 1
	v := Visit{Altitude: 1650, Outdoor: 34.9, Humidity: Humidity{WetBulb, 15.5}, Supply: 13.25}
	r := judge(t, v, s)
	require.InDelta(t, 13.25, r.Expected, 0.005, "engineering.md §2, dry station at 1650 m")
	require.InDelta(t, 1.116, r.Effectiveness.Value, 0.001)
	require.Equal(t, Good, r.Verdict)
	s.Kind = job.Direct
	require.Equal(t, Impossible, judge(t, v, s).Verdict)
}

// Ten odd readings, each with a sensible answer.
func TestOddReadings(t *testing.T) {
	rh := func(v float64) Humidity { return Humidity{RelHum, v} }
	denver := feet(5280)
	for _, c := range []struct {
		name    string
		visit   Visit
		verdict Verdict // empty: refused
		say     string
	}{
		{"supply below the wet bulb", Visit{denver, celsius(91), rh(0.14), celsius(50), false}, Impossible, "below the outdoor wet bulb"},
		{"supply a little below the wet bulb", Visit{denver, celsius(91), rh(0.14), celsius(58.0), false}, Better, "within the error"},
		{"supply above outdoor", Visit{denver, celsius(91), rh(0.14), celsius(99), false}, Impossible, "above outdoor air"},
		{"outdoor and supply exchanged", Visit{denver, celsius(66), rh(0.14), celsius(91), false}, Impossible, "are outdoor and supply exchanged"},
		{"supply a little above outdoor: dry pads", Visit{denver, celsius(91), rh(0.14), celsius(92), false}, NotCooling, ""},
		{"relative humidity 0", Visit{denver, celsius(91), rh(0), celsius(62), false}, CannotTell, "failed sensor"},
		{"relative humidity 0.14 % for 14 %", Visit{denver, celsius(91), rh(0.0014), celsius(66), false}, CannotTell, "was the relative humidity 14 %"},
		{"relative humidity 14 for 14 %", Visit{denver, celsius(91), rh(14), celsius(66), false}, "", "was 14% meant"},
		{"outdoor in °C that is °F", Visit{denver, 91, rh(0.14), celsius(66), false}, "", "was 91 °f meant"},
		{"supply in °F that is °C", Visit{denver, celsius(91), rh(0.14), celsius(19), false}, Impossible, "was the supply 19 °c, not °f"},
		{"altitude in m that is ft", Visit{6035, celsius(91), rh(0.14), celsius(66), false}, "", "was 6035 ft meant"},
		{"saturated air", Visit{0, 25, rh(1), 25, false}, CannotTell, "too humid"},
		{"damp air", Visit{0, celsius(80), rh(0.85), celsius(77), false}, CannotTell, "too humid"},
		{"wet bulb above the dry bulb", Visit{denver, celsius(91), Humidity{WetBulb, celsius(95)}, celsius(66), false}, "", "exchanged"},
		{"dew point given as the wet bulb", Visit{denver, celsius(91), Humidity{WetBulb, celsius(36)}, celsius(66), false}, Impossible, "was a dew point given"},
		{"freezing", Visit{denver, -5, rh(0.05), -8, false}, CannotTell, "freezes"},
		{"not a number", Visit{denver, math.NaN(), rh(0.14), celsius(66), false}, "", "outside"},
	} {
		t.Run(c.name, func(t *testing.T) {
			r, err := Judge(c.visit, Default())
			if c.verdict == "" {
				require.Error(t, err)
				require.Contains(t, strings.ToLower(hint.Text(err)), c.say)
				return
			}
			require.NoError(t, err)
			require.Equal(t, c.verdict, r.Verdict, "%v", r.Notes)
			require.Contains(t, strings.ToLower(text(r.Notes, units.SI)), c.say)
			require.NotEmpty(t, r.Verdict.Meaning())
		})
	}
}

func text(notes []Note, sys units.System) string {
	var all []string
	for _, n := range notes {
		all = append(all, n.In(sys))
	}
	return strings.Join(all, "\n")
}

// Differences in notes are in the units asked for.
func TestNotesSpeakBothSystems(t *testing.T) {
	r := judge(t, Visit{Altitude: 0, Outdoor: 30, Humidity: Humidity{WetBulb, 27}, Supply: 28}, Default())
	require.Contains(t, text(r.Notes, units.SI), "only 3.0 K apart; come back when it is 5.0 K or more")
	require.Contains(t, text(r.Notes, units.IP), "only 5.4 °F apart; come back when it is 9.0 °F or more")
}

// The bounds hold the value, close as the instruments get better, and grow as
// the depression shrinks.
func TestBounds(t *testing.T) {
	last := 0.0
	for _, rh := range []float64{0.10, 0.20, 0.30, 0.40, 0.50, 0.60} {
		v := Visit{Outdoor: 35, Humidity: Humidity{RelHum, rh}}
		v.Supply = judge(t, v, Default()).Expected
		r := judge(t, v, Default())
		e := r.Effectiveness
		require.Less(t, e.Low, e.Value)
		require.Less(t, e.Value, e.High)
		require.Less(t, r.Gap.Low, r.Gap.Value)
		require.Less(t, r.Gap.Value, r.Gap.High)
		require.Greater(t, e.half(), last, "rh %v", rh)
		last = e.half()
	}
}

// The squares add up as the partial derivatives say. Wet bulb given, no fan:
// e = (t - s)/(t - w), so de/ds = -1/D, de/dt = (1-e)/D, de/dw = e/D.
func TestBoundsAgainstDerivatives(t *testing.T) {
	v := Visit{Outdoor: 35, Humidity: Humidity{WetBulb, 18}, Supply: 21.4}
	r := judge(t, v, Default())
	require.InDelta(t, 0.80, r.Effectiveness.Value, 1e-12)
	d := 17.0
	want := TemperatureError / d * math.Sqrt(1+0.2*0.2+0.8*0.8)
	require.InDelta(t, want, r.Effectiveness.High-0.80, 0.001, "second-order terms are about (0.5/17)²")
	require.InDelta(t, want, 0.80-r.Effectiveness.Low, 0.001)
}

// Fan heat: 500 W in 1.83 kg/s warm the air by 0.27 K (engineering.md §1).
func TestFanHeat(t *testing.T) {
	s := Default()
	s.Airflow, s.FanPower = 1.53, 500
	v := Visit{Outdoor: 35, Humidity: Humidity{RelHum, 0.2}, Supply: 22}
	with, without := judge(t, v, s), judge(t, v, Default())
	require.InDelta(t, 0.27, with.FanHeat, 0.01)
	require.InDelta(t, without.Expected+with.FanHeat, with.Expected, 1e-9)
	s.FanPower = 0
	require.Zero(t, judge(t, v, s).FanHeat, "airflow alone gives no heat")
}

func TestOldPadsComeFirst(t *testing.T) {
	v := Visit{Altitude: 1600, Outdoor: 35, Humidity: Humidity{RelHum, 0.15}, Supply: 24}
	s := Default()
	s.Pads, s.Age = Aspen, 3
	r := judge(t, v, s)
	require.Equal(t, Fault, r.Verdict)
	require.Equal(t, scaled, r.Causes[0])
	require.False(t, r.InBand)
	s.Age = 0
	require.Equal(t, dryStreaks, judge(t, v, s).Causes[0])
}

// Every acceptance band lies within or at the edge of the range it belongs to,
// and says where it comes from.
func TestBandsAreMarked(t *testing.T) {
	for _, b := range Bands {
		require.Less(t, b.Low, b.High, b.Name)
		require.LessOrEqual(t, b.Accept, b.Typical, b.Name)
		require.NotEmpty(t, b.Source, b.Name)
		require.Contains(t, []string{"published", practice}, b.Mark())
	}
}

// A technician at Colorado Springs' altitude, spring start-up.
func ExampleJudge() {
	v := Visit{Altitude: feet(6035), Outdoor: celsius(91), Humidity: Humidity{RelHum, 0.14}, Supply: celsius(66)}
	r, err := Judge(v, Default())
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("wet bulb %.1f °F, effectiveness %.2f (%.2f to %.2f), expect %.1f °F: %s\n",
		fahrenheit(r.WetBulb), r.Effectiveness.Value, r.Effectiveness.Low, r.Effectiveness.High, fahrenheit(r.Expected), r.Verdict)
	// Output: wet bulb 58.1 °F, effectiveness 0.76 (0.71 to 0.81), expect 66.8 °F: good
}
