// Package weather reads hourly weather files into one typed series.
//
// Time is local standard time, never daylight-saving time. Hour.Time is the
// stamp the file prints (24:00 becomes 00:00 of the next day); where
// Series.HourEnding is set the stamp closes the hour it labels, else it opens
// it. Series.Start is what calendars and day totals group by. Reports made at
// other minutes (00:52) are put on the clock hour they fall in; stamps in UTC
// are moved to the station's standard time.
//
// Every series covers whole days, hour by hour. Typical years (months joined
// from different years) stay in the order of the file, without 29 February
// unless the file has it.
//
// Temperatures and humidity are values at the time shown in most files, means
// over the hour in NASA POWER; irradiance is a mean over the hour. No reader
// shifts one against the other.
//
// Readers do no physics: what the file gives is passed on in SI, with missing
// values as NaN and a note for everything that was filled, rejected or
// estimated.
package weather

import (
	"path/filepath"
	"strings"
	"time"
)

// Humidity names the quantity in which a file tells how damp the air is.
type Humidity int

// The humidity quantities a file may carry.
const (
	RelHum   Humidity = iota // relative humidity, 0..1
	DewPoint                 // °C; a frost point below 0.01 °C
	WetBulb                  // °C, thermodynamic
)

// Station is the place where the weather was observed.
type Station struct {
	Name      string
	Latitude  float64 // degrees north; NaN unknown
	Longitude float64 // degrees east; NaN unknown
	Elevation float64 // m; NaN unknown
	UTCOffset float64 // hours ahead of UTC; NaN unknown
	Country   string  // as the file gives it, may be empty
	State     string  // two letters where the file names a US state, else empty
}

// Source says which file the series came from.
type Source struct {
	Name   string // base name of the file
	SHA256 string // of the bytes as stored on disk, lower-case hex
	Format string // e.g. "TMY3"
	By     string // what the format was known by, for people
}

// Hour is one hour of weather. Missing values are NaN.
type Hour struct {
	Time     time.Time // local standard time as printed, zone UTC
	DryBulb  float64   // °C
	Humidity float64   // in the quantity Series.Humidity names
	Pressure float64   // Pa, station pressure; NaN if the file has none
	GHI      float64   // W/m², global horizontal; NaN if the file has none
	Filled   bool      // the dry bulb was not observed: filled in by the publisher or over a short gap here
}

// Series is a year (or several) of hourly weather in file order.
type Series struct {
	Station    Station
	Source     Source
	Humidity   Humidity
	HourEnding bool // stamps close the hour they label
	Typical    bool // months joined from different years
	Hours      []Hour
	Notes      []Note
	parts      []part // the files it was joined from; nil for one

	// Spare is the humidity column that was not chosen, hour by hour, in the
	// quantity SpareKind names; nil where the file has one column only.
	Spare     []float64
	SpareKind Humidity
}

// Start is the beginning of hour i, by which days and months are counted.
func (s *Series) Start(i int) time.Time {
	if s.HourEnding {
		return s.Hours[i].Time.Add(-time.Hour)
	}
	return s.Hours[i].Time
}

// Place is what to call the place: the station's name, or where the file has
// none, the file's name without its ending.
func (s *Series) Place() string {
	if name := strings.TrimSpace(s.Station.Name); name != "" {
		return name
	}
	base := filepath.Base(s.Source.Name)
	for _, ending := range []string{".gz", ".zip"} {
		base = strings.TrimSuffix(base, ending)
	}
	return strings.TrimSuffix(base, filepath.Ext(base))
}
