package weather

import (
	"fmt"
	"strings"
	"time"
)

// USCRN: the US Climate Reference Network's hourly (hourly02) and five-minute
// (subhourly01) text files: fields between blanks, no headings, -9999 and -99
// missing. A flag of 3 behind humidity or radiation marks a value as wrong.
// Stamps close their hour or their five minutes. There is no pressure and no
// elevation.
// Source: NOAA NCEI, readme.txt and headers.txt of both products.
var uscrnLayout = layout{
	columns: []column{
		{key: "date", headings: []heading{{"LST_DATE", nil}}, need: true},
		{key: "clock", headings: []heading{{"LST_TIME", nil}}, need: true},
		{key: "dry bulb", headings: []heading{{"T_HR_AVG", nil}, {"AIR_TEMPERATURE", nil}}, need: true},
		{key: "relative humidity", headings: []heading{{"RH_HR_AVG", percent}, {"RELATIVE_HUMIDITY", percent}}, wrong: "3"},
		{key: "irradiance", headings: []heading{{"SOLARAD", nil}, {"SOLAR_RADIATION", nil}}, wrong: "3"},
	},
	missing: []float64{-9999, -99},
	stamp:   uscrnStamp,
	stampAt: "clock",
}

var uscrnPlace = []string{"WBANNO", "UTC_DATE", "UTC_TIME", "LST_DATE", "LST_TIME", "CRX_VN", "LONGITUDE", "LATITUDE"}

// uscrnFields are the fields of a row, by their number.
var uscrnFields = map[int][]string{
	38: append(uscrnPlace[:8:8], strings.Fields(`T_CALC T_HR_AVG T_MAX T_MIN P_CALC SOLARAD SOLARAD_FLAG SOLARAD_MAX SOLARAD_MAX_FLAG
		SOLARAD_MIN SOLARAD_MIN_FLAG SUR_TEMP_TYPE SUR_TEMP SUR_TEMP_FLAG SUR_TEMP_MAX SUR_TEMP_MAX_FLAG SUR_TEMP_MIN SUR_TEMP_MIN_FLAG
		RH_HR_AVG RH_HR_AVG_FLAG SOIL_MOISTURE_5 SOIL_MOISTURE_10 SOIL_MOISTURE_20 SOIL_MOISTURE_50 SOIL_MOISTURE_100
		SOIL_TEMP_5 SOIL_TEMP_10 SOIL_TEMP_20 SOIL_TEMP_50 SOIL_TEMP_100`)...),
	23: append(uscrnPlace[:8:8], strings.Fields(`AIR_TEMPERATURE PRECIPITATION SOLAR_RADIATION SR_FLAG SURFACE_TEMPERATURE ST_TYPE ST_FLAG
		RELATIVE_HUMIDITY RH_FLAG SOIL_MOISTURE_5 SOIL_TEMPERATURE_5 WETNESS WET_FLAG WIND_1_5 WIND_FLAG`)...),
}

func isUSCRN(head []string) bool {
	f := strings.Fields(head[0])
	if uscrnFields[len(f)] == nil || len(f[0]) != 5 {
		return false
	}
	for i, length := range []int{5, 8, 4, 8, 4} {
		if _, ok := digits(f[i]); !ok || len(f[i]) != length {
			return false
		}
	}
	return true
}

func readUSCRN(doc *document) (*observations, error) {
	first := strings.Fields(firstLines(doc.text, 1)[0])
	o := &observations{file: doc.name, station: unknownStation(), hourEnding: true}
	o.station.Name, o.station.Country = "USCRN "+first[0], "US"
	o.station.Longitude, o.station.Latitude = headerNumber(first[6]), headerNumber(first[7])
	utc, errUTC := uscrnStamp(&record{Date: first[1], Clock: first[2]})
	local, errLocal := uscrnStamp(&record{Date: first[3], Clock: first[4]})
	if errUTC == nil && errLocal == nil {
		o.station.UTCOffset = local.Sub(utc).Hours()
	}
	if err := o.station.check(doc.name, 1); err != nil {
		return nil, err
	}
	var err error
	o.rows, err = uscrnLayout.read(newScanner(doc, ' '), uscrnFields[len(first)], 1)
	return o, err
}

// uscrnStamp reads 20190101 and 0910.
func uscrnStamp(r *record) (time.Time, error) {
	day, okD := digits(r.Date)
	clock, okC := digits(r.Clock)
	if !okD || !okC {
		return time.Time{}, fmt.Errorf("%q is not a date and a time of the form YYYYMMDD HHMM", clip(r.Date+" "+r.Clock, 30))
	}
	return civil(day/10000, day/100%100, day%100, clock/100, clock%100)
}
