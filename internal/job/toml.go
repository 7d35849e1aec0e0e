package job

import (
	"errors"
	"fmt"
	"io"
	"math"
	"strings"

	"github.com/pelletier/go-toml/v2"
	"github.com/pelletier/go-toml/v2/unstable"

	"github.com/evapbook/evapbook/internal/hint"
	"github.com/evapbook/evapbook/internal/plaintext"
	"github.com/evapbook/evapbook/internal/spelling"
	"github.com/evapbook/evapbook/internal/units"
)

// largestFile is the largest job file read, in bytes; the full starter file
// has under 10 kB. The library's check for duplicates takes time with the
// square of the number of keys.
const largestFile = 64 << 10

// mostErrors is how many mistakes are reported before a file is given up as
// something other than a job file.
const mostErrors = 50

// ReadTOML states in j what a job file says. The layout is a table for each
// section and a line for each input:
//
//	[site]
//	altitude = "5430ft"
//	[cooler]
//	effectiveness = 0.85
//	[[option]]
//	name = "Two-stage"
//	shown = true
//	cooler.kind = "two-stage"
//
// A book shows in full the option that says so, else the job without options.
// All mistakes are reported at once (up to 50), each with name:line:column and a hint;
// the job is then unchanged.
func (j *Job) ReadTOML(r io.Reader, name string) error {
	doc, err := io.ReadAll(io.LimitReader(r, largestFile+1))
	if err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	if len(doc) > largestFile {
		return fmt.Errorf("%s: larger than a job file can be", name)
	}
	text, guessed, err := plaintext.UTF8(doc) // the shell of Windows writes UTF-16
	if err != nil {
		return hint.With(fmt.Errorf("%s: %w", name, err), "save it as UTF-8")
	}
	if !guessed { // TOML is UTF-8: where it is not, its reader says where
		doc = text
	}
	if err := wellFormed(doc, name); err != nil {
		return err
	}
	f := tomlFile{name: name, job: j.Clone()}
	f.read(doc)
	if len(f.errs) > 0 {
		return errors.Join(f.errs...)
	}
	*j = *f.job
	return nil
}

// wellFormed lets the library find all that is wrong with the file as TOML,
// keys given twice among it.
func wellFormed(doc []byte, name string) error {
	var all map[string]any
	err := toml.Unmarshal(doc, &all)
	var at *toml.DecodeError
	if errors.As(err, &at) {
		line, column := at.Position()
		message := strings.TrimPrefix(at.Error(), "toml: ")
		return hint.With(fmt.Errorf("%s:%d:%d: %s", name, line, column, message), "%s", syntax(message))
	}
	if err != nil {
		return fmt.Errorf("%s: %s", name, strings.TrimPrefix(err.Error(), "toml: "))
	}
	return nil
}

// syntax is the hint to a message of the library about the form of a line.
func syntax(message string) string {
	if strings.Contains(message, "already") {
		return "keep one of the two"
	}
	if strings.Contains(message, "UTF-8") {
		return "save the file as UTF-8"
	}
	return "a line reads key = value, text in double quotes"
}

// tomlFile is a job file being read.
type tomlFile struct {
	name   string
	job    *Job
	parser unstable.Parser
	errs   []error

	option     *Option // being read
	optionAt   unstable.Range
	optionErrs int  // mistakes found before it
	optionNow  bool // it is to be the one shown
	shown      int  // how many were to be
}

func (f *tomlFile) read(doc []byte) {
	f.parser.Reset(doc)
	table := ""
	for len(f.errs) < mostErrors && f.parser.NextExpression() {
		e := f.parser.Expression()
		switch e.Kind {
		case unstable.Table:
			key, at := f.key(e, "")
			table = key
			if section, ok := strings.CutPrefix(key, optionTable+"."); ok && f.option != nil {
				f.checkSection(section, at)
				break
			}
			f.endOption()
			f.checkSection(key, at)
		case unstable.ArrayTable:
			key, at := f.key(e, "")
			table = key
			f.endOption()
			if key == optionTable {
				f.option, f.optionAt, f.optionErrs, f.optionNow = &Option{}, at, len(f.errs), false
				break
			}
			advice := "write [" + key + "]"
			if spelling.Distance(key, optionTable) == 1 {
				advice = "did you mean [[" + optionTable + "]]?"
			}
			f.fail(at, hint.With(fmt.Errorf("[[%s]] is a list of sections", key), "%s", advice))
		case unstable.KeyValue:
			f.pair(e, table)
		}
	}
	f.endOption()
	if err := f.parser.Error(); err != nil {
		f.errs = append(f.errs, fmt.Errorf("%s: %w", f.name, err))
	}
}

// optionTable heads each alternative.
const optionTable = "option"

// endOption adds the option that was being read.
func (f *tomlFile) endOption() {
	if f.option == nil {
		return
	}
	err := f.job.AddOption(*f.option)
	if err == nil && f.optionNow {
		err = f.job.Show(f.option.Name)
	}
	if err != nil && len(f.errs) == f.optionErrs {
		f.fail(f.optionAt, err)
	}
	f.option = nil
}

