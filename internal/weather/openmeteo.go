package weather

import (
	"strings"
	"time"
)

// Open-Meteo hourly CSV: line 1 names, line 2 values of the place, then
// headings with the unit in parentheses. Missing is NaN.
// Source: open-meteo.com, Historical Weather API documentation.
//
// Stamps are UTC plus one fixed offset, the same in summer and winter, or whole
// seconds since 1970 in UTC. pressure_msl is sea-level pressure and not read.
var openMeteoLayout = layout{
	columns: []column{
		{key: "clock", headings: []heading{{"time", nil}}, need: true},
		{key: "dry bulb", headings: []heading{{"temperature_2m (°C)", nil}, {"temperature_2m (°F)", fahrenheit}}, need: true},
		{key: "relative humidity", headings: []heading{{"relative_humidity_2m (%)", percent}, {"relativehumidity_2m (%)", percent}}},
		{key: "dew point", headings: []heading{{"dew_point_2m (°C)", nil}, {"dew_point_2m (°F)", fahrenheit}, {"dewpoint_2m (°C)", nil}, {"dewpoint_2m (°F)", fahrenheit}}},
		{key: "wet bulb", headings: []heading{{"wet_bulb_temperature_2m (°C)", nil}, {"wet_bulb_temperature_2m (°F)", fahrenheit}}},
		{key: "pressure", headings: []heading{{"surface_pressure (hPa)", hectopascal}}},
		{key: "irradiance", headings: []heading{{"shortwave_radiation (W/m²)", nil}}},
	},
	clean: func(_, cell string) string {
		if strings.TrimSpace(cell) == "NaN" {
			return ""
		}
		return cell
	},
	stampAt: "clock",
}

func isOpenMeteo(head []string) bool {
	return hasHeadings(head[0], "latitude", "longitude", "utc_offset_seconds")
}

func readOpenMeteo(doc *document) (*observations, error) {
	s := newScanner(doc, ',')
	names, line, err := s.heading("the names of line 1")
	if err != nil {
		return nil, err
	}
	if names[0] == "location_id" {
		return nil, &Error{File: doc.name, Line: line, Text: "holds several places", Hint: "download one place at a time"}
	}
	values, line, err := s.heading("the values of line 2")
	if err != nil {
		return nil, err
	}
	place := pairs(names, values)
	station := stationOf(place)
	station.UTCOffset = headerNumber(place["utc_offset_seconds"]) / 3600
	station.Name = place["timezone"]
	if err := station.check(doc.name, line); err != nil {
		return nil, err
	}
	headings, line, err := s.heading("the headings")
	if err != nil {
		return nil, err
	}
	l := openMeteoLayout
	l.stamp = openMeteoStamp(station.UTCOffset)
	rows, err := l.read(s, headings, line)
	return &observations{file: doc.name, station: station, rows: rows}, err
}

// openMeteoStamp reads either 2026-01-20T00:00 or seconds since 1970.
func openMeteoStamp(offset float64) func(*record) (time.Time, error) {
	return func(r *record) (time.Time, error) {
		if s := strings.TrimSpace(r.Clock); len(s) == 10 && !strings.Contains(s, "-") {
			high, okH := digits(s[:5])
			low, okL := digits(s[5:])
			if okH && okL {
				return time.Unix(int64(high)*100000+int64(low)+int64(offset*3600), 0).UTC(), nil
			}
		}
		return parseStamp(r.Clock)
	}
}
