package reading

import (
	"errors"
	"math"

	"github.com/evapbook/evapbook/internal/cooler"
	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/psychro"
)

// Measure is the quantity in which the outdoor humidity was read.
type Measure int

// The three measures.
const (
	RelHum   Measure = iota // 0..1
	WetBulb                 // °C
	DewPoint                // °C
)

// Humidity is the outdoor humidity as read.
type Humidity struct {
	Measure Measure
	Value   float64
}

// Visit is what was read at the unit.
type Visit struct {
	Altitude   float64 // m
	Outdoor    float64 // °C dry bulb in the shade where the air goes in
	Humidity   Humidity
	Supply     float64 // °C
	AtDiffuser bool    // supply read at a diffuser, past the ducts, not at the pads
}

// Cooler is the cooler as stated for the visit.
type Cooler struct {
	Kind          job.CoolerKind
	Pads          Pads
	Age           float64 // years the pads have been in; NaN unknown
	Effectiveness float64 // of the direct stage in good order, 0..1; 0: that of the pads, or the allowance
	Indirect      float64 // wet-bulb effectiveness of the indirect stage, 0..1
	Condition     float64 // share of it the pads still reach, 0..1
	Airflow       float64 // m³/s; fan heat counts only where both are known, else 0
	FanPower      float64 // W in air of cooler.RatedDensity
}

// Default is a direct cooler with pads in service of which nothing else is known.
func Default() Cooler {
	return Cooler{Kind: job.Direct, Age: math.NaN(), Indirect: indirectAllowance, Condition: inService}
}

// The effectiveness to expect of a cooler of which nothing is stated: service-
// trade allowance for any cooler in good order, an indirect stage between
// laboratories and the field, and the share that pads in service reach; the
// reasons are those of cooler.indirect_effectiveness and cooler.pad_condition.
const (
	allowance         = 0.80
	indirectAllowance = 0.50
	inService         = 0.92
)

// Expects is the effectiveness of the direct stage in good order, and why.
func (c *Cooler) Expects() (e float64, why string) {
	switch p := c.Pads.entry(); {
	case c.Effectiveness > 0:
		return c.Effectiveness, "as stated"
	case p != nil:
		return p.Typical, "usual for " + p.Name + " pads (" + p.Source + ")"
	default:
		return allowance, "service-trade allowance for any cooler in good order"
	}
}

// unit is the cooler model with what is known of this one.
func (c *Cooler) unit() cooler.Unit {
	e, _ := c.Expects()
	u := cooler.Unit{Kind: c.Kind, Effectiveness: e * c.Condition, Indirect: c.Indirect, Airflow: 1}
	if c.Airflow > 0 && c.FanPower > 0 {
		u.Airflow, u.FanPower = c.Airflow, c.FanPower
	}
	return u
}

// point is one evaluation of a visit, at the values read or near them.
type point struct {
	air           psychro.Air
	wetBulb       float64
	effectiveness float64 // NaN where outdoor air is saturated
	supply        cooler.Supply
	gap           float64
}

// evaluate carries a visit through moist air and the cooler.
func evaluate(v *Visit, c *Cooler, pressure float64) (point, error) {
	air, err := v.outdoor(pressure)
	if err != nil {
		return point{}, err
	}
	tw, err := air.WetBulb()
	if err != nil {
		return point{}, err
	}
	s, err := c.unit().Water(air, tw)
	if err != nil {
		return point{}, err
	}
	p := point{air: air, wetBulb: tw, supply: s, gap: v.Supply - s.T, effectiveness: math.NaN()}
	if drop := air.T - tw; drop > 0 {
		p.effectiveness = (air.T - v.Supply) / drop
	}
	return p, nil
}

func (v *Visit) outdoor(pressure float64) (psychro.Air, error) {
	switch v.Humidity.Measure {
	case WetBulb:
		return psychro.FromWetBulb(v.Outdoor, v.Humidity.Value, pressure)
	case DewPoint:
		return psychro.FromDewPoint(v.Outdoor, v.Humidity.Value, pressure)
	default:
		return psychro.FromRelHum(v.Outdoor, v.Humidity.Value, pressure)
	}
}

// near evaluates a visit with one reading moved by its error. Moved past
// saturation or past dry air it stays at that end: the air cannot be beyond it.
func near(v Visit, c *Cooler, pressure float64) (point, error) {
	h := &v.Humidity
	if h.Measure == RelHum {
		h.Value = min(1, max(0, h.Value))
	} else {
		h.Value = min(h.Value, v.Outdoor)
	}
	p, err := evaluate(&v, c, pressure)
	if errors.Is(err, psychro.ErrTooDry) {
		v.Humidity = Humidity{RelHum, 0}
		p, err = evaluate(&v, c, pressure)
	}
	return p, err
}
