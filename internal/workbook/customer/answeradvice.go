package customer

import (
	"fmt"

	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/money"
	"github.com/evapbook/evapbook/internal/season"
	"github.com/evapbook/evapbook/internal/workbook/costs"
	"github.com/evapbook/evapbook/internal/workbook/figures"
	"github.com/evapbook/evapbook/internal/workbook/sheet"
	"github.com/evapbook/evapbook/internal/workbook/variants"
)

// moreAir is how much larger the larger cooler of the advice is.
const moreAir = 1.5

// answerAdvice says what could be done about the uncovered hours, by what this
// book's own numbers show: seasons of a two-stage and of a larger cooler,
// computed at writing, and both together.
func answerAdvice(c *figures.Case, p *sheet.Page) error {
	air, _ := job.Find("cooler.airflow")
	two := &variants.Variant{Kind: job.TwoStage}
	larger := &variants.Variant{Set: map[string]float64{"cooler.airflow": min(air.Max, moreAir*c.Season.Job.Cooler.Airflow)}}
	tried := []*variants.Variant{larger}
	if c.Season.Job.Cooler.Kind != job.TwoStage {
		tried = append(tried, two)
	}
	if err := variants.Run(c, tried); err != nil {
		return fmt.Errorf("advice: %w", err)
	}
	p.Section("What to do about the hours that are not covered", answerCols)
	both := &c.Money.Options[money.Both]
	sign := c.Season.Job.Price.Currency
	t := &c.Season.Totals
	hardly := t.Verdict() == season.HardlyNeeded
	together := say().Say("Cooler and refrigeration together, the cooler whenever it holds the house and never both at once, leave ").
		Number(figures.BothUnmetCells, float64(c.BothUnmet()), 0).Say(" hours: ").
		Amount(sign, "Out_money_both_installed", both.Installed).Say(" to buy, ").Amount(sign, "Out_money_both_yearly", both.Total()).Say(" a year to run.")
	windows := say().Say("Begin with open windows and a fan: they hold ").Number("Out_hours_vent", float64(t.Hours[season.Vent]), 0).Say(" of ").Number("Out_hours_need", float64(t.Hours.Need()), 0).Say(" hours.")
	prose(p, say().When(costs.Needed, !hardly, together).When(costs.HardlyNeeded, hardly, windows), sheet.Text, 2)
	s := say().When("B_inputs_changed=0", true, advice(c, two, larger)).
		When("B_inputs_changed>0", false, say().Say("THE INPUTS HAVE CHANGED since other coolers were tried here; write the workbook anew to see what they would do."))
	prose(p, s, sheet.Text, 2)
	gap(p)
	return nil
}

// advice compares what the tried coolers leave uncovered.
func advice(c *figures.Case, two, larger *variants.Variant) *sheet.Sentence {
	now := c.Season.Totals.Hours.Uncovered()
	if now == 0 {
		return say().Say("The cooler leaves nothing to cover in this year; hotter ones will come.")
	}
	s := say().Say("Computed when this page was written: ")
	left := func(v *variants.Variant) (n int, words string) {
		t := &v.Season.Totals
		return t.Hours.Uncovered(), fmt.Sprintf("%s (%s too warm, %s too damp)", hours(t.Hours.Uncovered()), sheet.Fixed(float64(t.Hours[season.Warm]), 0), sheet.Fixed(float64(t.Hours[season.Damp]), 0))
	}
	best, name := now, ""
	if two.Season != nil {
		n, words := left(two)
		s.Say("a two-stage cooler of the same airflow would leave " + words + "; ")
		if n < best {
			best, name = n, "A two-stage cooler helps"
		}
	}
	n, words := left(larger)
	s.Say("a cooler with half as much air again " + words + ", against " + sheet.Fixed(float64(now), 0) + ". ")
	switch {
	case n < best:
		best, name = n, "More air helps"
	case n == best && name != "":
		name = "Either helps"
	}
	switch {
	case 2*best <= now:
		s.Say(name + " most here; Options has prices.")
	case best < now:
		s.Say(name + " a little, but most of these hours remain: plan a refrigerated room, or refrigeration, for those who cannot bear them.")
	default:
		name = "Neither helps"
		if two.Season == nil {
			name = "That does not help"
		}
		s.Say(name + " here: plan a refrigerated room, or refrigeration, for those who cannot bear these hours.")
	}
	return s
}

// hours is a number of hours in words.
func hours(n int) string {
	if n == 1 {
		return "1 hour"
	}
	return sheet.Fixed(float64(n), 0) + " hours"
}
