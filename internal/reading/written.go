package reading

import (
	"errors"
	"fmt"
	"strings"

	"github.com/evapbook/evapbook/internal/hint"
	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/units"
)

// Written is a visit as people write it: flags, a row of a table, a form. Each
// entry has its unit with it.
type Written struct {
	Site          string `csv:"site"` // of a row only
	Date          string `csv:"date"`
	Altitude      string `csv:"altitude"`
	Outdoor       string `csv:"outdoor"`
	RelHum        string `csv:"rh"`
	WetBulb       string `csv:"wet_bulb"`
	DewPoint      string `csv:"dew_point"`
	Supply        string `csv:"supply"`
	At            string `csv:"at"`
	Airflow       string `csv:"airflow"`
	FanPower      string `csv:"fan_power"`
	Pad           string `csv:"pad"`
	PadAge        string `csv:"pad_age"`
	PadCondition  string `csv:"pad_condition"`
	Cooler        string `csv:"cooler"`
	Effectiveness string `csv:"effectiveness"`
	Indirect      string `csv:"indirect_effectiveness"`
}

// PadNames lists the kinds of pad for people.
func PadNames() string {
	var all []string
	for _, p := range PadKinds {
		all = append(all, string(p))
	}
	return strings.Join(all, ", ")
}

// Field is one entry of a visit.
type Field struct {
	Name  string  // column name; flags have - for _
	Text  *string // as written, empty where not given
	Usage string
}

// Fields lists the entries of a visit in the order people give them.
func (t *Written) Fields() []Field {
	return []Field{
		{"altitude", &t.Altitude, "altitude of the unit, e.g. 6035ft or 1840m"},
		{"outdoor", &t.Outdoor, "outdoor temperature in the shade where the air goes in, e.g. 91F"},
		{"rh", &t.RelHum, "outdoor relative humidity, e.g. 14%"},
		{"wet_bulb", &t.WetBulb, "outdoor wet bulb, instead of a relative humidity"},
		{"dew_point", &t.DewPoint, "outdoor dew point, instead of a relative humidity"},
		{"supply", &t.Supply, "temperature of the air off the pads, e.g. 66F"},
		{"at", &t.At, "where the supply was read: pads or diffuser (default pads)"},
		{"airflow", &t.Airflow, "air delivered, e.g. 4500cfm; counts together with --fan-power"},
		{"fan_power", &t.FanPower, "power of the fan in air of 1.2 kg/m³, e.g. 675W"},
		{"pad", &t.Pad, "kind of pads: " + PadNames()},
		{"pad_age", &t.PadAge, "how long the pads have been in, e.g. 2 years"},
		{"pad_condition", &t.PadCondition, "share of the effectiveness that the pads still reach, 0 to 1 (default 0.92)"},
		{"cooler", &t.Cooler, "direct, indirect or two-stage (default direct)"},
		{"effectiveness", &t.Effectiveness, "effectiveness of the direct stage in good order, 0 to 1 (default: usual for the pads, else 0.80)"},
		{"indirect_effectiveness", &t.Indirect, "wet-bulb effectiveness of the indirect stage, 0 to 1 (default 0.50)"},
	}
}

// Fill takes over from defaults what is empty. A humidity counts as one: where
// a row has one, the flags' is not taken.
func (t *Written) Fill(defaults *Written) {
	humid := t.RelHum+t.WetBulb+t.DewPoint != ""
	from := defaults.Fields()
	for i, f := range t.Fields() {
		isHumidity := f.Name == "rh" || f.Name == "wet_bulb" || f.Name == "dew_point"
		if *f.Text == "" && !(isHumidity && humid) {
			*f.Text = *from[i].Text
		}
	}
}

// system is the unit system a text is written in, told by its unit.
func system(text string) units.System {
	text = strings.ToLower(strings.TrimSpace(text))
	if strings.HasSuffix(text, "f") || strings.HasSuffix(text, "fahrenheit") || strings.HasSuffix(text, "ft") || strings.HasSuffix(text, "feet") || strings.HasSuffix(text, "'") {
		return units.IP
	}
	return units.SI
}

// Shown are the unit systems of an answer.
type Shown struct{ Temperature, Altitude units.System }

// Units are those of the question.
func (t *Written) Units() Shown { return Shown{system(t.Outdoor), system(t.Altitude)} }

