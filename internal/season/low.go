package season

// Low is what the cooler takes in a season at the least: with people who feel
// the air move and so set it higher.
type Low struct {
	Water     Water
	CoolerKWh float64
}

// Low runs the cooler through the season once more with the setpoint raised by
// the house's MovingAir; house, air and weather stay the same.
func (s *Season) Low() Low {
	p := plant{cooler: s.Cooler, house: s.House.InMovingAir()}
	var low Low
	before := p.house.Setpoint
	for _, d := range s.Climate.Days {
		var day Water
		for i := d.First; i < d.Last; i++ {
			if s.Hours[i].Outcome == Missing {
				continue
			}
			h := Hour{Supply: s.Hours[i].Supply, Vented: s.Hours[i].Vented}
			p.carry(&h, &s.Climate.Hours[i], before)
			before = h.House
			day.add(&h)
			low.CoolerKWh += h.CoolerKWh
		}
		day.DaysOfUse = used(day)
		low.Water = low.Water.plus(day)
	}
	return low
}
