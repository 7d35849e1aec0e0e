package season

import (
	"errors"
	"fmt"

	"github.com/evapbook/evapbook/internal/climate"
	"github.com/evapbook/evapbook/internal/cooler"
	"github.com/evapbook/evapbook/internal/house"
	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/psychro"
	"github.com/evapbook/evapbook/internal/refrigeration"
)

// SizingPerThousand is how many hours of a thousand may exceed the default
// capacity of the refrigerated unit. Eq. 27.
const SizingPerThousand = 4

// Season is a run of one job through one climate.
type Season struct {
	Job     *job.Job // resolved: capacity and heat loss are those used
	Climate *climate.Climate
	House   house.House
	Cooler  cooler.Unit
	AC      refrigeration.Unit

	Hours  []Hour
	Days   []Day
	Months [12]Month
	Totals Totals
	Design Design
}

// Run carries a resolved job through a climate. The job is not changed.
func Run(c *climate.Climate, j *job.Job) (*Season, error) {
	j = j.Clone()
	p, err := newPlant(c, j)
	if err != nil {
		return nil, err
	}
	s := &Season{Job: j, Climate: c, House: p.house, Cooler: p.cooler, Hours: make([]Hour, len(c.Hours))}
	if err := s.hours(p); err != nil {
		return nil, err
	}
	s.AC = p.ac
	if err := s.design(); err != nil {
		return nil, err
	}
	s.days()
	s.months()
	s.totals()
	return s, nil
}

func (s *Season) hours(p *plant) error {
	cooled, refrigerated := s.House.Setpoint, s.House.Setpoint // °C, as the hours leave the two houses
	for i := range s.Hours {
		h, in := &s.Hours[i], &s.Climate.Hours[i]
		if in.Missing {
			h.Before, h.House, h.RefBefore, h.RefHouse = cooled, cooled, refrigerated, refrigerated
			continue
		}
		if err := p.blow(h, in); err != nil {
			return err
		}
		p.carry(h, in, cooled)
		p.close(h, in, refrigerated)
		cooled, refrigerated = h.House, h.RefHouse
	}
	if p.ac.Capacity == 0 {
		p.ac.Capacity = refrigeration.Size(s.NeededRating())
		s.Job.AC.Capacity = p.ac.Capacity
	}
	for i := range s.Hours {
		if !s.Climate.Hours[i].Missing {
			p.refrigerate(&s.Hours[i])
		}
	}
	return nil
}

// NeededRating is the rated capacity in W that at most four hours in a thousand
// exceed. Eq. 27.
func (s *Season) NeededRating() float64 {
	var need []float64
	for i := range s.Hours {
		if s.Hours[i].Outcome != Missing {
			need = append(need, s.Hours[i].NeededRating)
		}
	}
	return climate.Exceeded(need, len(need)*SizingPerThousand/1000)
}

// DesignAir is the supply at one design condition.
type DesignAir struct {
	Outdoor psychro.Air
	WetBulb float64
	Supply  cooler.Supply
}

// Design is what the cooler supplies at the design conditions of the climate,
// at the site's standard pressure.
type Design struct {
	DryBulb [3]DesignAir // at the dry bulb with mean coincident wet bulb
	WetBulb [3]DesignAir // at the wet bulb with mean coincident dry bulb
}

func (s *Season) design() error {
	d := &s.Climate.Design
	for i := range climate.DesignShares {
		if err := s.designAir(&s.Design.DryBulb[i], d.DryBulb[i].Value, d.DryBulb[i].Coincident); err != nil {
			return err
		}
		if err := s.designAir(&s.Design.WetBulb[i], d.WetBulb[i].Coincident, d.WetBulb[i].Value); err != nil {
			return err
		}
	}
	return nil
}

func (s *Season) designAir(a *DesignAir, t, wetBulb float64) (err error) {
	a.WetBulb = min(wetBulb, t)
	a.Outdoor, err = psychro.FromWetBulb(t, a.WetBulb, s.Climate.Pressure)
	if errors.Is(err, psychro.ErrTooDry) { // the two means need not be one air
		a.Outdoor, err = psychro.FromHumidityRatio(t, 0, s.Climate.Pressure)
	}
	if err != nil {
		return fmt.Errorf("design condition %.1f/%.1f °C: %w", t, wetBulb, err)
	}
	if a.Supply, err = s.Cooler.Water(a.Outdoor, a.WetBulb); err != nil {
		return fmt.Errorf("design condition %.1f/%.1f °C: %w", t, wetBulb, err)
	}
	return nil
}
