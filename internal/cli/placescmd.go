package cli

import (
	"encoding/json"
	"fmt"
	"io"
	"math"
	"strconv"
	"text/tabwriter"

	"github.com/spf13/cobra"

	"github.com/evapbook/evapbook/internal/hint"
	"github.com/evapbook/evapbook/internal/places"
	"github.com/evapbook/evapbook/internal/units"
)

type placesOptions struct {
	*streams
	latitude, longitude, units string
	json                       bool
	most                       int
}

func newPlacesCmd(s *streams) *cobra.Command {
	o := &placesOptions{streams: s}
	cmd := &cobra.Command{
		Use:   "places [TEXT]",
		Short: "List the towns and weather stations within the program",
		Long: `Places lists the towns and stations of the United States that a text may mean,
each with the station whose typical year would be taken for it. Without a text it
lists all stations.

With --latitude and --longitude it prints, for any point of the earth, addresses
from which hourly weather files can be downloaded that this program reads. They
are built from the documented parameters of these services and were not tried.`,
		Example: `  # which Springfield?
  evapbook places springfield

  # weather for Alice Springs
  evapbook places --latitude -23.70 --longitude 133.88`,
		Args: usageArgs(cobra.ArbitraryArgs),
		RunE: func(_ *cobra.Command, args []string) error { return o.run(args) },
		ValidArgsFunction: func(_ *cobra.Command, args []string, typed string) ([]string, cobra.ShellCompDirective) {
			return completeStates(typed), cobra.ShellCompDirectiveNoFileComp
		},
	}
	f := cmd.Flags()
	f.BoolVar(&o.json, "json", false, "print JSON, in SI")
	f.StringVar(&o.latitude, "latitude", "", "degrees north of a point anywhere")
	f.StringVar(&o.longitude, "longitude", "", "degrees east of it")
	f.StringVar(&o.units, "units", "ip", "ip or si")
	f.IntVar(&o.most, "most", 20, "how many matches to list")
	return cmd
}

func (o *placesOptions) run(args []string) error {
	sys, err := units.ParseSystem(o.units)
	if err != nil {
		return usageError{fmt.Errorf("--units: %w", err)}
	}
	if o.most < 1 {
		return usagef("--most %d: at least 1", o.most)
	}
	if o.latitude != "" || o.longitude != "" {
		return o.elsewhere(args)
	}
	found := places.Search(joinWords(args))
	if len(found) == 0 {
		_, err := places.Find(joinWords(args))
		return usageError{err}
	}
	left := 0
	if len(args) > 0 && len(found) > o.most {
		found, left = found[:o.most], len(found)-o.most
	}
	if o.json {
		return writeIndented(o.out, recordsOf(found))
	}
	if err := printPlaces(o.out, found, sys); err != nil {
		return err
	}
	if left > 0 {
		fmt.Fprintf(o.err, "evapbook: %d more; --most lists more\n", left)
	}
	return nil
}

// joinWords lets a town be typed without quotes.
func joinWords(args []string) string {
	text := ""
	for i, a := range args {
		if i > 0 {
			text += " "
		}
		text += a
	}
	return text
}

// placeRecord is a match for other programs.
type placeRecord struct {
	Name       string  `json:"name"`
	State      string  `json:"state"`
	Latitude   float64 `json:"latitude"`
	Longitude  float64 `json:"longitude"`
	ElevationM float64 `json:"elevation_m"`
	Population int     `json:"population,omitempty"`
	Station    string  `json:"station"`
	Number     string  `json:"station_number"`
	DistanceKm float64 `json:"distance_km"`
	HigherM    float64 `json:"station_lower_by_m"`
	Far        bool    `json:"far"`
}

func recordsOf(found []*places.Place) []placeRecord {
	out := make([]placeRecord, len(found))
	for i, p := range found {
		c := p.Candidates(math.NaN(), 1)[0]
		round := func(v float64) float64 { return math.Round(v*10) / 10 }
		r := placeRecord{
			Latitude: p.Latitude, Longitude: p.Longitude, ElevationM: p.Elevation,
			Station: c.Station.Full(), Number: c.Station.Number, DistanceKm: round(c.Km), HigherM: round(c.Higher), Far: c.Far(),
		}
		if p.Town != nil {
			r.Name, r.State, r.Population = p.Town.Name, p.Town.State, p.Town.Population
		} else {
			r.Name, r.State = p.Station.Name, p.Station.State
		}
		out[i] = r
	}
	return out
}

func printPlaces(w io.Writer, found []*places.Place, sys units.System) error {
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	fmt.Fprintln(t, "place\televation\tpeople\tstation")
	for _, p := range found {
		people := "station"
		if p.Town != nil {
			people = count(p.Town.Population)
		}
		c := p.Candidates(math.NaN(), 1)[0]
		far := ""
		if c.Far() {
			far = "  far"
		}
		fmt.Fprintf(t, "%s\t%s\t%s\t%s%s\n", p.Name, units.Altitude.Show(p.Elevation, sys), people, c.Named(sys), far)
	}
	return t.Flush()
}

// elsewhere prints where files for a point can be downloaded.
func (o *placesOptions) elsewhere(args []string) error {
	if len(args) > 0 {
		return usagef("a text and coordinates do not go together")
	}
	lat, err1 := strconv.ParseFloat(o.latitude, 64)
	lon, err2 := strconv.ParseFloat(o.longitude, 64)
	if err1 != nil || err2 != nil {
		return hint.With(usagef("--latitude and --longitude go together, each a number of degrees"), "write --latitude -23.70 --longitude 133.88; south and west are negative")
	}
	if _, err := places.At(lat, lon); err != nil {
		return usageError{err}
	}
	links := places.Links(lat, lon)
	if o.json {
		return writeIndented(o.out, links)
	}
	for _, l := range links {
		fmt.Fprintf(o.out, "%s\n  %s\n  %s\n\n", l.Service, l.What, l.Address)
	}
	_, err := fmt.Fprint(o.out, "Built from the documented parameters of these services, not tried.\nSave the page as a file, then: evapbook write FILE --altitude ...\n")
	return err
}

func writeIndented(w io.Writer, v any) error {
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return e.Encode(v)
}
