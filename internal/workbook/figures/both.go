package figures

import "github.com/evapbook/evapbook/internal/season"

// BothUnmet counts the hours that refrigeration cannot carry while the cooler
// does not hold the house.
func (c *Case) BothUnmet() (n int) {
	for i := range c.Season.Hours {
		h := &c.Season.Hours[i]
		if h.Unmet && (h.Outcome == season.Damp || h.Outcome == season.Warm) {
			n++
		}
	}
	return n
}

// BothUnmetCells is the same count in cells.
const BothUnmetCells = `(SUMIFS([Working.unmet:],[Working.outcome:],"damp")+SUMIFS([Working.unmet:],[Working.outcome:],"warm"))`
