// Package given lays out what went in: the sheets Inputs and Weather, in the
// form from which package readback reads them again, and the sentences that
// name them elsewhere.
package given

import (
	"fmt"
	"math"
	"strings"

	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/look"
	"github.com/evapbook/evapbook/internal/refrigeration"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/workbook/figures"
	"github.com/evapbook/evapbook/internal/workbook/fx"
	"github.com/evapbook/evapbook/internal/workbook/sheet"
	"github.com/evapbook/evapbook/internal/xlsx"
)

// The columns of the Inputs sheet.
const (
	inLabel = 1 + iota
	inValue
	inUnit
	inDefault
	inRange
	inChanged
	inWhy
	inWritten // the value when the workbook was written
	inSI
	inSIUnit
)

// whyWidth is the width of the column of reasons, and whyChars how many characters
// surely fit in a line of it.
const whyWidth, whyChars = 100, 128

// Inputs lays out every input with its default, range and reason.
func Inputs(c *figures.Case, p *sheet.Page) {
	p.Cols = []float64{50, 17, 13, 12, 24, 10, whyWidth, 14, 14, 11}
	p.Print.Landscape = true
	if len(c.Stated.Options()) > 0 {
		layChooser(c, p)
	}
	p.FreezeRows, p.FreezeCols = p.Row+1, 2 // down to the headings
	p.Print.TitleRows = [2]int{p.Row + 1, p.Row + 1}
	p.Print.FitHeight = 2
	changed := p.Row
	p.Row++
	written, since := "As written", "Since then"
	if c.ValuesOnly {
		written, since = "", ""
	}
	p.Heads("Input", "Value", "Unit", "Default", "Allowed", since, "Why this default, and what it means", written, "In SI", "SI unit")
	first := p.Row
	section := ""
	for _, in := range job.Inputs() {
		if in.Section() != section {
			section = in.Section()
			p.Set(p.Row, 1, xlsx.Cell{Value: sectionTitle(section), Style: xlsx.Style{Bold: true, Size: look.Text, Color: look.Leaf, VAlign: xlsx.Bottom}})
			p.Height(p.Row, 22)
			p.Row++
		}
		layInput(c, p, in)
	}
	p.PrintTo(p.Row-1, inWhy)
	if !c.ValuesOnly {
		layChanged(c, p, changed, first)
	}
}

// layChanged writes the line that counts and names the inputs that differ from
// those at writing; inputs stand in rows from first to above the page's next.
func layChanged(c *figures.Case, p *sheet.Page, changed, first int) {
	flags := xlsx.RangeRef(first, inChanged, p.Row-1, inChanged)
	p.SetRow(changed, 1,
		xlsx.Cell{Value: "Inputs that differ from those at writing:", Style: sheet.Line},
		xlsx.Cell{Value: 0, Formula: `COUNTIF(` + flags + `,"changed")` + otherOption(c), Style: xlsx.Style{Bold: true, Size: look.Text, HAlign: xlsx.Right}, Name: "B_inputs_changed"},
		xlsx.Cell{Value: "none", Formula: changedNames(p, first), Style: xlsx.Style{Bold: true, Size: look.Text, Color: look.Alarm}})
	p.Conditional = append(p.Conditional, xlsx.CondFormat{Range: flags, Is: &xlsx.Comparison{Op: "=", Value: `"changed"`}, Style: xlsx.Style{Bold: true, Color: look.Alarm}})
}

// changedNames is the formula that lists the labels of changed inputs.
func changedNames(p *sheet.Page, first int) string {
	list := ""
	for row := first; row < p.Row; row++ {
		if p.Has(row, inChanged) {
			list += fmt.Sprintf(`&IF(%s="changed",%s&"; ","")`, xlsx.CellRef(row, inChanged), xlsx.CellRef(row, inLabel))
		}
	}
	return `IF(B_inputs_changed=0,"none",` + strings.TrimPrefix(list, "&") + ")"
}

func sectionTitle(name string) string {
	for _, s := range job.Sections {
		if s.Name == name {
			return s.Title
		}
	}
	return name
}

