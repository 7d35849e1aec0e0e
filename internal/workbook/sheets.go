// Package workbook writes the workbook of one house: which sheets it has, in
// what order, and what stands on each of them.
//
// What stands in a cell is declared as data, as a live formula with the
// engine's value cached beside it: package fx has the text of the formulas,
// figures the headline figures, sheet the building blocks, and a package for
// each reader the sheets themselves. Package xlsx writes the file.
//
// Names: In_ an input as the person sees it, Si_ the same in SI, B_ what
// follows from inputs before any hour is computed, M_ money, Out_ a headline
// figure in SI.
package workbook

import (
	"cmp"
	"fmt"
	"io"

	"github.com/evapbook/evapbook/internal/look"
	"github.com/evapbook/evapbook/internal/workbook/alternatives"
	"github.com/evapbook/evapbook/internal/workbook/costs"
	"github.com/evapbook/evapbook/internal/workbook/customer"
	"github.com/evapbook/evapbook/internal/workbook/engineer"
	"github.com/evapbook/evapbook/internal/workbook/figures"
	"github.com/evapbook/evapbook/internal/workbook/given"
	"github.com/evapbook/evapbook/internal/workbook/methods"
	"github.com/evapbook/evapbook/internal/workbook/sheet"
	"github.com/evapbook/evapbook/internal/workbook/steps"
	technicians "github.com/evapbook/evapbook/internal/workbook/technician"
	"github.com/evapbook/evapbook/internal/xlsx"
)

// Write writes the workbook of a computed house.
func Write(w io.Writer, c *figures.Case) error {
	b, err := book(c)
	if err != nil {
		return err
	}
	return b.Write(w)
}

// reader is for whom a sheet is: the rooms of the book, in the order of the tabs.
type reader int

const (
	everyone   reader = iota
	customers         // what it does, costs and drinks
	technician        // what to take up on the roof
	engineers         // the climate and the hours
	computed          // every step, and where figures come from
)

// room says where a reader begins, and how the tabs of the sheets look.
var rooms = map[reader]struct{ title, begin, tab string }{
	everyone:   {"To begin with", "", look.TabFront},
	customers:  {"For the customer", "Begin with Answer; Money says what it costs, Water what it drinks.", look.TabCustomer},
	technician: {"For the technician", "Print Start-up in spring and Close-down in autumn; both have room for readings.", look.TabTechnician},
	engineers:  {"For the engineer", "Begin with Hot weeks and Air chart; Bins and Hours hold the numbers.", look.TabEngineer},
	computed:   {"How it is computed", "Methods has every equation; Working has every step of every hour.", look.TabComputed},
}

// listed is one sheet of the book: its tab and how it is laid out.
type listed struct {
	key  string // what references call it
	name string // on the tab, where people read something else than the key
	room reader
	what string // one line, shown in the contents and under the title
	lay  func(c *figures.Case, p *sheet.Page) error

	follows liveness
	behind  bool // carries formulas only: left out of a book of values
	light   bool // in the book for a customer's mail and phone
}

// liveness says how much of a sheet follows when an input is changed. What does
// not says so on the sheet, and warns once an input differs.
type liveness int

const (
	live      liveness = iota // everything
	picked                    // everything but the choice of what is shown
	inPart                    // some of it was computed at writing
	asWritten                 // nothing: all was computed at writing
)

// title is what people call the sheet.
func (s *listed) title() string { return cmp.Or(s.name, s.key) }

// handed tells whether the sheet is one that a customer is given on paper.
func (s *listed) handed() bool { return s.room == customers || s.key == "Answer" }

