package readback

import (
	"fmt"
	"strings"

	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/workbook/given"
	"github.com/evapbook/evapbook/internal/xlsx"
)

// driven tells whether an input's cell takes its value from the option shown.
// Somebody who typed over it stated the input for all options that do not.
func (r *reader) driven(in job.Input, c xlsx.Found) bool {
	return r.HasName(given.OptionValue(0, in)) && (r.values || strings.Contains(c.Formula, given.OptionValue(0, in)))
}

// options reads the options of the job and which of them the workbook shows.
func (r *reader) options() error {
	if !r.HasName(given.ShownOption) {
		return nil
	}
	for k := 1; k <= job.MostOptions && r.HasName(given.OptionName(k)); k++ {
		o := job.Option{Name: r.text(given.OptionName(k))}
		for _, in := range job.Inputs() {
			name := given.OptionValue(k, in)
			if !r.HasName(name) {
				continue
			}
			c, err := r.Cell(name)
			if err != nil {
				return err
			}
			if value := r.optionSetting(in, c); value != "" {
				o.Settings = append(o.Settings, job.Setting{Key: in.Key, Value: value})
			}
		}
		if err := r.book.Job.AddOption(o); err != nil {
			return err
		}
	}
	if err := r.book.Job.Show(r.text(given.ShownOption)); err != nil {
		return fmt.Errorf("%s: %w", given.ShownOption, err)
	}
	return nil
}

// optionSetting is what an option states for an input, empty where it has that
// of the job as entered.
func (r *reader) optionSetting(in job.Input, c xlsx.Found) string {
	entered, err := r.Cell(given.OptionValue(0, in))
	switch {
	case c.Formula != "" || r.values && err == nil && c.Value == entered.Value:
		return ""
	case c.Value == nil:
		return ""
	}
	if v, ok := c.Value.(float64); ok && in.Numeric() {
		text, _ := r.round(in, v)
		return text
	}
	return strings.TrimSpace(fmt.Sprint(c.Value))
}
