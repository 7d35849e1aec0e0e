package costs

import (
	"fmt"
	"math"
	"slices"

	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/look"
	"github.com/evapbook/evapbook/internal/money"
	"github.com/evapbook/evapbook/internal/season"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/workbook/figures"
	"github.com/evapbook/evapbook/internal/workbook/given"
	"github.com/evapbook/evapbook/internal/workbook/sheet"
	"github.com/evapbook/evapbook/internal/workbook/variants"
	"github.com/evapbook/evapbook/internal/xlsx"
	"github.com/evapbook/evapbook/internal/xlsx/chart"
)

// swing is how far one input moves the present value of the cooler's
// advantage over refrigeration.
type swing struct {
	input     job.Input
	low, high *variants.Variant
	lowSI     float64
	highSI    float64
}

// swings says how far each input is moved, as a share of its value; for the
// setpoint in kelvin. What a careful person would not be surprised by: common
// practice, no source.
var swings = []struct {
	key    string
	by     float64
	kelvin bool
}{
	{"price.electricity", 0.3, false}, {"price.water", 0.5, false}, {"price.cooler_installed", 0.3, false}, {"price.ac_installed", 0.3, false},
	{"price.cooler_care", 0.5, false}, {"price.ac_care", 0.5, false}, {"price.discount", 0.5, false}, {"cooler.effectiveness", 0.1, false}, {"cooler.airflow", 0.25, false},
	{"cooler.fan_power", 0.3, false}, {"cooler.cycles", 0.3, false}, {"house.heat_loss", 0.3, false}, {"house.solar_share", 0.3, false},
	{"house.setpoint", 1, true}, {"house.infiltration", 0.5, false}, {"ac.seer2", 0.15, false},
}

// swingsShown is how many inputs the chart shows, the widest first.
const swingsShown = 8

// advantage is the present value of refrigeration less that of the cooler.
func advantage(m *money.Comparison) float64 {
	return m.Options[money.Refrigerated].Present - m.Options[money.Cooler].Present
}

// tornado moves each input down and up and puts those first that matter most.
func tornado(c *figures.Case) ([]swing, error) {
	var list []swing
	var all []*variants.Variant
	for _, s := range swings {
		in, err := job.Lookup(s.key)
		if err != nil {
			return nil, fmt.Errorf("sensitivity: %w", err)
		}
		v := in.SI(c.Season.Job)
		by := v * s.by
		if s.kelvin {
			by = s.by
		}
		low, high := max(in.Min, v-by), min(in.Max, v+by)
		w := swing{input: in, lowSI: low, highSI: high,
			low: &variants.Variant{Set: map[string]float64{s.key: low}}, high: &variants.Variant{Set: map[string]float64{s.key: high}}}
		list = append(list, w)
		all = append(all, w.low, w.high)
	}
	if err := variants.Run(c, all); err != nil {
		return nil, fmt.Errorf("sensitivity: %w", err)
	}
	slices.SortStableFunc(list, func(a, b swing) int {
		wide := func(s swing) float64 { return math.Abs(advantage(&s.high.Money) - advantage(&s.low.Money)) }
		switch {
		case wide(a) > wide(b):
			return -1
		case wide(a) < wide(b):
			return 1
		}
		return 0
	})
	return list, nil
}

// yearlySaving is what the cooler costs less a year to run than refrigeration.
func yearlySaving(m *money.Comparison) float64 {
	return m.Options[money.Refrigerated].Total() - m.Options[money.Cooler].Total()
}

// savingRange is how far the yearly saving goes when one input moves at a time.
func savingRange(c *figures.Case, list []swing) (low, high float64) {
	low = yearlySaving(&c.Money)
	high = low
	for _, s := range list {
		for _, v := range []*variants.Variant{s.low, s.high} {
			low, high = min(low, yearlySaving(&v.Money)), max(high, yearlySaving(&v.Money))
		}
	}
	return low, high
}

