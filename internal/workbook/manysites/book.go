// Package manysites writes the workbook of a run over many sites.
package manysites

import (
	"fmt"
	"io"
	"strings"

	"github.com/evapbook/evapbook/internal/look"
	"github.com/evapbook/evapbook/internal/ranking"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/workbook/fx"
	"github.com/evapbook/evapbook/internal/workbook/sheet"
	"github.com/evapbook/evapbook/internal/xlsx"
)

// Book is the workbook of a run over many sites. Unlike that of one house it
// holds the results of the hours as values, for they were computed at writing;
// counts, means and slopes over the sites are live formulas.
type Book struct {
	Table *ranking.Table
	Units units.System // what people see

	lines []ranking.Site // of the Ranking, in order
	first int            // lines of the first combination that have need hours: those of charts and means
}

// listed describes one sheet of the zone workbook.
type listed struct {
	name, tab, what string
	lay             func(z *Book, p *sheet.Page)
}

func (z *Book) sheets() []listed {
	list := []listed{
		{"Contents", look.TabFront, "What was run, what carries the season, and the sheets", (*Book).layContents},
		{"Ranking", look.TabEngineer, "Every site, from the best held by a direct cooler to the worst; sort and filter as you like", (*Book).layRanking},
		{"Map", look.TabEngineer, "The sites by longitude and latitude", (*Book).layMap},
		{"Altitude", look.TabEngineer, "Coverage against elevation, and against how dry the design hour is", (*Book).layAltitude},
		{"Classes", look.TabEngineer, "The sites by computed thermal zone and dryness", (*Book).layClasses},
	}
	if len(z.Table.Axes) > 0 {
		list = append(list, listed{"Study", look.TabEngineer, "All sites together, by combination of the varied inputs", (*Book).layStudy})
	}
	return append(list,
		listed{"Left out", look.TabComputed, "Files that could not be used, and why", (*Book).layLeftOut},
		listed{"Methods", look.TabComputed, "What the columns mean, what they leave out, and cautions", (*Book).layMethods},
	)
}

// Write writes the workbook. A table without rows has none and is an error.
func (z *Book) Write(w io.Writer) error {
	if len(z.Table.Rows) == 0 {
		return fmt.Errorf("no site to write a workbook of")
	}
	z.lines = z.Table.Ranked()
	z.first = 0
	for _, s := range z.lines {
		if s[0].Combination == 0 && s[0].Held != nil {
			z.first++
		}
	}
	return z.book().Write(w)
}

func (z *Book) book() *xlsx.Book {
	b := &xlsx.Book{
		Title:        "Evaporative cooling at many sites",
		Subject:      "One house and three kinds of evaporative cooler in many climates",
		Creator:      "evapbook " + z.Table.Version,
		Keywords:     "evaporative cooling, climate, altitude, ranking",
		Palette:      look.Series,
		FontSize:     look.Text,
		RecalcOnLoad: true,
	}
	for _, s := range z.sheets() {
		p := &sheet.Page{Sheet: b.AddSheet(s.name)}
		p.Key = s.name
		p.Tab = s.tab
		p.Print = sheet.Paper(z.Units, z.Table.Version, "Many sites")
		p.Title(s.name, z.heading(), "", s.what)
		s.lay(z, p)
		p.SetArea()
	}
	return b
}

func (z *Book) heading() string {
	return units.Count.Show(float64(z.Table.Sites()), units.SI) + " sites"
}

// layContents says what was run and what came of it.
func (z *Book) layContents(p *sheet.Page) {
	p.Cols = []float64{22, 14, 14, 60}
	t := z.Table
	p.Section("What was run", 4)
	for _, f := range z.facts() {
		p.Text(f, "", 4, 1+len(f)/140, sheet.Text)
	}
	p.Row++
	if z.first > 0 {
		p.Section("What carries the season", 4)
		z.carriers(p)
	}
	p.Row++
	p.Section("Sheets", 4)
	for _, s := range z.sheets()[1:] {
		p.SetRow(p.Row, 1, xlsx.Cell{Value: s.name, Style: sheet.Link, Link: s.name + "!A1"}, xlsx.Cell{Value: s.what, Style: sheet.Line})
		p.Row++
	}
	p.Row++
	p.Text("Results of the hours were computed at writing and stand here as values; counts, means and slopes over the sites are formulas. evapbook "+t.Version, "", 4, 2, sheet.Small)
}

// facts are the run in sentences.
func (z *Book) facts() []string {
	t := z.Table
	count := func(n int) string { return units.Count.Show(float64(n), units.SI) }
	f := []string{fmt.Sprintf("%s weather files, %s of them used, %s left out (sheet Left out). Each site at the altitude its file gives, unless stated below.", count(t.Files), count(t.Sites()), count(len(t.Left)))}
	if t.Job == "" {
		f = append(f, "House, coolers and prices are the defaults; docs/inputs.md lists them.")
	} else {
		f = append(f, "Stated inputs, the rest being defaults: "+strings.Join(strings.Fields(strings.ReplaceAll(t.Job, "\n", " ")), " "))
	}
	if t.Weather != "" {
		f = append(f, "Weather read with: "+t.Weather+".")
	}
	for _, a := range t.Axes {
		var values []string
		for _, v := range a.Values {
			values = append(values, a.Text(v, z.Units))
		}
		f = append(f, fmt.Sprintf("Varied: %s = %s.", a.Key, strings.Join(values, ", ")))
	}
	if len(t.Axes) > 0 {
		f = append(f, "Map, Altitude, Classes and the table below are of the first combination.")
	}
	return f
}

// carrierWords explain ranking.Carriers to a reader.
var carrierWords = map[string]string{
	"direct": "a direct cooler is enough", "indirect": "an indirect cooler is, a direct one is not", "two-stage": "it takes a two-stage cooler",
	"in part": "the best cooler reaches 80 to 95 %", "poorly": "the best cooler reaches less than 80 %", "no need": "no hour needs cooling",
}

// styleLabelIndented is a label that stands to the right of a number.
var styleLabelIndented = xlsx.Style{Size: look.Text, Color: look.Ink, Border: xlsx.Under(xlsx.Hair, look.Rule), VAlign: xlsx.Middle, HAlign: xlsx.Left, Indent: 1}

// carriers counts the sites by what carries their season.
func (z *Book) carriers(p *sheet.Page) {
	p.Heads("Carried by", "Sites", "Share", "Meaning")
	for _, name := range ranking.Carriers[:5] {
		n := 0
		for _, s := range z.lines[:z.first] {
			n += fx.Flag(s.Carrier() == name)
		}
		formula := fmt.Sprintf(`COUNTIF([Ranking.carrier%s],"%s")`, z.charted(), name)
		p.SetRow(p.Row, 1,
			xlsx.Cell{Value: name, Style: sheet.Label},
			xlsx.Cell{Value: n, Formula: formula, Style: sheet.Number("#,##0")},
			xlsx.Cell{Value: float64(n) / float64(z.first), Formula: fmt.Sprintf("%s/%d", formula, z.first), Style: sheet.Number("0 %")},
			xlsx.Cell{Value: carrierWords[name], Style: styleLabelIndented})
		p.Row++
	}
	p.Text("A cooler carries a season if it holds 95 % of the hours that need cooling, or leaves them comfortable in moving air; the simplest that does is named. The bounds are this program's own.", "", 4, 2, sheet.Small)
}

// span is the rows of the Ranking that charts and means are of.
func (z *Book) charted() string { return sheet.Rows(0, z.first) }
