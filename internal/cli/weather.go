package cli

import (
	"fmt"
	"io"
	"strings"

	"github.com/evapbook/evapbook/data/sample"
	"github.com/evapbook/evapbook/internal/hint"
	"github.com/evapbook/evapbook/internal/places"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/weather"
)

// weatherFlags are the flags that say how to read a weather file.
type weatherFlags struct {
	allowGaps                                 bool
	humidity, columns, missing, station       string
	latitude, longitude, elevation, utcOffset string
	year                                      string // which of several to show; a flag of write only
}

func (o *weatherFlags) add(f flagSet) {
	f.BoolVar(&o.allowGaps, "allow-gaps", false, "accept a file with more than 10 % of the warm half-year missing")
	f.StringVar(&o.humidity, "humidity", "auto", "column to use where a file has several: auto, relative or dew-point")
	f.StringVar(&o.columns, "columns", "", "columns of a CSV of no known format, beside those recognised: 'time=Date,temperature_c=Temp,relative_humidity=RH'; also dew_point, wet_bulb, pressure, ghi, date, hour, with _c _f _k _hpa _inhg for units and time_utc, time_ending for the clock")
	f.StringVar(&o.missing, "missing", "", "further numbers that stand for not measured, e.g. -999,-200")
	f.StringVar(&o.station, "station", "", "which station of a file that holds several, as the file names it")
	f.StringVar(&o.latitude, "latitude", "", "degrees north, for files that do not say")
	f.StringVar(&o.longitude, "longitude", "", "degrees east, for files that do not say")
	f.StringVar(&o.elevation, "elevation", "", "elevation of the weather station, e.g. 874m, for files that do not say")
	f.StringVar(&o.utcOffset, "utc-offset", "", "standard time ahead of UTC in hours, for files that do not say")
}

// stationPath stands for a station within the program where weather is named by
// a path.
func stationPath(s *places.Station) string { return "station " + s.Number }

func stationAt(path string) (*places.Station, bool) {
	number, ok := strings.CutPrefix(path, "station ")
	if !ok {
		return nil, false
	}
	return places.ByNumber(number)
}

func isStation(path string) bool { _, ok := stationAt(path); return ok }

// open reads a weather file; no name is the built-in sample.
func (o *weatherFlags) open(path string, stdin io.Reader) (*weather.Series, error) {
	opt, err := o.options()
	if err != nil {
		return nil, err
	}
	if s, ok := stationAt(path); ok {
		return places.Read(s, opt)
	}
	switch path {
	case "":
		r, name := sample.Open()
		return weather.Read(r, name, opt)
	case "-":
		return weather.Read(stdin, "standard input", opt)
	default:
		if err := checkInput(path); err != nil {
			return nil, err
		}
		return weather.Open(path, opt)
	}
}

func (o *weatherFlags) options() (weather.Options, error) {
	opt := weather.Options{AllowGaps: o.allowGaps, StationName: o.station, Humidity: weather.Preference(o.humidity)}
	switch opt.Humidity {
	case weather.PreferAuto, weather.PreferRelHum, weather.PreferDewPoint:
	default:
		return opt, hint.With(usagef("--humidity %s: no such choice", o.humidity), "auto, relative or dew-point")
	}
	for _, text := range strings.FieldsFunc(o.missing, func(r rune) bool { return r == ',' || r == ' ' }) {
		v, err := units.Parse(units.Plain, text)
		if err != nil {
			return opt, usagef("--missing %s: %q is not a number", o.missing, text)
		}
		opt.Missing = append(opt.Missing, v)
	}
	if o.columns != "" {
		var err error
		if opt.Columns, err = weather.ParseColumns(o.columns); err != nil {
			return opt, hint.With(usagef("--%w", err), "keys are time, date, hour, temperature, relative_humidity, dew_point, wet_bulb, pressure, ghi")
		}
	}
	for _, f := range []struct {
		flag, text string
		low, high  float64
		to         **float64
	}{
		{"latitude", o.latitude, -90, 90, &opt.Latitude},
		{"longitude", o.longitude, -180, 180, &opt.Longitude},
		{"utc-offset", o.utcOffset, -12, 14, &opt.UTCOffset},
	} {
		if f.text == "" {
			continue
		}
		v, err := units.Parse(units.Plain, f.text)
		if err != nil || !(v >= f.low && v <= f.high) {
			return opt, usagef("--%s %s: not a number from %g to %g", f.flag, f.text, f.low, f.high)
		}
		*f.to = &v
	}
	if o.elevation != "" {
		v, err := units.Parse(units.Altitude, o.elevation)
		if err != nil {
			return opt, usageError{fmt.Errorf("--elevation: %w", err)}
		}
		opt.Elevation = &v
	}
	return opt, nil
}
