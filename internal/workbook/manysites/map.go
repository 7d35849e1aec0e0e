package manysites

import (
	"fmt"
	"math"
	"slices"

	"github.com/evapbook/evapbook/internal/look"
	"github.com/evapbook/evapbook/internal/ranking"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/workbook/sheet"
	"github.com/evapbook/evapbook/internal/xlsx/chart"
)

// carrierColour goes from the simplest machine to none, darker the worse.
var carrierColour = map[string]string{
	"direct": look.Vent, "indirect": look.WetBulb, "two-stage": look.Evap, "in part": look.Damp, "poorly": look.Warm,
}

// group is the sites of a map that share a colour.
type group struct {
	name, color string
	sites       []ranking.Site
}

// layMap draws two maps. A series of a chart has one colour, so each map has a
// table of its own in which the sites stand by colour.
func (z *Book) layMap(p *sheet.Page) {
	var placed []ranking.Site
	for _, s := range z.lines {
		if s[0].Combination == 0 && s[0].Latitude != nil && s[0].Longitude != nil {
			placed = append(placed, s)
		}
	}
	if len(placed) == 0 {
		p.Text("No file gives latitude and longitude.", "", 8, 1, sheet.Text)
		return
	}
	byCarrier := grouped(placed, ranking.Carriers[:5], carrierColours(), ranking.Site.Carrier)
	byZone := grouped(placed, zoneNames(), look.ColdToHot, func(s ranking.Site) string { return zoneName(s[0].ThermalZone) })
	p.Cols = []float64{14, 34, 11, 11, 3, 14, 34, 11, 11}
	chartRow := p.Row
	p.Row += 24
	area := mapArea(placed)
	if len(byCarrier) > 0 { // at least one site needs cooling
		z.mapTable(p, "MapCarrier", 1, "Carried by", byCarrier)
		p.Charts = append(p.Charts, area.chart("What carries the season", "MapCarrier", chartRow, 1, byCarrier))
	}
	if len(byZone) > 0 {
		z.mapTable(p, "MapZone", 6, "Thermal zone", byZone)
		p.Charts = append(p.Charts, area.chart("Computed thermal zone", "MapZone", chartRow, 6, byZone))
	}
	p.Row += sheet.HeaderRows + len(placed) + 1
}

func carrierColours() []string {
	var c []string
	for _, name := range ranking.Carriers[:5] {
		c = append(c, carrierColour[name])
	}
	return c
}

func zoneName(n int64) string { return fmt.Sprintf("zone %d", n) }

func zoneNames() []string {
	var names []string
	for n := range look.ColdToHot {
		names = append(names, zoneName(int64(n)))
	}
	return names
}

// grouped sorts sites by name of their group; groups without sites are left out.
func grouped(sites []ranking.Site, names, colours []string, of func(ranking.Site) string) []group {
	var groups []group
	for i, name := range names {
		g := group{name: name, color: colours[i]}
		for _, s := range sites {
			if of(s) == name {
				g.sites = append(g.sites, s)
			}
		}
		if len(g.sites) > 0 {
			groups = append(groups, g)
		}
	}
	return groups
}

// mapTable puts the sites of a map on the page, group after group.
func (z *Book) mapTable(p *sheet.Page, name string, col int, title string, groups []group) {
	var sites []ranking.Site
	var labels []string
	for _, g := range groups {
		for _, s := range g.sites {
			sites, labels = append(sites, s), append(labels, g.name)
		}
	}
	t := &sheet.Table{Name: name, Row: p.Row + sheet.HeaderRows, Rows: len(sites), Columns: []sheet.Column{
		{Key: "group", Band: "Sites by colour", Title: title, Kind: units.Text, Value: func(i int) any { return labels[i] }},
		{Key: "site", Title: "Site", Kind: units.Text, Value: func(i int) any { return sites[i][0].Site }},
		{Key: "longitude", Title: "Longitude", Kind: units.Plain, Value: func(i int) any { return *sites[i][0].Longitude }},
		{Key: "latitude", Title: "Latitude", Kind: units.Plain, Value: func(i int) any { return *sites[i][0].Latitude }},
	}}
	g := t.Grid(z.Units)
	g.Col = col
	widen(g, map[string]float64{"site": 34, "longitude": 11, "latitude": 11, "group": 14})
	p.Grids = append(p.Grids, g)
}

// area is the part of the earth that a map shows, degrees.
type area struct{ west, east, south, north float64 }

// mapArea is round the sites, to whole degrees.
func mapArea(sites []ranking.Site) area {
	a := area{math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)}
	for _, s := range sites {
		a.west, a.east = min(a.west, *s[0].Longitude), max(a.east, *s[0].Longitude)
		a.south, a.north = min(a.south, *s[0].Latitude), max(a.north, *s[0].Latitude)
	}
	step := degreeStep(max(a.east-a.west, a.north-a.south))
	a.west, a.east = outward(a.west, a.east, step)
	a.south, a.north = outward(a.south, a.north, step)
	return a
}

// outward moves limits to whole steps, apart even where all sites stand in line.
func outward(low, high, step float64) (float64, float64) {
	low, high = math.Floor(low/step)*step, math.Ceil(high/step)*step
	if low == high {
		return low - step, high + step
	}
	return low, high
}

// degreeStep is a round distance of grid lines for a map of that many degrees.
func degreeStep(degrees float64) float64 {
	steps := []float64{1, 2, 5, 10, 20, 30}
	i := slices.IndexFunc(steps, func(s float64) bool { return degrees/s <= 9 })
	if i < 0 {
		return 60
	}
	return steps[i]
}

func (a area) chart(title, grid string, row, col int, groups []group) *chart.Chart {
	step := degreeStep(max(a.east-a.west, a.north-a.south))
	ch := &chart.Chart{
		Row: row, Col: col, Width: 480, Height: 460, Title: title, Kind: chart.Scatter,
		X:   chart.Axis{Title: "longitude, degrees east", Min: &a.west, Max: &a.east, Major: step, NumFmt: "0"},
		Y:   chart.Axis{Title: "latitude, degrees north", Min: &a.south, Max: &a.north, Major: step, NumFmt: "0"},
		Alt: "Map of the sites as points, " + title,
	}
	from := 0
	for _, g := range groups {
		rows := sheet.Rows(from, from+len(g.sites))
		from += len(g.sites)
		ch.Series = append(ch.Series, chart.Series{Name: fmt.Sprintf("%s (%d)", g.name, len(g.sites)), X: "[" + grid + ".longitude" + rows + "]", Y: "[" + grid + ".latitude" + rows + "]",
			Color: g.color, Marker: chart.Marker{Shape: chart.Circle, Size: 7}})
	}
	return ch
}
