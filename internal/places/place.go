package places

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"github.com/evapbook/evapbook/internal/hint"
)

// Place is where somebody's house stands.
type Place struct {
	Name      string  // "Bend, OR", a station's name, or coordinates
	Latitude  float64 // degrees north
	Longitude float64 // degrees east
	Elevation float64 // m; NaN where coordinates lie far from any town
	Near      *Town   // of coordinates: the town whose elevation was taken
	Town      *Town   // nil for a station and for coordinates
	Station   *Station

	// Others are the towns of the same name, the most populous first.
	Others []*Town
}

// Candidates gives the stations whose climate is nearest, the chosen one first
// and n in all. The altitude in m is that of the house; NaN stands for the
// place's own. A place that is a station has itself alone.
func (p *Place) Candidates(altitude float64, n int) []Candidate {
	if math.IsNaN(altitude) {
		altitude = p.Elevation
	}
	if p.Station != nil {
		return []Candidate{{Station: p.Station, Higher: altitude - p.Station.Elevation}}
	}
	return Nearest(p.Latitude, p.Longitude, altitude, n)
}

// nearTown is how far the town may be whose elevation coordinates are given.
const nearTown = 10 // km

// At is the place at coordinates in degrees. Its elevation is that of a town
// within 10 km, if there is one.
func At(latitude, longitude float64) (*Place, error) {
	if !(latitude >= -90 && latitude <= 90) || !(longitude >= -180 && longitude <= 180) {
		return nil, hint.With(fmt.Errorf("%g,%g: no place on the earth", latitude, longitude), "latitude and longitude in degrees, west is negative, as 44.06,-121.31")
	}
	p := &Place{Name: fmt.Sprintf("%g, %g", latitude, longitude), Latitude: latitude, Longitude: longitude, Elevation: math.NaN()}
	best := float64(nearTown)
	all := gazetteer()
	for i := range all {
		if d := Km(latitude, longitude, all[i].Latitude, all[i].Longitude); d <= best {
			best, p.Near, p.Elevation = d, &all[i], all[i].Elevation
		}
	}
	return p, nil
}

// Coordinates reads "44.06,-121.31", also with a blank or N, S, E, W.
func Coordinates(text string) (latitude, longitude float64, ok bool) {
	f := strings.FieldsFunc(text, func(r rune) bool { return r == ',' || r == ' ' || r == ';' })
	if len(f) != 2 {
		return 0, 0, false
	}
	lat, ok1 := degrees(f[0], "Nn", "Ss")
	lon, ok2 := degrees(f[1], "Ee", "Ww")
	return lat, lon, ok1 && ok2
}

func degrees(text, plus, minus string) (float64, bool) {
	sign := 1.0
	text = strings.TrimRight(text, plus)
	if cut := strings.TrimRight(text, minus); cut != text {
		text, sign = cut, -1
	}
	v, err := strconv.ParseFloat(strings.TrimSuffix(text, "°"), 64)
	return sign * v, err == nil && !math.IsInf(v, 0) && !math.IsNaN(v)
}
