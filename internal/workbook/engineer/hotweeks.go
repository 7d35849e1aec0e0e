package engineer

import (
	"math"
	"strconv"

	"github.com/evapbook/evapbook/internal/climate"
	"github.com/evapbook/evapbook/internal/look"
	"github.com/evapbook/evapbook/internal/season"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/workbook/figures"
	"github.com/evapbook/evapbook/internal/workbook/fx"
	"github.com/evapbook/evapbook/internal/workbook/sheet"
	"github.com/evapbook/evapbook/internal/xlsx/chart"
)

// week is seven days picked for the Hotweeks sheet.
type week struct {
	name, title, why string
	first, last      int // hours, last exclusive
}

// weeks picks the hottest week, the dampest and the one with most uncovered
// hours. A spell is any seven days in a row that have weather.
func weeks(c *figures.Case) []week {
	days, hours := c.Season.Climate.Days, c.Season.Hours
	mean := func(of func(i int) float64) func(d int) float64 {
		return func(d int) float64 {
			sum, n := 0.0, 0
			for i := days[d].First; i < days[d+season.WeekDays-1].Last; i++ {
				if !c.Missing(i) {
					sum += of(i)
					n++
				}
			}
			if n < 24*season.WeekDays {
				return math.Inf(-1)
			}
			return sum / float64(n)
		}
	}
	pick := func(name, title, why string, score func(d int) float64) (week, bool) {
		best, at := math.Inf(-1), -1
		for d := 0; d+season.WeekDays <= len(days); d++ {
			if s := score(d); s > best {
				best, at = s, d
			}
		}
		if at < 0 {
			return week{}, false
		}
		return week{name, title, why, days[at].First, days[at+season.WeekDays-1].Last}, true
	}
	var out []week
	for _, w := range []struct {
		name, title, why string
		of               func(i int) float64
	}{
		{"Hot", "Hottest week", "highest mean outdoor dry bulb", func(i int) float64 { return c.Season.Climate.Hours[i].Air.T }},
		{"Damp", "Dampest week", "highest mean outdoor wet bulb", func(i int) float64 { return c.Season.Climate.Hours[i].WetBulb }},
		{"Worst", "Week with most uncovered hours", "most damp and warm hours", func(i int) float64 { return float64(fx.Flag(hours[i].Outcome.Uncovered())) }},
	} {
		if k, ok := pick(w.name, w.title, w.why, mean(w.of)); ok {
			out = append(out, k)
		}
	}
	return out
}

// weekColumns are one picked week hour by hour, in the units people see. The
// bands are the height of the chart where the outcome holds, else 0.
func weekColumns(c *figures.Case, w week, top float64) []sheet.Column {
	in := func(i int) *climate.Hour { return &c.Season.Climate.Hours[w.first+i] }
	out := func(i int) *season.Hour { return &c.Season.Hours[w.first+i] }
	at := func(key string, i int) string { return "[Working." + key + "#" + strconv.Itoa(w.first+i) + "]" }
	shown := func(key, title string, value func(i int) float64) sheet.Column {
		return sheet.Column{
			Key: key, Title: title, Kind: units.Temperature,
			RowFormula: func(i int) string { return at(key, i) },
			Value:      func(i int) any { return value(i) },
		}
	}
	cols := []sheet.Column{
		{Key: "time", Band: w.title, Title: "Time", Kind: units.DateTime, Value: func(i int) any { return in(i).Time }},
		{Key: "label", Title: "Day", Kind: units.Text, Value: func(i int) any {
			if i%24 != 0 {
				return "" // once a day on the axis
			}
			return in(i).Start.Format("2 Jan")
		}},
		shown("t", "Dry bulb", func(i int) float64 { return in(i).Air.T }),
		shown("wb", "Wet bulb", func(i int) float64 { return c.Solved()[w.first+i].WetBulb }),
		shown("ts", "Supply with water", func(i int) float64 { return out(i).Supply.T }),
		{Key: "house", Title: "House", Kind: units.Temperature, Note: "at the end of the hour, with the cooler",
			RowFormula: func(i int) string { return at("house", i) }, Value: func(i int) any { return out(i).House }},
	}
	for _, s := range sheet.OutcomeSeries {
		cols = append(cols, sheet.Column{Key: s.Outcome.String(), Title: s.Name, Kind: units.Temperature, Raw: true,
			RowFormula: func(i int) string {
				return `IF(` + at("outcome", i) + `="` + s.Outcome.String() + `",` + fx.Num(top) + `,0)`
			},
			Value: func(i int) any {
				if out(i).Outcome == s.Outcome {
					return top
				}
				return 0.0
			}})
	}
	return cols
}

