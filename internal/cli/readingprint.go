package cli

import (
	"fmt"
	"io"
	"math"
	"strings"
	"text/tabwriter"

	"github.com/evapbook/evapbook/internal/reading"
	"github.com/evapbook/evapbook/internal/units"
)

// printReading writes a reading for a person on a roof, in the units typed.
func printReading(w io.Writer, r *reading.Result, in shownIn) error {
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	line := func(label, format string, a ...any) {
		fmt.Fprintf(t, "%s\t"+format+"\n", append([]any{label}, a...)...)
	}
	temp := func(c float64) string { return shown(units.Temperature, c, in.temperature) }
	diff := func(k float64) string { return shown(units.TemperatureDifference, k, in.temperature) }

	line("verdict", "%s: %s", r.Verdict, r.Verdict.Meaning())
	line("outdoors", "%s, wet bulb %s, %s apart; %s relative humidity, dew point %s", temp(r.Visit.Outdoor), temp(r.WetBulb), diff(r.Depression), inPercent(r.RelHum), temp(r.DewPoint))
	line("altitude", "%s, standard pressure %s", shown(units.Altitude, r.Visit.Altitude, in.altitude), shown(units.Pressure, r.Pressure, in.altitude))
	line("effectiveness", "%s, from %s to %s with %s", hundredths(r.Effectiveness.Value), hundredths(r.Effectiveness.Low), hundredths(r.Effectiveness.High), instruments(r, diff))
	e, why := r.Cooler.Expects()
	line("supply", "%s, expected %s", temp(r.Visit.Supply), temp(r.Expected))
	line("expected of", "a %s cooler, effectiveness %s, %s%s%s", r.Cooler.Kind, hundredths(e), why, condition(r), fanHeat(r, diff))
	line("gap", "%s (%s to %s)", signed(r.Gap.Value, in), signed(r.Gap.Low, in), signed(r.Gap.High, in))
	line("accept", "less than %s above the expected supply (published: service-trade cooler index note)", diff(reading.FaultGap))
	if b := r.Band; b != nil {
		met := "not met"
		if r.InBand {
			met = "met"
		}
		line("", "effectiveness %s or more at the pads with %s pads (%s): %s", hundredths(b.Accept), b.Name, b.Mark(), met)
	}
	for i, n := range r.Notes {
		line(once("note", i), "%s", n.In(in.temperature))
	}
	for i, c := range r.Causes[:min(len(r.Causes), mostCauses)] {
		line(once("likely causes", i), "%d. %s: %s", i+1, c.What, c.Look)
	}
	for i, c := range reading.Cautions {
		line(once("caution", i), "%s", c)
	}
	return t.Flush()
}

func instruments(r *reading.Result, diff func(float64) string) string {
	text := "thermometers of ±" + diff(reading.TemperatureError)
	if r.Visit.Humidity.Measure == reading.RelHum {
		text += fmt.Sprintf(" and humidity of ±%.0f points", 100*reading.HumidityError)
	}
	return text
}

// mostCauses are printed; JSON has them all.
const mostCauses = 6

// once is a label before the first of several lines.
func once(label string, i int) string {
	if i > 0 {
		return ""
	}
	return label
}

func condition(r *reading.Result) string {
	if r.Cooler.Condition == 1 {
		return ""
	}
	return fmt.Sprintf(", pads at %s of it", inPercent(r.Cooler.Condition))
}

func fanHeat(r *reading.Result, diff func(float64) string) string {
	if r.FanHeat == 0 {
		return ""
	}
	return ", fan heat " + diff(r.FanHeat)
}

// shown is a quantity as people read it; a dash where there is none.
func shown(k units.Kind, v float64, sys units.System) string {
	if math.IsNaN(v) {
		return "-"
	}
	return k.Show(v, sys)
}

func hundredths(v float64) string {
	if math.IsNaN(v) {
		return "-"
	}
	return fmt.Sprintf("%.2f", v)
}

func inPercent(v float64) string {
	if math.IsNaN(v) {
		return "-"
	}
	return fmt.Sprintf("%.0f %%", 100*v)
}

func signed(k float64, in shownIn) string {
	text := shown(units.TemperatureDifference, k, in.temperature)
	if k > 0 && !strings.HasPrefix(text, "0.0 ") {
		return "+" + text
	}
	return text
}

// notes are the notes of a reading in a unit system.
func notes(r *reading.Result, sys units.System) []string {
	all := []string{}
	for _, n := range r.Notes {
		all = append(all, n.In(sys))
	}
	return all
}

// readingJSON is a reading for another program, in SI; null where there is no
// value.
type readingJSON struct {
	Altitude       float64     `json:"altitude_m"`
	Pressure       float64     `json:"pressure_pa"`
	Outdoor        float64     `json:"outdoor_c"`
	RelHum         *float64    `json:"relative_humidity"`
	DewPoint       *float64    `json:"dew_point_c"`
	WetBulb        *float64    `json:"wet_bulb_c"`
	Depression     *float64    `json:"depression_k"`
	Supply         float64     `json:"supply_c"`
	Effectiveness  *float64    `json:"effectiveness"`
	EffLow         *float64    `json:"effectiveness_low"`
	EffHigh        *float64    `json:"effectiveness_high"`
	ExpectedSupply *float64    `json:"expected_supply_c"`
	FanHeat        float64     `json:"fan_heat_k"`
	Gap            *float64    `json:"gap_k"`
	GapLow         *float64    `json:"gap_low_k"`
	GapHigh        *float64    `json:"gap_high_k"`
	Verdict        string      `json:"verdict"`
	Meaning        string      `json:"meaning"`
	Notes          []string    `json:"notes"`
	Causes         []causeJSON `json:"causes"`
	Band           *bandJSON   `json:"band"`
}

type causeJSON struct {
	Cause string `json:"cause"`
	Look  string `json:"look"`
}

type bandJSON struct {
	Pad    string  `json:"pad"`
	Accept float64 `json:"accept_effectiveness"`
	Mark   string  `json:"mark"`
	Met    bool    `json:"met"`
}

func jsonOf(r *reading.Result) *readingJSON {
	j := &readingJSON{
		Altitude: r.Visit.Altitude, Pressure: r.Pressure, Outdoor: r.Visit.Outdoor, RelHum: orNull(r.RelHum), DewPoint: orNull(r.DewPoint),
		WetBulb: orNull(r.WetBulb), Depression: orNull(r.Depression), Supply: r.Visit.Supply,
		Effectiveness: orNull(r.Effectiveness.Value), EffLow: orNull(r.Effectiveness.Low), EffHigh: orNull(r.Effectiveness.High),
		ExpectedSupply: orNull(r.Expected), FanHeat: r.FanHeat, Gap: orNull(r.Gap.Value), GapLow: orNull(r.Gap.Low), GapHigh: orNull(r.Gap.High),
		Verdict: string(r.Verdict), Meaning: r.Verdict.Meaning(), Notes: notes(r, units.SI), Causes: []causeJSON{},
	}
	for _, c := range r.Causes {
		j.Causes = append(j.Causes, causeJSON{c.What, c.Look})
	}
	if b := r.Band; b != nil {
		j.Band = &bandJSON{string(b.Pads), b.Accept, b.Mark(), r.InBand}
	}
	return j
}
