package places

import (
	"fmt"
	"strconv"
	"strings"
	"sync"

	data "github.com/evapbook/evapbook/data/places"
)

// Station is a weather station with a typical year.
type Station struct {
	Number string // six digits, as the TMY3 set has it
	Name   string // in capitals, as its file has it
	State  string // two letters

	UTCOffset float64 // hours ahead of UTC, standard time
	Latitude  float64 // degrees north
	Longitude float64 // degrees east
	Elevation float64 // m

	head  string   // the first line of its file
	years []string // the years its months were taken from
	at    int      // where its block begins among all
	bytes int      // and how long it is
}

// Full is the station's name with its state, as the reader of its file has it.
func (s *Station) Full() string { return s.Name + ", " + s.State }

// Stations lists all stations by number. The slice is shared: do not change it.
func Stations() []Station { return catalogue() }

// catalogue parses the table of stations once. It is part of the program, so a
// flaw in it is a mistake of ours.
var catalogue = sync.OnceValue(func() []Station {
	var all []Station
	at := 0
	for _, f := range table(data.Stations, 9) {
		s := Station{
			Number: f[0], Name: f[1], State: f[2], UTCOffset: number(f[3]), Latitude: number(f[4]), Longitude: number(f[5]), Elevation: number(f[6]),
			head: strings.Join(f[:7], ","), years: strings.Fields(f[7]), at: at, bytes: int(number(f[8])),
		}
		at += s.bytes
		if _, doubtful := leftOut[s.Number]; !doubtful {
			all = append(all, s)
		}
	}
	return all
})

// leftOut are stations that package weather refuses, with the reason.
var leftOut = map[string]string{
	"703407": "120 hours of April up to 48 °C in Alaska: values in °F among those in °C",
}

// table cuts an embedded CSV table without quotes into fields, its heading left
// off.
func table(text string, fields int) [][]string {
	_, text, _ = strings.Cut(text, "\n")
	rows := make([][]string, 0, strings.Count(text, "\n"))
	for line := range strings.Lines(text) {
		f := strings.Split(strings.TrimRight(line, "\r\n"), ",")
		if len(f) != fields {
			panic(fmt.Sprintf("places: %d fields in %q", len(f), line))
		}
		rows = append(rows, f)
	}
	return rows
}

func number(text string) float64 {
	v, err := strconv.ParseFloat(text, 64)
	if err != nil {
		panic("places: " + err.Error())
	}
	return v
}

// ByNumber finds a station by its number.
func ByNumber(number string) (*Station, bool) {
	all := catalogue()
	for i := range all {
		if all[i].Number == number {
			return &all[i], true
		}
	}
	return nil, false
}
