package technician

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/internal/climate"
	"github.com/evapbook/evapbook/internal/season"
	"github.com/evapbook/evapbook/internal/startup"
	"github.com/evapbook/evapbook/internal/workbook/figures"
)

// The line under the dates says which of the three it is, wherever in the winter
// the freeze lies.
func TestStartupWarnsWhereFrostAndSeasonMeet(t *testing.T) {
	days := make([]climate.Day, 365)
	for i := range days {
		days[i].Season = i - 200
		if days[i].Season < -182 {
			days[i].Season += 365
		}
	}
	c := &figures.Case{Season: &season.Season{Climate: &climate.Climate{Days: days}}}
	const least = startup.FreezeMargin + startup.VisitDays
	for _, x := range []struct {
		freeze, opens int
		want          string
	}{
		{-1, 150, "never freezes"}, {100, -1, "never freezes"}, {100, 100 + least + 1, "one year of weather"}, {100, 100 + least, "on before frosts end"},
		{330, 150, "one year of weather"}, {160, 150, "on before frosts end"},
	} {
		c.Season.Climate.Calendar.LastFreeze, c.Season.Totals.EvapOpens = x.freeze, x.opens
		require.Contains(t, beforeSeason(c).words(c, "on before frosts end"), x.want)
	}
	c.Season.Climate.Calendar.FirstFreeze, c.Season.Totals.EvapCloses = 10, 300
	require.Equal(t, 365-290, afterSeason(c).days, "a freeze of January comes after the season too")
}

// Every step says what to do and what to accept, short enough for its cell.
func TestListsFit(t *testing.T) {
	for _, s := range append(append([]step{}, startupSteps...), closedownSteps...) {
		require.NotEmpty(t, s.accept, s.what)
		require.LessOrEqual(t, len(s.what), 2*84)
		require.LessOrEqual(t, len(s.accept), 48, s.accept)
	}
}
