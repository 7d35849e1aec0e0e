package season

import (
	"fmt"
	"os"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/internal/climate"
	"github.com/evapbook/evapbook/internal/places"
	"github.com/evapbook/evapbook/internal/weather"
)

// checksPage holds the commands and the table of measured homes.
const checksPage = "../../docs/checks.md"

// command is one of that page: a station, inputs, and the letter of the run.
var command = regexp.MustCompile(`(?m)^evapbook write --place (\d+)((?: --set \S+)*) --json +# (\w+)$`)

// homes are the runs of the page, by letter.
type homes map[string]*Season

// homeRow is a row of the table: what stands in it of ours is worked out here.
// Published is the figure that ours is divided by, 0 where there is none to divide by.
type homeRow struct {
	what, run string
	ours      func(s homes) float64
	format    string
	published float64
}

const summerMonths = 214 / 30.4 // from 1 April to 31 October

func gallons(l float64) float64 { return l / litresPerGallon }

// total is the water of a run's 1 April to 31 October, gal.
func (h homes) total(run string) float64 {
	return gallons(h[run].WaterTotal(karpiscakSeason(h[run]).Water))
}

// low is the lower end of a run's water in a year, gal.
func (h homes) low(run string) float64 { return gallons(h[run].WaterTotal(h[run].Low().Water)) }

func (h homes) year(run string) float64 { return gallons(h[run].WaterTotal(h[run].Totals.Water)) }

// hotMonths adds up May to September.
func (h homes) hotMonths(run string) (sums Sums) {
	for m := time.May; m <= time.September; m++ {
		sums.include(&h[run].Months[m-1].Sums)
	}
	return sums
}

// efficiency is what a run's refrigeration moves over what it takes, as a share of the rated SEER2.
func (h homes) efficiency(run string) float64 {
	s, moved, taken := h[run], 0.0, 0.0
	for i := range s.Hours {
		if o := &s.Hours[i]; o.Outcome != Missing && !o.Unmet {
			moved += o.ClosedLoad
			taken += o.ClosedKWh * 1000
		}
	}
	const btuPerWh = 3.412141633
	return moved / taken * btuPerWh / s.Job.AC.SEER2
}

func (h homes) energyShare(run string) float64 {
	return h[run].Totals.CoolerKWh / h[run].Totals.RefKWh
}

// moving is the share of need hours held or comfortable in moving air.
func (h homes) moving(run string) float64 {
	t := h[run].Totals
	return float64(t.Hours.Held()+t.Moving) / float64(t.Hours.Need())
}

// held is the share of need hours held.
func (h homes) held(run string) float64 {
	return float64(h[run].Totals.Hours.Held()) / float64(h[run].Totals.Hours.Need())
}

// overall is the drop to the supply over the wet-bulb depression at the 1 % dry bulb.
func (h homes) overall(run string) float64 {
	d := h[run].Design.DryBulb[climate.One]
	return (d.Outdoor.T - d.Supply.T) / (d.Outdoor.T - d.WetBulb)
}

// supplyF is the supply at the 1 % dry bulb, °F.
func (h homes) supplyF(run string) float64 {
	return h[run].Design.DryBulb[climate.One].Supply.T*1.8 + 32
}

func (h homes) waiting(later, sooner string) float64 {
	return h[later].Totals.Water.Evaporated / h[sooner].Totals.Water.Evaporated
}

