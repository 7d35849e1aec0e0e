package cli

import (
	"cmp"
	"fmt"
	"io"
	"slices"
	"strings"
	"text/tabwriter"

	"github.com/evapbook/evapbook/internal/ranking"
)

// summariseRanking says how the kinds of cooler did, and where best and worst.
func summariseRanking(w io.Writer, t *ranking.Table, path string) error {
	tw := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	fmt.Fprintf(tw, "%s, share of the hours that need cooling held or comfortable in moving air\n", several(t.Sites(), "site"))
	fmt.Fprintln(tw, "cooler\tleast\tmedian\tmost\tworst site\tbest site")
	for _, kind := range ranking.Kinds {
		rows := slices.DeleteFunc(slices.Clone(t.Rows), func(r ranking.Row) bool { return r.Kind != string(kind) || r.MovingAir == nil })
		if len(rows) == 0 {
			continue
		}
		slices.SortStableFunc(rows, func(a, b ranking.Row) int { return cmp.Compare(*a.MovingAir, *b.MovingAir) })
		low, mid, high := rows[0], rows[len(rows)/2], rows[len(rows)-1]
		fmt.Fprintf(tw, "%s\t%s\t%s\t%s\t%s\t%s\n", kind, wholePercent(*low.MovingAir), wholePercent(*mid.MovingAir), wholePercent(*high.MovingAir), low.Site, high.Site)
	}
	if path != "" {
		fmt.Fprintf(tw, "\nWorkbook: %s\n", path)
	}
	return tw.Flush()
}

func wholePercent(share float64) string { return fmt.Sprintf("%.0f %%", 100*share) }

// sayPassed names the files of folders that do not end like weather files: the
// first few, or all.
func sayPassed(w io.Writer, passed []string, all bool) {
	const shown = 5
	n := len(passed)
	if n == 0 {
		return
	}
	if !all {
		n = min(n, shown)
	}
	text := strings.Join(passed[:n], ", ")
	if more := len(passed) - n; more > 0 {
		text += fmt.Sprintf(" and %s more", count(more))
	}
	fmt.Fprintf(w, "not considered, by their endings: %s\n", text)
}

// leftOutError ends a run that is done but for some files.
type leftOutError struct{ error }

// finish says what was found, names what was left out and chooses the exit
// status.
func (o *rankOptions) finish(t *ranking.Table) error {
	if !o.quiet && len(t.Rows) > 0 {
		if err := summariseRanking(o.out, t, o.output); err != nil {
			return err
		}
	}
	if !o.quiet {
		sayPassed(o.err, o.passed, o.verbose)
	}
	const shown = 10
	for i, l := range t.Left {
		if i == shown && !o.verbose {
			fmt.Fprintf(o.err, "left out: and %s more; --verbose names all\n", count(len(t.Left)-shown))
			break
		}
		fmt.Fprintf(o.err, "left out: %s\n", l.Reason)
	}
	switch {
	case len(t.Left) == 0:
		return nil
	case len(t.Rows) == 0:
		return fmt.Errorf("none of %s files could be used", count(len(t.Left)))
	default:
		return leftOutError{fmt.Errorf("done, but %s of %s files were left out", count(len(t.Left)), count(t.Sites()+len(t.Left)))}
	}
}
