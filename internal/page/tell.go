package page

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"github.com/evapbook/evapbook/internal/money"
	"github.com/evapbook/evapbook/internal/season"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/workbook/alternatives"
	"github.com/evapbook/evapbook/internal/workbook/figures"
	"github.com/evapbook/evapbook/internal/workbook/given"
	"github.com/evapbook/evapbook/internal/workbook/methods"
	"github.com/evapbook/evapbook/internal/years"
)

// Verdict is the answer in a word and why.
type Verdict struct {
	Word  string `json:"word"` // as in the JSON of the command
	Title string `json:"title"`
	Why   string `json:"why"`
	Marks string `json:"marks"` // what the word goes by
}

// Part is one outcome's share of the hours that need cooling.
type Part struct {
	Key   string  `json:"key"` // outcome
	Label string  `json:"label"`
	Count string  `json:"count"`
	Share float64 `json:"share"`
}

// Tile is one figure with what it is and what to set beside it.
type Tile struct {
	Caption string `json:"caption"`
	Value   string `json:"value"`
	Below   string `json:"below"`
}

// Costs is a table: the ways of cooling beside each other.
type Costs struct {
	Heads []string   `json:"heads"`
	Rows  [][]string `json:"rows"`
}

// verdicts are the words of the figure, by what the book prints.
var verdicts = map[string]string{
	"Good fit": "good", "Fit with limits": "limits", "Poor fit": "poor", "Hardly needed": "hardly-needed",
}

// outcomes of hours that need cooling, in the order in which they are stacked.
var outcomes = []season.Outcome{season.Vent, season.Evap, season.Damp, season.Warm}

// label is what an outcome is called where only those that need cooling stand.
func label(o season.Outcome) string {
	if o.Uncovered() {
		return "not covered: " + figures.OutcomeName[o]
	}
	return figures.OutcomeName[o]
}

// facts are the headline figures by path, to be said in a unit system.
type facts struct {
	by   map[string]figures.Figure
	show func(k units.Kind, si float64) string
}

func factsOf(c *figures.Case) facts {
	f := facts{map[string]figures.Figure{}, c.Show}
	for _, fig := range c.Figures() {
		f.by[fig.Path] = fig
	}
	return f
}

// say is a figure with its unit; a dash where there is none.
func (f facts) say(path string) string {
	fig, ok := f.by[path]
	v, number := f.number(path)
	switch {
	case !ok || fig.Value == figures.None:
		return "–"
	case !number:
		return fmt.Sprint(fig.Value)
	}
	return f.show(fig.Kind, v)
}

// number is a figure in SI.
func (f facts) number(path string) (float64, bool) {
	switch v := f.by[path].Value.(type) {
	case float64:
		return v, v == v
	case int:
		return float64(v), true
	}
	return 0, false
}

// count is a figure as a whole number without its unit.
func (f facts) count(path string) string {
	v, ok := f.number(path)
	if !ok {
		return "–"
	}
	return f.show(units.Count, v)
}

// percent is a share as a whole percentage.
func (f facts) percent(path string) string {
	v, ok := f.number(path)
	if !ok {
		return "–"
	}
	return units.Percent(v)
}

// between is a range where the figure has a lower end, else the figure.
func (f facts) between(low, high string) string {
	l, ok := f.number(low)
	h, _ := f.number(high)
	if !ok || l >= h {
		return f.say(high)
	}
	number, unit, _ := strings.Cut(f.say(high), " ")
	least, _, _ := strings.Cut(f.say(low), " ")
	return strings.TrimSpace(least + " to " + number + " " + unit)
}

// tell adds what is said in words and figures.
func tell(a *Answer, c *figures.Case) {
	f := factsOf(c)
	a.Site, a.Altitude = f.say("site.name"), f.say("site.altitude_m")
	a.Verdict = verdict(c, f)
	need, _ := f.number("hours.need")
	for _, o := range outcomes {
		path := "hours." + o.String()
		n, _ := f.number(path)
		a.Hours = append(a.Hours, Part{o.String(), label(o), f.say(path), n / max(1, need)})
	}
	a.Story = append(f.story(c), overYears(c)...)
	if doubt := given.Doubt(c); doubt != "" {
		a.Story = slices.Insert(a.Story, 0, doubt)
	}
	a.Tiles = f.tiles()
	a.Costs = f.costs(c)
	a.Cautions = slices.Clone(methods.Cautions)
}

func verdict(c *figures.Case, f facts) Verdict {
	title, _ := c.Verdict()
	v := Verdict{Word: verdicts[title], Title: title}
	if word, ok := f.by["verdict"].Value.(string); ok {
		v.Word = word
	}
	setpoint := c.Show(units.Temperature, c.Season.House.Setpoint)
	if need, _ := f.number("hours.need"); need > 0 {
		v.Why = fmt.Sprintf("Of %s hours a year that need cooling, open windows hold %s and the cooler %s; %s are not covered. Held means no warmer than %s in the house and no damper than %.0f %%.",
			f.say("hours.need"), f.say("hours.vent"), f.say("hours.evap"), f.say("hours.uncovered"), setpoint, 100*c.Season.House.HumidityLimit)
	} else {
		v.Why = "No hour of this year needs cooling at " + setpoint + "."
	}
	v.Marks = fmt.Sprintf("The marks are our own: a good fit holds %.0f %% of the hours that windows alone do not hold, and with moving air %.0f %% are comfortable; below %.0f %% it is a poor fit.",
		100*season.GoodHeld, 100*season.GoodMoving, 100*season.PartMoving)
	return v
}

