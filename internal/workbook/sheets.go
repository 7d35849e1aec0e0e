package workbook

import (
	"fmt"

	"github.com/evapbook/evapbook/internal/look"
	"github.com/evapbook/evapbook/internal/money"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/xlsx"
)

// sheet describes one sheet of the book: its tab and how it is laid out.
type sheet struct {
	name string
	tab  string // colour
	what string // one line, shown in the contents and under the title
	lay  func(c *Case, p *page) error
}

// allSheets in tab order. Adding a sheet is one file and one line here.
func allSheets() []sheet {
	return []sheet{
		{"Answer", look.TabAnswer, "What an evaporative cooler will do here, on one page", (*Case).layAnswer},
		{"Contents", look.TabAnswer, "The sheets, with links", always((*Case).layContents)},
		{"Inputs", look.TabInputs, "Everything that can be changed; change a yellow cell and the whole workbook follows", always((*Case).layInputs)},
		{"Money", look.TabMoney, "What each way of cooling costs to buy, feed and keep", (*Case).layMoney},
		{"Months", look.TabResults, "The year by months", always((*Case).layMonths)},
		{"Years", look.TabResults, "Every year of the weather: how far good and bad years lie apart", always((*Case).layYears)},
		{"Heatmap", look.TabResults, "Supply, indoor temperature and uncovered hours by month and time of day", always((*Case).layHeatmap)},
		{"Hotweeks", look.TabResults, "The hottest, the dampest and the worst week, hour by hour", always((*Case).layHotweeks)},
		{"Airchart", look.TabResults, "Outdoor and supply air on the psychrometric chart", always((*Case).layAirchart)},
		{"Bins", look.TabResults, "The hours by outdoor dry bulb", always((*Case).layBins)},
		{"Hours", look.TabResults, "Every hour of the year", always((*Case).layHours)},
		{"Cash", look.TabMoney, "The cost of each way year by year", always((*Case).layCash)},
		{"Water", look.TabResults, "What the cooler drinks, what it costs, and water at the power plant", always((*Case).layWater)},
		{"Startup", look.TabAnswer, "For the technician in spring: the air to expect, the week, water, openings, and a list to fill in", (*Case).layStartup},
		{"Closedown", look.TabAnswer, "For the technician in autumn: freeze dates, a list to fill in, cautions", always((*Case).layClosedown)},
		{"Whatif", look.TabWhatif, "Other coolers, pads, airflows and setpoints for this house, computed at writing", (*Case).layWhatif},
		{"Totals", look.TabSteps, "The headline figures in SI, each a named cell", always((*Case).layTotals)},
		{"Design", look.TabSteps, "The cooler at the design conditions, step by step, in SI", always((*Case).layDesign)},
		{"SupplyTable", look.TabSteps, "The steps behind the supply temperatures on Startup, in SI", (*Case).laySupplyTable},
		{"Days", look.TabSteps, "The year by days, in SI", always((*Case).layDays)},
		{"Basis", look.TabSteps, "What follows from the inputs before any hour is computed, in SI", always((*Case).layBasis)},
		{"Working", look.TabSteps, "Every step of every hour, in SI", always((*Case).layWorking)},
		{"Weather", look.TabSources, "Where the weather came from and what was done to it", always((*Case).layWeather)},
		{"Methods", look.TabSources, "Every equation with its source, limits and cautions", always((*Case).layMethods)},
	}
}

// sheets are those the workbook has, in tab order.
func (c *Case) sheets() []sheet {
	var have []sheet
	for _, s := range allSheets() {
		if s.name == "Years" && c.Years == nil {
			continue // one year has no range
		}
		if c.ValuesOnly && (s.name == "Working" || s.name == "Days" || s.name == "SupplyTable") {
			continue // only there for the formulas
		}
		if c.ValuesOnly && s.name == "Inputs" {
			s.what = "What these figures were computed with; a workbook with formulas can be changed here"
		}
		have = append(have, s)
	}
	return have
}

// always is a layout that cannot fail.
func always(lay func(*Case, *page)) func(*Case, *page) error {
	return func(c *Case, p *page) error {
		lay(c, p)
		return nil
	}
}

