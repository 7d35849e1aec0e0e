package reading

import (
	"fmt"
	"math"
	"strings"

	"github.com/evapbook/evapbook/internal/units"
)

// Line is one line of a reading as people read it; an empty label carries on
// the line before.
type Line struct{ Label, Text string }

// Lines says a reading for a person on a roof, in the units asked for. The
// cautions are not among them: whoever shows the lines shows those too.
func (r *Result) Lines(in Shown) []Line {
	var all []Line
	line := func(label, format string, a ...any) { all = append(all, Line{label, fmt.Sprintf(format, a...)}) }
	temp := func(c float64) string { return shown(units.Temperature, c, in.Temperature) }
	diff := func(k float64) string { return shown(units.TemperatureDifference, k, in.Temperature) }

	line("verdict", "%s: %s", r.Verdict, r.Verdict.Meaning())
	line("outdoors", "%s, wet bulb %s, %s apart; %s relative humidity, dew point %s", temp(r.Visit.Outdoor), temp(r.WetBulb), diff(r.Depression), inPercent(r.RelHum), temp(r.DewPoint))
	line("altitude", "%s, standard pressure %s", shown(units.Altitude, r.Visit.Altitude, in.Altitude), shown(units.Pressure, r.Pressure, in.Altitude))
	line("effectiveness", "%s, from %s to %s with %s", hundredths(r.Effectiveness.Value), hundredths(r.Effectiveness.Low), hundredths(r.Effectiveness.High), instruments(r, diff))
	e, why := r.Cooler.Expects()
	line("supply", "%s, expected %s", temp(r.Visit.Supply), temp(r.Expected))
	line("expected of", "a %s cooler, effectiveness %s, %s%s%s", r.Cooler.Kind, hundredths(e), why, condition(r), fanHeat(r, diff))
	line("gap", "%s (%s to %s)", signed(r.Gap.Value, in), signed(r.Gap.Low, in), signed(r.Gap.High, in))
	line("accept", "less than %s above the expected supply (published: service-trade cooler index note)", diff(FaultGap))
	if b := r.Band; b != nil {
		met := "not met"
		if r.InBand {
			met = "met"
		}
		line("", "effectiveness %s or more at the pads with %s pads (%s): %s", hundredths(b.Accept), b.Name, b.Mark(), met)
	}
	for i, n := range r.Notes {
		line(Once("note", i), "%s", n.In(in.Temperature))
	}
	for i, c := range r.Causes[:min(len(r.Causes), mostCauses)] {
		line(Once("likely causes", i), "%d. %s: %s", i+1, c.What, c.Look)
	}
	return all
}

func instruments(r *Result, diff func(float64) string) string {
	text := "thermometers of ±" + diff(TemperatureError)
	if r.Visit.Humidity.Measure == RelHum {
		text += fmt.Sprintf(" and humidity of ±%.0f points", 100*HumidityError)
	}
	return text
}

// mostCauses are printed; JSON has them all.
const mostCauses = 6

// Once is a label before the first of several lines.
func Once(label string, i int) string {
	if i > 0 {
		return ""
	}
	return label
}

func condition(r *Result) string {
	if r.Cooler.Condition == 1 {
		return ""
	}
	return fmt.Sprintf(", pads at %s of it", inPercent(r.Cooler.Condition))
}

func fanHeat(r *Result, diff func(float64) string) string {
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

func signed(k float64, in Shown) string {
	text := shown(units.TemperatureDifference, k, in.Temperature)
	if k > 0 && !strings.HasPrefix(text, "0.0 ") {
		return "+" + text
	}
	return text
}
