package figures

import (
	"github.com/evapbook/evapbook/internal/climate"
	"github.com/evapbook/evapbook/internal/workbook/fx"
)

// The verdict: a good fit holds nearly all hours and blows cool even at the
// damp design condition; a poor fit fails one of the two clearly.
//
// Source of the temperatures: service-trade cooler index (supply below 70 °F
// comfortable, above 75 °F not). The shares are our own, shown beside it.
const (
	GoodShare, PoorShare = 0.95, 0.80
	CoolSupplyF          = 70 // °F
	WarmSupplyF          = 75
)

// Verdict grades: the worse of coverage and supply temperature.
func (c *Case) Verdict() (value, formula string) {
	text := fx.Fill(`IF(Out_hours_need=0,"No hour needs cooling here",IF(OR(Out_coverage_held<{poor},Out_design_supply_wb_1pct_c>({warm}-32)/1.8),"Poor fit",IF(AND(Out_coverage_held>={good},Out_design_supply_wb_1pct_c<=({cool}-32)/1.8),"Good fit","Fit with limits")))`,
		"{poor}", fx.Num(PoorShare), "{good}", fx.Num(GoodShare), "{warm}", fx.Num(WarmSupplyF), "{cool}", fx.Num(CoolSupplyF))
	t := &c.Season.Totals
	supply, held := c.Season.Design.WetBulb[climate.One].Supply.T, c.NeedShare(t.Hours.Held())
	switch {
	case t.Hours.Need() == 0:
		return "No hour needs cooling here", text
	case held < PoorShare || supply > (WarmSupplyF-32)/1.8:
		return "Poor fit", text
	case held >= GoodShare && supply <= (CoolSupplyF-32)/1.8:
		return "Good fit", text
	default:
		return "Fit with limits", text
	}
}

// NeedShare is a number of hours as a share of those that need cooling, 0
// where none does; sentences show it so, while figures say there is none.
func (c *Case) NeedShare(hours int) float64 {
	return float64(hours) / float64(max(1, c.Season.Totals.Hours.Need()))
}

// ShareOfNeed is the live form of needShare for a coverage figure.
func ShareOfNeed(figure string) string { return "IF(Out_hours_need=0,0," + figure + ")" }
