package reading

import (
	"errors"
	"fmt"
	"math"

	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/psychro"
)

// Verdict says in plain words what a reading means.
type Verdict string

// The verdicts.
const (
	Good       Verdict = "good"               // as warm as it should be, within 1.5 °F (0.8 K)
	Watch      Verdict = "watch"              // a little warm: between 1.5 and 3 °F (0.8 and 1.7 K)
	Fault      Verdict = "fault"              // 3 °F (1.7 K) or more above what to expect
	NotCooling Verdict = "not cooling"        // hardly any cooling at all
	Better     Verdict = "better than stated" // 3 °F (1.7 K) or more below what to expect
	CannotTell Verdict = "cannot tell"        // the weather or the instruments do not allow a verdict
	Impossible Verdict = "impossible"         // no air can be like that
)

// Verdicts lists them all.
var Verdicts = []Verdict{Good, Watch, Fault, NotCooling, Better, CannotTell, Impossible}

// Meaning says a verdict in a sentence.
func (v Verdict) Meaning() string { return meanings[v] }

var meanings = map[Verdict]string{
	Good:       "the air is what it should be here and now",
	Watch:      "a little warmer than it should be; look at the pads and read again",
	Fault:      "clearly warmer than it should be: something is wrong",
	NotCooling: "the air is hardly cooled: the pads look dry",
	Better:     "cooler than the stated cooler can make it; doubt the statement or a sensor",
	CannotTell: "this reading says nothing about the cooler",
	Impossible: "no cooler can do that: a reading is wrong or two are exchanged",
}

// Estimate is a value with its bounds from the errors of the instruments; NaN
// where there is none.
type Estimate struct{ Value, Low, High float64 }

// half is the wider of the two sides.
func (e Estimate) half() float64 { return max(e.High-e.Value, e.Value-e.Low) }

// Result is what a visit comes to.
type Result struct {
	Visit  Visit
	Cooler Cooler

	Pressure      float64 // Pa, standard atmosphere at the altitude
	WetBulb       float64 // °C outdoors
	RelHum        float64 // 0..1 outdoors
	DewPoint      float64 // °C outdoors; NaN in dry air
	Depression    float64 // K, outdoor dry bulb above wet bulb
	Effectiveness Estimate
	Expected      float64  // °C supply to expect
	FanHeat       float64  // K in it
	Gap           Estimate // K, supply above what to expect
	Verdict       Verdict
	Notes         []Note  // why the reading cannot be trusted, or what to know about it
	Causes        []Cause // in order of likelihood
	Band          *Band   // of the stated pads
	InBand        bool    // effectiveness at least what to accept
}

// Judge works a visit out. Errors are those of a visit that is no air at all:
// altitude or temperatures out of range, humidity above saturation. Anything
// else, however odd, has a verdict.
func Judge(v Visit, c Cooler) (*Result, error) {
	if err := v.check(); err != nil {
		return nil, err
	}
	pressure, err := psychro.StandardPressure(v.Altitude)
	if err != nil {
		return nil, fmt.Errorf("altitude: %w", err)
	}
	r := &Result{Visit: v, Cooler: c, Pressure: pressure, Band: c.Pads.entry()}
	p, err := evaluate(&v, &c, pressure)
	if errors.Is(err, psychro.ErrTooDry) {
		r.tooDry()
		return r, nil
	}
	if err != nil {
		return nil, flawed(&v, err)
	}
	r.take(&p)
	if err := r.bound(&p); err != nil {
		return nil, err
	}
	r.judge()
	return r, nil
}

// take copies what the readings themselves give.
func (r *Result) take(p *point) {
	r.WetBulb, r.RelHum = p.wetBulb, p.air.RelHum()
	r.Depression = p.air.T - p.wetBulb
	r.Expected, r.FanHeat = p.supply.T, p.supply.T-p.supply.Leaving.T
	r.DewPoint = math.NaN()
	if tdp, err := p.air.DewPoint(); err == nil { // dry air has none
		r.DewPoint = tdp
	}
	r.InBand = r.Band != nil && p.effectiveness >= r.Band.Accept
}

// bound finds the bounds of effectiveness and gap: each reading is moved by its
// error either way, and the changes are added as squares. Source: JCGM 100:2008
// (GUM) eq. 10, with finite differences on either side because the wet bulb
// bends near dry and saturated air. The errors are taken as independent; one
// thermometer for both temperatures does better.
func (r *Result) bound(p *point) error {
	gap, eff := spread{at: p.gap}, spread{at: p.effectiveness}
	unbounded := false
	for _, moved := range moves(r.Visit) {
		q, err := near(moved, &r.Cooler, r.Pressure)
		if err != nil {
			return err
		}
		if !(q.air.T-q.wetBulb > TemperatureError) {
			unbounded = true // hardly any depression left to measure by
		}
		gap.add(q.gap)
		eff.add(q.effectiveness)
	}
	r.Gap, r.Effectiveness = gap.estimate(), eff.estimate()
	if unbounded {
		r.Effectiveness.Low, r.Effectiveness.High = math.NaN(), math.NaN()
	}
	return nil
}

