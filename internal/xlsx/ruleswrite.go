package xlsx

import (
	"math"
	"strconv"
	"strings"

	"github.com/xuri/excelize/v2"
)

func (b *builder) validations(s *sheetPlan) error {
	for i := range s.Validations {
		v := &s.Validations[i]
		dv := excelize.NewDataValidation(v.Blank)
		dv.Sqref = strings.Join(strings.Fields(v.Range), " ")
		if err := b.rule(dv, s, v); err != nil {
			return err
		}
		messages(dv, v)
		if err := b.file.AddDataValidation(s.Name, dv); err != nil {
			return err
		}
	}
	return nil
}

// messages sets what is there; the library's own calls write empty ones too.
func messages(dv *excelize.DataValidation, v *Validation) {
	given := func(s string) *string {
		if s == "" {
			return nil
		}
		return &s
	}
	style := "stop"
	if v.Warn {
		style = "warning"
	}
	if dv.Type != "" {
		dv.ShowErrorMessage, dv.ErrorStyle = true, &style
		dv.ErrorTitle, dv.Error = given(v.ErrorTitle), given(v.Error)
	}
	dv.PromptTitle, dv.Prompt = given(v.PromptTitle), given(v.Prompt)
	dv.ShowInputMessage = dv.PromptTitle != nil || dv.Prompt != nil
}

// rule sets the type and formulas of a validation. The library writes formulas
// as they come, so they are escaped here.
func (b *builder) rule(dv *excelize.DataValidation, s *sheetPlan, v *Validation) error {
	formula := func(kind, src string) error {
		f, err := b.translate(src, scope{sheet: s.Sheet})
		dv.Type, dv.Formula1 = kind, string(appendEscaped(nil, f))
		return err
	}
	switch {
	case v.List != nil:
		dv.Type, dv.Formula1 = "list", `"`+string(appendEscaped(nil, strings.Join(v.List, ",")))+`"`
	case v.From != "":
		return formula("list", v.From)
	case v.Formula != "":
		return formula("custom", v.Formula)
	case v.Decimal != nil:
		dv.Type = "decimal"
		limits(dv, v.Decimal)
	case v.Whole != nil:
		dv.Type = "whole"
		limits(dv, v.Whole)
	case v.TextUpTo != 0:
		dv.Type = "textLength"
		limits(dv, &Limits{Max: float64(v.TextUpTo)})
	}
	return nil
}

func limits(dv *excelize.DataValidation, l *Limits) {
	low, high := plain(l.Min), plain(l.Max)
	switch {
	case math.IsInf(l.Max, 1):
		dv.Operator, dv.Formula1 = "greaterThanOrEqual", low
	case math.IsInf(l.Min, -1):
		dv.Operator, dv.Formula1 = "lessThanOrEqual", high
	default:
		dv.Operator, dv.Formula1, dv.Formula2 = "between", low, high
	}
}

// plain is the shortest text of a number.
func plain(v float64) string { return strconv.FormatFloat(v, 'g', -1, 64) }

func (b *builder) conditionals(s *sheetPlan) error {
	for i := range s.Conditional {
		c := &s.Conditional[i]
		o, err := b.conditional(s, c)
		if err != nil {
			return err
		}
		ref := strings.Join(strings.Fields(c.Range), " ")
		if err := b.file.SetConditionalFormat(s.Name, ref, []excelize.ConditionalFormatOptions{o}); err != nil {
			return err
		}
	}
	return nil
}

func (b *builder) conditional(s *sheetPlan, c *CondFormat) (o excelize.ConditionalFormatOptions, err error) {
	if c.Scale != nil {
		return scale(c.Scale), nil
	}
	id, err := b.file.NewConditionalStyle(c.Style.excelize(b.book, true))
	if err != nil {
		return o, err
	}
	o.Format = &id
	text := func(src string) string {
		f, e := b.translate(src, scope{sheet: s.Sheet})
		if err == nil {
			err = e
		}
		return f
	}
	if c.When != "" {
		o.Type, o.Criteria = "formula", text(c.When)
		return o, err
	}
	o.Type, o.Criteria = "cell", c.Is.Op
	if c.Is.Op == "between" {
		o.MinValue, o.MaxValue = text(c.Is.Value), text(c.Is.Value2)
	} else {
		o.Value = text(c.Is.Value)
	}
	return o, err
}

func scale(stops []Stop) excelize.ConditionalFormatOptions {
	low, high := stops[0], stops[len(stops)-1]
	o := excelize.ConditionalFormatOptions{
		Type: "2_color_scale", Criteria: "=",
		MinType: string(low.Kind), MinValue: plain(low.Value), MinColor: low.Color,
		MaxType: string(high.Kind), MaxValue: plain(high.Value), MaxColor: high.Color,
	}
	if len(stops) == 3 {
		mid := stops[1]
		o.Type, o.MidType, o.MidValue, o.MidColor = "3_color_scale", string(mid.Kind), plain(mid.Value), mid.Color
	}
	return o
}
