package job

import (
	"math"
	"slices"
	"strings"

	"github.com/evapbook/evapbook/internal/units"
)

// Input is the declaration of one input: all that the job file, the --set
// flag, the Inputs sheet and the reference page know of it.
type Input struct {
	Key     string // "house.setpoint"
	Label   string // "Indoor temperature to keep"
	Kind    units.Kind
	Choices []string // of a Choice, in the order offered
	Default string   // value text such as "78 F"; empty where there is a Rule or no value
	Rule    *Rule    // how the value follows when not stated; nil: Default
	Why     string   // source of the default or reason for it
	Help    string   // one sentence more than the label, or empty
	Example string   // value text to show where there is no default

	Min, Max float64 // allowed range in SI, ends included
	Whole    bool    // only whole numbers

	number func(*Job) *float64
	word   func(*Job) word
}

// Rule derives an input that was not stated.
type Rule struct {
	Text  string             // the rule in words
	Value func(*Job) float64 // in SI; nil where the weather decides
	Word  func(*Job) string  // of a text or choice
	Cell  string             // the same as a spreadsheet formula in SI; empty where the weather decides without a formula
}

// word is a field of the job that holds text.
type word struct {
	get func() string
	set func(string)
}

// Section is the part of the key before the point.
func (in Input) Section() string { s, _, _ := strings.Cut(in.Key, "."); return s }

// Name is the part of the key after the point.
func (in Input) Name() string { _, n, _ := strings.Cut(in.Key, "."); return n }

// CellName is the key as part of a defined name: In_ and Si_ go before it.
func (in Input) CellName() string { return strings.ReplaceAll(in.Key, ".", "_") }

// Numeric tells whether the input is a number, with a value in SI.
func (in Input) Numeric() bool { return in.number != nil }

// SI is the value in the job, in SI. It is NaN for text and choices, and for
// an altitude that is not known yet.
func (in Input) SI(j *Job) float64 {
	if in.number == nil {
		return math.NaN()
	}
	return *in.number(j)
}

// Words is the value of a text or choice in the job, and empty for numbers.
func (in Input) Words(j *Job) string {
	if in.word == nil {
		return ""
	}
	return in.word(j).get()
}

// Pending tells whether the value is still to be derived: by Resolve or, for
// the capacity of the air conditioner, by the season.
func (in Input) Pending(j *Job) bool {
	if in.Rule == nil || j.Stated(in.Key) {
		return false
	}
	if in.number == nil {
		return in.Words(j) == ""
	}
	v := in.SI(j)
	return math.IsNaN(v) || v == 0 && in.Key != "site.altitude"
}

// Text is the value as a person would state it in a unit system; Set reads it
// back. It is empty for a value still to be derived.
func (in Input) Text(j *Job, sys units.System) string {
	switch {
	case in.number == nil:
		return in.Words(j)
	case in.Pending(j):
		return ""
	default:
		return in.Kind.Text(in.SI(j), sys)
	}
}

// Range is the allowed range in a unit system, such as "15 to 35 °C"; empty
// for text and choices.
func (in Input) Range(sys units.System) string {
	if in.number == nil {
		return ""
	}
	return in.Kind.Range(in.Min, in.Max, sys)
}

// Inputs lists all inputs in the order people see them.
func Inputs() []Input { return slices.Clone(inputs) }

// Find is the input of a key.
func Find(key string) (Input, bool) {
	in, ok := byKey[key]
	return in, ok
}

// Lookup is [Find] for callers that need the input: an unknown key is an error
// that names keys like it.
func Lookup(key string) (Input, error) {
	in, ok := byKey[key]
	if !ok {
		return in, unknownKey(key)
	}
	return in, nil
}

// Section is a group of inputs.
type Section struct{ Name, Title string }

// Sections lists the groups in order.
var Sections = []Section{
	{"site", "Site"},
	{"cooler", "Evaporative cooler"},
	{"house", "House"},
	{"ac", "Refrigerated air conditioner"},
	{"price", "Prices and rates, in any one currency"},
	{"plant", "What a kWh costs at the power plant"},
	{"proposal", "Proposal cover, all optional"},
}

var inputs = slices.Concat(siteInputs, coolerInputs, houseInputs, acInputs, priceInputs, tariffInputs, otherPriceInputs, plantInputs, proposalInputs)

var byKey = func() map[string]Input {
	m := make(map[string]Input, len(inputs))
	for _, in := range inputs {
		m[in.Key] = in
	}
	return m
}()