// Hotweeks lays out the hottest, the dampest and the worst week.
func Hotweeks(c *figures.Case, p *sheet.Page) {
	weeks := weeks(c)
	p.Print.Landscape = true
	const shading = "Shading says what becomes of the hour; white: no cooling needed."
	if c.ValuesOnly {
		p.Text(shading, "", 9, 1, sheet.Small)
	} else {
		p.PickedAtWriting("Weeks picked when the workbook was written; what happens in them follows the inputs. "+shading, 9, 2)
	}
	top, bottom := weekScale(c, weeks)
	charts := p.Row
	p.ChartSpace(len(weeks) * chartRows)
	for k, w := range weeks {
		t := &sheet.Table{Name: "Week" + w.name, Rows: w.last - w.first, Columns: weekColumns(c, w, top)}
		ch := weekChart(c, w, top, bottom)
		ch.Row, ch.Col, ch.Width, ch.Height = charts+k*chartRows, 1, weekWidth, chartRows*20-20
		p.Charts = append(p.Charts, ch)
		p.Append(t, c.Units)
	}
	p.PrintTo(charts+len(weeks)*chartRows-1, p.ColumnsOf(1, weekWidth))
	p.Print.FitHeight = 1
}

// The size of a week's chart: rows on the sheet, and pixels across.
const chartRows, weekWidth = 14, 1150

// weekScale is the range of temperature that holds all weeks, in whole fives.
func weekScale(c *figures.Case, weeks []week) (top, bottom float64) {
	u := units.Temperature.Unit(c.Units)
	top, bottom = math.Inf(-1), math.Inf(1)
	for _, w := range weeks {
		for i := w.first; i < w.last; i++ {
			top = max(top, u.FromSI(c.Season.Climate.Hours[i].Air.T))
			bottom = min(bottom, u.FromSI(c.Season.Climate.Hours[i].WetBulb))
		}
	}
	if len(weeks) == 0 {
		return 1, 0
	}
	return math.Ceil(top/5)*5 + 5, math.Floor(bottom/5) * 5
}

func weekChart(c *figures.Case, w week, top, bottom float64) *chart.Chart {
	ref := func(key string) string { return "[Week" + w.name + "." + key + ":]" }
	day := func(i int) string { return c.Season.Climate.Hours[i].Start.Format("2 Jan") }
	ch := &chart.Chart{
		Title: w.title + " (" + w.why + "): " + day(w.first) + " to " + day(w.last-1), Kind: chart.Columns, Stack: chart.Stacked, Gap: 1,
		X:   chart.Axis{LabelEvery: 24},
		Y:   chart.Axis{Title: c.Symbol(units.Temperature), Min: &bottom, Max: &top, NumFmt: "0"},
		Alt: "Lines of outdoor dry bulb, wet bulb, supply and house temperature over the " + w.title + ", over bands that say what becomes of each hour",
	}
	for _, s := range sheet.OutcomeSeries {
		ch.Series = append(ch.Series, chart.Series{Name: s.Name, X: ref("label"), Y: ref(s.Outcome.String()), Color: sheet.OutcomeColour[s.Outcome], Transparency: 65})
	}
	for _, s := range []struct {
		key, name, color string
		dash             chart.Dash
	}{
		{"t", "outdoor dry bulb", look.Outdoor, chart.Solid}, {"wb", "outdoor wet bulb", look.WetBulb, chart.Dashes},
		{"ts", "supply", look.Supply, chart.Solid}, {"house", "house", look.Ink, chart.Solid},
	} {
		ch.Series = append(ch.Series, chart.Series{Kind: chart.Lines, Name: s.name, X: ref("label"), Y: ref(s.key), Color: s.color, Width: 1.75, Dash: s.dash})
	}
	return ch
}
