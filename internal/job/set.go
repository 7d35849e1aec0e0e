package job

import (
	"fmt"
	"maps"
	"math"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/evapbook/evapbook/internal/hint"
	"github.com/evapbook/evapbook/internal/units"
)

// New is a job with the declared defaults and nothing stated. Values with a
// rule are still to be derived: zero, and NaN for the altitude, until Resolve.
func New() *Job {
	j := &Job{stated: map[string]bool{}}
	j.Site.Altitude = math.NaN()
	for _, in := range inputs {
		if in.Default == "" {
			continue
		}
		if err := in.assign(j, in.Default); err != nil {
			panic(fmt.Sprintf("job: default of %s: %v", in.Key, err))
		}
	}
	return j
}

// Clone is a copy that shares nothing with j.
func (j *Job) Clone() *Job {
	c := *j
	c.stated = maps.Clone(j.stated)
	return &c
}

// Stated tells whether the user set the key, as against a default or rule.
func (j *Job) Stated(key string) bool { return j.stated[key] }

// Unstate takes the statement of a key back; Resolve then finds its value anew.
func (j *Job) Unstate(key string) { delete(j.stated, key) }

// Set states an input from text such as "78 F". Errors begin with the key and
// end in a hint; the job is then unchanged.
func (j *Job) Set(key, value string) error {
	in, ok := Find(key)
	if !ok {
		return unknownKey(key)
	}
	if err := in.assign(j, value); err != nil {
		return fmt.Errorf("%s: %w", key, err)
	}
	j.state(key)
	return nil
}

// SetSI states a numeric input by its value in SI.
func (j *Job) SetSI(key string, v float64) error {
	in, ok := Find(key)
	if !ok {
		return unknownKey(key)
	}
	if in.number == nil {
		return fmt.Errorf("%s: a %s, not a number", key, in.Kind)
	}
	if err := in.check(v, in.Kind.Text(v, units.SI)); err != nil {
		return fmt.Errorf("%s: %w", key, err)
	}
	*in.number(j) = v
	j.state(key)
	return nil
}

func (j *Job) state(key string) {
	if j.stated == nil {
		j.stated = map[string]bool{}
	}
	j.stated[key] = true
}

// Get is the value of a key as a person would state it in a unit system:
// empty for an unknown key and for a value still to be derived.
func (j *Job) Get(key string, sys units.System) string {
	in, ok := Find(key)
	if !ok {
		return ""
	}
	return in.Text(j, sys)
}

// assign reads value into the field of the input.
func (in Input) assign(j *Job, value string) error {
	switch in.Kind {
	case units.Text:
		return in.assignText(j, value)
	case units.Choice:
		return in.assignChoice(j, value)
	}
	v, err := units.Parse(in.Kind, value)
	if err != nil {
		return err
	}
	if err := in.check(v, strings.TrimSpace(value)); err != nil {
		return err
	}
	*in.number(j) = v
	return nil
}

// longestText is the longest text taken, in characters: it must fit a
// spreadsheet cell and a printed page.
const longestText = 1000

func (in Input) assignText(j *Job, value string) error {
	value = strings.TrimSpace(value)
	if !utf8.ValidString(value) || strings.ContainsFunc(value, unicode.IsControl) {
		return hint.With(fmt.Errorf("%q holds line breaks or control characters", value), "write it on one line")
	}
	if n := utf8.RuneCountInString(value); n > longestText {
		return hint.With(fmt.Errorf("%d characters are too many", n), "%d is the limit", longestText)
	}
	in.word(j).set(value)
	return nil
}

func (in Input) assignChoice(j *Job, value string) error {
	v := strings.ToLower(strings.TrimSpace(value))
	if len(in.Choices) == 2 && in.Choices[0] == "yes" {
		v = asYesNo(v)
	}
	for _, c := range in.Choices {
		if v == c {
			in.word(j).set(c)
			return nil
		}
	}
	return hint.With(fmt.Errorf("%q is not a choice", value), "write %s", oneOf(in.Choices))
}

func asYesNo(v string) string {
	switch v {
	case "true":
		return "yes"
	case "false":
		return "no"
	}
	return v
}

// oneOf joins words as "a, b or c".
func oneOf(words []string) string {
	last := len(words) - 1
	return strings.Join(words[:last], ", ") + " or " + words[last]
}

// edge is how far, relative to a limit, a value may pass it: a limit stated in
// other units and converted must not fail by rounding.
const edge = 1e-9

// check tells whether v in SI lies in the allowed range; shown is the value as
// the user wrote it.
func (in Input) check(v float64, shown string) error {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return fmt.Errorf("%s is not a finite number", shown)
	}
	if v < in.Min-edge*math.Abs(in.Min) || v > in.Max+edge*math.Abs(in.Max) {
		return in.outside(shown)
	}
	if in.Whole && v != math.Trunc(v) {
		return fmt.Errorf("%s is not a whole %s", shown, in.Kind)
	}
	return nil
}

func (in Input) outside(shown string) error {
	si, ip := in.Range(units.SI), in.Range(units.IP)
	if in.Kind == units.Share {
		return hint.With(fmt.Errorf("%s is outside %s", shown, si), "a share is written as 0.8 or 80 %%")
	}
	if si != ip {
		si += " (" + ip + ")"
	}
	return fmt.Errorf("%s is outside the allowed %s", shown, si)
}