// allSheets in tab order. Adding a sheet is one file and one line here.
func allSheets() []listed {
	return []listed{
		{key: "Answer", room: customers, lay: customer.Answer, follows: inPart, light: true,
			what: "What an evaporative cooler will do here, on one page"},
		{key: "Contents", lay: always(layContents), light: true,
			what: "The sheets by reader, with links, and what the words mean"},
		{key: "Inputs", lay: always(given.Inputs),
			what: "Everything that can be changed; change a yellow cell and the whole workbook follows"},
		{key: "Options", room: customers, lay: alternatives.Options, follows: inPart, light: true,
			what: "Ways to cool this house side by side: what each holds, drinks and costs"},
		{key: "Money", room: customers, lay: moneyAndCash, follows: inPart, light: true,
			what: "What each way of cooling costs to buy, feed and keep, and year by year"},
		{key: "Water", room: customers, lay: always(customer.Water), light: true,
			what: "What the cooler drinks, what it costs, and water at the power plant"},
		{key: "Months", room: customers, lay: always(customer.Months), light: true,
			what: "The year by months"},
		{key: "Whatif", name: "What if", room: customers, lay: alternatives.Whatif, follows: asWritten, light: true,
			what: "Other coolers, pads, airflows and setpoints for this house, computed at writing"},
		{key: "Startup", name: "Start-up", room: technician, lay: technicians.Startup,
			what: "For the technician in spring: the air to expect, the week, water, openings, and a list to fill in"},
		{key: "Closedown", name: "Close-down", room: technician, lay: always(technicians.Closedown),
			what: "For the technician in autumn: freeze dates, a list to fill in, cautions"},
		{key: "Years", room: engineers, lay: always(engineer.Years), follows: asWritten,
			what: "Every year of the weather: how far good and bad years lie apart"},
		{key: "Hotweeks", name: "Hot weeks", room: engineers, lay: always(engineer.Hotweeks), follows: picked, light: true,
			what: "The hottest, the dampest and the worst week, hour by hour"},
		{key: "Heatmap", name: "Heat map", room: engineers, lay: always(engineer.Heatmap), light: true,
			what: "Supply, indoor temperature and uncovered hours by month and time of day"},
		{key: "Airchart", name: "Air chart", room: engineers, lay: always(engineer.Airchart), follows: picked,
			what: "Outdoor and supply air on the psychrometric chart"},
		{key: "Sizing", room: engineers, lay: always(engineer.Sizing),
			what: "Airflow and load of this house, beside rules of thumb"},
		{key: "Bins", room: engineers, lay: always(engineer.Bins),
			what: "The hours by outdoor dry bulb"},
		{key: "Hours", room: engineers, lay: always(engineer.Hours),
			what: "Every hour of the year"},
		{key: "Totals", room: computed, lay: always(steps.Totals), follows: inPart,
			what: "The headline figures in SI, each a named cell"},
		{key: "Design", room: computed, lay: steps.Design,
			what: "The cooler at the design conditions and in the air of the Start-up page, step by step, in SI"},
		{key: "Days", room: computed, lay: always(steps.Days), behind: true,
			what: "The year by days, in SI"},
		{key: "Basis", room: computed, lay: always(steps.Basis),
			what: "What follows from the inputs before any hour is computed, in SI"},
		{key: "Working", room: computed, lay: always(steps.Working), behind: true,
			what: "Every step of every hour, in SI"},
		{key: "Weather", room: computed, lay: always(given.Weather),
			what: "Where the weather came from and what was done to it"},
		{key: "Methods", room: computed, lay: always(methods.Methods),
			what: "Every equation with its source, limits and cautions"},
	}
}

// moneyAndCash is the page of costs with the years behind it.
func moneyAndCash(c *figures.Case, p *sheet.Page) error {
	if err := costs.Money(c, p); err != nil {
		return err
	}
	p.SetArea() // the years are for the screen
	costs.Cash(c, p)
	return nil
}

// sheets are those the workbook has, in tab order.
func sheets(c *figures.Case) []listed {
	var have []listed
	for _, s := range allSheets() {
		if s.key == "Years" && c.Years == nil {
			continue // one year has no range
		}
		if c.ValuesOnly && s.behind || c.Light && !s.light {
			continue
		}
		if c.ValuesOnly && s.key == "Inputs" {
			s.what = "What these figures were computed with; a workbook with formulas can be changed here"
		}
		have = append(have, s)
	}
	return have
}

// always is a layout that cannot fail.
func always(lay func(*figures.Case, *sheet.Page)) func(*figures.Case, *sheet.Page) error {
	return func(c *figures.Case, p *sheet.Page) error {
		lay(c, p)
		return nil
	}
}

// book lays out all sheets.
func book(c *figures.Case) (*xlsx.Book, error) {
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
	for _, s := range sheets(c) {
		p := &sheet.Page{Sheet: b.AddSheet(s.title())}
		p.Key = s.key
		p.Tab, p.Protect = rooms[s.room].tab, true
		p.Print = print(c, s.handed() || c.Light)
		if s.key != "Answer" { // it has a letterhead of its own
			p.Title(s.title(), c.Season.Job.Site.Name, "In_site_name", s.what)
		}
		if err := s.lay(c, p); err != nil {
			return nil, fmt.Errorf("sheet %s: %w", s.title(), err)
		}
		p.SetArea()
	}
	return b, nil
}

// print is the paper set-up of a sheet; a page handed to a customer names no
// program.
func print(c *figures.Case, handed bool) xlsx.Print {
	if handed {
		return sheet.Handed(c.Units, c.Season.Job.Site.Name)
	}
	return sheet.Paper(c.Units, c.Version, c.Season.Job.Site.Name)
}
