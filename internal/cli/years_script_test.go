package cli_test

import (
	"io"
	"os"
	"strconv"
	"strings"

	"github.com/rogpeppe/go-internal/testscript"

	"github.com/evapbook/evapbook/data/sample"
)

func init() { commands["sampleyears"] = sampleYears }

// sampleyears FILE YEAR... writes the built-in sample once for each year, each
// a degree warmer than the one before.
func sampleYears(ts *testscript.TestScript, _ bool, args []string) {
	r, _ := sample.Open()
	text, err := io.ReadAll(r)
	ts.Check(err)
	var b strings.Builder
	for k, year := range args[1:] {
		for line := range strings.Lines(string(text)) {
			cells := strings.Split(line, ",")
			t, err := "", error(nil)
			if line[0] >= '0' && line[0] <= '9' {
				var v float64
				v, err = strconv.ParseFloat(cells[1], 64)
				t = strconv.FormatFloat(v+float64(k), 'f', 1, 64)
			}
			ts.Check(err)
			switch {
			case t != "":
				cells[0], cells[1] = year+cells[0][4:], t
				b.WriteString(strings.Join(cells, ","))
			case k == 0:
				b.WriteString(line)
			}
		}
	}
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), []byte(b.String()), 0o600))
}
