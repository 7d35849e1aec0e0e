package weather

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"time"
)

// LCD: NOAA's Local Climatological Data, one row a report, several reports an
// hour, station pressure and wet bulb included.
// Source: NOAA NCEI, Local Climatological Data Dataset Documentation.
//
// Stamps are local standard time all year at the actual minute; a trailing Z
// is not UTC. Three generations share one reader: the names before 2018 carry
// the unit, v1 (°F, inHg) and v2 (°C, hPa) have the same names and say nothing,
// so the station pressure decides.
var lcdLayout = layout{
	columns: []column{
		{key: "clock", headings: []heading{{"DATE", nil}}, need: true},
		{key: "type", headings: []heading{{"REPORT_TYPE", nil}}, repeats: true},
		{key: "dry bulb", headings: []heading{{lcdDryBulb, nil}, {"HOURLYDRYBULBTEMPF", fahrenheit}, {"HOURLYDRYBULBTEMPC", nil}}, need: true},
		{key: "relative humidity", headings: []heading{{"HourlyRelativeHumidity", percent}}},
		{key: "dew point", headings: []heading{{lcdDewPoint, nil}, {"HOURLYDewPointTempF", fahrenheit}, {"HOURLYDewPointTempC", nil}}},
		{key: "wet bulb", headings: []heading{{lcdWetBulb, nil}, {"HOURLYWETBULBTEMPF", fahrenheit}, {"HOURLYWETBULBTEMPC", nil}}},
		{key: "pressure", headings: []heading{{"HourlyStationPressure", nil}}},
	},
	skip:    lcdSummary,
	rank:    reportRank,
	stamp:   func(r *record) (time.Time, error) { return parseStamp(r.Clock) },
	stampAt: "clock",
	unitOf:  lcdUnits,
}

// Headings of v1 and v2, without a unit.
const (
	lcdDryBulb  = "HourlyDryBulbTemperature"
	lcdDewPoint = "HourlyDewPointTemperature"
	lcdWetBulb  = "HourlyWetBulbTemperature"
)

func isLCD(head []string) bool {
	return hasHeadings(head[0], "DATE", lcdDryBulb) || hasHeadings(head[0], "DATE", "HOURLYDRYBULBTEMPF")
}

// lcdSummary knows the summaries of the day and the month, which are no
// observations; in v2 their stamp collides with one.
func lcdSummary(r *record) bool {
	kind := strings.TrimSpace(r.Type)
	return kind == "SOD" || kind == "SOM"
}

// reportRank prefers the routine hourly report (FM-15) to special ones (FM-16)
// and to the six-hourly one (FM-12); reports without a temperature come last.
func reportRank(r *record) int {
	rank := slices.Index([]string{"FM-15", "", "FM-16", "FM-12"}, strings.TrimSpace(r.Type))
	if rank < 0 {
		rank = 4
	}
	if math.IsNaN(float64(r.DryBulb)) {
		rank += 10
	}
	return rank
}

// lcdUnits tells °F and inHg from °C and hPa by the median station pressure:
// 15 to 32 is inHg, 500 to 1100 is hPa. Without pressure it is v1, in °F, unless
// the elevation column of v2 is there.
func lcdUnits(t *table) map[string]unit {
	metric := t.hasElevation()
	units := map[string]unit{}
	if p := t.position("pressure"); p >= 0 {
		metric = t.median(p) > 100
		units["pressure"] = inchOfMercury
		if metric {
			units["pressure"] = hectopascal
		}
	}
	for _, key := range []string{"dry bulb", "dew point", "wet bulb"} {
		p := t.position(key)
		if p >= 0 && !metric && slices.Contains([]string{lcdDryBulb, lcdDewPoint, lcdWetBulb}, t.picked[p].heading) {
			units[key] = fahrenheit
		}
	}
	return units
}

func (t *table) hasElevation() bool { return slices.Contains(t.headings, "ELEVATION") }

// median of the numbers in a picked column, NaN if there are none.
func (t *table) median(p int) float64 {
	var v []float64
	for _, row := range t.rows {
		if x, err := strconv.ParseFloat(strings.TrimSpace(row[p]), 64); err == nil {
			v = append(v, x)
		}
	}
	if len(v) == 0 {
		return math.NaN()
	}
	slices.Sort(v)
	return v[len(v)/2]
}

func readLCD(doc *document) (*observations, error) {
	s := newScanner(doc, ',')
	headings, line, station, err := s.stationTable()
	if err != nil {
		return nil, err
	}
	o := &observations{file: doc.name, station: station, reports: true}
	suspect := 0
	l := lcdLayout
	l.clean = func(key, cell string) string { return lcdCell(key, cell, &suspect) }
	o.rows, err = l.read(s, headings, line)
	if suspect > 0 {
		o.notes = append(o.notes, Note{Kind: NoteSuspect, Count: suspect})
	}
	return o, err
}

// lcdCell undoes NOAA's letters: M and NA missing, T a trace, * a remark, and a
// trailing s for a suspect value, which counts as missing.
func lcdCell(key, cell string, suspect *int) string {
	cell = strings.TrimSpace(cell)
	if key == "clock" || key == "type" {
		return cell
	}
	switch cell {
	case "M", "NA", "T", "*":
		return ""
	}
	if n := len(cell) - 1; n > 0 && (cell[n] == 's' || cell[n] == '*') && decimal(cell[:n]) {
		*suspect++
		return ""
	}
	return cell
}
