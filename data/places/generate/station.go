package main

import (
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"strconv"
	"strings"

	"github.com/evapbook/evapbook/internal/places/columns"
)

// station is one reduced station file.
type station struct {
	head  []string // number, name, state, UTC offset, latitude, longitude, elevation as printed
	years string   // the years of the twelve months, blanks between
	year  columns.Year
}

func readStation(path string) (*station, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.FieldsPerRecord = -1
	rows, err := r.ReadAll()
	if err != nil {
		return nil, err
	}
	if len(rows) < 9 || len(rows[1]) != 7 || len(rows[2]) != 13 {
		return nil, fmt.Errorf("not a reduced station file")
	}
	s := &station{head: rows[1], years: strings.Join(rows[2][1:], " ")}
	y := &s.year
	for _, c := range []struct {
		name  string
		scale float64
		to    *[]int
	}{
		{"dry_bulb_c", 10, &y.DryBulb}, {"dew_point_c", 10, &y.DewPoint}, {"relative_humidity_pct", 1, &y.RelHum},
		{"pressure_mbar", 1, &y.Pressure}, {"ghi_wm2", 1, &y.GHI},
	} {
		values, err := line(rows, c.name)
		if err != nil {
			return nil, err
		}
		if *c.to, err = scaled(values, c.scale); err != nil {
			return nil, fmt.Errorf("%s: %w", c.name, err)
		}
	}
	flags, err := line(rows, "dry_bulb_source")
	if err != nil {
		return nil, err
	}
	y.Source = []byte(strings.Join(flags, ""))
	return s, nil
}

func line(rows [][]string, name string) ([]string, error) {
	for _, r := range rows {
		if r[0] == name {
			return r[1:], nil
		}
	}
	return nil, fmt.Errorf("no line %s", name)
}

// scaled turns text into whole numbers and refuses what would lose a digit.
func scaled(values []string, scale float64) ([]int, error) {
	out := make([]int, len(values))
	for i, text := range values {
		v, err := strconv.ParseFloat(text, 64)
		if err != nil {
			return nil, err
		}
		n := math.Round(v * scale)
		if n/scale != v {
			return nil, fmt.Errorf("value %d, %s, has more digits than are packed", i+1, text)
		}
		out[i] = int(n)
	}
	return out, nil
}
