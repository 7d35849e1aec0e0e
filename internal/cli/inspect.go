package cli

import (
	"encoding/json"
	"fmt"
	"io"
	"math"
	"text/tabwriter"

	"github.com/spf13/cobra"

	"github.com/evapbook/evapbook/internal/weather"
)

type inspectOptions struct {
	*streams
	weatherFlags
	json bool
}

func newInspectCmd(s *streams) *cobra.Command {
	o := &inspectOptions{streams: s}
	cmd := &cobra.Command{
		Use:   "inspect WEATHER",
		Short: "Say what a weather file is and what is in it",
		Example: `  # what is this file?
  evapbook inspect boise.csv`,
		Args: usageArgs(cobra.ExactArgs(1)),
		RunE: func(_ *cobra.Command, args []string) error { return o.run(args[0]) },
	}
	cmd.Flags().BoolVar(&o.json, "json", false, "print JSON")
	o.weatherFlags.add(cmd.Flags())
	return cmd
}

// report is what inspect finds in a file.
type report struct {
	File      string             `json:"file"`
	Format    string             `json:"format"`
	SHA256    string             `json:"sha256"`
	Station   string             `json:"station"`
	Country   string             `json:"country,omitempty"`
	Latitude  *float64           `json:"latitude"`
	Longitude *float64           `json:"longitude"`
	Elevation *float64           `json:"elevation_m"`
	UTCOffset *float64           `json:"utc_offset_h"`
	First     string             `json:"first"`
	Last      string             `json:"last"`
	Typical   bool               `json:"typical_year"`
	Hours     int                `json:"hours"`
	Humidity  string             `json:"humidity_from"`
	Ranges    map[string]*extent `json:"ranges"`
	Notes     []string           `json:"notes"`
}

// extent is the range of one quantity and how many hours lack it.
type extent struct {
	Unit    string  `json:"unit"`
	Min     float64 `json:"min"`
	Max     float64 `json:"max"`
	Mean    float64 `json:"mean"`
	Missing int     `json:"missing"`
}

var humidityWords = map[weather.Humidity][2]string{
	weather.RelHum: {"relative humidity", "%"}, weather.DewPoint: {"dew point", "°C"}, weather.WetBulb: {"wet bulb", "°C"},
}

// quantities of a series, in the order inspect lists them.
var quantities = []struct {
	name, unit string
	of         func(h *weather.Hour) float64
}{
	{"dry bulb", "°C", func(h *weather.Hour) float64 { return h.DryBulb }},
	{"", "", func(h *weather.Hour) float64 { return h.Humidity }},
	{"station pressure", "hPa", func(h *weather.Hour) float64 { return h.Pressure / 100 }},
	{"irradiance", "W/m²", func(h *weather.Hour) float64 { return h.GHI }},
}

func (o *inspectOptions) run(path string) error {
	s, err := o.open(path, o.in)
	if err != nil {
		return err
	}
	r := describe(s)
	if o.json {
		e := json.NewEncoder(o.out)
		e.SetIndent("", "  ")
		return e.Encode(r)
	}
	return r.print(o.out)
}

func describe(s *weather.Series) *report {
	const stamp = "2006-01-02 15:04"
	r := &report{
		File: s.Source.Name, Format: s.Source.Format, SHA256: s.Source.SHA256,
		Station: s.Station.Name, Country: s.Station.Country,
		Latitude: orNull(s.Station.Latitude), Longitude: orNull(s.Station.Longitude),
		Elevation: orNull(s.Station.Elevation), UTCOffset: orNull(s.Station.UTCOffset),
		First: s.Hours[0].Time.Format(stamp), Last: s.Hours[len(s.Hours)-1].Time.Format(stamp),
		Typical: s.Typical, Hours: len(s.Hours),
		Humidity: humidityWords[s.Humidity][0], Ranges: map[string]*extent{}, Notes: []string{},
	}
	for _, q := range quantities {
		name, unit, scale := q.name, q.unit, 1.0
		if name == "" {
			name, unit = humidityWords[s.Humidity][0], humidityWords[s.Humidity][1]
			if s.Humidity == weather.RelHum {
				scale = 100
			}
		}
		if e := extentOf(s.Hours, q.of, scale); e != nil {
			e.Unit = unit
			r.Ranges[name] = e
		}
	}
	for _, n := range s.Notes {
		if n.Line > 0 {
			r.Notes = append(r.Notes, fmt.Sprintf("line %d: %s", n.Line, n.Text))
		} else {
			r.Notes = append(r.Notes, n.Text)
		}
	}
	return r
}

// extentOf is nil where no hour has the quantity.
func extentOf(hours []weather.Hour, of func(*weather.Hour) float64, scale float64) *extent {
	e := &extent{Min: math.Inf(1), Max: math.Inf(-1)}
	n := 0
	for i := range hours {
		v := of(&hours[i]) * scale
		if math.IsNaN(v) {
			e.Missing++
			continue
		}
		e.Min, e.Max, e.Mean = min(e.Min, v), max(e.Max, v), e.Mean+v
		n++
	}
	if n == 0 {
		return nil
	}
	e.Mean /= float64(n)
	return e
}

func orNull(v float64) *float64 {
	if math.IsNaN(v) {
		return nil
	}
	return &v
}

func (r *report) print(w io.Writer) error {
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	line := func(label, format string, a ...any) {
		fmt.Fprintf(t, "%s\t"+format+"\n", append([]any{label}, a...)...)
	}
	line("file", "%s", r.File)
	line("format", "%s", r.Format)
	line("station", "%s", r.Station)
	line("place", "latitude %s, longitude %s, elevation %s m, %s h from UTC", word(r.Latitude), word(r.Longitude), word(r.Elevation), word(r.UTCOffset))
	if r.Typical {
		line("span", "%d hours of a typical year (months joined from different years)", r.Hours)
	} else {
		line("span", "%d hours, %s to %s", r.Hours, r.First, r.Last)
	}
	line("humidity from", "%s", r.Humidity)
	for _, q := range quantities {
		name := q.name
		if name == "" {
			name = r.Humidity
		}
		e := r.Ranges[name]
		if e == nil {
			line(name, "not in the file")
			continue
		}
		missing := ""
		if e.Missing > 0 {
			missing = fmt.Sprintf(", %d hours missing", e.Missing)
		}
		line(name, "%.1f to %.1f, mean %.1f %s%s", e.Min, e.Max, e.Mean, e.Unit, missing)
	}
	for _, n := range r.Notes {
		line("note", "%s", n)
	}
	line("sha256", "%s", r.SHA256)
	return t.Flush()
}

func word(v *float64) string {
	if v == nil {
		return "unknown"
	}
	return fmt.Sprintf("%g", *v)
}