// book lays out all sheets.
func (c *Case) book() (*xlsx.Book, error) {
	site := c.Season.Job.Site.Name
	b := &xlsx.Book{
		Title:        "Evaporative cooling at " + site,
		Subject:      "Evaporative cooler by the hour, beside refrigerated air conditioning",
		Creator:      "evapbook " + c.Version,
		Keywords:     "evaporative cooling, wet bulb, weather, water, energy",
		Palette:      look.Series,
		FontSize:     look.Text,
		RecalcOnLoad: !c.ValuesOnly,
		Values:       c.ValuesOnly,
	}
	if c.ValuesOnly { // lines about changed inputs ask for it
		b.Names = append(b.Names, xlsx.Name{Name: "B_inputs_changed", Ref: "0"})
	}
	sheets := c.sheets()
	for i := range sheets {
		s := &sheets[i]
		p := &page{Sheet: b.AddSheet(s.name)}
		p.Tab, p.Protect = s.tab, true
		p.Print = c.print()
		p.title(c.heading(s), s.what)
		if err := s.lay(c, p); err != nil {
			return nil, fmt.Errorf("sheet %s: %w", s.name, err)
		}
		p.setArea()
	}
	return b, nil
}

// setArea gives the sheet a print area that holds everything on it. Programs
// differ in what they print of a book where only some sheets have one.
func (p *page) setArea() {
	if p.Print.Area != "" {
		return
	}
	wide := max(1, len(p.Cols))
	for _, g := range p.Grids {
		wide = max(wide, g.Col+len(g.Columns)-1)
	}
	for _, ch := range p.Charts {
		wide = max(wide, ch.Col-1+p.columnsOf(ch.Col, ch.Width))
	}
	p.Print.Area = xlsx.RangeRef(1, 1, max(1, p.row-1), wide)
}

// heading is the title of a sheet with its site; an invented site says so on
// every sheet.
func (c *Case) heading(s *sheet) string {
	if s.name == "Answer" {
		return c.Season.Job.Site.Name
	}
	return s.name + ": " + c.Season.Job.Site.Name
}

// print is the paper set-up of a sheet.
func (c *Case) print() xlsx.Print {
	return paperSetUp(c.Units, c.Version, c.Season.Job.Site.Name)
}

// paperSetUp is the paper set-up all sheets share; subject stands in the header.
func paperSetUp(sys units.System, version, subject string) xlsx.Print {
	pr := xlsx.Print{
		Paper: xlsx.A4, FitWidth: 1, Footer: "&L" + "evapbook " + escapeFooter(version) + "&C&A&RPage &P of &N",
		Margins: xlsx.Margins{Left: 0.5, Right: 0.5, Top: 0.6, Bottom: 0.6, Header: 0.3, Footer: 0.3},
		Header:  "&R" + escapeFooter(subject),
	}
	if sys == units.IP {
		pr.Paper = xlsx.Letter
	}
	return pr
}

// place puts a table on the page below what is there and freezes its headers.
func (p *page) place(t *table, sys units.System) {
	t.row = p.row + headerRows
	p.Grids = append(p.Grids, t.grid(sys))
	p.FreezeRows = t.row - 1
	p.Print.Landscape = true
	p.Print.TitleRows = [2]int{p.row, t.row - 1}
	p.Height(p.row+1, 42)
	p.row = t.row + t.rows + 1
}

// printRows prints some rows of a long table only, so many pages across; the
// sheet still holds them all.
func (p *page) printRows(name string, first, last, across int) {
	g := p.Grids[0]
	for _, each := range p.Grids {
		if each.Name == name {
			g = each
		}
	}
	p.Print.Area = xlsx.RangeRef(g.Row+first, 1, g.Row+last-1, len(g.Columns))
	p.Print.FitWidth = across
	p.Set(p.row, 1, xlsx.Cell{Value: fmt.Sprintf("Prints rows %d to %d only; set another print area for more.", g.Row+first, g.Row+last-1), Style: styleQuiet})
	p.row++
}

func (c *Case) missing(i int) bool { return c.Season.Climate.Hours[i].Missing }

func (c *Case) layWorking(p *page) {
	p.place(&table{name: "Working", rows: len(c.Season.Hours), columns: c.workingColumns(), blank: c.missing, shared: true}, units.SI)
	p.FreezeCols = 1
	p.printRows("Working", 0, 24, 5)
}

func (c *Case) layDays(p *page) {
	blank := func(i int) bool { return c.Season.Climate.Days[i].Valid == 0 }
	p.place(&table{name: "Days", rows: len(c.Season.Days), columns: c.daysColumns(), blank: blank}, units.SI)
	p.FreezeCols = 1
}

