package xlsx

import (
	"fmt"
	"math"
	"strings"
)

// checkValidation looks at one validation; the texts it will need are translated
// again when it is written.
func (p *plan) checkValidation(s *sheetPlan, v *Validation) error {
	if _, ok := parseBoxes(v.Range); !ok {
		return fmt.Errorf("not a range")
	}
	given := 0
	for _, on := range []bool{v.List != nil, v.From != "", v.Decimal != nil, v.Whole != nil, v.TextUpTo != 0, v.Formula != ""} {
		if on {
			given++
		}
	}
	if given > 1 {
		return fmt.Errorf("%d rules at once", given)
	}
	if utf16Len(v.ErrorTitle) > 32 || utf16Len(v.PromptTitle) > 32 || utf16Len(v.Error) > 255 || utf16Len(v.Prompt) > 255 {
		return fmt.Errorf("a title is longer than 32 or a text longer than 255 characters")
	}
	for _, item := range v.List {
		if item == "" || strings.ContainsAny(item, ",\"\n") || strings.TrimSpace(item) != item || strings.HasPrefix(item, "=") {
			return fmt.Errorf("choice %q is empty, padded, begins with '=' or has a comma, quote or line break; put the choices into cells and use From", item)
		}
	}
	if v.List != nil && (len(v.List) == 0 || utf16Len(strings.Join(v.List, ",")) > 255) {
		return fmt.Errorf("the choices are none, or longer than 255 characters together; put them into cells and use From")
	}
	for _, l := range []*Limits{v.Decimal, v.Whole} {
		if l != nil && (!(l.Min <= l.Max) || math.IsInf(l.Min, -1) && math.IsInf(l.Max, 1)) {
			return fmt.Errorf("limits from %g to %g", l.Min, l.Max)
		}
	}
	for _, f := range []string{v.From, v.Formula} {
		if f != "" {
			if t, err := p.translate(f, scope{sheet: s.Sheet}); err != nil {
				return fmt.Errorf("%q %w", f, err)
			} else if utf16Len(t) > 255 {
				return fmt.Errorf("the formula is longer than 255 characters")
			}
		}
	}
	return nil
}

func (p *plan) checkCondFormat(s *sheetPlan, c *CondFormat) error {
	if _, ok := parseBoxes(c.Range); !ok {
		return fmt.Errorf("not a range")
	}
	given := 0
	for _, on := range []bool{c.Scale != nil, c.Is != nil, c.When != ""} {
		if on {
			given++
		}
	}
	if given != 1 {
		return fmt.Errorf("%d rules; give exactly one of Scale, Is and When", given)
	}
	if c.Scale != nil && len(c.Scale) != 2 && len(c.Scale) != 3 {
		return fmt.Errorf("a scale has two or three stops, not %d", len(c.Scale))
	}
	for _, stop := range c.Scale {
		if stop.Kind == "" || !colourPattern.MatchString(stop.Color) {
			return fmt.Errorf("a stop needs a kind and a colour RRGGBB, not %q", stop.Color)
		}
	}
	formulas := []string{c.When}
	if c.Is != nil {
		if !comparisons[c.Is.Op] {
			return fmt.Errorf("comparison %q is not one of = <> < <= > >= between", c.Is.Op)
		}
		formulas = []string{c.Is.Value}
		if c.Is.Op == "between" {
			formulas = append(formulas, c.Is.Value2)
		}
	}
	for _, f := range formulas {
		if f == "" && c.Scale != nil {
			continue
		}
		if _, err := p.translate(f, scope{sheet: s.Sheet}); err != nil {
			return fmt.Errorf("%q %w", f, err)
		}
	}
	return c.Style.check()
}

var comparisons = map[string]bool{"=": true, "<>": true, "<": true, "<=": true, ">": true, ">=": true, "between": true}
