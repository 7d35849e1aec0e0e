package workbook

import (
	"math"
	"strconv"

	"github.com/evapbook/evapbook/internal/look"
	"github.com/evapbook/evapbook/internal/season"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/xlsx"
)

// week is seven days picked for the Hotweeks sheet.
type week struct {
	name, title, why string
	first, last      int // hours, last exclusive
}

// weeks picks the hottest week, the dampest and the one with most uncovered
// hours. A spell is any seven days in a row that have weather.
func (c *Case) weeks() []week {
	days, hours := c.Season.Climate.Days, c.Season.Hours
	mean := func(of func(i int) float64) func(d int) float64 {
		return func(d int) float64 {
			sum, n := 0.0, 0
			for i := days[d].First; i < days[d+season.WeekDays-1].Last; i++ {
				if !c.missing(i) {
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
		{"Worst", "Week with most uncovered hours", "most damp and warm hours", func(i int) float64 { return float64(flag(hours[i].Outcome.Uncovered())) }},
	} {
		if k, ok := pick(w.name, w.title, w.why, mean(w.of)); ok {
			out = append(out, k)
		}
	}
	return out
}

// weekColumns are one picked week hour by hour, in the units people see. The
// bands are the height of the chart where the outcome holds, else 0.
func (c *Case) weekColumns(w week, top float64) []column {
	in := func(i int) *hourIn { return &c.Season.Climate.Hours[w.first+i] }
	out := func(i int) *season.Hour { return &c.Season.Hours[w.first+i] }
	at := func(key string, i int) string { return "[Working." + key + "#" + strconv.Itoa(w.first+i) + "]" }
	shown := func(key, title string, value func(i int) float64) column {
		return column{key: key, title: title, kind: units.Temperature, rowFormula: func(i int) string { return at(key, i) }, value: func(i int) any { return value(i) }}
	}
	cols := []column{
		{key: "time", band: w.title, title: "Time", kind: units.DateTime, value: func(i int) any { return in(i).Time }},
		{key: "label", title: "Day", kind: units.Text, value: func(i int) any {
			return in(i).Start.Format("Mon 2 January")
		}},
		shown("t", "Dry bulb", func(i int) float64 { return in(i).Air.T }),
		shown("wb", "Wet bulb", func(i int) float64 { return c.cells[w.first+i].wetBulb }),
		shown("ts", "Supply with water", func(i int) float64 { return out(i).Supply.T }),
		{key: "house", title: "House", kind: units.Temperature, note: "in idle hours: in balance without cooling",
			rowFormula: func(i int) string {
				return `IF(` + at("outcome", i) + `="idle",Si_house_setpoint+` + at("q", i) + `/B_ua,` + at("indoor", i) + ")"
			},
			value: func(i int) any {
				if h := out(i); h.Outcome != season.Idle {
					return h.Indoor
				}
				return c.Season.House.Setpoint + out(i).Load/c.Season.House.UA
			}},
	}
	for _, s := range outcomeSeries {
		cols = append(cols, column{key: s.outcome.String(), title: s.name, kind: units.Temperature, raw: true,
			rowFormula: func(i int) string {
				return `IF(` + at("outcome", i) + `="` + s.outcome.String() + `",` + num(top) + `,0)`
			},
			value: func(i int) any {
				if out(i).Outcome == s.outcome {
					return top
				}
				return 0.0
			}})
	}
	return cols
}

func (c *Case) layHotweeks(p *page) {
	weeks := c.weeks()
	p.Print.Landscape = true
	p.pickedAtWriting("Weeks picked when the workbook was written; what happens in them follows the inputs. Shading says what becomes of the hour; white is idle.", 9, 2)
	top, bottom := c.weekScale(weeks)
	charts := p.row
	p.row += len(weeks) * chartRows
	for k, w := range weeks {
		t := &table{name: "Week" + w.name, rows: w.last - w.first, columns: c.weekColumns(w, top)}
		ch := c.weekChart(w, top, bottom)
		ch.Row, ch.Col, ch.Width, ch.Height = charts+k*chartRows, 1, weekWidth, chartRows*20-20
		p.Charts = append(p.Charts, ch)
		c.appendTable(p, t)
	}
	p.Print.Area = xlsx.RangeRef(1, 1, charts+len(weeks)*chartRows-1, p.columnsOf(1, weekWidth))
	p.Print.FitHeight = 1
}

// The size of a week's chart: rows on the sheet, and pixels across.
const chartRows, weekWidth = 14, 900

// appendTable adds a table below the others without freezing its headers.
func (c *Case) appendTable(p *page, t *table) {
	t.row = p.row + headerRows
	p.Grids = append(p.Grids, t.grid(c.Units))
	p.Height(p.row+1, 32)
	p.row = t.row + t.rows + 1
}

// weekScale is the range of temperature that holds all weeks, in whole fives.
func (c *Case) weekScale(weeks []week) (top, bottom float64) {
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

func (c *Case) weekChart(w week, top, bottom float64) *xlsx.Chart {
	ref := func(key string) string { return "[Week" + w.name + "." + key + ":]" }
	day := func(i int) string { return c.Season.Climate.Hours[i].Start.Format("2 Jan") }
	ch := &xlsx.Chart{
		Title: w.title + " (" + w.why + "): " + day(w.first) + " to " + day(w.last-1), Kind: xlsx.Columns, Stack: xlsx.Stacked, Gap: 1,
		X:   xlsx.Axis{LabelEvery: 24},
		Y:   xlsx.Axis{Title: c.unit(units.Temperature), Min: &bottom, Max: &top, NumFmt: "0"},
		Alt: "Lines of outdoor dry bulb, wet bulb, supply and house temperature over the " + w.title + ", over bands that say what becomes of each hour",
	}
	for _, s := range outcomeSeries {
		ch.Series = append(ch.Series, xlsx.Series{Name: s.name, X: ref("label"), Y: ref(s.outcome.String()), Color: outcomeColour[s.outcome], Transparency: 65})
	}
	for _, s := range []struct {
		key, name, color string
		dash             xlsx.Dash
	}{
		{"t", "outdoor dry bulb", look.Outdoor, xlsx.Solid}, {"wb", "outdoor wet bulb", look.WetBulb, xlsx.Dashes},
		{"ts", "supply", look.Supply, xlsx.Solid}, {"house", "house", look.Ink, xlsx.Solid},
	} {
		ch.Series = append(ch.Series, xlsx.Series{Kind: xlsx.Lines, Name: s.name, X: ref("label"), Y: ref(s.key), Color: s.color, Width: 1.75, Dash: s.dash})
	}
	return ch
}
