package inspect

import (
	"bytes"
	"fmt"
	"io"
	"strings"
	"text/tabwriter"
	"unicode/utf8"

	"github.com/evapbook/evapbook/internal/units"
)

// Page writes the report for people: values in both unit systems.
func (r *Report) Page(w io.Writer) error {
	var table bytes.Buffer
	t := tabwriter.NewWriter(&table, 0, 0, 2, ' ', 0)
	line := func(label, format string, a ...any) {
		fmt.Fprintf(t, "%s\t"+format+"\n", append([]any{label}, a...)...)
	}
	line("file", "%s", r.File)
	line("format", "%s, known by: %s", r.Format, r.KnownBy)
	line("station", "%s", r.stationLine())
	line("place", "%s", r.placeLine())
	line("clock", "%s", r.clockLine())
	line("span", "%s", r.spanLine())
	line("usable", "%s", r.usableLine())
	line("", "")
	line("months", "J F M A M J J A S O N D")
	for _, name := range r.names() {
		line("  "+name, "%s", strip(r.Months[name]))
	}
	line("", "█ all hours  ▓ nine tenths or more  ▒ half or more  ░ some  · none")
	line("", "")
	for _, name := range r.names() {
		line(name, "%s", rangeLine(r.Ranges[name]))
	}
	line("", "")
	line("humidity", "%s", r.humidityLine())
	line("pressure", "%s", r.pressureLine())
	line("sun", "%s", r.sunLine())
	if len(r.Years) > 1 {
		line("", "")
		for _, y := range r.Years {
			line("year "+y.Year, "%s", y.line())
		}
	}
	line("", "")
	for _, n := range r.Notes {
		line("note", "%s", n)
	}
	for _, n := range r.Needs {
		line("missing", "%s: %s", n.What, n.Option)
	}
	line("judgement", "%s", r.Verdict)
	line("sha256", "%s", r.SHA256)
	if err := t.Flush(); err != nil {
		return err
	}
	for text := range strings.Lines(table.String()) {
		if _, err := fmt.Fprintln(w, strings.TrimRight(text, " \n")); err != nil {
			return err
		}
	}
	_, err := fmt.Fprintf(w, "\n%s\n", r.next())
	return err
}

func (r *Report) names() []string {
	return []string{"dry bulb", r.Humidity, "station pressure", "irradiance"}
}

func (r *Report) stationLine() string {
	if r.Station == "" {
		return "not named in the file"
	}
	if r.Country != "" {
		return r.Station + ", " + r.Country
	}
	return r.Station
}

func (r *Report) placeLine() string {
	at := "latitude and longitude not in the file"
	if r.Latitude != nil && r.Longitude != nil {
		at = fmt.Sprintf("%s, %s", compass(*r.Latitude, "N", "S"), compass(*r.Longitude, "E", "W"))
	}
	if r.Elevation == nil {
		return at + ", elevation not in the file"
	}
	return fmt.Sprintf("%s, elevation %.0f m (%s)", at, *r.Elevation, units.Altitude.Show(*r.Elevation, units.IP))
}

func compass(v float64, positive, negative string) string {
	if v < 0 {
		return fmt.Sprintf("%g° %s", -v, negative)
	}
	return fmt.Sprintf("%g° %s", v, positive)
}

func (r *Report) clockLine() string {
	ends := "a stamp begins its hour"
	if r.HourEnding {
		ends = "a stamp ends its hour"
	}
	if r.UTCOffset == nil {
		return ends + "; time zone not known"
	}
	return fmt.Sprintf("all year UTC%+.4g h, never daylight-saving time; %s", *r.UTCOffset, ends)
}

func (r *Report) spanLine() string {
	if r.Typical {
		return fmt.Sprintf("%d hours of a typical year, months joined from different years", r.Hours)
	}
	return fmt.Sprintf("%d hours, %s to %s", r.Hours, r.First, r.Last)
}

func (r *Report) usableLine() string {
	text := fmt.Sprintf("%d hours with temperature and humidity", r.Usable)
	if len(r.Years) == 1 {
		text += fmt.Sprintf("; of the warm half-year %d of %d", r.Years[0].WarmValid, r.Years[0].WarmHours)
	}
	if g := r.LongestGap; g != nil {
		where := ""
		if g.Warm {
			where = ", in the warm half-year"
		}
		text += fmt.Sprintf("; longest gap %d h from %s%s", g.Hours, g.From, where)
	}
	return text
}