// layInput writes one line: the input as the person sees it, named In_…, and
// in SI, named Si_…, to which all other formulas refer.
func layInput(c *figures.Case, p *sheet.Page, in job.Input) {
	j, u := c.Season.Job, c.Unit(in.Kind)
	value, usual := xlsx.Cell{Style: sheet.Input, Name: "In_" + in.CellName()}, xlsx.Cell{Style: sheet.Number(InputFormat(in, u))}
	if c.ValuesOnly {
		value.Style = sheet.Number("")
	}
	value.Style.NumFmt = InputFormat(in, u)
	switch {
	case in.Numeric():
		value.Value = u.FromSI(in.SI(j))
		usual.Value, usual.Formula = standard(c, in, u)
		if in.Rule != nil && !c.Stated.Stated(in.Key) {
			value.Formula = RuleName(in)
		}
		if in.Rule != nil && usual.Formula != "" {
			usual.Name = RuleName(in)
		}
		p.Set(p.Row, inSI, xlsx.Cell{Value: in.SI(j), Formula: u.ToSICell("In_" + in.CellName()), Style: sheet.Number("0.######"), Name: "Si_" + in.CellName()})
		p.Set(p.Row, inSIUnit, xlsx.Cell{Value: in.Kind.Unit(units.SI).Symbol, Style: sheet.Quiet})
	default:
		value.Value = textOrNil(in.Words(j))
		value.Style.NumFmt, value.Style.Shrink = "@", true
		if onCover(in) {
			layCover(c, p, in, value)
			return
		}
		usual.Value, usual.Style.NumFmt = textOrNil(in.Default), "@"
		if in.Rule != nil && in.Rule.Word != nil {
			usual.Value, usual.Name = textOrNil(in.Rule.Word(j)), RuleName(in)
		}
	}
	driven := ""
	if c.Stated.States(in.Key) {
		driven = optionFormula(c, in)
		value.Formula = driven
	}
	p.Set(p.Row, inLabel, xlsx.Cell{Value: in.Label, Style: sheet.Label})
	p.Set(p.Row, inValue, value)
	p.Set(p.Row, inUnit, xlsx.Cell{Value: u.Symbol, Style: sheet.Symbol})
	p.Set(p.Row, inDefault, usual)
	p.Set(p.Row, inRange, xlsx.Cell{Value: in.Range(c.Units), Style: xlsx.Style{Size: look.Small, Color: look.Quiet, HAlign: xlsx.Left, Indent: 1, VAlign: xlsx.Middle, Border: xlsx.Under(xlsx.Hair, look.Rule)}})
	if !c.ValuesOnly {
		if in.Key != "site.name" { // it is on the cover: no figure follows from it
			layWritten(p, in, value, driven)
		}
		validate(c, p, in, u)
	}
	p.Set(p.Row, inWhy, xlsx.Cell{Value: why(in), Style: xlsx.Style{Size: look.Small, Color: look.Quiet, Wrap: true, VAlign: xlsx.Middle, Border: xlsx.Under(xlsx.Hair, look.Rule)}})
	p.Height(p.Row, 13*float64(1+len([]rune(why(in)))/whyChars)+4)
	p.Row++
}

// onCover tells the texts of the proposal's cover. They change no figure, so
// nothing says so when they are changed.
func onCover(in job.Input) bool { return in.Section() == "proposal" }

// layCover writes the line of a text of the cover: wide and as high as it may
// become, for there is no unit, default or range beside it.
func layCover(c *figures.Case, p *sheet.Page, in job.Input, value xlsx.Cell) {
	value.Style.Shrink, value.Style.Wrap, value.Style.HAlign = false, true, xlsx.Left
	p.Set(p.Row, inLabel, xlsx.Cell{Value: in.Label, Style: sheet.Label})
	p.Across(p.Row, inValue, inRange, value)
	p.Set(p.Row, inWhy, xlsx.Cell{Value: why(in), Style: xlsx.Style{Size: look.Small, Color: look.Quiet, Wrap: true, VAlign: xlsx.Middle, Border: xlsx.Under(xlsx.Hair, look.Rule)}})
	if !c.ValuesOnly {
		validate(c, p, in, units.Unit{})
	}
	p.Height(p.Row, 15*float64(1+max(Room(c, in), len([]rune(in.Words(c.Season.Job))))/coverChars)+3)
	p.Row++
}

// coverChars is how many characters surely fit across a cell of the cover.
const coverChars = 55