var homeRows = []homeRow{
	{"gal a day, 214 days, half the homes with bleed", "A, B", func(h homes) float64 { return (h.total("A") + h.total("B")) / 2 / 214 }, "%.0f", 66},
	{"the same, people who set it 4 °F higher", "A, B", func(h homes) float64 { return (h.low("A") + h.low("B")) / 2 / 214 }, "%.0f", 66},
	{"the same, a cooler of 3,000 cfm at 80 °F", "C, D", func(h homes) float64 { return (h.total("C") + h.total("D")) / 2 / 214 }, "%.0f", 66},
	{"with bleed over without", "A, B", func(h homes) float64 { return h.total("A") / h.total("B") }, "%.2f", 1.5},
	{"cooler, kWh a year", "E", func(h homes) float64 { return h["E"].Totals.CoolerKWh }, "%.0f", 1500},
	{"refrigeration, kWh a year", "E", func(h homes) float64 { return h["E"].Totals.RefKWh }, "%.0f", 6000},
	{"cooler over refrigeration, kWh", "E", func(h homes) float64 { return h.energyShare("E") }, "%.2f", 0.25},
	{"gal a year, with bleed", "E", func(h homes) float64 { return h.year("E") }, "%.0f", 19000},
	{"the same, lower end", "E", func(h homes) float64 { return h.low("E") }, "%.0f", 19000},
	{"gal a month at the house", "E", func(h homes) float64 { return h.total("E") / summerMonths }, "%.0f", 4600},
	{"gal a month at a coal plant for refrigeration", "E", func(h homes) float64 { return 0.51 * karpiscakSeason(h["E"]).RefKWh / summerMonths }, "%.0f", 425},
	{"gal a day of use, no purge", "F", func(h homes) float64 { return h.year("F") / float64(h["F"].Totals.Water.DaysOfUse) }, "%.0f", 65},
	{"gal a day of use, purge", "G", func(h homes) float64 { return h.year("G") / float64(h["G"].Totals.Water.DaysOfUse) }, "%.0f", 160},
	{"85 °F for 79 °F, Burbank", "H, I", func(h homes) float64 { return h.waiting("I", "H") }, "%.2f", 0.5},
	{"85 °F for 79 °F, Albuquerque", "J, K", func(h homes) float64 { return h.waiting("K", "J") }, "%.2f", 0.5},
	{"85 °F for 79 °F, Phoenix", "L, M", func(h homes) float64 { return h.waiting("M", "L") }, "%.2f", 0.5},
	{"bleed, gal an hour of pumping, 4 to 14", "A", func(h homes) float64 {
		w := h["A"].Totals.Water
		return gallons(w.Drained(h["A"].Job.Cooler)) / w.PumpHours
	}, "%.1f", 0},
	{"cooler, kWh a month, from 250", "N", func(h homes) float64 { return h.hotMonths("N").CoolerKWh / 5 }, "%.0f", 250},
	{"refrigeration, kWh a month", "N", func(h homes) float64 { return h.hotMonths("N").RefKWh / 5 }, "%.0f", 850},
	{"gal a day, May to September, calculated", "N", func(h homes) float64 { return gallons(h.hotMonths("N").Water.Evaporated) / 153 }, "%.0f", 150},
	{"cooler, kWh a month, Tucson", "W", func(h homes) float64 { return h.hotMonths("W").CoolerKWh / 5 }, "%.0f", 250},
	{"refrigeration, kWh a month, Tucson", "W", func(h homes) float64 { return h.hotMonths("W").RefKWh / 5 }, "%.0f", 850},
	{"gal a day, May to September, Tucson", "W", func(h homes) float64 { return gallons(h.hotMonths("W").Water.Evaporated) / 153 }, "%.0f", 150},
	{"whole-cooler effectiveness, 0.72 and 0.75", "A", func(h homes) float64 { return h["A"].Job.Cooler.Effectiveness * h["A"].Job.Cooler.PadCondition }, "%.2f", 0},
	{"low speed over high, W", "A", func(h homes) float64 { return h["A"].Job.Cooler.LowSpeedPower }, "%.2f", 0.56},
	{"two-stage below direct, °F, 3 to 4", "O, P", func(h homes) float64 { return h.supplyF("O") - h.supplyF("P") }, "%.1f", 0},
	{"refrigeration, share of its rating, 0.59 to 0.84", "A", func(h homes) float64 { return h.efficiency("A") }, "%.2f", 0},
	{"cooler over refrigeration, kWh, hot inland", "A", func(h homes) float64 { return h.energyShare("A") }, "%.2f", 0.25},
	{"the same, milder", "Q", func(h homes) float64 { return h.energyShare("Q") }, "%.2f", 0.5},
	{"heat capacity and refrigeration, Albuquerque", "Q, X", func(h homes) float64 { return h["Q"].Totals.RefKWh / h["X"].Totals.RefKWh }, "%.2f", 0.67},
	{"the same, Boise", "T, Y", func(h homes) float64 { return h["T"].Totals.RefKWh / h["Y"].Totals.RefKWh }, "%.2f", 0.67},
	{"two-stage, drop over wet-bulb depression, 0.95 to 1.10", "P", func(h homes) float64 { return h.overall("P") }, "%.2f", 0},
	{"held, Albuquerque", "Q", func(h homes) float64 { return h.held("Q") }, "%.2f", 0.96},
	{"held, Boise", "T", func(h homes) float64 { return h.held("T") }, "%.2f", 0.92},
	{"held, Phoenix", "A", func(h homes) float64 { return h.held("A") }, "%.2f", 0.57},
	{"held, Houston", "U", func(h homes) float64 { return h.held("U") }, "%.2f", 0.08},
	{"held, Phoenix, two-stage", "V", func(h homes) float64 { return h.held("V") }, "%.2f", 0.84},
	{"with moving air, Phoenix", "A", func(h homes) float64 { return h.moving("A") }, "%.2f", 0.82},
	{"with moving air, Houston", "U", func(h homes) float64 { return h.moving("U") }, "%.2f", 0.20},
	{"with moving air, Phoenix, two-stage", "V", func(h homes) float64 { return h.moving("V") }, "%.2f", 0.98},
	{"held or comfortable in moving air, direct, mild coast", "R", func(h homes) float64 { return h.moving("R") }, "%.2f", 0},
	{"the same, two-stage, inland valley", "P", func(h homes) float64 { return h.moving("P") }, "%.2f", 0},
	{"the same, two-stage, hottest desert valley", "S", func(h homes) float64 { return h.moving("S") }, "%.2f", 0},
}

