package figures

import (
	"github.com/evapbook/evapbook/internal/season"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/workbook/fx"
)

// VerdictTitle is the verdict as the first page prints it.
var VerdictTitle = map[season.Verdict]string{
	season.GoodFit: "Good fit", season.FitInPart: "Fit with limits", season.PoorFit: "Poor fit", season.HardlyNeeded: "Hardly needed here",
}

// verdictFigures is the verdict as data; season.Totals.Verdict in cells.
func (c *Case) verdictFigures() []Figure {
	f := fx.Fill(`IF(Out_hours_wet_need<{hours},"{hardly}",IF(AND(Out_coverage_moving_air_with_water>={good},Out_coverage_with_water>={held}),"{fit}",IF(Out_coverage_moving_air_with_water>={part},"{limits}","{poor}")))`,
		"{hours}", fx.Num(season.HardlyNeededBelow), "{good}", fx.Num(season.GoodMoving), "{held}", fx.Num(season.GoodHeld), "{part}", fx.Num(season.PartMoving),
		"{hardly}", string(season.HardlyNeeded), "{fit}", string(season.GoodFit), "{limits}", string(season.FitInPart), "{poor}", string(season.PoorFit))
	return []Figure{{Path: "verdict", Label: "Verdict", Kind: units.Text, Value: string(c.Season.Totals.Verdict()), Formula: f, Note: "marks of our own"}}
}

// Verdict is the verdict in words.
func (c *Case) Verdict() (value, formula string) {
	return VerdictTitle[c.Season.Totals.Verdict()], fx.Fill(`IF(Out_verdict="{fit}",`+fx.Quote(VerdictTitle[season.GoodFit])+`,IF(Out_verdict="{limits}",`+fx.Quote(VerdictTitle[season.FitInPart])+
		`,IF(Out_verdict="{poor}",`+fx.Quote(VerdictTitle[season.PoorFit])+`,`+fx.Quote(VerdictTitle[season.HardlyNeeded])+`)))`,
		"{fit}", string(season.GoodFit), "{limits}", string(season.FitInPart), "{poor}", string(season.PoorFit))
}

// WetShare is the live form of a coverage of the wet need for sentences: 0 where
// there is none.
func WetShare(figure string) string { return "IF(Out_hours_wet_need=0,0," + figure + ")" }

// NeedShare is a number of hours as a share of those that need cooling, 0
// where none does; sentences show it so, while figures say there is none.
func (c *Case) NeedShare(hours int) float64 {
	return float64(hours) / float64(max(1, c.Season.Totals.Hours.Need()))
}

// ShareOfNeed is the live form of needShare for a coverage figure.
func ShareOfNeed(figure string) string { return "IF(Out_hours_need=0,0," + figure + ")" }