// story says what is and what is not covered, one as plainly as the other.
func (f facts) story(c *figures.Case) []string {
	uncovered, _ := f.number("hours.uncovered")
	if need, _ := f.number("hours.need"); need == 0 {
		return nil
	}
	var s []string
	if uncovered == 0 {
		s = append(s, "In this year's weather every hour that needs cooling is held. Hotter and damper spells than those in the file will come.")
	} else {
		s = append(s, fmt.Sprintf("Not covered are %s hours: %s %s, %s %s. Up to %s come in a row, %s in the worst seven days, most in %s.",
			f.say("hours.uncovered"), f.say("hours.warm"), figures.OutcomeName[season.Warm], f.say("hours.damp"), figures.OutcomeName[season.Damp], f.count("uncovered.longest_run_h"), f.say("uncovered.worst_week_h"), month(f.say("uncovered.worst_month"))))
		s = append(s, fmt.Sprintf("At the worst the house reaches %s, or %s relative humidity.", f.say("uncovered.hottest_indoor_c"), f.percent("uncovered.dampest_indoor")))
	}
	if _, ok := f.number("coverage.with_water"); ok {
		s = append(s, fmt.Sprintf("Of the hours that windows alone do not hold, the cooler holds %s; in moving air, up to %s warmer, %s are comfortable.",
			f.percent("coverage.with_water"), c.Show(units.TemperatureDifference, c.Season.House.MovingAir), f.percent("coverage.moving_air_with_water")))
	}
	if _, ok := f.number("water.low_total_l"); ok {
		s = append(s, "Water and electricity are ranges: the lower ends hold where people feel the air move and keep the house a little warmer, the upper ends at the temperature stated.")
	}
	return s
}

// overYears says how far the years of the weather lie apart, and which is shown.
func overYears(c *figures.Case) []string {
	y := c.Years
	if y == nil {
		return nil
	}
	s := []string{fmt.Sprintf("The figures and charts here are those of %s, %s.", y.Rows[y.Shown].Label, y.Why)}
	if cover := y.Range(years.Coverage); cover.HighestIn != "" {
		s[0] = fmt.Sprintf("Over %d years the cooler and the windows hold %.0f to %.0f %% of the hours that need cooling, %.0f %% in the median year; worst in %s. %s",
			y.Counts, 100*cover.Lowest, 100*cover.Highest, 100*cover.Median, cover.LowestIn, s[0])
	}
	return s
}

// month is a month's name in full.
func month(short string) string {
	if t, err := time.Parse("Jan", short); err == nil {
		return t.Month().String()
	}
	return short
}

func (f facts) tiles() []Tile {
	return []Tile{
		{"Held of the hours that need cooling", f.percent("coverage.held"), f.say("hours.held") + " of " + f.say("hours.need") + " hours"},
		{"Not covered", f.say("hours.uncovered") + " h", f.say("hours.warm") + " " + figures.OutcomeName[season.Warm] + ", " + f.say("hours.damp") + " " + figures.OutcomeName[season.Damp]},
		{"Air it blows in on a hot day", f.say("design.supply_1pct_c"), "outdoors " + f.say("design.db_1pct_c") + " (1 % of the year is hotter)"},
		{"Water in a season", f.between("water.low_total_l", "water.total_l"), "peak day " + f.say("water.peak_day_l")},
		{"Electricity in a season", f.between("energy.low_cooler_kwh", "energy.cooler_kwh"), "refrigeration " + f.say("energy.refrigerated_kwh")},
		{"Running cost a year", f.say("money.cooler.yearly"), "refrigeration " + f.say("money.refrigerated.yearly") + ", with " + f.say("ac.unmet_hours") + " h not covered"},
	}
}

func (f facts) costs(c *figures.Case) Costs {
	t := Costs{Heads: []string{"", "Cooler", "Refrigeration", "Both together"}}
	t.Rows = [][]string{{"Hours not covered", f.say("hours.uncovered"), f.say("ac.unmet_hours"), f.show(units.Count, float64(c.BothUnmet()))}}
	for _, r := range []struct{ label, end string }{
		{"To buy, installed", "installed"}, {"Electricity a year", "energy"}, {"Water a year", "water"}, {"Care a year", "care"},
		{"To run, a year", "yearly"}, {"Over the years, present value", "present_value"}, {"Water at the power plant", "plant_water_l"}, {"Carbon dioxide", "co2_kg"},
	} {
		row := []string{r.label}
		for _, way := range []string{"cooler", "refrigerated", "both"} {
			row = append(row, f.say("money."+way+"."+r.end))
		}
		t.Rows = append(t.Rows, row)
	}
	t.Rows = append(t.Rows, []string{"Energy in a season", f.say("energy.cooler_kwh"), f.say("energy.refrigerated_kwh"), f.say("energy.both_kwh")},
		[]string{"A higher price comes back in", alternatives.PaidBack(c, money.Cooler), "–", alternatives.PaidBack(c, money.Both)})
	return t
}