// cells are what the page shows of a row.
func (r *homeRow) cells(h homes) string {
	v := r.ours(h)
	ratio := ""
	if r.published != 0 {
		ratio = fmt.Sprintf("%.2f", v/r.published)
	}
	ours := fmt.Sprintf(r.format, v)
	if v >= 1000 {
		ours = ours[:len(ours)-3] + "," + ours[len(ours)-3:]
	}
	return fmt.Sprintf("%s | %s | %s", r.run, ours, ratio)
}

// The table of measured homes in docs/checks.md is what its own commands give.
// The sources stand there; none is asserted here, only that the page tells the
// truth about ours.
func TestMeasuredHomes(t *testing.T) {
	page, err := os.ReadFile(checksPage)
	require.NoError(t, err)
	runs := homes{}
	for _, c := range command.FindAllStringSubmatch(string(page), -1) {
		station, ok := places.ByNumber(c[1])
		require.True(t, ok, c[1])
		series, err := places.Read(station, weather.Options{})
		require.NoError(t, err)
		var stated []string
		for set := range strings.SplitSeq(c[2], " --set ") {
			if key, value, ok := strings.Cut(set, "="); ok {
				stated = append(stated, key, value)
			}
		}
		runs[c[3]] = runJob(t, series, stated...)
	}
	rows := map[string]string{}
	for line := range strings.Lines(string(page)) {
		if f := strings.Split(line, " | "); len(f) == 6 {
			rows[strings.TrimPrefix(f[0], "| ")] = strings.TrimRight(strings.Join(f[2:5], " | "), " ")
		}
	}
	for _, r := range homeRows {
		for letter := range strings.SplitSeq(r.run, ", ") {
			require.Contains(t, runs, letter, "the page has no command for a run")
		}
		assert.Equal(t, strings.TrimRight(r.cells(runs), " "), rows[r.what], r.what)
	}
}
