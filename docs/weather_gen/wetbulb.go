package main

import (
	"encoding/csv"
	"errors"
	"os"
	"slices"
	"strconv"
	"strings"

	"github.com/evapbook/evapbook/internal/psychro"
)

// spread is how our wet bulb differs from the one the file prints, K.
type spread struct {
	hours     int
	mean      float64
	low, high float64 // 95 % of the hours lie between
}

// wetBulbColumns are the headings of NOAA's Local Climatological Data; the only
// files at hand with a wet bulb that is psychrometric and not ours.
var wetBulbColumns = [][]string{
	{"HourlyDryBulbTemperature", "HourlyWetBulbTemperature", "HourlyRelativeHumidity", "HourlyStationPressure"},
	{"HOURLYDRYBULBTEMPF", "HOURLYWETBULBTEMPF", "HOURLYRelativeHumidity", "HOURLYStationPressure"},
}

// wetBulbSpread compares report by report, at the report's own station pressure
// and relative humidity; nil where the file has no wet bulb. It reads the
// columns by itself, so that the readers are checked too.
func wetBulbSpread(path string) (*spread, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.FieldsPerRecord, r.LazyQuotes = -1, true
	heads, err := r.Read()
	if err != nil {
		return nil, err
	}
	at := find(heads)
	if at == nil {
		return nil, nil
	}
	rows, err := r.ReadAll()
	if err != nil {
		return nil, err
	}
	var d []float64
	for _, row := range rows {
		v, err := difference(row, at)
		if errors.Is(err, errNoReport) {
			continue
		}
		if err != nil {
			return nil, err
		}
		d = append(d, v)
	}
	return summarise(d), nil
}

func find(heads []string) []int {
	for _, names := range wetBulbColumns {
		at := make([]int, len(names))
		ok := true
		for i, n := range names {
			at[i] = slices.IndexFunc(heads, func(h string) bool { return strings.EqualFold(strings.TrimSpace(h), n) })
			ok = ok && at[i] >= 0
		}
		if ok {
			return at
		}
	}
	return nil
}

// errNoReport marks rows in which one of the four values is not there.
var errNoReport = errors.New("no report")

// difference is our wet bulb less the file's, K. Pressure under 100 is in inches
// of mercury, and then temperatures are in °F: FORMATS.md beside the files.
func difference(row []string, at []int) (float64, error) {
	var v [4]float64
	for i, k := range at {
		x, err := strconv.ParseFloat(strings.TrimSpace(row[k]), 64)
		if err != nil {
			return 0, errNoReport
		}
		v[i] = x
	}
	t, wet, p := v[0], v[1], v[3]*100
	if v[3] < 100 {
		const inch = 3386.389 // Pa, NIST SP 811
		t, wet, p = (t-32)/1.8, (wet-32)/1.8, v[3]*inch
	}
	air, err := psychro.FromRelHum(t, v[2]/100, p)
	if err != nil {
		return 0, err
	}
	ours, err := air.WetBulb()
	return ours - wet, err
}

func summarise(d []float64) *spread {
	slices.Sort(d)
	s := &spread{hours: len(d), low: d[int(0.025*float64(len(d)))], high: d[int(0.975*float64(len(d)))]}
	for _, v := range d {
		s.mean += v / float64(len(d))
	}
	return s
}
