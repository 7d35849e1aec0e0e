package season

import (
	"github.com/evapbook/evapbook/internal/climate"
	"github.com/evapbook/evapbook/internal/house"
	"github.com/evapbook/evapbook/internal/job"
)

// Brief is what a season comes to where nobody asks for its hours.
type Brief struct {
	Hours     Count
	Water     Water
	CoolerKWh float64
}

// RunBriefly carries a resolved job through a climate as Run does, for its Brief
// alone. It takes a fraction of the time: most hours of most places need no
// cooling, and what the cooler would supply in them is then never asked.
func RunBriefly(c *climate.Climate, j *job.Job) (Brief, error) {
	p, err := newPlant(c, j)
	if err != nil {
		return Brief{}, err
	}
	return p.brief(c, func(h *Hour, i int) error { return p.blow(h, &c.Hours[i]) })
}

// Low runs the cooler through the season once more as it is with people who feel
// the air move and so set it higher, by the house's MovingAir; house, air and
// weather stay the same. It is the least that the cooler takes.
func (s *Season) Low() Brief {
	p := plant{cooler: s.Cooler, house: s.House.InMovingAir()}
	low, _ := p.brief(s.Climate, func(h *Hour, i int) error { // the air is there: no error
		h.Supply, h.Vented = s.Hours[i].Supply, s.Hours[i].Vented
		return nil
	})
	return low
}

// brief carries the hours through and keeps none of them; blow gives an hour that
// needs cooling its air.
func (p *plant) brief(c *climate.Climate, blow func(h *Hour, i int) error) (b Brief, err error) {
	before := p.house.Setpoint
	for _, d := range c.Days {
		var day Water
		for i := d.First; i < d.Last; i++ {
			var h Hour
			in := &c.Hours[i]
			a := house.Around{T: in.Air.T, GHI: in.GHI, Before: before}
			switch {
			case in.Missing:
			case !p.house.Load(a).Need():
				h.Outcome = Idle
				before = p.house.Drift(p.house.Shut(a))
			default:
				if err := blow(&h, i); err != nil {
					return Brief{}, err
				}
				p.carry(&h, in, before)
				before = h.House
			}
			b.Hours[h.Outcome]++
			b.CoolerKWh += h.CoolerKWh
			day.add(&h)
		}
		day.DaysOfUse = used(day)
		b.Water = b.Water.plus(day)
	}
	return b, nil
}
