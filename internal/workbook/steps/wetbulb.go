package steps

import (
	"strconv"

	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/workbook/figures"
	"github.com/evapbook/evapbook/internal/workbook/fx"
	"github.com/evapbook/evapbook/internal/workbook/sheet"
)

var last = strconv.Itoa(fx.NewtonSteps)

// newtonColumns solve a wet bulb at dry bulb t: whether the wick is iced, a
// first guess, and fx.NewtonSteps steps.
func newtonColumns(x, t, first, band string, n func(i int) *fx.Newton) []sheet.Column {
	wick := fx.Wick(t, "[w]", "[p]", "["+x+"_ice]")
	cols := []sheet.Column{
		{
			Key: x + "_ice", Band: band, Title: "Iced wick", Kind: units.Count, Eq: 4,
			Formula: wick[0],
			Value:   func(i int) any { return n(i).Ice },
		},
		{Key: x + "0", Title: "First guess", Kind: units.Kelvin, Formula: first, Value: func(i int) any { return n(i).X[0] }},
	}
	for k := range fx.NewtonSteps {
		from, to := x+strconv.Itoa(k), x+strconv.Itoa(k+1)
		cols = append(cols, sheet.Column{
			Key: to, Title: "Step " + strconv.Itoa(k+1), Kind: units.Kelvin, Eq: 4,
			Formula: fx.Step("["+from+"]", "[p]", wick),
			Value:   func(i int) any { return n(i).X[k+1] },
		})
	}
	return cols
}

// secondNewtonColumns solve the wet bulb after an indirect stage; they stay
// blank for a cooler without one.
func secondNewtonColumns(c *figures.Case, n func(i int) *fx.Newton) []sheet.Column {
	cols := newtonColumns("y", "[t1]", fx.SecondGuess, "Wet bulb after the indirect stage", n)
	for k := range cols {
		cols[k].Formula = "IF(B_indirect_stage=1," + cols[k].Formula + `,"")`
		if c.Season.Cooler.Kind == job.Direct {
			cols[k].Value = func(int) any { return "" }
		}
	}
	return cols
}
