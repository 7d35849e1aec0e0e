package ranking

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"unicode"

	"github.com/evapbook/evapbook/internal/hint"
	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/units"
)

// Axis is one varied input with the values it takes.
type Axis struct {
	Key    string  `json:"key"` // of the job, "cooler.effectiveness"
	Values []Value `json:"values"`
}

// Value is one value of a varied input.
type Value struct {
	SI   float64 `json:"si,omitempty"`   // of a number
	Word string  `json:"word,omitempty"` // of a text or choice
}

// maxCombinations bounds what one run may ask of each site.
const maxCombinations = 10_000

// ParseAxis reads "key=from:to:step" or "key=a,b,c". Each number has its unit
// as in a job file; the end is included where the steps reach it.
func ParseAxis(text string) (Axis, error) {
	key, list, ok := strings.Cut(text, "=")
	key = strings.TrimSpace(key)
	if !ok {
		return Axis{}, hint.With(fmt.Errorf("%s: no = between key and values", text), "write cooler.effectiveness=0.6:0.95:0.05 or cooler.airflow=3000cfm,4500cfm")
	}
	in, err := variable(key)
	if err != nil {
		return Axis{}, err
	}
	a := Axis{Key: key}
	switch parts := strings.Split(list, ":"); {
	case in.Numeric() && len(parts) == 3:
		a.Values, err = steps(in, parts)
	case in.Numeric() && len(parts) > 1:
		err = fmt.Errorf("%s is not from:to:step", list)
	default:
		for _, word := range strings.Split(list, ",") {
			v, e := value(in, strings.TrimSpace(word))
			if err = e; err != nil {
				break
			}
			a.Values = append(a.Values, v)
		}
	}
	if err != nil {
		return Axis{}, fmt.Errorf("%s: %w", key, err)
	}
	return a, nil
}

// check tells whether ParseAxis could have given the axis.
func (a Axis) check() error {
	in, err := variable(a.Key)
	if err != nil {
		return err
	}
	if n := len(a.Values); n < 1 || n > maxCombinations {
		return fmt.Errorf("%s: %d values", a.Key, n)
	}
	for _, v := range a.Values {
		if in.Numeric() != (v.Word == "") {
			return fmt.Errorf("%s: a number for a word, or a word for a number", a.Key)
		}
	}
	return nil
}

// variable is the input of a key that may be varied.
func variable(key string) (job.Input, error) {
	if key == "cooler.kind" {
		return job.Input{}, hint.With(errors.New("cooler.kind: all kinds are run in any case"), "leave it out and look at the column kind")
	}
	in, ok := job.Find(key)
	if ok && shownOnly(key) {
		return in, hint.With(fmt.Errorf("%s: no figure of a row depends on it", key), "vary an input of the house, the cooler, the prices or site.altitude")
	}
	if !ok {
		return in, job.New().Set(key, "") // says so, with the nearest key
	}
	return in, nil
}

// shownOnly are the inputs that each weather file brings along or that only pages show.
func shownOnly(key string) bool {
	return key == "site.name" || key == "site.place" || key == "price.currency" || strings.HasPrefix(key, "proposal.")
}

func value(in job.Input, text string) (Value, error) {
	if !in.Numeric() {
		j := job.New()
		if err := j.Set(in.Key, text); err != nil {
			return Value{}, trimKey(in.Key, err)
		}
		return Value{Word: in.Words(j)}, nil
	}
	v, err := units.Parse(in.Kind, text)
	if err != nil {
		return Value{}, err
	}
	return Value{SI: v}, trimKey(in.Key, job.New().SetSI(in.Key, v))
}

// trimKey takes off the key that errors of package job begin with.
func trimKey(key string, err error) error {
	if inner := errors.Unwrap(err); inner != nil && err.Error() == key+": "+inner.Error() {
		return inner
	}
	return err
}

func steps(in job.Input, parts []string) ([]Value, error) {
	from, err := units.Parse(in.Kind, parts[0])
	if err != nil {
		return nil, err
	}
	to, err := units.Parse(in.Kind, parts[1])
	if err != nil {
		return nil, err
	}
	kind := in.Kind
	if kind == units.Temperature {
		kind = units.TemperatureDifference
	}
	step, err := units.Parse(kind, parts[2])
	if err != nil {
		return nil, fmt.Errorf("step: %w", err)
	}
	const slack = 1e-9 // of a step, for ends that decimal fractions miss
	n := math.Floor((to-from)/step + slack)
	if !(step != 0 && n >= 0 && n < maxCombinations) {
		return nil, fmt.Errorf("%s does not lead from %s to %s in 1 to %d steps", parts[2], parts[0], parts[1], maxCombinations)
	}
	var values []Value
	for i := 0.0; i <= n; i++ {
		v := tidy(from + i*step)
		if err := job.New().SetSI(in.Key, v); err != nil {
			return nil, trimKey(in.Key, err)
		}
		values = append(values, Value{SI: v})
	}
	return values, nil
}

// tidy takes off the last digits, which adding decimal fractions spoils.
func tidy(v float64) float64 {
	if v == 0 {
		return 0
	}
	p := math.Pow10(14 - int(math.Ceil(math.Log10(math.Abs(v)))))
	return math.Round(v*p) / p
}

// combinations lists the values of all axes in combination, the last axis
// fastest; without axes it is one empty combination.
func combinations(axes []Axis) ([][]Value, error) {
	all := [][]Value{nil}
	seen := map[string]bool{}
	for _, a := range axes {
		if seen[a.Key] {
			return nil, fmt.Errorf("%s is varied twice", a.Key)
		}
		seen[a.Key] = true
		if len(all)*len(a.Values) > maxCombinations {
			return nil, hint.With(fmt.Errorf("more than %d combinations", maxCombinations), "take larger steps")
		}
		var next [][]Value
		for _, c := range all {
			for _, v := range a.Values {
				next = append(next, append(c[:len(c):len(c)], v))
			}
		}
		all = next
	}
	return all, nil
}

// state sets a combination in a job.
func state(j *job.Job, axes []Axis, c []Value) error {
	for i, a := range axes {
		in, _ := job.Find(a.Key)
		var err error
		if in.Numeric() {
			err = j.SetSI(a.Key, c[i].SI)
		} else {
			err = j.Set(a.Key, c[i].Word)
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// Text is value i of the axis as a person would write it.
func (a Axis) Text(v Value, sys units.System) string {
	in, _ := job.Find(a.Key)
	if !in.Numeric() {
		return v.Word
	}
	return in.Kind.Text(v.SI, sys)
}

// Column is the name of the axis's column in tables: key and SI unit, as in
// cooler_airflow_m3_s.
func (a Axis) Column() string {
	in, _ := job.Find(a.Key)
	return identifier(a.Key + "_" + in.Kind.Unit(units.SI).Symbol)
}

// Numeric tells whether the axis takes numbers.
func (a Axis) Numeric() bool {
	in, _ := job.Find(a.Key)
	return in.Numeric()
}

// identifier is text in lower case with one _ for everything else between.
func identifier(text string) string {
	text = strings.NewReplacer("²", "2", "³", "3").Replace(strings.ToLower(text))
	words := strings.FieldsFunc(text, func(r rune) bool { return !(unicode.IsDigit(r) || r >= 'a' && r <= 'z') })
	return strings.Join(words, "_")
}

// Label is the name of the varied input for people.
func (a Axis) Label() string {
	in, _ := job.Find(a.Key)
	return in.Label
}

// Kind is the kind of quantity that is varied.
func (a Axis) Kind() units.Kind {
	in, _ := job.Find(a.Key)
	return in.Kind
}
