package cli

import (
	"fmt"
	"io"
	"strconv"

	"github.com/evapbook/evapbook/data/sample"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/weather"
)

// open reads a weather file; no name is the built-in sample.
func (o *weatherFlags) open(path string, stdin io.Reader) (*weather.Series, error) {
	opt, err := o.options()
	if err != nil {
		return nil, err
	}
	switch path {
	case "":
		r, name := sample.Open()
		return weather.Read(r, name, opt)
	case "-":
		return weather.Read(stdin, "standard input", opt)
	default:
		return weather.Open(path, opt)
	}
}

func (o *weatherFlags) options() (weather.Options, error) {
	opt := weather.Options{AllowGaps: o.allowGaps, Humidity: weather.Preference(o.humidity)}
	switch opt.Humidity {
	case weather.PreferAuto, weather.PreferRelHum, weather.PreferDewPoint:
	default:
		return opt, usagef("--humidity %s: no such choice\nhint: auto, relative or dew-point", o.humidity)
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
		v, err := strconv.ParseFloat(f.text, 64)
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
