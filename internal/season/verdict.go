package season

// Verdict says how well a cooler fits a house, by the hours that outdoor air
// alone does not hold: an open window needs no cooler.
type Verdict string

// The verdicts.
const (
	HardlyNeeded Verdict = "hardly-needed"
	GoodFit      Verdict = "good"
	FitInPart    Verdict = "limits"
	PoorFit      Verdict = "poor"
)

// The marks of the verdict are our own, no source. In a chamber over 80 % of
// people accepted 28 °C at 80 % and 30 °C at 60 % relative humidity with fan air
// (Zhai and others 2015).
const (
	HardlyNeededBelow = 150  // h of wet need
	GoodMoving        = 0.95 // share of the wet need held or comfortable in moving air
	GoodHeld          = 0.80 // share of it held
	PartMoving        = 0.70 // share of it held or comfortable in moving air
)

// Verdict grades the season.
func (t *Totals) Verdict() Verdict {
	wet := float64(t.Hours.WetNeed())
	held := float64(t.Hours[Evap])
	moving := held + float64(t.Moving)
	switch {
	case wet < HardlyNeededBelow:
		return HardlyNeeded
	case moving >= GoodMoving*wet && held >= GoodHeld*wet:
		return GoodFit
	case moving >= PartMoving*wet:
		return FitInPart
	default:
		return PoorFit
	}
}
