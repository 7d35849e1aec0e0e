package cli

import (
	"encoding/json"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/reading"
	"github.com/evapbook/evapbook/internal/units"
)

type readingOptions struct {
	*streams
	visitText
	csv, output string
	json, force bool
}

func newReadingCmd(s *streams) *cobra.Command {
	o := &readingOptions{streams: s}
	cmd := &cobra.Command{
		Use:   "reading",
		Short: "Is the air off the pads what it should be, here and now?",
		Long: `Reading takes what was read at the unit, outdoor temperature and humidity and the
supply temperature, and says how effective the cooler is, how surely that is
known, what supply to expect, and what a difference usually means.

Read in the shade, where the air goes in and at the pads, at full fan speed, once
the pads have been wet for 15 minutes. The humidity may be a relative humidity, a
wet bulb or a dew point. Answers come in the units of the question.`,
		Example: `  # on a roof at 6,035 ft
  evapbook reading --altitude 6035ft --outdoor 91F --rh 14% --supply 66F

  # with a wet bulb, old aspen pads, and the fan's heat taken into account
  evapbook reading --altitude 1600m --outdoor 34C --wet-bulb 16.5C --supply 22C --pad aspen --pad-age 3 --airflow 4500cfm --fan-power 700W

  # a day's visits, a table for the office
  evapbook reading --csv visits.csv -o judged.csv`,
		Args: usageArgs(cobra.NoArgs),
		RunE: func(*cobra.Command, []string) error { return o.run() },
	}
	f := cmd.Flags()
	o.visitText.add(f)
	f.StringVar(&o.csv, "csv", "", "read visits from this CSV file, one a row; columns are named like the flags, which fill empty cells; - is standard input")
	f.StringVarP(&o.output, "output", "o", "", "with --csv: write the table to this file (default: standard output)")
	f.BoolVar(&o.json, "json", false, "print JSON, in SI")
	f.BoolVar(&o.force, "force", false, "replace a file that exists")
	return cmd
}

func (o *readingOptions) run() error {
	if o.csv != "" {
		if o.json {
			return usagef("--json and --csv do not go together\nhint: the table of --csv has the same figures")
		}
		return o.batch()
	}
	if o.output != "" {
		return usagef("-o goes with --csv: a single reading is printed")
	}
	v, c, err := o.visitText.parse(func(field string, err error) error {
		return usageError{fmt.Errorf("--%s: %w", strings.ReplaceAll(field, "_", "-"), err)}
	})
	if err != nil {
		return err
	}
	r, err := reading.Judge(v, c)
	if err != nil {
		return err
	}
	if o.json {
		e := json.NewEncoder(o.out)
		e.SetIndent("", "  ")
		return e.Encode(jsonOf(r))
	}
	return printReading(o.out, r, o.visitText.units())
}