// layWritten keeps the value as written beside the input and flags a change.
// An input left to its rule follows other inputs without being changed itself.
func layWritten(p *sheet.Page, in job.Input, value xlsx.Cell, driven string) {
	now, then, ruled := xlsx.CellRef(p.Row, inValue), xlsx.CellRef(p.Row, inWritten), xlsx.CellRef(p.Row, inDefault)
	equal := func(a, b string) string { return "ABS(" + a + "-" + b + ")<=1E-9*ABS(" + b + ")" }
	same, otherwise := now+"="+then, `"changed"`
	switch {
	case driven != "" && !in.Numeric():
		otherwise = "IF(" + now + "=" + driven + `,"follows","changed")`
	case driven != "":
		same, otherwise = equal(now, then), "IF("+equal(now, driven)+`,"follows","changed")`
	case value.Value == nil:
		same = "ISBLANK(" + now + ")"
	case value.Formula != "":
		same, otherwise = equal(now, then), "IF("+equal(now, ruled)+`,"follows","changed")`
	case in.Numeric():
		same = equal(now, then)
	}
	if value.Value != nil {
		p.Set(p.Row, inWritten, xlsx.Cell{Value: value.Value, Style: sheet.Number(value.Style.NumFmt)})
	}
	p.Set(p.Row, inChanged, xlsx.Cell{Value: "", Formula: "IF(" + same + `,"",` + otherwise + ")", Style: sheet.Quiet})
}

// RuleName is the defined name of the cell with what follows for an input that
// is not stated. An input cell that holds this name as its formula is left to
// its rule.
func RuleName(in job.Input) string { return "Rule_" + in.CellName() }

// InputFormat shows an input with the digits people type: shares as plain
// numbers, because programs differ in what 0.85 typed over a percentage means.
func InputFormat(in job.Input, u units.Unit) string {
	if in.Kind == units.Share {
		return "0.00##"
	}
	if in.Whole {
		return "0"
	}
	return u.Format
}

// standard is the default of a numeric input as people see it: a value, or the
// rule as a formula.
func standard(c *figures.Case, in job.Input, u units.Unit) (any, string) {
	j := c.Season.Job
	switch {
	case in.Key == "ac.capacity":
		return u.FromSI(refrigeration.Size(c.Season.NeededRating())), u.FromSICell("(" + fx.Size + ")")
	case in.Key == "site.altitude":
		return u.FromSI(c.Ground()), u.FromSICell(in.Rule.Cell)
	case in.Rule != nil && in.Rule.Cell != "":
		return u.FromSI(in.Rule.Value(j)), u.FromSICell("(" + in.Rule.Cell + ")")
	case in.Rule != nil:
		return nil, ""
	}
	v, err := units.Parse(in.Kind, in.Default)
	if err != nil {
		panic("workbook: default of " + in.Key + ": " + err.Error())
	}
	return u.FromSI(v), ""
}

func why(in job.Input) string {
	text := in.Why
	if in.Rule != nil {
		text = in.Rule.Text + " (" + in.Why + ")"
	}
	if in.Help != "" {
		text += ". " + in.Help
	}
	return text
}

func textOrNil(s string) any {
	if s == "" {
		return nil
	}
	return s
}

// validate refuses nonsense in an input cell, with a message.
func validate(c *figures.Case, p *sheet.Page, in job.Input, u units.Unit) {
	v := xlsx.Validation{Range: xlsx.CellRef(p.Row, inValue), ErrorTitle: "Not possible here", PromptTitle: ""}
	switch {
	case len(in.Choices) > 0:
		v.List = in.Choices
		v.Error = "Choose one of the list."
	case in.Numeric():
		limits := &xlsx.Limits{Min: roundOut(u.FromSI(in.Min), -1), Max: roundOut(u.FromSI(in.Max), 1)}
		v.Error = "Allowed: " + in.Range(c.Units) + "."
		if in.Whole {
			v.Whole = limits
		} else {
			v.Decimal = limits
		}
	case Room(c, in) > 0:
		v.TextUpTo, v.Blank = Room(c, in), true
		v.Error = fmt.Sprintf("The first page has room for %d characters here. State longer texts with --set or in a job file: the page is then made for them.", v.TextUpTo)
	default:
		return
	}
	p.Validations = append(p.Validations, v)
}

// roundOut moves a limit away from the allowed range by rounding error only.
func roundOut(v float64, towards int) float64 {
	return v + float64(towards)*1e-9*math.Max(1, math.Abs(v))
}
