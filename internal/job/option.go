package job

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/evapbook/evapbook/internal/hint"
)

// MostOptions is how many options stand side by side on one page.
const MostOptions = 4

// Option is a named alternative to be set beside others: the job with some of
// its inputs stated otherwise.
type Option struct {
	Name     string
	Settings []Setting
}

// Setting states one input of an option, as Set takes it.
type Setting struct{ Key, Value string }

// longestName is the longest name of an option, in characters: it heads a
// column.
const longestName = 30

// Options are the alternatives a job lists, in order.
func (j *Job) Options() []Option { return slices.Clone(j.options) }

// AddOption adds an alternative. All that is wrong with it is reported at
// once; the job is then unchanged.
func (j *Job) AddOption(o Option) error {
	o.Name = strings.TrimSpace(o.Name)
	if err := j.optionName(o.Name); err != nil {
		return err
	}
	if len(o.Settings) == 0 {
		return hint.With(fmt.Errorf("option %q states no input", o.Name), "write for example cooler.kind=two-stage")
	}
	var errs []error
	seen := map[string]bool{}
	for _, s := range o.Settings {
		if seen[s.Key] {
			errs = append(errs, fmt.Errorf("option %q: %s is stated twice", o.Name, s.Key))
		}
		seen[s.Key] = true
		if err := j.optionSetting(s); err != nil {
			errs = append(errs, fmt.Errorf("option %q: %w", o.Name, err))
		}
	}
	if len(errs) > 0 {
		return errors.Join(errs...)
	}
	o.Settings = slices.Clone(o.Settings)
	j.options = append(slices.Clip(j.options), o)
	return nil
}

func (j *Job) optionName(name string) error {
	switch {
	case name == "":
		return hint.With(errors.New("an option has no name"), "give it a name of a few words, such as \"Two-stage\"")
	case strings.EqualFold(name, AsEntered):
		return fmt.Errorf("%q is the job itself, and no name for an option", name)
	case len([]rune(name)) > longestName:
		return hint.With(fmt.Errorf("the name of the option %q is too long to head a column", name), "use at most %d characters", longestName)
	case len(j.options) == MostOptions:
		return hint.With(fmt.Errorf("option %q is one more than the %d that fit on a page", name, MostOptions), "leave one out, or write a second workbook")
	}
	for _, o := range j.options {
		if strings.EqualFold(o.Name, name) {
			return fmt.Errorf("two options are called %q", name)
		}
	}
	return nil
}

// optionSetting tells whether an option may state an input so. Where the house
// stands and for whom the page is are the same for all options.
func (j *Job) optionSetting(s Setting) error {
	in, ok := Find(s.Key)
	if !ok {
		return unknownKey(s.Key)
	}
	if section := in.Section(); section == "site" || section == "proposal" {
		return hint.With(fmt.Errorf("%s is the same for all options", s.Key), "write another workbook for another site")
	}
	if err := in.assign(New(), s.Value); err != nil {
		return fmt.Errorf("%s: %w", s.Key, err)
	}
	return nil
}

// With is a copy of the job with an option's inputs stated, and without
// options of its own.
func (j *Job) With(o Option) (*Job, error) {
	c := j.Clone()
	c.options, c.shown, c.base = nil, 0, nil
	for _, s := range o.Settings {
		if err := c.Set(s.Key, s.Value); err != nil {
			return nil, fmt.Errorf("option %q: %w", o.Name, err)
		}
	}
	return c, nil
}

// AsEntered is the name of the job itself beside its options.
const AsEntered = "As entered"

// Show chooses the option that a book shows in full, by its name; AsEntered is
// the job itself.
func (j *Job) Show(name string) error {
	if name == AsEntered {
		j.shown = 0
		return nil
	}
	for i, o := range j.options {
		if strings.EqualFold(o.Name, name) {
			j.shown = i + 1
			return nil
		}
	}
	if len(j.options) == 0 {
		return hint.With(fmt.Errorf("no option is called %q: there are none", name), "add it with --option or [[option]] in a job file")
	}
	names := []string{AsEntered}
	for _, o := range j.options {
		names = append(names, o.Name)
	}
	return hint.With(fmt.Errorf("no option is called %q", name), "the options are %s", strings.Join(names, "; "))
}

// Shown is the option that a book shows, counted from 1; 0 is the job itself.
func (j *Job) Shown() int { return j.shown }

// Live is the job with the inputs of the option to be shown stated; it keeps
// the options and, as Base, the job without them.
func (j *Job) Live() (*Job, error) {
	if j.shown == 0 {
		return j, nil
	}
	c, err := j.With(j.options[j.shown-1])
	if err != nil {
		return nil, err
	}
	c.options, c.shown, c.base = j.options, j.shown, j
	return c, nil
}

// Base is the job without the inputs of the option shown.
func (j *Job) Base() *Job {
	if j.base != nil {
		return j.base
	}
	return j
}

// States tells whether any option states an input.
func (j *Job) States(key string) bool {
	for _, o := range j.options {
		if o.States(key) {
			return true
		}
	}
	return false
}

// States tells whether the option states an input.
func (o Option) States(key string) bool {
	return slices.ContainsFunc(o.Settings, func(s Setting) bool { return s.Key == key })
}

// ParseOption reads an option written on one line, as
// "Two-stage: cooler.kind=two-stage, price.cooler_installed=5200". A comma
// that is not followed by another key belongs to the value.
func ParseOption(text string) (Option, error) {
	name, rest, ok := strings.Cut(text, ":")
	if !ok {
		return Option{}, hint.With(fmt.Errorf("option %q has no name", text), "write it as \"Two-stage: cooler.kind=two-stage, cooler.airflow=5000cfm\"")
	}
	o := Option{Name: strings.TrimSpace(name)}
	for _, part := range strings.Split(rest, ",") {
		key, value, isPair := strings.Cut(part, "=")
		n := len(o.Settings)
		switch {
		case isPair:
			o.Settings = append(o.Settings, Setting{strings.TrimSpace(key), strings.TrimSpace(value)})
		case n > 0:
			o.Settings[n-1].Value += "," + strings.TrimRight(part, " ")
		case strings.TrimSpace(part) != "":
			return Option{}, hint.With(fmt.Errorf("option %q: %q has no = between key and value", o.Name, strings.TrimSpace(part)), "write cooler.kind=two-stage")
		}
	}
	return o, nil
}
