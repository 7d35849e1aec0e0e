package workbook

import (
	"fmt"
	"io"
	"strings"

	"github.com/evapbook/evapbook/internal/look"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/xlsx"
	"github.com/evapbook/evapbook/internal/zone"
)

// Zone is the workbook of a run over many sites. Unlike that of one house it
// holds the results of the hours as values, for they were computed at writing;
// counts, means and slopes over the sites are live formulas.
type Zone struct {
	Table *zone.Table
	Units units.System // what people see

	lines []zone.Site // of the Ranking, in order
	first int         // lines of the first combination that have need hours: those of charts and means
}

// zoneSheet describes one sheet of the zone workbook.
type zoneSheet struct {
	name, tab, what string
	lay             func(z *Zone, p *page)
}

func (z *Zone) sheets() []zoneSheet {
	list := []zoneSheet{
		{"Contents", look.TabAnswer, "What was run, what carries the season, and the sheets", (*Zone).layContents},
		{"Ranking", look.TabResults, "Every site, from the best held by a direct cooler to the worst; sort and filter as you like", (*Zone).layRanking},
		{"Map", look.TabResults, "The sites by longitude and latitude", (*Zone).layMap},
		{"Altitude", look.TabResults, "Coverage against elevation, and against how dry the design hour is", (*Zone).layAltitude},
		{"Classes", look.TabResults, "The sites by computed thermal zone and dryness", (*Zone).layClasses},
	}
	if len(z.Table.Axes) > 0 {
		list = append(list, zoneSheet{"Study", look.TabResults, "All sites together, by combination of the varied inputs", (*Zone).layStudy})
	}
	return append(list,
		zoneSheet{"LeftOut", look.TabSources, "Files that could not be used, and why", (*Zone).layLeftOut},
		zoneSheet{"Methods", look.TabSources, "What the columns mean, what they leave out, and cautions", (*Zone).layMethods},
	)
}

// Write writes the workbook. A table without rows has none and is an error.
func (z *Zone) Write(w io.Writer) error {
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

func (z *Zone) book() *xlsx.Book {
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
		p := &page{Sheet: b.AddSheet(s.name)}
		p.Tab = s.tab
		p.Print = paperSetUp(z.Units, z.Table.Version, "Many sites")
		p.title(s.name+": "+z.heading(), s.what)
		s.lay(z, p)
		p.setArea()
	}
	return b
}

func (z *Zone) heading() string {
	return units.Count.Show(float64(z.Table.Sites()), units.SI) + " sites"
}

// layContents says what was run and what came of it.
func (z *Zone) layContents(p *page) {
	p.Cols = []float64{22, 14, 14, 60}
	t := z.Table
	p.section("What was run", 4)
	for _, f := range z.facts() {
		p.text(f, "", 4, 1+len(f)/140, styleText)
	}
	p.row++
	if z.first > 0 {
		p.section("What carries the season", 4)
		z.carriers(p)
	}
	p.row++
	p.section("Sheets", 4)
	for _, s := range z.sheets()[1:] {
		p.SetRow(p.row, 1, xlsx.Cell{Value: s.name, Style: styleLink, Link: s.name + "!A1"}, xlsx.Cell{Value: s.what, Style: styleLine})
		p.row++
	}
	p.row++
	p.text("Results of the hours were computed at writing and stand here as values; counts, means and slopes over the sites are formulas. evapbook "+t.Version, "", 4, 2, styleSmall)
}

// facts are the run in sentences.
func (z *Zone) facts() []string {
	t := z.Table
	count := func(n int) string { return units.Count.Show(float64(n), units.SI) }
	f := []string{fmt.Sprintf("%s weather files, %s of them used, %s left out (sheet LeftOut). Each site at the altitude its file gives, unless stated below.", count(t.Files), count(t.Sites()), count(len(t.Left)))}
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

// carrierWords explain zone.Carriers to a reader.
var carrierWords = map[string]string{
	"direct": "a direct cooler is enough", "indirect": "an indirect cooler is, a direct one is not", "two-stage": "it takes a two-stage cooler",
	"in part": "the best cooler holds 80 to 95 %", "poorly": "the best cooler holds less than 80 %", "no need": "no hour needs cooling",
}

// styleLabelIndented is a label that stands to the right of a number.
var styleLabelIndented = xlsx.Style{Size: look.Text, Color: look.Ink, Border: xlsx.Under(xlsx.Hair, look.Rule), VAlign: xlsx.Middle, HAlign: xlsx.Left, Indent: 1}

// carriers counts the sites by what carries their season.
func (z *Zone) carriers(p *page) {
	p.heads("Carried by", "Sites", "Share", "Meaning")
	for _, name := range zone.Carriers[:5] {
		n := 0
		for _, s := range z.lines[:z.first] {
			n += flag(s.Carrier() == name)
		}
		formula := fmt.Sprintf(`COUNTIF([Ranking.carrier%s],"%s")`, z.span(), name)
		p.SetRow(p.row, 1,
			xlsx.Cell{Value: name, Style: styleLabel},
			xlsx.Cell{Value: n, Formula: formula, Style: numberStyle("#,##0")},
			xlsx.Cell{Value: float64(n) / float64(z.first), Formula: fmt.Sprintf("%s/%d", formula, z.first), Style: numberStyle("0 %")},
			xlsx.Cell{Value: carrierWords[name], Style: styleLabelIndented})
		p.row++
	}
	p.text("A cooler carries a season if it holds temperature and humidity in 95 % of the hours that need cooling; the simplest that does is named. The bounds are this program's own.", "", 4, 2, styleSmall)
}

// span is the rows of the Ranking that charts and means are of.
func (z *Zone) span() string { return span(0, z.first) }
