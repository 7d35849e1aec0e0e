// Command generate packs stations and towns into the files of data/places. The
// same input gives the same bytes.
//
//	go run ./data/places/generate -stations FOLDER -towns FILE -to data/places
//
// FOLDER holds one CSV file a station, reduced from the station's TMY3 file,
// values as they stand there:
//
//  1. station,name,state,utc_offset,latitude,longitude,elevation_m
//  2. these values
//  3. years_of_months and the twelve years the months were taken from
//  4. and on: a quantity and its 8,760 values a line, dry_bulb_c, dew_point_c,
//     relative_humidity_pct, pressure_mbar, ghi_wm2, dry_bulb_source
//
// FILE is a CSV table name,state,latitude,longitude,elevation_m,population.
//
// Every station is unpacked again and compared before anything is written.
package main

import (
	"bytes"
	"encoding/csv"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strconv"

	"github.com/evapbook/evapbook/internal/places/columns"
)

func main() {
	stations := flag.String("stations", "", "folder of reduced station files")
	towns := flag.String("towns", "", "CSV table of towns")
	to := flag.String("to", ".", "folder to write to")
	flag.Parse()
	if err := run(*stations, *towns, *to); err != nil {
		fmt.Fprintln(os.Stderr, "generate:", err)
		os.Exit(1)
	}
}

func run(stations, towns, to string) error {
	catalogue, pack, err := packStations(stations)
	if err != nil {
		return err
	}
	table, err := townTable(towns)
	if err != nil {
		return err
	}
	for name, content := range map[string][]byte{"stations.csv": catalogue, "stations.pack": pack, "towns.csv": table} {
		if err := os.WriteFile(filepath.Join(to, name), content, 0o644); err != nil {
			return err
		}
	}
	return nil
}

// leftOut are stations that are not packed, with the reason.
var leftOut = map[string]string{
	"703884": "432 hours of July above 40 °C at 55° N: values in °F among those in °C",
}

// packStations makes the catalogue and the blocks, stations by number.
func packStations(folder string) (catalogue, pack []byte, err error) {
	paths, err := filepath.Glob(filepath.Join(folder, "*.csv"))
	if err != nil || len(paths) == 0 {
		return nil, nil, fmt.Errorf("%s: no station files (%v)", folder, err)
	}
	slices.Sort(paths)
	var text bytes.Buffer
	rows := csv.NewWriter(&text)
	rows.Write([]string{"station", "name", "state", "utc_offset", "latitude", "longitude", "elevation_m", "years_of_months", "bytes"})
	for _, path := range paths {
		s, err := readStation(path)
		if err != nil {
			return nil, nil, fmt.Errorf("%s: %w", path, err)
		}
		if reason, ok := leftOut[s.head[0]]; ok {
			fmt.Printf("left out: %s: %s\n", s.head[0], reason)
			continue
		}
		block, err := columns.Pack(&s.year)
		if err != nil {
			return nil, nil, fmt.Errorf("%s: %w", path, err)
		}
		if back, err := columns.Unpack(block); err != nil || !same(back, &s.year) {
			return nil, nil, fmt.Errorf("%s: did not come back the same (%v)", path, err)
		}
		rows.Write(append(s.head, s.years, strconv.Itoa(len(block))))
		pack = append(pack, block...)
	}
	rows.Flush()
	return text.Bytes(), pack, rows.Error()
}

func same(a, b *columns.Year) bool {
	return slices.Equal(a.DryBulb, b.DryBulb) && slices.Equal(a.DewPoint, b.DewPoint) && slices.Equal(a.RelHum, b.RelHum) &&
		slices.Equal(a.Pressure, b.Pressure) && slices.Equal(a.GHI, b.GHI) && bytes.Equal(a.Source, b.Source)
}
