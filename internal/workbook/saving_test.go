package workbook

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/internal/evaluator"
)

// What the first page says of money, live: the four ways in which price and
// running cost can lie, the years of one that takes longer than it lasts, and a
// cooler that does not do the work.
func TestMoneyInWords(t *testing.T) {
	c := bookKinds[0].compute(t, fourWeeks)
	w, err := evaluator.New(readBook(t, writeBook(t, c)))
	require.NoError(t, err)
	for _, x := range []struct {
		name string
		set  map[string]any
		says string
	}{
		{"cheaper both ways", map[string]any{}, " less to buy than refrigeration and "},
		{"cheaper both ways", map[string]any{}, " less a year to run: it saves from the first day."},
		{"dearer to buy", map[string]any{"In_price_cooler_installed": 9500.0}, "500 more to buy than refrigeration and "},
		{"dearer to buy", map[string]any{"In_price_cooler_installed": 9500.0}, " less a year to run: the difference is paid back in "},
		{"dearer to buy, hardly cheaper to run", map[string]any{"In_price_cooler_installed": 99000.0}, " years, longer than the years counted here."},
		{"dearer to run", map[string]any{"In_price_cooler_care": 3000.0}, " more a year to run: its lower price is used up after "},
		{"dearer both ways", map[string]any{"In_price_cooler_installed": 9500.0, "In_price_cooler_care": 3000.0}, " more a year to run: there is no saving to pay the difference back."},
		{"does not do the work", map[string]any{"In_cooler_effectiveness": 0.05}, " a year to run, but it does not do the same work."},
	} {
		require.NoError(t, w.Reset())
		require.NoError(t, w.Set(x.set))
		require.NoError(t, w.Recalculate())
		for _, sheet := range []string{"Answer", "Money"} {
			rows, err := w.Range(sheet + "!A1:A40")
			require.NoError(t, err)
			said := ""
			for _, row := range rows {
				if text, ok := row[0].(string); ok && strings.HasPrefix(text, "The cooler costs ") {
					said = text
				}
			}
			assert.Contains(t, said, x.says, "%s, on %s", x.name, sheet)
		}
	}
}
