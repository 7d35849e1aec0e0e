// Package money compares three ways of cooling a house by what they cost to
// buy, feed and keep: the cooler alone, refrigeration alone, and both.
//
// Rates are real (without inflation). Energy and water prices grow with the
// escalation rate, care does not. Source of the present-value method: NIST
// Handbook 135, Life-Cycle Costing Manual, 2020 edition.
package money

import (
	"math"

	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/season"
)

// MaxYears is the longest equipment life and so the longest study period.
const MaxYears = 30

// Way is one way of cooling the house.
type Way int

// The three ways.
const (
	Cooler Way = iota
	Refrigerated
	Both
	Ways // their number
)

// String names the way.
func (w Way) String() string { return [...]string{"cooler", "refrigerated", "both"}[w] }

// Yearly is what one way takes and costs in a year at today's prices.
type Yearly struct {
	KWh        float64
	Water      float64 // L on site, evaporated and drained
	PlantWater float64 // L at the power plant; eq. 24
	CO2        float64 // kg
	Energy     float64 // cost
	WaterCost  float64
	Care       float64
}

// Total is the yearly cost.
func (y Yearly) Total() float64 { return y.Energy + y.WaterCost + y.Care }

// Machine is a piece of equipment bought and bought again at the end of its life.
type Machine struct {
	Installed float64
	Life      int // years
}

// Due says whether the machine is bought in a year (0 is today) of a study of so
// many years: nothing is bought at its very end.
func (m Machine) Due(year, study int) bool { return year%m.Life == 0 && year != study }

// Left is the price still unspent at the end of a study, straight line over the
// life: nothing where the machine is then worn out.
func (m Machine) Left(study int) float64 {
	left := (m.Life - study%m.Life) % m.Life
	return m.Installed * float64(left) / float64(m.Life)
}

// Option is one way with its cash flow.
type Option struct {
	Yearly
	Machines   []Machine
	Installed  float64               // today
	Cash       [MaxYears + 1]float64 // cost in year 0 (today) to MaxYears, at real prices
	Cumulative [MaxYears + 1]float64 // running sum of Cash
	Present    float64               // present value over the study period, residuals taken off
}

// Comparison is all three ways over one study period.
type Comparison struct {
	Years   int // study period: the longer of the two lives
	Options [Ways]Option
}

// Compare works out the three ways for a season. Eq. 28.
func Compare(s *season.Season) Comparison {
	p := s.Job.Price
	cooler := Machine{p.CoolerInstalled, years(p.CoolerLife)}
	ac := Machine{p.ACInstalled, years(p.ACLife)}
	c := Comparison{Years: max(cooler.Life, ac.Life)}
	t := &s.Totals
	bill := energyBill(s)
	c.Options[Cooler] = c.option(s.Job, t.CoolerKWh, bill[Cooler], s.WaterTotal(t.Water), p.CoolerCare, cooler)
	c.Options[Refrigerated] = c.option(s.Job, t.RefKWh, bill[Refrigerated], 0, p.ACCare, ac)
	c.Options[Both] = c.option(s.Job, t.BothKWh, bill[Both], s.WaterTotal(t.BothWater), p.CoolerCare+p.ACCare, cooler, ac)
	return c
}

func years(life float64) int { return int(math.Round(life)) }

// energyBill is what each way's energy costs in the year, every hour at its price.
func energyBill(s *season.Season) (bill [Ways]float64) {
	tariff := TariffOf(&s.Job.Price)
	for i := range s.Hours {
		h := &s.Hours[i]
		if h.CoolerKWh == 0 && h.RefKWh == 0 && h.BothKWh == 0 {
			continue
		}
		price := tariff.At(s.Climate.Hours[i].Start)
		bill[Cooler] += price * h.CoolerKWh
		bill[Refrigerated] += price * h.RefKWh
		bill[Both] += price * h.BothKWh
	}
	return bill
}

func (c *Comparison) option(j *job.Job, kWh, energy, water, care float64, machines ...Machine) Option {
	o := Option{Machines: machines, Yearly: Yearly{
		KWh:        kWh,
		Water:      water,
		PlantWater: kWh * j.Plant.Water, // (24)
		CO2:        kWh * j.Plant.CO2,
		Energy:     energy,
		WaterCost:  water / 1000 * (j.Price.Water + j.Price.Sewer),
		Care:       care,
	}}
	discount := 1 + j.Price.Discount
	growth := 1 + j.Price.Escalation
	for y := range o.Cash {
		if y > 0 {
			o.Cash[y] = (o.Energy+o.WaterCost)*math.Pow(growth, float64(y)) + o.Care
			o.Cumulative[y] = o.Cumulative[y-1]
		}
		for _, m := range machines {
			if m.Due(y, c.Years) {
				o.Cash[y] += m.Installed
			}
		}
		o.Cumulative[y] += o.Cash[y]
	}
	o.Installed = o.Cash[0]
	o.Present = c.present(&o, discount)
	return o
}

// present is the present value of the cash flow, what is not worn out at the end
// of the study taken off.
func (c *Comparison) present(o *Option, discount float64) float64 {
	sum := 0.0
	for y := 0; y <= c.Years; y++ {
		sum += o.Cash[y] / math.Pow(discount, float64(y))
	}
	end := math.Pow(discount, float64(c.Years))
	for _, m := range o.Machines {
		sum -= m.Left(c.Years) / end
	}
	return sum
}

// Payback is the years in which the way's lower yearly cost pays its higher
// price against another: 0 if it costs no more to buy and no more a year, +Inf
// if it saves nothing. Eq. 28.
func (c *Comparison) Payback(way, against Way) float64 {
	a, b := &c.Options[way], &c.Options[against]
	extra, saving := a.Installed-b.Installed, b.Total()-a.Total()
	switch {
	case extra <= 0 && saving >= 0:
		return 0
	case extra <= 0 || saving <= 0:
		return math.Inf(1)
	default:
		return extra / saving
	}
}
