package cli

import (
	"fmt"
	"io"
	"strings"

	"github.com/evapbook/evapbook/internal/climate"
	"github.com/evapbook/evapbook/internal/money"
	"github.com/evapbook/evapbook/internal/season"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/workbook/figures"
	"github.com/evapbook/evapbook/internal/years"
)

// summarise says in plain words what the cooler covers, what it does not, and
// what it takes.
func summarise(w io.Writer, c *figures.Case, path string) error {
	s, t, sys := c.Season, &c.Season.Totals, c.Units
	show := func(k units.Kind, v float64) string { return k.Show(v, sys) }
	var b strings.Builder
	line := func(format string, a ...any) { fmt.Fprintf(&b, format+"\n", a...) }

	line("%s, %s above sea level", s.Job.Site.Name, show(units.Altitude, s.Job.Site.Altitude))
	line("")
	if t.Hours.Need() == 0 {
		line("No hour of this year needs cooling at %s.", show(units.Temperature, s.House.Setpoint))
	} else {
		line("Of %s hours that need cooling the %s cooler holds %s (%s): %s by outdoor air alone, %s with water.",
			count(t.Hours.Need()), s.Job.Cooler.Kind, count(t.Hours.Held()), percent(t.Hours.Held(), t.Hours.Need()), count(t.Hours[season.Vent]), count(t.Hours[season.Evap]))
		line("It does not cover %s hours: %s %s, %s %s; at most %s in a row, up to %s indoors.",
			count(t.Hours.Uncovered()), count(t.Hours[season.Damp]), figures.OutcomeName[season.Damp],
			count(t.Hours[season.Warm]), figures.OutcomeName[season.Warm], count(t.LongestRun), show(units.Temperature, t.HottestIndoor))
	}
	if wet := t.Hours.WetNeed(); wet > 0 {
		line("Of the %s hours that open windows do not hold, water holds %s; in moving air, up to %s warmer, %s are comfortable. Verdict: %s.",
			count(wet), percent(t.Hours[season.Evap], wet), show(units.TemperatureDifference, s.House.MovingAir), percent(t.Hours[season.Evap]+t.Moving, wet), fit[t.Verdict()])
	}
	if y := c.Years; y != nil {
		if cover := y.Range(years.Coverage); cover.HighestIn != "" {
			line("Over %d years it holds %.0f to %.0f %% of the hours that need cooling, %.0f %% in the median year; worst in %s.",
				y.Counts, 100*cover.Lowest, 100*cover.Highest, 100*cover.Median, cover.LowestIn)
		}
	}
	d := &s.Climate.Design.DryBulb[climate.One]
	line("On the 1 %% design hour (%s outdoors, wet bulb %s) it blows in air of %s.",
		show(units.Temperature, d.Value), show(units.Temperature, d.Coincident), show(units.Temperature, s.Design.DryBulb[climate.One].Supply.T))
	line("Water: %s to %s in the season, %s on the peak day.", show(units.Volume, s.WaterTotal(c.Low.Water)), show(units.Volume, s.WaterTotal(t.Water)), show(units.Volume, t.PeakDayWater))
	cool, ref := &c.Money.Options[money.Cooler], &c.Money.Options[money.Refrigerated]
	small := "" // for more hours than the default size leaves: what it takes is not for the same comfort
	if n := t.UnmetHours; 1000*n > season.SizingPerThousand*s.Climate.Valid {
		small = ", which is too small for " + several(n, "hour")
	}
	line("Electricity: %s to %s, against %s for refrigeration of %s%s.", show(units.Energy, c.Low.CoolerKWh), show(units.Energy, t.CoolerKWh), show(units.Energy, t.RefKWh), capacity(s.AC.Capacity, sys), small)
	line("Running cost a year: %s, against %s.", c.Show(units.Money, cool.Total()), c.Show(units.Money, ref.Total()))
	if beside := s.Job.Options(); len(beside) > 0 {
		names := make([]string, len(beside))
		for i, o := range beside {
			names[i] = o.Name
		}
		line("Beside it, on the sheet Options: %s.", strings.Join(names, ", "))
	}
	for _, n := range c.Notes() {
		line("Note: %s.", n)
	}
	line("")
	line("Workbook: %s", path)
	_, err := io.WriteString(w, b.String())
	return err
}

// fit says a verdict in words.
var fit = map[season.Verdict]string{
	season.GoodFit: "a good fit", season.FitInPart: "a fit with limits", season.PoorFit: "a poor fit", season.HardlyNeeded: "hardly needed here",
}

// capacity is shown in tons or kilowatts, as the trade does.
func capacity(w float64, sys units.System) string {
	if sys == units.IP {
		return units.Capacity.Show(w, sys)
	}
	return units.PowerKW.Show(w/1000, sys)
}

func count(n int) string { return units.Count.Show(float64(n), units.SI) }

// several counts things: 1 site, 2,000 sites.
func several(n int, thing string) string {
	if n != 1 {
		thing += "s"
	}
	return count(n) + " " + thing
}

func percent(part, whole int) string {
	return units.Percent(float64(part) / float64(whole))
}
