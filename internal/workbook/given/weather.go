package given

import (
	"fmt"
	"math"

	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/weather"
	"github.com/evapbook/evapbook/internal/workbook/figures"
	"github.com/evapbook/evapbook/internal/workbook/sheet"
	"github.com/evapbook/evapbook/internal/xlsx"
)

// Names of cells that say where a workbook's figures came from, for reading
// its inputs back.
const (
	SourceFile    = "Src_file"
	SourcePath    = "Src_path"
	SourceFlags   = "Src_flags"
	SourceSHA256  = "Src_sha256"
	SourceStation = "Src_station"
	SourcePlace   = "Src_place"
	SourceUnits   = "Src_units"
	SourceKind    = "Src_kind" // ValuesOnly, or not there
)

// ValuesOnly is what a workbook without formulas says in SourceKind.
const (
	ValuesOnly = "values only"
)

var humidityName = map[weather.Humidity]string{
	weather.RelHum: "relative humidity", weather.DewPoint: "dew point", weather.WetBulb: "wet bulb",
}

// Weather lays out where the weather came from and what was done to it.
func Weather(c *figures.Case, p *sheet.Page) {
	p.Cols = []float64{34, 60, 20}
	st, src := c.Series.Station, c.Series.Source
	first, last := c.Series.Hours[0].Time, c.Series.Hours[len(c.Series.Hours)-1].Time
	span := first.Format("2 Jan 2006 15:04") + " to " + last.Format("2 Jan 2006 15:04")
	if c.Series.Typical {
		span = "a typical year: months joined from different years"
	}
	p.Section("Source", 2)
	for _, line := range []struct{ label, value, name string }{
		{"File", src.Name, SourceFile}, {"Read from", c.Given.Path, SourcePath}, {"Read with", c.Given.Flags, SourceFlags},
		{"Format", src.Format, ""}, {"SHA-256", src.SHA256, SourceSHA256},
		{"Place", placeName(c), SourcePlace}, {"Station", st.Name, SourceStation}, {"Latitude, longitude", degrees(st.Latitude) + ", " + degrees(st.Longitude), ""},
		{"Elevation", elevation(c), ""}, {"Hours ahead of UTC", degrees(st.UTCOffset), ""},
		{"Time", span, ""}, {"Hours in the file", fmt.Sprint(len(c.Series.Hours)), ""}, {"Hours with weather", fmt.Sprint(c.Season.Climate.Valid), ""},
		{"Humidity taken from", humidityName[c.Series.Humidity], ""}, {"Units of this workbook", c.Units.String(), SourceUnits},
		{"Kind of workbook", kind(c), SourceKind},
	} {
		if line.value == "" {
			continue
		}
		p.SetRow(p.Row, 1, xlsx.Cell{Value: line.label, Style: sheet.Label}, xlsx.Cell{Value: line.value, Style: sheet.Label, Name: line.name})
		p.Row++
	}
	p.Row++
	p.Section("Notes", 2)
	words, formula := WeatherNote(c).Done()
	p.Text(words, formula, 2, 1+len(words)/95, sheet.Text)
	notes := c.FileNotes()
	if len(notes) == 0 {
		notes = []string{"nothing in the file was filled or rejected"}
	}
	for _, n := range notes {
		p.Text(n, "", 2, 1+len(n)/95, sheet.Text)
	}
}

func placeName(c *figures.Case) string {
	if c.Sited == nil {
		return ""
	}
	return c.Sited.Place.Name
}

// kind is ValuesOnly for a workbook without formulas.
func kind(c *figures.Case) string {
	if c.ValuesOnly {
		return ValuesOnly
	}
	return ""
}

func elevation(c *figures.Case) string {
	if !c.Season.Climate.ElevationKnown {
		return "not in the file"
	}
	u := units.Altitude.Unit(c.Units)
	return fmt.Sprintf("%.0f %s", sheet.Display(u, c.Season.Climate.StationElevation), u.Symbol)
}

func degrees(v float64) string {
	if math.IsNaN(v) {
		return "unknown"
	}
	return fmt.Sprintf("%g", v)
}
