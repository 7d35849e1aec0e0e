package workbook

import (
	"fmt"
	"math"

	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/weather"
	"github.com/evapbook/evapbook/internal/xlsx"
)

// Given is how the weather was named on the command line: enough to read the
// same weather again for a workbook that has been edited.
type Given struct {
	Path  string // as given; empty for the built-in sample
	Flags string // flags that change how the file is read, such as "--humidity=relative"
}

// Names of cells that say where a workbook's figures came from, for reading
// its inputs back.
const (
	SourceFile    = "Src_file"
	SourcePath    = "Src_path"
	SourceFlags   = "Src_flags"
	SourceSHA256  = "Src_sha256"
	SourceStation = "Src_station"
	SourceUnits   = "Src_units"
	SourceKind    = "Src_kind" // ValuesOnly, or not there
)

// ValuesOnly is what a workbook without formulas says in SourceKind.
const (
	ValuesOnly = "values only"
)

// Notes lists what a reader of the results must know about the weather.
func (c *Case) Notes() []string {
	return append(c.fileNotes(), c.Season.Climate.Notes...)
}

// fileNotes are the notes that hold whatever the inputs are.
func (c *Case) fileNotes() []string {
	notes := []string{}
	for _, n := range c.Series.Notes {
		notes = append(notes, n.String())
	}
	return notes
}

var humidityName = map[weather.Humidity]string{
	weather.RelHum: "relative humidity", weather.DewPoint: "dew point", weather.WetBulb: "wet bulb",
}

func (c *Case) layWeather(p *page) {
	p.Cols = []float64{34, 60, 20}
	st, src := c.Series.Station, c.Series.Source
	first, last := c.Series.Hours[0].Time, c.Series.Hours[len(c.Series.Hours)-1].Time
	span := first.Format("2 Jan 2006 15:04") + " to " + last.Format("2 Jan 2006 15:04")
	if c.Series.Typical {
		span = "a typical year: months joined from different years"
	}
	p.section("Source", 2)
	for _, line := range []struct{ label, value, name string }{
		{"File", src.Name, SourceFile}, {"Read from", c.Given.Path, SourcePath}, {"Read with", c.Given.Flags, SourceFlags},
		{"Format", src.Format, ""}, {"SHA-256", src.SHA256, SourceSHA256},
		{"Station", st.Name, SourceStation}, {"Latitude, longitude", degrees(st.Latitude) + ", " + degrees(st.Longitude), ""},
		{"Elevation", c.elevation(), ""}, {"Hours ahead of UTC", degrees(st.UTCOffset), ""},
		{"Time", span, ""}, {"Hours in the file", fmt.Sprint(len(c.Series.Hours)), ""}, {"Hours with weather", fmt.Sprint(c.Season.Climate.Valid), ""},
		{"Humidity taken from", humidityName[c.Series.Humidity], ""}, {"Units of this workbook", c.Units.String(), SourceUnits},
		{"Kind of workbook", c.kind(), SourceKind},
	} {
		if line.value == "" {
			continue
		}
		p.SetRow(p.row, 1, xlsx.Cell{Value: line.label, Style: styleLabel}, xlsx.Cell{Value: line.value, Style: styleLabel, Name: line.name})
		p.row++
	}
	p.row++
	p.section("Notes", 2)
	words, formula := c.weatherNote().done()
	p.text(words, formula, 2, 1+len(words)/95, styleText)
	notes := c.fileNotes()
	if len(notes) == 0 {
		notes = []string{"nothing in the file was filled or rejected"}
	}
	for _, n := range notes {
		p.text(n, "", 2, 1+len(n)/95, styleText)
	}
}

// kind is ValuesOnly for a workbook without formulas.
func (c *Case) kind() string {
	if c.ValuesOnly {
		return ValuesOnly
	}
	return ""
}

func (c *Case) elevation() string {
	if !c.Season.Climate.ElevationKnown {
		return "not in the file"
	}
	u := units.Altitude.Unit(c.Units)
	return fmt.Sprintf("%.0f %s", display(u, c.Season.Climate.StationElevation), u.Symbol)
}

func degrees(v float64) string {
	if math.IsNaN(v) {
		return "unknown"
	}
	return fmt.Sprintf("%g", v)
}