func (c *Case) layDesign(p *page) {
	rows := c.designRows()
	p.place(&table{name: "Design", rows: len(rows), columns: c.designColumns(rows)}, units.SI)
	p.Print.FitWidth = 3
	p.FreezeCols = 1
}

func (c *Case) layMonths(p *page) {
	p.place(&table{name: "Months", rows: 12, columns: c.monthsColumns()}, c.Units)
	p.row++
	c.monthCharts(p)
	p.Print.FitHeight = 1
	c.layDaily(p)
}

func (c *Case) layHours(p *page) {
	p.place(&table{name: "Hours", rows: len(c.Season.Hours), columns: c.hoursColumns(), blank: c.missing, filter: true}, c.Units)
	p.FreezeCols = 1
	if w := c.weeks(); len(w) > 0 {
		worst := w[len(w)-1]
		p.printRows("Hours", worst.first, worst.last, 1)
	}
}

func (c *Case) layTotals(p *page) {
	p.Cols = []float64{44, 16, 14, 34, 46}
	p.heads("Figure", "Value", "Unit", "Name", "")
	for _, f := range c.Figures() {
		u := f.Kind.Unit(units.SI)
		p.SetRow(p.row, 1,
			xlsx.Cell{Value: f.Label, Style: styleLabel},
			xlsx.Cell{Value: f.Value, Formula: f.formula, Style: numberStyle(u.Format), Name: f.Name()},
			xlsx.Cell{Value: u.Symbol, Style: styleSymbol},
			xlsx.Cell{Value: f.Name(), Style: styleQuiet},
			xlsx.Cell{Value: f.note, Style: styleQuiet},
		)
		p.row++
	}
}

func (c *Case) layBasis(p *page) {
	p.Cols = []float64{46, 16, 14, 8, 24, 60}
	p.Print.Landscape = true
	p.Print.FitHeight = 1
	p.heads("Quantity", "Value", "Unit", "Eq.", "Name", "Source or reason")
	p.scalars(c.basis())
	p.row++
	p.section("What each way of cooling takes in a year", 6)
	for _, r := range c.moneyRows() {
		if !r.isMoney() {
			p.scalars(r.scalars())
		}
	}
	p.row++
	p.section("Rules behind derived inputs", 6)
	p.layConstants()
}

func (c *Case) layMoney(p *page) error {
	p.Cols = []float64{34, 16, 16, 16, 10, 8}
	p.heads("A year at today's prices", wayTitle[money.Cooler], wayTitle[money.Refrigerated], wayTitle[money.Both], "", "")
	for _, r := range c.moneyRows() {
		u := r.kind.Unit(c.Units)
		p.Set(p.row, 1, xlsx.Cell{Value: r.label, Style: styleLabel})
		for w := range r.formula {
			cell := xlsx.Cell{Value: u.FromSI(r.value[w]), Formula: r.formula[w], Style: numberStyle(u.Format), Name: r.name(w)}
			if !r.isMoney() { // named in SI on Basis
				cell.Formula, cell.Name = displayFormula(u, r.name(w)), ""
			}
			p.Set(p.row, 2+w, cell)
		}
		p.Set(p.row, 5, xlsx.Cell{Value: u.Symbol, Style: styleSymbol})
		p.Set(p.row, 6, xlsx.Cell{Value: equation(r.eq), Style: styleQuiet})
		p.row++
	}
	value, formula := c.coolerAlone().done()
	p.text(value, formula, 6, 2, styleWarn)
	p.row++
	p.section("Study", 6)
	p.scalars(c.studyScalars())
	p.row++
	c.moneyCharts(p)
	p.Print.FitHeight = 1
	return c.layTornado(p)
}

func (c *Case) layCash(p *page) {
	p.place(&table{name: "Cash", rows: money.MaxYears + 1, columns: c.cashColumns()}, c.Units)
	p.FreezeCols = 1
}

// coolerAlone reminds that the cheapest way leaves hours uncovered.
func (c *Case) coolerAlone() *sentence {
	t := &c.Season.Totals
	return new(sentence).say("The cooler alone leaves ").number("Out_hours_uncovered", float64(t.Hours.Uncovered()), 0).
		say(" of ").number("Out_hours_need", float64(t.Hours.Need()), 0).
		say(" hours that need cooling uncovered; the other two ways are sized to cover them. Compare prices with that in mind.")
}

func escapeFooter(s string) string { return fill(s, "&", "&&") }
