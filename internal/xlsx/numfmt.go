package xlsx

import (
	"fmt"
	"regexp"
	"strings"
)

// fmtOutside is what a number format may hold outside quotes, escapes and
// brackets: digits places, separators, dates and literal marks.
var fmtOutside = regexp.MustCompile(`^(?:General|[0#?.,%/ ;:+\-()$€£¥°²³·×–@*EeyYmMdDhHsSaAPp])*$`)

// badNumFmt says what is wrong with a number format. It is stricter than the
// programs: a letter that stands for itself has to be in quotes.
func badNumFmt(f string) error {
	if strings.Count(f, `"`)%2 != 0 || strings.Count(f, ";") > 3 || len(f) > 255 {
		return fmt.Errorf("number format %q has an open quote, more than four parts or more than 255 characters", f)
	}
	if !fmtOutside.MatchString(fmtQuoted.ReplaceAllString(f, "")) {
		return fmt.Errorf("number format %q has letters outside quotes that are no codes", f)
	}
	return nil
}

var fmtQuoted = regexp.MustCompile(`"[^"]*"|\\.|_.|\[(?:Red|Blue|Green|Black|White|Color[0-9]+|h+|m+|s+|[<>=]+-?[0-9.]+|\$[^\]]*)\]`)
