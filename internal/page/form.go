package page

import (
	"strings"

	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/reading"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/version"
	"github.com/evapbook/evapbook/internal/weather"
)

// Start is what the page needs before anything is asked: the form, made of the
// declared inputs, and the words that stand whatever is entered.
type Start struct {
	Version  string        `json:"version"`
	Sections []FormSection `json:"sections"`
	Presets  []Preset      `json:"presets"`
	Pads     []Choice      `json:"pads"`      // kinds of pad for a reading
	Cautions []string      `json:"cautions"`  // of anybody at a cooler
	Personal []string      `json:"personal"`  // keys that never go into a link
	MaxBytes int           `json:"max_bytes"` // of a weather file
}

// FormSection is a group of inputs.
type FormSection struct {
	Name   string  `json:"name"`
	Title  string  `json:"title"`
	Inputs []Field `json:"inputs"`
}

// Field is one input of the form.
type Field struct {
	Key     string            `json:"key"`
	Label   string            `json:"label"`
	Kind    string            `json:"kind"` // number, text or choice
	Choices []string          `json:"choices,omitempty"`
	Help    string            `json:"help,omitempty"`
	Why     string            `json:"why"`
	Unit    map[string]string `json:"unit,omitempty"`  // by unit system
	Range   map[string]string `json:"range,omitempty"` // by unit system
	Usual   map[string]string `json:"usual"`           // default, or the rule in words, by unit system
}

// Choice is one entry of a list to choose from.
type Choice struct {
	Value string `json:"value"`
	Label string `json:"label"`
}

// Preset is a word that stands for the value of one input.
type Preset struct {
	Key     string   `json:"key"`
	Label   string   `json:"label"`
	Choices []Choice `json:"choices"` // value as it is to be stated
}

// houses are how well houses keep the heat out; see the help of the input.
var houses = Preset{"house.heat_loss", "How well the house keeps heat out", []Choice{
	{"2.5 W/m²K", "loose: little insulation, leaky"}, {"1.8 W/m²K", "usual"}, {"1.2 W/m²K", "tight: well insulated"},
}}

// pads stand for the effectiveness usual for them in good order.
func pads() Preset {
	p := Preset{Key: "cooler.effectiveness", Label: "Pads"}
	for _, b := range reading.Bands {
		p.Choices = append(p.Choices, Choice{units.Plain.Text(b.Typical, units.SI), b.Name})
	}
	return p
}

// leftOut are inputs that are no fields of the form: a logo is a path on a disk,
// the place is chosen with its weather.
var leftOut = map[string]bool{"proposal.logo": true, "site.place": true}

func start() Start {
	s := Start{Version: version.Text(), Cautions: reading.Cautions, Presets: []Preset{houses, pads()}, MaxBytes: weather.MaxBytes}
	for _, sec := range job.Sections {
		f := FormSection{Name: sec.Name, Title: sec.Title}
		for _, in := range job.Inputs() {
			if in.Section() != sec.Name || leftOut[in.Key] {
				continue
			}
			f.Inputs = append(f.Inputs, field(in))
			if personal(in.Key) {
				s.Personal = append(s.Personal, in.Key)
			}
		}
		s.Sections = append(s.Sections, f)
	}
	for _, b := range reading.Bands {
		s.Pads = append(s.Pads, Choice{string(b.Pads), b.Name})
	}
	return s
}

// personal tells whether an input names people or an address.
func personal(key string) bool {
	return strings.HasPrefix(key, "proposal.") || key == "site.name"
}

func field(in job.Input) Field {
	f := Field{Key: in.Key, Label: in.Label, Kind: "text", Choices: in.Choices, Help: in.Help, Why: in.Why, Usual: map[string]string{}}
	switch {
	case in.Kind == units.Choice:
		f.Kind = "choice"
	case in.Numeric():
		f.Kind, f.Unit, f.Range = "number", map[string]string{}, map[string]string{}
	}
	for _, sys := range units.Systems {
		f.Usual[sys.String()] = usual(in, sys)
		if in.Numeric() {
			f.Unit[sys.String()] = in.Kind.Unit(sys).Symbol
			f.Range[sys.String()] = in.Range(sys)
		}
	}
	return f
}

// usual is the default as the field shows it, or the rule it follows in words.
func usual(in job.Input, sys units.System) string {
	if in.Rule != nil || !in.Numeric() || in.Default == "" {
		return in.DefaultText(sys)
	}
	return strings.TrimSpace(in.Kind.Number(in.SI(job.New()), sys) + " " + in.Kind.Unit(sys).Symbol)
}

// stated makes a job of what was entered, each value with its unit. Everything
// that is wrong is reported.
func stated(inputs map[string]string) (*job.Job, []Problem) {
	j := job.New()
	problems := []Problem{}
	for _, in := range job.Inputs() { // in a fixed order
		text, ok := inputs[in.Key]
		if !ok || leftOut[in.Key] || strings.TrimSpace(text) == "" {
			continue
		}
		if err := j.Set(in.Key, text); err != nil {
			p := problem(in.Key, err)
			p.Text = strings.TrimPrefix(p.Text, in.Key+": ")
			problems = append(problems, p)
		}
	}
	for key := range inputs {
		if _, ok := job.Find(key); !ok {
			problems = append(problems, problem(key, job.New().Set(key, "")))
		}
	}
	return j, problems
}

// Shown is the value of an input as the form shows it.
type Shown struct {
	Text   string `json:"text"` // empty where it is not known yet
	Stated bool   `json:"stated"`
}

// shown are the values of all inputs in a unit system: as stated, by default, or
// as they follow from others.
func shown(entered, resolved *job.Job, sys units.System) map[string]Shown {
	all := map[string]Shown{}
	for _, in := range job.Inputs() {
		if leftOut[in.Key] {
			continue
		}
		s := Shown{Text: in.Words(resolved), Stated: entered.Stated(in.Key)}
		if in.Numeric() && !in.Pending(resolved) {
			s.Text = in.Kind.Number(in.SI(resolved), sys)
		}
		all[in.Key] = s
	}
	return all
}
