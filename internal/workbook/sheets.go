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
	"fmt"
	"io"

	"github.com/evapbook/evapbook/internal/look"
	"github.com/evapbook/evapbook/internal/workbook/customer"
	"github.com/evapbook/evapbook/internal/workbook/engineer"
	"github.com/evapbook/evapbook/internal/workbook/figures"
	"github.com/evapbook/evapbook/internal/workbook/given"
	"github.com/evapbook/evapbook/internal/workbook/methods"
	"github.com/evapbook/evapbook/internal/workbook/sheet"
	"github.com/evapbook/evapbook/internal/workbook/steps"
	"github.com/evapbook/evapbook/internal/workbook/technician"
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

// listed is one sheet of the book: its tab and how it is laid out.
type listed struct {
	name string
	tab  string // colour
	what string // one line, shown in the contents and under the title
	lay  func(c *figures.Case, p *sheet.Page) error
}

// allSheets in tab order. Adding a sheet is one file and one line here.
func allSheets() []listed {
	return []listed{
		{"Answer", look.TabAnswer, "What an evaporative cooler will do here, on one page", customer.Answer},
		{"Contents", look.TabAnswer, "The sheets, with links", always(layContents)},
		{"Inputs", look.TabInputs, "Everything that can be changed; change a yellow cell and the whole workbook follows", always(given.Inputs)},
		{"Money", look.TabMoney, "What each way of cooling costs to buy, feed and keep", customer.Money},
		{"Months", look.TabResults, "The year by months", always(customer.Months)},
		{"Years", look.TabResults, "Every year of the weather: how far good and bad years lie apart", always(engineer.Years)},
		{"Heatmap", look.TabResults, "Supply, indoor temperature and uncovered hours by month and time of day", always(engineer.Heatmap)},
		{"Hotweeks", look.TabResults, "The hottest, the dampest and the worst week, hour by hour", always(engineer.Hotweeks)},
		{"Airchart", look.TabResults, "Outdoor and supply air on the psychrometric chart", always(engineer.Airchart)},
		{"Bins", look.TabResults, "The hours by outdoor dry bulb", always(engineer.Bins)},
		{"Hours", look.TabResults, "Every hour of the year", always(engineer.Hours)},
		{"Cash", look.TabMoney, "The cost of each way year by year", always(customer.Cash)},
		{"Water", look.TabResults, "What the cooler drinks, what it costs, and water at the power plant", always(customer.Water)},
		{"Startup", look.TabAnswer, "For the technician in spring: the air to expect, the week, water, openings, and a list to fill in", technician.Startup},
		{"Closedown", look.TabAnswer, "For the technician in autumn: freeze dates, a list to fill in, cautions", always(technician.Closedown)},
		{"Whatif", look.TabWhatif, "Other coolers, pads, airflows and setpoints for this house, computed at writing", customer.Whatif},
		{"Totals", look.TabSteps, "The headline figures in SI, each a named cell", always(steps.Totals)},
		{"Design", look.TabSteps, "The cooler at the design conditions, step by step, in SI", always(steps.Design)},
		{"SupplyTable", look.TabSteps, "The steps behind the supply temperatures on Startup, in SI", steps.SupplyTable},
		{"Days", look.TabSteps, "The year by days, in SI", always(steps.Days)},
		{"Basis", look.TabSteps, "What follows from the inputs before any hour is computed, in SI", always(steps.Basis)},
		{"Working", look.TabSteps, "Every step of every hour, in SI", always(steps.Working)},
		{"Weather", look.TabSources, "Where the weather came from and what was done to it", always(given.Weather)},
		{"Methods", look.TabSources, "Every equation with its source, limits and cautions", always(methods.Methods)},
	}
}

// sheets are those the workbook has, in tab order.
func sheets(c *figures.Case) []listed {
	var have []listed
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
		p := &sheet.Page{Sheet: b.AddSheet(s.name)}
		p.Tab, p.Protect = s.tab, true
		p.Print = print(c)
		p.Title(heading(c, &s), s.what)
		if err := s.lay(c, p); err != nil {
			return nil, fmt.Errorf("sheet %s: %w", s.name, err)
		}
		p.SetArea()
	}
	return b, nil
}

// heading is the title of a sheet with its site; an invented site says so on
// every sheet.
func heading(c *figures.Case, s *listed) string {
	if s.name == "Answer" {
		return c.Season.Job.Site.Name
	}
	return s.name + ": " + c.Season.Job.Site.Name
}

// print is the paper set-up of a sheet.
func print(c *figures.Case) xlsx.Print {
	return sheet.Paper(c.Units, c.Version, c.Season.Job.Site.Name)
}