// visitText is a visit as written: flags, or a row of a table.
type visitText struct {
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

func (t *visitText) add(f flagSet) {
	for _, fl := range t.fields() {
		usage := fl.usage
		if fl.name == "pad" {
			usage += padNames()
		}
		f.StringVar(fl.text, strings.ReplaceAll(fl.name, "_", "-"), "", usage)
	}
}

func padNames() string {
	var all []string
	for _, p := range reading.PadKinds {
		all = append(all, string(p))
	}
	return strings.Join(all, ", ")
}

// field is one entry of a visit, by its column name.
type field struct {
	name  string
	text  *string
	usage string
}

func (t *visitText) fields() []field {
	return []field{
		{"altitude", &t.Altitude, "altitude of the unit, e.g. 6035ft or 1840m"},
		{"outdoor", &t.Outdoor, "outdoor temperature in the shade where the air goes in, e.g. 91F"},
		{"rh", &t.RelHum, "outdoor relative humidity, e.g. 14%"},
		{"wet_bulb", &t.WetBulb, "outdoor wet bulb, instead of a relative humidity"},
		{"dew_point", &t.DewPoint, "outdoor dew point, instead of a relative humidity"},
		{"supply", &t.Supply, "temperature of the air off the pads, e.g. 66F"},
		{"at", &t.At, "where the supply was read: pads or diffuser (default pads)"},
		{"airflow", &t.Airflow, "air delivered, e.g. 4500cfm; counts together with --fan-power"},
		{"fan_power", &t.FanPower, "power of the fan in air of 1.2 kg/m³, e.g. 675W"},
		{"pad", &t.Pad, "kind of pads: "},
		{"pad_age", &t.PadAge, "how long the pads have been in, e.g. 2 years"},
		{"pad_condition", &t.PadCondition, "share of the effectiveness that the pads still reach, 0 to 1"},
		{"cooler", &t.Cooler, "direct, indirect or two-stage (default direct)"},
		{"effectiveness", &t.Effectiveness, "effectiveness of the direct stage in good order, 0 to 1 (default: usual for the pads, else 0.80)"},
		{"indirect_effectiveness", &t.Indirect, "wet-bulb effectiveness of the indirect stage, 0 to 1 (default 0.60)"},
	}
}

// fill takes over from defaults what is empty. A humidity counts as one: where
// a row has one, the flags' is not taken.
func (t *visitText) fill(defaults *visitText) {
	humid := t.RelHum+t.WetBulb+t.DewPoint != ""
	from := defaults.fields()
	for i, f := range t.fields() {
		isHumidity := f.name == "rh" || f.name == "wet_bulb" || f.name == "dew_point"
		if *f.text == "" && !(isHumidity && humid) {
			*f.text = *from[i].text
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

// shownIn are the unit systems of an answer.
type shownIn struct{ temperature, altitude units.System }

func (t *visitText) units() shownIn { return shownIn{system(t.Outdoor), system(t.Altitude)} }

// parse reads a visit; located says where a field stands.
func (t *visitText) parse(located func(field string, err error) error) (reading.Visit, reading.Cooler, error) {
	v, c := reading.Visit{}, reading.Default()
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
			return v, c, located(n.field, fmt.Errorf("not given\nhint: write for example %s", n.example))
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
		return fmt.Errorf("%g years is no age of pads\nhint: write a value from 0 to 50 years", x)
	}
	in, ok := job.Find("cooler." + field)
	if ok && in.Numeric() && (x < in.Min || x > in.Max) {
		return fmt.Errorf("%s is outside what is allowed\nhint: write a value from %s", in.Kind.Text(x, units.SI), in.Range(units.SI))
	}
	return nil
}

// humidity reads the one humidity that is given.
func (t *visitText) humidity(h *reading.Humidity) (string, error) {
	given := 0
	for _, m := range []struct {
		field, text string
		kind        units.Kind
		measure     reading.Measure
	}{
		{"rh", t.RelHum, units.Share, reading.RelHum},
		{"wet_bulb", t.WetBulb, units.Temperature, reading.WetBulb},
		{"dew_point", t.DewPoint, units.Temperature, reading.DewPoint},
	} {
		if m.text == "" {
			continue
		}
		if given++; given > 1 {
			return m.field, fmt.Errorf("there is another humidity already\nhint: give one of relative humidity, wet bulb and dew point")
		}
		x, err := units.Parse(m.kind, m.text)
		if err != nil {
			return m.field, err
		}
		*h = reading.Humidity{Measure: m.measure, Value: x}
	}
	if given == 0 {
		return "rh", fmt.Errorf("no humidity given\nhint: write for example 14%%, or give a wet bulb or a dew point")
	}
	return "", nil
}

// words reads the entries that are words of a list.
func (t *visitText) words(v *reading.Visit, c *reading.Cooler) (string, error) {
	switch t.At {
	case "", "pads":
	case "diffuser":
		v.AtDiffuser = true
	default:
		return "at", fmt.Errorf("%q is neither pads nor diffuser\nhint: say where the supply was read", t.At)
	}
	switch k := job.CoolerKind(t.Cooler); k {
	case "":
	case job.Direct, job.Indirect, job.TwoStage:
		c.Kind = k
	default:
		return "cooler", fmt.Errorf("%q is not a kind of cooler\nhint: direct, indirect or two-stage", t.Cooler)
	}
	if t.Pad == "" {
		return "", nil
	}
	for _, p := range reading.PadKinds {
		if t.Pad == string(p) {
			c.Pads = p
			return "", nil
		}
	}
	return "pad", fmt.Errorf("%q is not a kind of pads\nhint: one of %s", t.Pad, padNames())
}
