package reading

import "fmt"

// A slip is a mistake in writing readings down: how the visit would read
// without it, and how to ask for it.
type slip struct {
	visit Visit
	ask   string
}

// suspect looks for a single slip that would make sense of an odd reading and
// names every one that would.
func (r *Result) suspect() {
	for _, s := range slips(r.Visit) {
		if s.visit.check() != nil {
			continue
		}
		p, err := evaluate(&s.visit, &r.Cooler, r.Pressure)
		if err != nil || p.air.T-p.wetBulb < LeastDrop || !likely(p.effectiveness) {
			continue
		}
		r.say("%s Then the effectiveness would be %.2f", s.ask, p.effectiveness)
	}
}

// likely tells whether a cooler that is not quite broken reaches e: the lowest
// published pad is 0.39 (date palm, Al-Sulaiman 2002), the best two-stage
// cooler 1.11.
func likely(e float64) bool { return e >= 0.39 && e <= 1.11 }

func slips(v Visit) []slip {
	var all []slip
	add := func(ask string, change func(*Visit)) {
		w := v
		change(&w)
		all = append(all, slip{w, ask})
	}
	add("are outdoor and supply exchanged?", func(w *Visit) { w.Outdoor, w.Supply = v.Supply, v.Outdoor })
	unit := func(name string, c float64, set func(*Visit, float64)) {
		f := c*1.8 + 32
		add(fmt.Sprintf("was the %s %.4g °F, not °C?", name, c), func(w *Visit) { set(w, (c-32)/1.8) })
		add(fmt.Sprintf("was the %s %.4g °C, not °F?", name, f), func(w *Visit) { set(w, f) })
	}
	unit("supply", v.Supply, func(w *Visit, t float64) { w.Supply = t })
	unit("outdoor temperature", v.Outdoor, func(w *Visit, t float64) { w.Outdoor = t })
	switch h := v.Humidity; h.Measure {
	case RelHum:
		if h.Value < 0.01 && h.Value > 0 {
			add(fmt.Sprintf("was the relative humidity %.4g %%?", h.Value*1e4), func(w *Visit) { w.Humidity.Value = h.Value * 100 })
		}
	case WetBulb:
		unit("wet bulb", h.Value, func(w *Visit, t float64) { w.Humidity.Value = t })
		add("was a dew point given as the wet bulb?", func(w *Visit) { w.Humidity.Measure = DewPoint })
	}
	return all
}