// ofOption reads what an option has beside inputs: its name, and whether it is
// the one shown.
func (f *tomlFile) ofOption(key string, at unstable.Range, value *unstable.Node) (known bool) {
	switch {
	case key == "name":
		if f.option.Name = string(value.Data); value.Kind != unstable.String {
			f.fail(at, hint.With(errors.New("the name of an option is a text"), `write name = "Two-stage"`))
		}
	case key == "shown" && value.Kind != unstable.Bool:
		f.fail(at, hint.With(errors.New("shown is true or false"), "write shown = true"))
	case key == "shown":
		if f.optionNow = string(value.Data) == "true"; !f.optionNow {
			break
		}
		if f.shown++; f.shown > 1 {
			f.fail(f.optionAt, hint.With(errors.New("two options are to be shown"), "keep shown = true at one of them"))
		}
	default:
		return false
	}
	return true
}

// pair states one key, or those of an inline table.
func (f *tomlFile) pair(e *unstable.Node, table string) {
	key, at := f.key(e, table)
	value := e.Value()
	if f.option != nil {
		key = strings.TrimPrefix(key, optionTable+".")
		if f.ofOption(key, at, value) {
			return
		}
	}
	if value.Kind == unstable.InlineTable {
		known := f.checkSection(key, at)
		for it := value.Children(); known && it.Next(); {
			f.pair(it.Node(), key)
		}
		return
	}
	in, ok := Find(key)
	if !ok {
		f.fail(at, unknownKey(key))
		return
	}
	text, err := literal(in, value, &f.parser)
	if err == nil {
		err = f.state(in, text)
	}
	if err != nil {
		if value.Raw.Length > 0 {
			at = value.Raw
		}
		f.fail(at, fmt.Errorf("%s: %w", key, err))
	}
}

// state states an input of the job, or of the option being read.
func (f *tomlFile) state(in Input, text string) error {
	of := f.job
	if f.option != nil {
		of = New() // to see whether the value will do
	}
	if err := in.assign(of, text); err != nil {
		return err
	}
	if f.option != nil {
		f.option.Settings = append(f.option.Settings, Setting{in.Key, text})
	} else {
		f.job.state(in.Key)
	}
	return nil
}

// key joins the parts of a key and says where it stands.
func (f *tomlFile) key(e *unstable.Node, table string) (string, unstable.Range) {
	var parts []string
	if table != "" {
		parts = append(parts, table)
	}
	var at unstable.Range
	for it := e.Key(); it.Next(); {
		if at.Length == 0 {
			at = it.Node().Raw
		}
		parts = append(parts, string(it.Node().Data))
	}
	return strings.Join(parts, "."), at
}

// checkSection reports a section that there is not.
func (f *tomlFile) checkSection(key string, at unstable.Range) (known bool) {
	advice := ""
	var names []string
	for _, s := range Sections {
		if s.Name == key {
			return true
		}
		if spelling.Distance(s.Name, key) == 1 {
			advice = "did you mean [" + s.Name + "]?"
		}
		names = append(names, s.Name)
	}
	if spelling.Distance(key, optionTable) <= 1 {
		advice = "an option is headed [[" + optionTable + "]]"
	}
	if advice == "" {
		advice = "the sections are " + strings.Join(names, ", ")
	}
	f.fail(at, hint.With(fmt.Errorf("no section is called [%s]", key), "%s", advice))
	return false
}

func (f *tomlFile) fail(at unstable.Range, err error) {
	p := f.parser.Shape(at).Start
	f.errs = append(f.errs, fmt.Errorf("%s:%d:%d: %w", f.name, p.Line, p.Column, err))
}

// literal is the text of a TOML value as Set takes it, or says why the value
// is of the wrong type for the input.
func literal(in Input, v *unstable.Node, p *unstable.Parser) (string, error) {
	switch v.Kind {
	case unstable.String:
		return string(v.Data), nil
	case unstable.Integer, unstable.Float:
		return numeral(in, strings.ReplaceAll(string(p.Raw(v.Raw)), "_", ""))
	case unstable.Bool:
		if in.Kind == units.Choice {
			return string(v.Data), nil
		}
		return "", wanted(in, "true or false")
	case unstable.LocalDate, unstable.LocalDateTime, unstable.DateTime, unstable.LocalTime:
		if in.Kind == units.Text {
			return string(p.Raw(v.Raw)), nil
		}
		return "", wanted(in, "a date")
	case unstable.Array:
		return "", wanted(in, "a list")
	default:
		return "", wanted(in, "a value of another type")
	}
}

// numeral checks a bare number.
func numeral(in Input, text string) (string, error) {
	if in.number == nil {
		return "", wanted(in, "a bare number")
	}
	if strings.ContainsAny(text, "xXoO") || strings.HasPrefix(text, "0b") || strings.HasSuffix(text, "nan") || strings.HasSuffix(text, "inf") {
		return "", fmt.Errorf("%s is not a plain decimal number", text)
	}
	if v, err := units.Parse(units.Plain, text); err != nil || v != 0 && in.Kind.NeedsUnit() {
		_, missing := units.Parse(in.Kind, text)
		return "", quoted(missing)
	}
	return text, nil
}

// quoted adds to the hint about a missing unit that text stands in quotes.
func quoted(err error) error {
	var missing *hint.Error
	if !errors.As(err, &missing) {
		return err
	}
	return hint.With(missing.Err, "%s, in double quotes", missing.Hint)
}

func wanted(in Input, found string) error {
	want := "a number"
	switch {
	case in.Kind == units.Choice:
		want = "one of its choices in double quotes"
	case in.Kind == units.Text:
		want = "text in double quotes"
	case in.Kind.NeedsUnit():
		want = `a value with its unit in double quotes, such as "` + in.Kind.Text(math.Max(in.Min, 1), units.SI) + `"`
	}
	return hint.With(fmt.Errorf("%s is not a value for this input", found), "write %s", want)
}
