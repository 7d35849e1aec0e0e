package given

import (
	"fmt"

	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/look"
	"github.com/evapbook/evapbook/internal/workbook/figures"
	"github.com/evapbook/evapbook/internal/workbook/fx"
	"github.com/evapbook/evapbook/internal/workbook/sheet"
	"github.com/evapbook/evapbook/internal/xlsx"
)

// Names of cells that carry a job's options. An input that any option states
// holds a formula that takes it from the option shown.
const (
	ShownOption = "Option_shown" // the name of the option the book shows, to be chosen
	OptionIndex = "B_option"     // its place, 0 for the job as entered
)

// OptionName is the name of the cell with an option's name, OptionValue of the
// cell with what it states for an input; option 0 is the job as entered.
func OptionName(k int) string { return fmt.Sprintf("Opt_%d", k) }

// OptionValue: see OptionName.
func OptionValue(k int, in job.Input) string { return fmt.Sprintf("Opt_%d_%s", k, in.CellName()) }

// optionFormula takes an input from the option shown.
func optionFormula(c *figures.Case, in job.Input) string {
	f := OptionValue(0, in)
	for k := len(c.Stated.Options()); k > 0; k-- {
		f = fmt.Sprintf("IF(%s=%d,%s,%s)", OptionIndex, k, OptionValue(k, in), f)
	}
	return f
}

// otherOption adds one to the inputs that have changed where another option is
// shown than at writing.
func otherOption(c *figures.Case) string {
	if len(c.Stated.Options()) == 0 {
		return ""
	}
	return fmt.Sprintf("+IF(%s=%d,0,1)", OptionIndex, c.Stated.Shown())
}

// layChooser is the line in which the option that the book shows is chosen.
func layChooser(c *figures.Case, p *sheet.Page) {
	names, index := []string{job.AsEntered}, "0"
	for _, o := range c.Stated.Options() {
		names = append(names, o.Name)
	}
	for k := len(names) - 1; k > 0; k-- {
		index = fmt.Sprintf("IF(%s=%s,%d,%s)", ShownOption, fx.Quote(names[k]), k, index)
	}
	chosen := sheet.Input
	if c.ValuesOnly {
		chosen = sheet.Number("@")
	}
	chosen.Shrink = true
	p.SetRow(p.Row, 1,
		xlsx.Cell{Value: "The option this workbook shows", Style: sheet.Label},
		xlsx.Cell{Value: names[c.Stated.Shown()], Style: chosen, Name: ShownOption},
		xlsx.Cell{Value: "choose from the list; Options sets them side by side", Style: sheet.Quiet})
	p.Set(p.Row, inSI, xlsx.Cell{Value: c.Stated.Shown(), Formula: index, Style: sheet.Quiet, Name: OptionIndex})
	if !c.ValuesOnly {
		p.Validations = append(p.Validations, xlsx.Validation{Range: xlsx.CellRef(p.Row, inValue), From: "[Options.chosen:]", ErrorTitle: "Not possible here", Error: "Choose one of the list."})
	}
	p.Row++
}

// OptionInputs lists what each option states, the job as entered first: the
// cells that inputs take their values from, and from which they are read back.
func OptionInputs(c *figures.Case, p *sheet.Page) error {
	options, base := c.Stated.Options(), c.Stated.Base()
	p.Section("What each option states", 2+len(options))
	p.Set(p.Row, 1, xlsx.Cell{Value: "Input", Style: sheet.Head})
	p.Set(p.Row, 2, xlsx.Cell{Value: job.AsEntered, Style: sheet.Head, Name: OptionName(0)})
	for k, o := range options {
		p.Set(p.Row, 3+k, xlsx.Cell{Value: o.Name, Style: sheet.Head, Name: OptionName(k + 1)})
	}
	p.Mark("chosen", p.Row, 2, p.Row, 2+len(options))
	p.Height(p.Row, look.TitleHeight)
	p.Row++
	for _, in := range job.Inputs() {
		if !base.States(in.Key) {
			continue
		}
		u := c.Unit(in.Kind)
		label := in.Label
		if u.Symbol != "" {
			label += ", " + u.Symbol
		}
		p.Set(p.Row, 1, xlsx.Cell{Value: label, Style: sheet.Label})
		entered := xlsx.Cell{Style: sheet.Number(InputFormat(in, u)), Name: OptionValue(0, in)}
		switch {
		case !in.Numeric():
			entered.Value = in.Words(base)
		case in.Rule != nil && !base.Stated(in.Key):
			entered.Value, _ = standard(c, in, u)
			entered.Formula = RuleName(in)
		default:
			entered.Value = u.FromSI(in.SI(base))
		}
		p.Set(p.Row, 2, entered)
		for k, o := range options {
			cell := entered
			cell.Name, cell.Formula = OptionValue(k+1, in), OptionValue(0, in)
			if o.States(in.Key) {
				stated, err := base.With(o)
				if err != nil {
					return err
				}
				cell.Formula, cell.Style.Bold = "", true
				cell.Value = any(in.Words(stated))
				if in.Numeric() {
					cell.Value = u.FromSI(in.SI(stated))
				}
			}
			p.Set(p.Row, 3+k, cell)
		}
		p.Row++
	}
	return nil
}