// moves are the visit with each reading in turn moved by its error, down and up.
func moves(v Visit) []Visit {
	var all []Visit
	for _, sign := range [2]float64{-1, 1} {
		outdoor, supply, humidity := v, v, v
		outdoor.Outdoor += sign * TemperatureError
		supply.Supply += sign * TemperatureError
		d := TemperatureError
		if v.Humidity.Measure == RelHum {
			d = HumidityError
		}
		humidity.Humidity.Value += sign * d
		all = append(all, outdoor, supply, humidity)
	}
	return all
}

// spread adds up squares of what lies below and above a value.
type spread struct{ at, below, above float64 }

func (s *spread) add(v float64) {
	switch d := v - s.at; {
	case d < 0:
		s.below += d * d
	case d > 0:
		s.above += d * d
	}
}

func (s *spread) estimate() Estimate {
	return Estimate{s.at, s.at - math.Sqrt(s.below), s.at + math.Sqrt(s.above)}
}

// floor is the lowest supply the kind of cooler can give: the wet bulb, and
// with an indirect stage before the pads the dew point.
func (r *Result) floor() (float64, string) {
	if r.Cooler.Kind == job.TwoStage {
		return r.DewPoint, "dew point" // NaN in dry air: nothing lies below it
	}
	return r.WetBulb, "wet bulb"
}

// judge finds the verdict. What cannot be is told before what cannot be told,
// and both before what the gap says.
func (r *Result) judge() {
	r.doubts()
	floor, name := r.floor()
	slack := r.Gap.half()
	switch {
	case r.Visit.Supply < floor-slack:
		r.Verdict = Impossible
		r.say("the supply is %s below the outdoor %s, more than the instruments can err", difference(floor-r.Visit.Supply), name)
		r.suspect()
		return
	case r.Visit.Supply > r.Visit.Outdoor+MostWarming:
		r.Verdict = Impossible
		r.say("the supply is %s above outdoor air, more than a fan and a duct can add", difference(r.Visit.Supply-r.Visit.Outdoor))
		r.suspect()
		return
	case len(r.Notes) > 0:
		r.Verdict = CannotTell
		r.suspect()
		return
	}
	if r.Visit.Supply < floor {
		r.say("the supply is %s below the outdoor %s, within the error of the instruments: take the effectiveness as 1", difference(floor-r.Visit.Supply), name)
	}
	r.byGap()
	r.Causes = causes(r)
}

func (r *Result) byGap() {
	switch g := r.Gap; {
	case r.Effectiveness.Value < NoCooling:
		r.Verdict = NotCooling
	case g.Value >= FaultGap:
		r.Verdict = Fault
		if g.Low < FaultGap {
			r.say("with the instruments at their limits the gap could be as small as %s: read again before taking anything apart", difference(g.Low))
		}
	case g.Value >= WatchGap:
		r.Verdict = Watch
	case g.Value <= -FaultGap:
		r.Verdict = Better
	default:
		r.Verdict = Good
	}
}

// doubts lists why the reading cannot be trusted.
func (r *Result) doubts() {
	if r.Depression < LeastDrop {
		r.say("outdoor air is too humid for a test: dry and wet bulb are only %s apart; come back when it is %s or more", difference(r.Depression), difference(LeastDrop))
	}
	if r.Visit.Humidity.Measure == RelHum && r.Visit.Humidity.Value < LeastHumidity {
		r.say("a relative humidity of %.0f %% is what a failed sensor shows; the weather hardly ever does", 100*r.Visit.Humidity.Value)
	}
	if !(r.Effectiveness.half() <= WidestError) { // also NaN
		r.say("the error of the sensors is larger than the effect to be seen: the effectiveness is known to no better than %s", width(r.Effectiveness))
	}
	if r.Visit.Outdoor <= 0 {
		r.say("it freezes: the water should be off and drained")
	}
}

func width(e Estimate) string {
	if h := e.half(); !math.IsNaN(h) {
		return fmt.Sprintf("±%.2f", h)
	}
	return "all or nothing"
}

func (r *Result) say(format string, a ...any) {
	r.Notes = append(r.Notes, Note{format, a})
}

// tooDry is the verdict on a wet bulb below that of perfectly dry air.
func (r *Result) tooDry() {
	nan := math.NaN()
	r.WetBulb, r.RelHum, r.DewPoint, r.Depression = r.Visit.Humidity.Value, nan, nan, r.Visit.Outdoor-r.Visit.Humidity.Value
	r.Effectiveness, r.Gap = Estimate{nan, nan, nan}, Estimate{nan, nan, nan}
	r.Expected, r.Verdict = nan, Impossible
	r.say("the wet bulb is below that of perfectly dry air")
	r.suspect()
}
