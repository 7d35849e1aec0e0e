package alternatives

import (
	"fmt"
	"math"

	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/money"
	"github.com/evapbook/evapbook/internal/season"
	"github.com/evapbook/evapbook/internal/workbook/figures"
	"github.com/evapbook/evapbook/internal/workbook/given"
	"github.com/evapbook/evapbook/internal/workbook/sheet"
	"github.com/evapbook/evapbook/internal/workbook/variants"
	"github.com/evapbook/evapbook/internal/xlsx"
)

// offered is one option in its column. While it is the one the workbook shows
// its figures are those of the workbook; otherwise those computed at writing.
type offered struct {
	name string
	live string // formula: true while the workbook shows it
	now  bool   // it did at writing
	*variants.Variant
}

// offers are the options of the job with the job itself before them, or, of a
// job without options, the three kinds of cooler with the airflow, power and
// price that are usual for each.
func offers(c *figures.Case) ([]offered, error) {
	if len(c.Stated.Options()) == 0 {
		return kindOffers(c), nil
	}
	base := c.Stated.Base()
	all := []offered{{name: job.AsEntered, Variant: &variants.Variant{Job: base}}}
	for _, o := range base.Options() {
		with, err := base.With(o)
		if err != nil {
			return nil, err
		}
		all = append(all, offered{name: o.Name, Variant: &variants.Variant{Job: with}})
	}
	for k := range all {
		all[k].live = fmt.Sprintf("%s=%d", given.OptionIndex, k)
		all[k].now = k == c.Stated.Shown()
	}
	return all, nil
}

// kindTitle names the kinds of cooler over columns.
var kindTitle = map[job.CoolerKind]string{job.Direct: "Direct", job.Indirect: "Indirect", job.TwoStage: "Two-stage"}

func kindOffers(c *figures.Case) (all []offered) {
	for _, k := range coolerKinds {
		o := offered{name: kindTitle[k], live: `In_cooler_kind="` + string(k) + `"`, now: k == c.Season.Job.Cooler.Kind, Variant: &variants.Variant{Kind: k}}
		if !o.now { // its own power and price, not those stated for another kind
			o.Job = c.Stated.Clone()
			o.Job.Unstate("cooler.fan_power")
			o.Job.Unstate("price.cooler_installed")
		}
		all = append(all, o)
	}
	return all
}

// computeOffers works out those that the workbook does not show.
func computeOffers(c *figures.Case, all []offered) error {
	var others []*variants.Variant
	for i := range all {
		if all[i].now {
			*all[i].Variant = *variants.Stated(c)
		} else {
			others = append(others, all[i].Variant)
		}
	}
	return variants.Run(c, others)
}

// Options lays out the ways to cool the house side by side.
func Options(c *figures.Case, p *sheet.Page) error {
	all, err := offers(c)
	if err == nil {
		err = computeOffers(c, all)
	}
	if err != nil {
		return fmt.Errorf("options: %w", err)
	}
	p.Cols = []float64{44}
	for range len(all) + 2 {
		p.Cols = append(p.Cols, 15)
	}
	p.Cols = append(p.Cols, 8)
	p.Print.FitHeight = 1
	layOffersLine(c, p, all)
	optionTable(c, p, all)
	optionNotes(c, p, len(all))
	optionCharts(c, p)
	if len(c.Stated.Options()) > 0 {
		return given.OptionInputs(c, p)
	}
	return nil
}

// layOffersLine says which column follows the inputs. Showing another option is
// no change that makes the columns stale.
func layOffersLine(c *figures.Case, p *sheet.Page, all []offered) {
	if c.ValuesOnly {
		p.Text("All of it was computed when the workbook was written. The other pages are about the option with the dark head.", "", len(all)+4, 1, sheet.Small)
		return
	}
	const fresh = "The column of the option this workbook shows, refrigeration and both together follow the inputs; the other columns were computed when the workbook was written."
	const old = "THE INPUTS HAVE CHANGED SINCE: only the column of the option this workbook shows, refrigeration and both together follow. Write the workbook anew for the others."
	live := "FALSE"
	for _, o := range all {
		if o.now {
			live = o.live
		}
	}
	stale := "B_inputs_changed>IF(" + live + ",0,1)"
	row, wide := p.Row, len(all)+4
	words, formula := new(sheet.Sentence).When("B_inputs_changed<=IF("+live+",0,1)", true, new(sheet.Sentence).Say(fresh)).When(stale, false, new(sheet.Sentence).Say(old)).Done()
	p.Text(words, formula, wide, 2, sheet.Small)
	p.Conditional = append(p.Conditional, xlsx.CondFormat{Range: xlsx.RangeRef(row, 1, row, wide), When: stale, Style: sheet.StaleStyle})
}

// optionNotes are below the table.
func optionNotes(c *figures.Case, p *sheet.Page, n int) {
	text := "Savings and payback are against refrigeration. Refrigeration and both together are those beside the option the workbook shows. A cooler that leaves hours uncovered is not the same service for less money. The marks of the verdict are our own, on Answer."
	if len(c.Stated.Options()) == 0 {
		text += " The three kinds stand here, each with its usual power and price."
		if !c.ValuesOnly { // above the title, for the screen alone
			p.Set(sheet.TitleRow-1, 2, xlsx.Cell{Value: "Choose the kind of cooler on Inputs to show another. State options of your own with --option, or [[option]] in a job file.", Style: sheet.Quiet})
		}
	}
	p.Text(text, "", n+4, 2, sheet.Small)
	p.Row++
}

// Words for the payback of an option that is a poor fit, and of one that is
// hardly needed.
const noLike, tooFew = "no like for like", "too few hours"

// PaidBack is the payback of a way in the words of the sheet, for other pages.
func PaidBack(c *figures.Case, w money.Way) string {
	if w == money.Cooler {
		return coolerPaidBack(variants.Stated(c))
	}
	return paidBack(&c.Money, w)
}

// coolerPaidBack is the payback of an option; one that does not do the work has none.
func coolerPaidBack(v *variants.Variant) string {
	switch v.Season.Totals.Verdict() {
	case season.PoorFit:
		return noLike
	case season.HardlyNeeded:
		return tooFew
	}
	return paidBack(&v.Money, money.Cooler)
}

// paidBack says the payback of a way in a word or two.
func paidBack(m *money.Comparison, w money.Way) string {
	switch y := m.Payback(w, money.Refrigerated); {
	case math.IsInf(y, 0):
		return "never"
	case y == 0:
		return "at once"
	case y > float64(m.Years): // nobody waits longer than the machines last
		return "not in " + sheet.Fixed(float64(m.Years), 0) + " years"
	default:
		return sheet.Fixed(y, 1) + " years"
	}
}

func paidBackCells(w money.Way) string {
	y := "Out_money_" + w.String() + "_payback_years"
	return `IF(ISNUMBER(` + y + `),IF(` + y + `=0,"at once",IF(` + y + `>M_years,"not in "&FIXED(M_years,0)&" years",FIXED(` + y + `,1)&" years")),"never")`
}