func (y yearReport) line() string {
	text := fmt.Sprintf("%d hours; of the warm half-year %d of %d", y.Hours, y.WarmValid, y.WarmHours)
	if !y.Whole {
		text += "; too few, left out of the range over years"
	}
	return text
}

// strip shows how complete each month is.
func strip(months []*share) string {
	var b strings.Builder
	for i, s := range months {
		if i > 0 {
			b.WriteByte(' ')
		}
		b.WriteRune(shade(s))
	}
	return b.String()
}

func shade(s *share) rune {
	switch {
	case s == nil || *s == 0:
		return '·'
	case *s >= 0.9999:
		return '█'
	case *s >= 0.9:
		return '▓'
	case *s >= 0.5:
		return '▒'
	}
	return '░'
}

// rangeLine gives lowest, mean and highest in SI and, in brackets, in the
// customary units of the United States.
func rangeLine(e *extent) string {
	if e == nil {
		return "not in the file"
	}
	show := func(v float64) string { return fmt.Sprintf("%.1f", v) }
	unit := e.Unit
	switch e.Unit {
	case "°C":
		show = func(v float64) string { return fmt.Sprintf("%.1f (%.0f)", v, v*1.8+32) }
		unit = "°C (°F)"
	case "hPa":
		show = func(v float64) string { return fmt.Sprintf("%.0f (%.2f)", v, v/33.86389) } // NIST SP 811, conventional inch of mercury
		unit = "hPa (inHg)"
	case "W/m²", "%":
		show = func(v float64) string { return fmt.Sprintf("%.0f", v) }
	}
	text := fmt.Sprintf("%s to %s, mean %s %s", show(e.Min), show(e.Max), show(e.Mean), unit)
	text += "; highest " + e.MaxAt
	if e.Missing > 0 {
		text += fmt.Sprintf("; %d hours missing", e.Missing)
	}
	return text
}

func (r *Report) humidityLine() string {
	if r.Spare == "" {
		return r.Humidity + " is used, the only one in the file"
	}
	text := fmt.Sprintf("%s is used, the file has %s too", r.Humidity, r.Spare)
	if r.Humidity == humidityWords[0][0] {
		text = fmt.Sprintf("%s is used; the file has %s too, but against NOAA's own wet bulb relative humidity did better (--humidity dew-point takes the other)", r.Humidity, r.Spare)
	}
	if r.Disagree != nil {
		text += fmt.Sprintf("; the two differ by more than 5 points in %d hours", *r.Disagree)
	}
	return text
}

func (r *Report) pressureLine() string {
	switch e := r.Ranges["station pressure"]; {
	case e == nil && r.Elevation == nil:
		return "not in the file, nor the elevation: that of the standard atmosphere at the house is used"
	case e == nil:
		return "not in the file: that of the standard atmosphere at the station's elevation is used; sea-level and altimeter pressure never are"
	case e.Missing > 0:
		return "the station's own; in missing hours that of the standard atmosphere at its elevation"
	}
	return "the station's own, as it stands in the file"
}

func (r *Report) sunLine() string {
	switch e := r.Ranges["irradiance"]; {
	case e == nil:
		return "not in the file: clear sky at the station times the input site.clearness is used"
	case e.Missing > 0:
		return "from the file; in missing hours clear sky times the input site.clearness"
	}
	return "global horizontal irradiance from the file"
}

// next says what to do next.
func (r *Report) next() string {
	var options []string
	for _, n := range r.Needs {
		if n.Must {
			options = append(options, n.Option)
		}
	}
	if len(options) == 0 {
		if r.Named != "" {
			return "Ready for: evapbook write " + r.Named
		}
		return "Ready for: evapbook write " + quoteSpaces(r.File)
	}
	return "Not ready for write: give " + strings.Join(options, " and ")
}

func quoteSpaces(s string) string {
	if strings.ContainsAny(s, " '\"") || utf8.RuneCountInString(s) != len(s) {
		return `"` + s + `"`
	}
	return s
}
