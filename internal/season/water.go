package season

import "github.com/evapbook/evapbook/internal/job"

// Water is what a cooler takes over some time, L (1 kg = 1 L).
type Water struct {
	Evaporated float64
	PumpHours  float64
	DaysOfUse  int // days on which the pump ran
}

// Drained is the water let go to keep the sump clean: bleed (eq. 22) or purge
// (eq. 23: the sump once per interval of pumping, and once a day of use).
func (w Water) Drained(c job.Cooler) float64 {
	switch c.WaterCare {
	case job.Bleed:
		return w.Evaporated / (c.Cycles - 1) // (22)
	case job.Purge:
		return c.Sump * (w.PumpHours/c.PurgeInterval + float64(w.DaysOfUse)) // (23)
	default:
		return 0
	}
}

// Total is evaporated and drained water.
func (w Water) Total(c job.Cooler) float64 { return w.Evaporated + w.Drained(c) }

func (w *Water) add(h *Hour) {
	if h.Outcome.Wet() {
		w.Evaporated += h.Evaporated
		w.PumpHours += h.Running.Fraction
	}
}

func (w Water) plus(o Water) Water {
	return Water{w.Evaporated + o.Evaporated, w.PumpHours + o.PumpHours, w.DaysOfUse + o.DaysOfUse}
}