// Parse reads a visit; located says where a field stands. Errors end in a hint.
func (t *Written) Parse(located func(field string, err error) error) (Visit, Cooler, error) {
	v, c := Visit{}, Default()
	for _, n := range []struct {
		field, text string
		kind        units.Kind
		to          *float64
		example     string // of one that has to be given
	}{
		{"altitude", t.Altitude, units.Altitude, &v.Altitude, "6035ft"},
		{"outdoor", t.Outdoor, units.Temperature, &v.Outdoor, "91F"},
		{"supply", t.Supply, units.Temperature, &v.Supply, "66F"},
		{"airflow", t.Airflow, units.Airflow, &c.Airflow, ""},
		{"fan_power", t.FanPower, units.Power, &c.FanPower, ""},
		{"pad_age", t.PadAge, units.Years, &c.Age, ""},
		{"pad_condition", t.PadCondition, units.Share, &c.Condition, ""},
		{"effectiveness", t.Effectiveness, units.Share, &c.Effectiveness, ""},
		{"indirect_effectiveness", t.Indirect, units.Share, &c.Indirect, ""},
	} {
		if n.text == "" {
			if n.example == "" {
				continue
			}
			return v, c, located(n.field, hint.With(errors.New("not given"), "write for example %s", n.example))
		}
		x, err := units.Parse(n.kind, n.text)
		if err == nil {
			err = inRange(n.field, x)
		}
		if err != nil {
			return v, c, located(n.field, err)
		}
		*n.to = x
	}
	if field, err := t.humidity(&v.Humidity); err != nil {
		return v, c, located(field, err)
	}
	if field, err := t.words(&v, &c); err != nil {
		return v, c, located(field, err)
	}
	return v, c, nil
}

// inRange checks what the job declares too.
func inRange(field string, x float64) error {
	if field == "pad_age" && (x < 0 || x > 50) {
		return hint.With(fmt.Errorf("%g years is no age of pads", x), "write a value from 0 to 50 years")
	}
	in, ok := job.Find("cooler." + field)
	if ok && in.Numeric() && (x < in.Min || x > in.Max) {
		return hint.With(fmt.Errorf("%s is outside what is allowed", in.Kind.Text(x, units.SI)), "write a value from %s", in.Range(units.SI))
	}
	return nil
}

// humidity reads the one humidity that is given.
func (t *Written) humidity(h *Humidity) (string, error) {
	given := 0
	for _, m := range []struct {
		field, text string
		kind        units.Kind
		measure     Measure
	}{
		{"rh", t.RelHum, units.Share, RelHum},
		{"wet_bulb", t.WetBulb, units.Temperature, WetBulb},
		{"dew_point", t.DewPoint, units.Temperature, DewPoint},
	} {
		if m.text == "" {
			continue
		}
		if given++; given > 1 {
			return m.field, hint.With(errors.New("there is another humidity already"), "give one of relative humidity, wet bulb and dew point")
		}
		x, err := units.Parse(m.kind, m.text)
		if err != nil {
			return m.field, err
		}
		*h = Humidity{Measure: m.measure, Value: x}
	}
	if given == 0 {
		return "rh", hint.With(errors.New("no humidity given"), "write for example 14%%, or give a wet bulb or a dew point")
	}
	return "", nil
}

// words reads the entries that are words of a list.
func (t *Written) words(v *Visit, c *Cooler) (string, error) {
	switch t.At {
	case "", "pads":
	case "diffuser":
		v.AtDiffuser = true
	default:
		return "at", hint.With(fmt.Errorf("%q is neither pads nor diffuser", t.At), "say where the supply was read")
	}
	switch k := job.CoolerKind(t.Cooler); k {
	case "":
	case job.Direct, job.Indirect, job.TwoStage:
		c.Kind = k
	default:
		return "cooler", hint.With(fmt.Errorf("%q is not a kind of cooler", t.Cooler), "direct, indirect or two-stage")
	}
	if t.Pad == "" {
		return "", nil
	}
	for _, p := range PadKinds {
		if t.Pad == string(p) {
			c.Pads = p
			return "", nil
		}
	}
	return "pad", hint.With(fmt.Errorf("%q is not a kind of pads", t.Pad), "one of %s", PadNames())
}
