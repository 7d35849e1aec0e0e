package costs

import (
	"math"

	"github.com/evapbook/evapbook/internal/money"
	"github.com/evapbook/evapbook/internal/season"
	"github.com/evapbook/evapbook/internal/workbook/figures"
	"github.com/evapbook/evapbook/internal/workbook/fx"
	"github.com/evapbook/evapbook/internal/workbook/sheet"
)

// Conditions of sentences: what the verdict is, and whether the cooler alone
// leaves more hours than refrigeration.
const (
	PoorVerdict  = `Out_verdict="poor"`
	HardlyNeeded = `Out_verdict="hardly-needed"`
	Needed       = `Out_verdict<>"hardly-needed"`
	fitVerdict   = `AND(Out_verdict<>"poor",Out_verdict<>"hardly-needed")`
	MoreLeft     = "Out_hours_uncovered>Out_ac_unmet_hours"
	NotMoreLeft  = "Out_hours_uncovered<=Out_ac_unmet_hours"
)

func say() *sheet.Sentence { return new(sheet.Sentence) }

// Saving says what a way costs to buy and to run beside refrigeration, and
// when its price is paid back or that it is not; live.
func Saving(c *figures.Case, way money.Way) *sheet.Sentence {
	a, b := &c.Money.Options[way], &c.Money.Options[money.Refrigerated]
	sign := c.Season.Job.Price.Currency
	extra, saving := a.Installed-b.Installed, b.Total()-a.Total()
	buy := fx.Fill("(M_{W}_installed-M_refrigerated_installed)", "{W}", way.String())
	run := fx.Fill("(M_refrigerated_yearly-M_{W}_yearly)", "{W}", way.String())
	of := func(x string) string { return "ABS(" + x + ")" }

	s := say().Say(map[money.Way]string{money.Cooler: "The cooler costs ", money.Both: "Both together cost "}[way]).
		Amount(sign, of(buy), math.Abs(extra)).
		When(buy+">0", extra > 0, say().Say(" more")).When(buy+"<=0", extra <= 0, say().Say(" less")).
		Say(" to buy than refrigeration and ").
		When(whole(run)+"=0", math.Round(saving) == 0, say().Say("as much")).
		When(whole(run)+"<>0", math.Round(saving) != 0, say().Say("about ").Amount(sign, of(run), math.Abs(saving))).
		When(whole(run)+">0", math.Round(saving) > 0, say().Say(" less")).When(whole(run)+"<0", math.Round(saving) < 0, say().Say(" more")).
		Say(" a year to run")
	t := &c.Season.Totals
	verdict := t.Verdict()
	s.When(HardlyNeeded, verdict == season.HardlyNeeded, say().Say(", for ").Number("Out_hours_need", float64(t.Hours.Need()), 0).Say(" hours of cooling a year: too few to buy it for the saving."))
	back := say().Say(": ").Chain(payback(buy, run, extra, saving, c.Money.Years))
	if way == money.Cooler { // one that does not do the work is no bargain
		return s.When(PoorVerdict, verdict == season.PoorFit, say().Say(", but it does not do the same work.")).
			When(fitVerdict, verdict != season.PoorFit && verdict != season.HardlyNeeded, back)
	}
	return s.When(Needed, verdict != season.HardlyNeeded, back)
}

// payback says when a difference in price comes back, or that it does not. The
// formulas and their values are what is paid more and what is saved a year; study
// is how many years are counted.
func payback(buy, run string, extra, saving float64, study int) *sheet.Sentence {
	s := say()
	ratio := 0.0
	if saving != 0 {
		ratio = math.Abs(extra / saving)
	}
	quotient := "IF(" + run + "=0,0,ABS(" + buy + ")/ABS(" + run + "))"
	long := say().When(quotient+">M_years", ratio > float64(study), say().Say(", longer than the years counted here"))
	years := say().Number(quotient, ratio, 1).Say(" years").Chain(long)
	for _, x := range []struct {
		when  string
		holds bool
		say   *sheet.Sentence
	}{
		{"AND(" + buy + "<=0," + whole(run) + ">=0)", extra <= 0 && math.Round(saving) >= 0, say().Say("it saves from the first day.")},
		{"AND(" + buy + ">0," + whole(run) + ">0)", extra > 0 && math.Round(saving) > 0, say().Say("the difference is paid back in ").With(years).Say(".")},
		{"AND(" + buy + "<=0," + whole(run) + "<0)", extra <= 0 && math.Round(saving) < 0, say().Say("its lower price is used up after ").With(years).Say(".")},
		{"AND(" + buy + ">0," + whole(run) + "<=0)", extra > 0 && math.Round(saving) <= 0, say().Say("there is no saving to pay the difference back.")},
	} {
		s.When(x.when, x.holds, x.say)
	}
	return s
}

// whole is a yearly saving in cells as people read it: less than half a unit of
// money is none.
func whole(run string) string { return "ROUND(" + run + ",0)" }