// inWords is a sum of money with its sign before it.
func inWords(sign string, v float64) string {
	if v < 0 {
		return "-" + sign + sheet.Fixed(-v, 0)
	}
	return sign + sheet.Fixed(v, 0)
}

// swingFormat shows a moved input with three figures, money as prices are.
func swingFormat(in job.Input, u units.Unit, si float64) string {
	switch v := math.Abs(u.FromSI(si)); {
	case in.Kind == units.Money:
		return given.InputFormat(in, u)
	case v >= 100:
		return "#,##0"
	case v >= 10:
		return "0.0"
	case v >= 1:
		return "0.00"
	default:
		return "0.000"
	}
}

// layTornado writes the inputs that matter most, with their chart.
func layTornado(c *figures.Case, p *sheet.Page) error {
	list, err := tornado(c)
	if err != nil {
		return err
	}
	base := advantage(&c.Money)
	p.Section("What moves the result most", 6)
	p.ComputedAtWriting(6)
	sign := c.Season.Job.Price.Currency
	low, high := savingRange(c, list)
	moved := len(list)
	list = list[:min(swingsShown, moved)]
	saves := "saves " + inWords(sign, yearlySaving(&c.Money)) + " a year in running cost"
	if yearlySaving(&c.Money) < 0 {
		saves = "costs " + inWords(sign, -yearlySaving(&c.Money)) + " a year more to run"
	}
	short := ""
	if c.Season.Totals.Verdict() == season.PoorFit {
		short = " None of it pays for the hours it leaves uncovered."
	}
	p.Text(fmt.Sprintf("The cooler alone %s; the saving lies between %s and %s when one of %d inputs at a time is moved, those that matter most as far as the table shows. Price and years together, its advantage is %s in today's money; the table says by how much that changes.",
		saves, inWords(sign, low), inWords(sign, high), moved, inWords(sign, base))+short, "", 6, 3, sheet.Text)
	changes := AxisTitle(c, "Changes it by")
	p.Heads("Input", "Moved down to", changes, "Moved up to", changes, "Unit")
	first := p.Row
	for _, s := range list {
		u := c.Unit(s.input.Kind)
		number := sheet.Centred(swingFormat(s.input, u, s.highSI))
		p.SetRow(p.Row, 1,
			xlsx.Cell{Value: s.input.Label, Style: sheet.Label},
			xlsx.Cell{Value: u.FromSI(s.lowSI), Style: number}, xlsx.Cell{Value: advantage(&s.low.Money) - base, Style: sheet.Centred("+#,##0;-#,##0;0")},
			xlsx.Cell{Value: u.FromSI(s.highSI), Style: number}, xlsx.Cell{Value: advantage(&s.high.Money) - base, Style: sheet.Centred("+#,##0;-#,##0;0")},
			xlsx.Cell{Value: u.Symbol, Style: sheet.Symbol})
		p.Row++
	}
	p.Mark("moved", first, 1, p.Row-1, 1)
	p.Mark("down", first, 3, p.Row-1, 3)
	p.Mark("up", first, 5, p.Row-1, 5)
	ch := &chart.Chart{
		Title: "Change of the cooler's advantage, present value", Kind: chart.Bars, Overlap: 100, Gap: 40,
		X: chart.Axis{Reverse: true}, Y: chart.Axis{Title: AxisTitle(c, "change of present value"), NumFmt: "+#,##0;-#,##0;0"},
		Alt: "Bars: change of present value for each input moved down and up, the widest on top",
		Series: []chart.Series{
			{Name: "moved down", X: "[Money.moved:]", Y: "[Money.down:]", Color: look.WetBulb},
			{Name: "moved up", X: "[Money.moved:]", Y: "[Money.up:]", Color: look.Supply},
		},
	}
	p.Row++
	p.ChartsAcross(len(p.Cols), ch)
	p.Text("Each input is moved alone, as far as would surprise nobody (common practice, no source). A bar to the right speaks for the cooler.", "", 6, 1, sheet.Small)
	return nil
}
