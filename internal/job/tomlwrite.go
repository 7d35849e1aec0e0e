package job

import (
	"bufio"
	"fmt"
	"io"
	"regexp"
	"strings"

	"github.com/evapbook/evapbook/internal/units"
)

// WriteTOML writes a job as a job file that ReadTOML reads back, values in the
// units of sys (or of the other system where they are round only there). Stated inputs are written as they are; with commentedDefaults
// every input is explained, and those not stated stand commented out with
// their default.
func WriteTOML(w io.Writer, j *Job, sys units.System, commentedDefaults bool) error {
	b := bufio.NewWriter(w)
	if commentedDefaults {
		fmt.Fprint(b, preface)
	}
	shown := withRules(j)
	for _, s := range Sections {
		writeSection(b, s, shown, sys, commentedDefaults)
	}
	for k, o := range j.options {
		writeOption(b, o, k+1 == j.shown)
	}
	if commentedDefaults && len(j.options) == 0 {
		fmt.Fprint(b, optionExample)
	}
	return b.Flush()
}

func writeOption(b *bufio.Writer, o Option, shown bool) {
	if b.Buffered() > 0 {
		fmt.Fprintln(b)
	}
	fmt.Fprintf(b, "[[%s]]\nname = %s\n", optionTable, quote(o.Name))
	if shown {
		fmt.Fprintln(b, "shown = true")
	}
	for _, s := range o.Settings {
		text := quote(s.Value)
		if in, _ := Find(s.Key); in.number != nil && !in.Kind.NeedsUnit() && bare.MatchString(s.Value) {
			text = s.Value
		}
		fmt.Fprintf(b, "%s = %s\n", s.Key, text)
	}
}

// bare is a number that TOML takes without quotes.
var bare = regexp.MustCompile(`^-?(0|[1-9][0-9]*)(\.[0-9]+)?$`)

const optionExample = `
# Up to four ways side by side, each with a name and any inputs of cooler,
# house, air conditioner, prices or plant; the book shows in full the one that
# says so, else the house as entered:
# [[option]]
# name = "Two-stage"
# shown = true
# cooler.kind = "two-stage"
`

const preface = `# A job file of evapbook: what is known of one site, house and cooler.
# Take the # off a line to state a value. Values with a unit stand in double
# quotes; either unit system may be used: "5430 ft" or "1655 m".
`

// withRules is a copy of j in which rules that do not need the weather are
// carried out, so that their values can be shown.
func withRules(j *Job) *Job {
	c := j.Clone()
	for _, in := range inputs {
		if in.Rule != nil && in.Rule.Value != nil && !c.Stated(in.Key) {
			*in.number(c) = in.Rule.Value(c)
		}
	}
	return c
}

func writeSection(b *bufio.Writer, s Section, j *Job, sys units.System, all bool) {
	open := false
	for _, in := range inputs {
		stated := j.Stated(in.Key)
		if in.Section() != s.Name || !all && !stated {
			continue
		}
		if !open {
			open = true
			writeHead(b, s, all)
		}
		if all {
			fmt.Fprintf(b, "\n%s", comment(in, sys))
		}
		if !stated {
			fmt.Fprint(b, "# ")
		}
		fmt.Fprintf(b, "%s = %s\n", in.Name(), in.literal(j, sys))
	}
}

func writeHead(b *bufio.Writer, s Section, all bool) {
	if b.Buffered() > 0 {
		fmt.Fprintln(b)
	}
	if all {
		fmt.Fprintf(b, "# %s\n", s.Title)
	}
	fmt.Fprintf(b, "[%s]\n", s.Name)
}

// comment explains an input in a few lines.
func comment(in Input, sys units.System) string {
	lines := []string{in.Label + "."}
	if in.Help != "" {
		lines = append(lines, in.Help)
	}
	if in.Kind == units.Choice {
		lines = append(lines, "One of "+oneOf(in.Choices)+".")
	}
	if r := in.Range(sys); r != "" {
		lines = append(lines, "From "+r+".")
	}
	if d := in.DefaultText(sys); d != "" {
		lines = append(lines, "Default: "+d+" ("+in.Why+").")
	}
	return "# " + strings.Join(lines, "\n# ") + "\n"
}

// DefaultText is the default in the units of sys (or of the other system where
// it is round only there), or the rule in words.
func (in Input) DefaultText(sys units.System) string {
	if in.Rule != nil {
		return in.Rule.Text
	}
	if in.number == nil {
		return in.Default
	}
	return in.restate(in.Default, sys)
}

// restate carries a value text over to the units of sys.
func (in Input) restate(text string, sys units.System) string {
	v, err := units.Parse(in.Kind, text)
	if err != nil {
		return text
	}
	return in.neat(v, sys)
}

// neat is a value in the units of sys, or in those of the other system where
// it is a round figure only there, such as 78 °F or 2.44 m.
func (in Input) neat(v float64, sys units.System) string {
	text := in.Kind.Text(v, sys)
	for _, other := range units.Systems {
		if t := in.Kind.Text(v, other); len(text) > 10 && len(t)+3 < len(text) {
			text = t
		}
	}
	return text
}

// literal is the value as TOML: a number or a quoted string.
func (in Input) literal(j *Job, sys units.System) string {
	text := in.Words(j)
	switch {
	case in.Pending(j):
		text = in.restate(in.Example, sys)
	case in.number != nil:
		text = in.neat(in.SI(j), sys)
	}
	if in.number != nil && !in.Kind.NeedsUnit() {
		n, _, _ := strings.Cut(text, " ")
		return n
	}
	return quote(text)
}

// quote writes a TOML basic string; texts hold no control characters.
func quote(text string) string {
	return `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`).Replace(text) + `"`
}
