// Inputs_gen writes docs/inputs.md, the reference of all inputs, from the table
// that the program itself uses. Run it from the root of the repository:
//
//	go run ./docs/inputs_gen
package main

import (
	"bytes"
	"fmt"
	"io"
	"log"
	"os"
	"strings"

	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/units"
)

func main() {
	log.SetFlags(0)
	var b bytes.Buffer
	write(&b)
	if err := os.WriteFile("docs/inputs.md", b.Bytes(), 0o644); err != nil {
		log.Fatal(err)
	}
}

const intro = `# Inputs

<!-- Written by go run ./docs/inputs_gen; edit internal/job/inputs.go instead. -->

Every input has a default or a rule, so none has to be stated. State one in a job file (` + "`evapbook job`" + ` prints a commented one), with
` + "`--set key=value`" + `, or in the yellow cells of the workbook. A value with a unit is written with it, in either system: ` + "`5430ft`, `1655 m`" + `.

"Common practice, no source" and "from memory" mean what they say: check such a default before relying on it.
`

func write(w io.Writer) {
	fmt.Fprint(w, intro)
	for _, s := range job.Sections {
		fmt.Fprintf(w, "\n## %s\n\n| Key | Meaning | Default | Allowed | Reason or source of the default |\n|---|---|---|---|---|\n", s.Title)
		for _, in := range job.Inputs() {
			if in.Section() == s.Name {
				fmt.Fprintf(w, "| `%s` | %s | %s | %s | %s |\n", in.Key, meaning(in), cell(defaults(in)), cell(allowed(in)), cell(in.Why))
			}
		}
	}
	fmt.Fprint(w, "\n## Figures of the rules\n\n| Name in cells | Meaning | Value | Unit | Source |\n|---|---|---|---|---|\n")
	for _, c := range job.Constants {
		fmt.Fprintf(w, "| `%s` | %s | %.6g | %s | %s |\n", c.Name, c.Label, c.Value, c.Unit, cell(c.Source))
	}
}

func meaning(in job.Input) string {
	if in.Help == "" {
		return cell(in.Label)
	}
	return cell(in.Label + ". " + in.Help)
}

func defaults(in job.Input) string {
	switch {
	case in.Rule != nil:
		return in.Rule.Text
	case in.Default == "":
		return "none"
	default:
		return in.DefaultText(units.IP)
	}
}

func allowed(in job.Input) string {
	switch si, ip := in.Range(units.SI), in.Range(units.IP); {
	case in.Kind == units.Choice:
		return strings.Join(in.Choices, ", ")
	case in.Kind == units.Text:
		return "text"
	case si == ip:
		return si
	default:
		return si + " (" + ip + ")"
	}
}

// cell escapes what would end a table cell.
func cell(s string) string { return strings.ReplaceAll(s, "|", `\|`) }
