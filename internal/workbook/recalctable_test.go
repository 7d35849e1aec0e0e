//go:build long

package workbook

import (
	command "flag"
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// tableFile is where make recalc wants the table of cases.
var tableFile = command.String("recalc-table", "", "file whose part between the marks is replaced by the table of cases")

const tableBegin, tableEnd = "<!-- cases: written by make recalc -->\n", "<!-- end of cases -->\n"

// tableSheets are the sheets with a column of their own.
var tableSheets = []string{"Answer", "Money", "Months", "Totals", "Hours", "Days", "Working"}

// writeTable puts the cases into the file asked for, else into the log.
func writeTable(t *testing.T, results []siteResult) {
	var b strings.Builder
	fmt.Fprintf(&b, "| Site | Units | Set | Cells typed | Formula cells compared | Differ | %s | Seconds |\n", strings.Join(tableSheets, " | "))
	fmt.Fprintf(&b, "|---|---|---|--:|--:|--:|%s--:|\n", strings.Repeat("--:|", len(tableSheets)))
	for _, r := range results {
		fmt.Fprintf(&b, "| %s | %s | %s | %d | %d | %d |", r.site, r.units, r.changes, r.inputs, r.report.Formulas(), len(r.report.Failures()))
		for _, name := range tableSheets {
			b.WriteString(" " + r.largest(name) + " |")
		}
		fmt.Fprintf(&b, " %.1f |\n", r.seconds)
	}
	t.Log("\n" + b.String())
	if *tableFile == "" || len(results) == 0 {
		return
	}
	text, err := os.ReadFile(*tableFile)
	require.NoError(t, err)
	head, rest, ok := strings.Cut(string(text), tableBegin)
	_, foot, closed := strings.Cut(rest, tableEnd)
	require.True(t, ok && closed, "%s has no marks for the table", *tableFile)
	require.NoError(t, os.WriteFile(*tableFile, []byte(head+tableBegin+b.String()+tableEnd+foot), 0o644))
}

// largest is the largest relative difference of two numbers on a sheet.
func (r *siteResult) largest(sheet string) string {
	for _, s := range r.report.Sheets {
		if s.Sheet == sheet {
			return fmt.Sprintf("%.0e", s.Largest)
		}
	}
	return "none"
}
