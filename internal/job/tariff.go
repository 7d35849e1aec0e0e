package job

import (
	"strings"

	"github.com/evapbook/evapbook/internal/units"
)

// tariffInputs are what a kWh costs beyond one price for the whole year: a
// season's price, a price in peak hours, and whose clock these follow.
var tariffInputs = []Input{
	{Key: "price.season_electricity", Label: "Price of electricity in the season", Kind: units.PricePerKWh, Min: 0, Max: 1000, Example: "0.16 /kWh",
		Rule: &Rule{Text: "the price of electricity", Value: func(j *Job) float64 { return j.Price.Electricity }, Cell: "Si_price_electricity"},
		Why:  "one price all year unless stated", Help: "Of a tariff in steps, state the price of the step the last kWh of a summer month falls in: a saving comes off the top.",
		number: func(j *Job) *float64 { return &j.Price.SeasonElectricity }},
	{Key: "price.peak_electricity", Label: "Price of electricity in the season's peak hours", Kind: units.PricePerKWh, Min: 0, Max: 1000, Example: "0.35 /kWh",
		Rule: &Rule{Text: "the price in the season", Value: func(j *Job) float64 { return j.Price.SeasonElectricity }, Cell: "Si_price_season_electricity"},
		Why:  "no dearer hours unless stated", number: func(j *Job) *float64 { return &j.Price.PeakElectricity }},
	{Key: "price.season_first", Label: "First month of the season, 1 to 12", Kind: units.Plain, Default: "6", Min: 1, Max: 12, Whole: true,
		Why: practice, Help: "Only with a price of its own; a season may run over the new year, as 11 to 3 south of the equator.",
		number: func(j *Job) *float64 { return &j.Price.SeasonFirst }},
	{Key: "price.season_last", Label: "Last month of the season, 1 to 12", Kind: units.Plain, Default: "9", Min: 1, Max: 12, Whole: true,
		Why: practice, number: func(j *Job) *float64 { return &j.Price.SeasonLast }},
	{Key: "price.peak_from", Label: "Hour at which peak hours begin, 0 to 23", Kind: units.Plain, Default: "16", Min: 0, Max: 23, Whole: true,
		Why: practice, Help: "By the clock on the wall.", number: func(j *Job) *float64 { return &j.Price.PeakFrom }},
	{Key: "price.peak_to", Label: "Hour at which peak hours end, 1 to 24", Kind: units.Plain, Default: "21", Min: 1, Max: 24, Whole: true,
		Why: practice, number: func(j *Job) *float64 { return &j.Price.PeakTo }},
	{Key: "price.peak_days", Label: "Days that have peak hours", Kind: units.Choice, Default: "all", Choices: []string{"all", "weekdays"},
		Why: "the plainer case", Help: "A typical year has no weekdays: with weekdays, five sevenths of every day's peak hours count.",
		word: choice(func(j *Job) *PeakDays { return &j.Price.PeakDays })},
	{Key: "price.summer_time", Label: "When clocks are put forward", Kind: units.Choice, Example: string(SummerTimeUS), Choices: []string{string(NoSummerTime), string(SummerTimeUS), string(SummerTimeEU), string(SummerTimeSouth)},
		Rule: &Rule{Text: "us where the weather file names a US state other than Arizona and Hawaii, else no", Word: (*Job).summerTime},
		Why:  memory, Help: "Peak hours go by it, weather files do not. us: March to November, eu: March to October, south: October to April.",
		word: choice(func(j *Job) *SummerTime { return &j.Price.SummerTime })},
}

// PeakDays says on which days peak hours have their own price.
type PeakDays string

// The two cases.
const (
	EveryDay PeakDays = "all"
	Weekdays PeakDays = "weekdays"
)

// SummerTime says when civil clocks are an hour ahead of standard time.
type SummerTime string

// Where clocks are put forward.
const (
	NoSummerTime    SummerTime = "no"
	SummerTimeUS    SummerTime = "us"
	SummerTimeEU    SummerTime = "eu"
	SummerTimeSouth SummerTime = "south"
)

// summerTime is what the clocks do at the station, as far as it is known.
func (j *Job) summerTime() string {
	switch j.usState() {
	case "", "AZ", "HI":
		return string(NoSummerTime)
	default:
		return string(SummerTimeUS)
	}
}

// currencySign is that of the country the weather is from, as far as it is known.
func (j *Job) currencySign() string {
	if j.region != "" {
		return "$"
	}
	return ""
}

// usState is the two letters of the state the weather is from, empty where it is
// not known.
func (j *Job) usState() string {
	_, state, _ := strings.Cut(j.region, "-")
	return state
}

// installed is the price of a cooler of the job's kind.
func (j *Job) installed() float64 {
	switch j.Cooler.Kind {
	case Indirect:
		return j.Price.IndirectInstalled
	case TwoStage:
		return j.Price.TwoStageInstalled
	default:
		return j.Price.DirectInstalled
	}
}
