// Command generate writes the sample year: invented hourly weather of an
// invented high-desert town. The same program always writes the same bytes.
//
// It is no climate model. Day by day, persistent noise is laid over a yearly
// cosine for temperature, dew point, cloud and pressure; hour by hour the day
// follows a cosine from sunrise to mid-afternoon and back; irradiance follows
// the sun and the cloud. Three humid spells and one heat wave are put in where
// the table of events says. All numbers are made up to look like a dry place at
// 1480 m, except where a source is named.
package main

import (
	"bufio"
	"flag"
	"fmt"
	"io"
	"math"
	"os"
	"time"

	"github.com/evapbook/evapbook/internal/solar"
)

// The invented station. The coordinates serve the sun only: a point of empty
// country near the meridian of the time zone.
const (
	latitude  = 42.8
	longitude = -118.4
	zone      = -8
	elevation = 1480
	year      = 2023
	days      = 365
)

const header = `# INVENTED WEATHER: no station measured this; see data/sample/generate
# station: Ostrel Flat (invented)
# country: US
# latitude: %g
# longitude: %g
# elevation_m: %d
# utc_offset_h: %d
# time: hour-beginning
time,temperature_c,relative_humidity_pct,pressure_hpa,ghi_wm2
`

func main() {
	out := flag.String("o", "", "file to write")
	flag.Parse()
	if err := run(*out); err != nil {
		fmt.Fprintln(os.Stderr, "generate:", err)
		os.Exit(1)
	}
}

func run(path string) error {
	if path == "" {
		return fmt.Errorf("name the output with -o")
	}
	f, err := os.Create(path)
	if err != nil {
		return err
	}
	if err := write(f); err != nil {
		return err
	}
	return f.Close()
}

// write writes the whole file.
func write(to io.Writer) error {
	w := bufio.NewWriter(to)
	fmt.Fprintf(w, header, latitude, longitude, elevation, zone)
	weather := makeDays()
	noise := newNoise(7)
	for h := range days * 24 {
		start := time.Date(year, 1, 1, h, 0, 0, 0, time.UTC)
		now := between(weather, float64(h)/24+0.5/24)
		t := now.temperature(float64(h%24) + 0.5)
		dew := min(now.dew, t-0.4)
		cloud := clamp(now.cloud+0.12*noise.normal(), 0, 1)
		fmt.Fprintf(w, "%s,%.1f,%.1f,%.1f,%.0f\n", start.Format("2006-01-02 15:04"),
			t, 100*vapour(dew)/vapour(t), now.pressure-0.7*math.Cos((float64(h%24)-6)/24*4*math.Pi), irradiance(start, cloud))
	}
	return w.Flush()
}

// vapour is the saturation pressure over water in hPa (Magnus form).
// Source: Alduchov and Eskridge, Improved Magnus form approximation of
// saturation vapor pressure, J. Appl. Meteor. 35 (1996), eq. 21.
func vapour(t float64) float64 { return 6.1094 * math.Exp(17.625*t/(243.04+t)) }

// irradiance is the clear sky dimmed by cloud.
// Source: Kasten and Czeplak, Solar and terrestrial radiation dependent on the
// amount and type of cloud, Solar Energy 24 (1980): 1 - 0.75 n^3.4.
func irradiance(start time.Time, cloud float64) float64 {
	clear := solar.ClearSky(start, latitude, longitude, zone)
	return clear * (1 - 0.75*math.Pow(cloud, 3.4))
}

func clamp(v, lo, hi float64) float64 { return max(lo, min(hi, v)) }
