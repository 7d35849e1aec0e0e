package weather

import (
	"fmt"
	"strings"
)

// format is one kind of weather file: how to know it and how to read it.
type format struct {
	name  string
	match func(head []string) bool // head: the first lines, at least one
	read  func(*document) (*observations, error)
	by    string // what it is known by, for people
}

// formats in the order in which they are tried. None looks at file names.
var formats []format

func init() { // set here because the readers themselves refer to format names
	formats = []format{
		{"TMY3", isTMY3, readTMY3, `the second line begins with Date (MM/DD/YYYY)`},
		{"EPW", isEPW, readEPW, `the first line begins with LOCATION`},
		{"NOAA LCD", isLCD, readLCD, `a column of hourly dry-bulb temperature under NOAA's name`},
		{"NOAA ISD global-hourly", isISD, readISD, `the columns DATE, TMP and DEW`},
		{"NOAA ISD-Lite", isISDLite, readISDLite, `rows of twelve whole numbers that begin with year, month, day and hour`},
		{"NASA POWER", isPower, readPower, `the first line is -BEGIN HEADER-, or has the columns YEAR, MO, DY and HR`},
		{"SAM CSV", isSAM, readNSRDB, `"Source" and "Time Zone" in the first line, "tdry" in the third`},
		{"NSRDB", isNSRDB, readNSRDB, `"Source" and "Time Zone" in the first line, "Temperature" in the third`},
		{"PVGIS TMY", isPVGIS, readPVGIS, `the first line begins with Latitude (decimal degrees)`},
		{pvgisJSON, isPVGISJSON, readPVGISJSON, `a JSON document with "inputs" and "radiation_db"`},
		{"SURFRAD", isSURFRAD, readSURFRAD, `a second line of latitude, longitude and "m version", rows of 48 fields`},
		{"USCRN", isUSCRN, readUSCRN, `rows of 38 or 23 fields between blanks that begin with a station number and two pairs of date and time`},
		{"Open-Meteo", isOpenMeteo, readOpenMeteo, `"utc_offset_seconds" in the first line`},
		{"IEM ASOS", isIEM, readIEM, `the columns station and valid`},
		{"Meteostat", isMeteostat, readMeteostat, `the columns date, hour, temp and rhum or dwpt, or thirteen fields without headings`},
		{"plain CSV", isPlain, readPlain, `headings such as temperature_c with the unit in them, see docs/weather.md`},
		{"CSV by headings", isAnyCSV, readAnyCSV, `the names in its line of headings, or those of --columns`}, // last: it takes what has headings
	}
}

// headLines is how many lines detection may look at.
const headLines = 80

func detect(doc *document) (*format, error) {
	if isJSON(doc.text) {
		return detectJSON(doc)
	}
	if len(doc.columns) > 0 {
		return &formats[len(formats)-1], nil // the user said what the columns are
	}
	head := firstLines(doc.text, headLines)
	if isDaily(head[0]) {
		return nil, &Error{File: doc.name, Line: 1, Text: "holds NOAA's summaries of days, not hours", Hint: "fetch hourly data of the station: NOAA's Local Climatological Data or global-hourly"}
	}
	for i := range formats {
		if formats[i].match(head) {
			return &formats[i], nil
		}
	}
	names := make([]string, len(formats))
	for i, f := range formats {
		names[i] = f.name
	}
	hint := "known formats: " + strings.Join(names, ", ")
	return nil, &Error{File: doc.name, Line: 1, Text: fmt.Sprintf("format not recognised, first line is %q", clip(head[0], 60)), Hint: hint}
}

// isDaily knows the headings of NOAA's GHCN-Daily and GSOD.
func isDaily(headings string) bool {
	return hasHeadings(headings, "STATION", "DATE") &&
		(hasHeadings(headings, "TMAX") || hasHeadings(headings, "TMIN") || hasHeadings(headings, "TEMP_ATTRIBUTES"))
}

func isJSON(text string) bool {
	return strings.HasPrefix(text, "{") || strings.HasPrefix(text, "[{")
}

// detectJSON knows the one JSON that is read.
func detectJSON(doc *document) (*format, error) {
	for i := range formats {
		if formats[i].name == pvgisJSON && formats[i].match(firstLines(doc.text, headLines)) {
			return &formats[i], nil
		}
	}
	return nil, fileError(doc.name, "weather files are plain text: TMY3, EPW, CSV; of JSON only PVGIS typical years are read", "is a JSON document, not a weather file")
}

// firstLines returns up to n lines without line ends, skipping none.
func firstLines(text string, n int) []string {
	var lines []string
	for len(lines) < n && text != "" {
		line, rest, _ := strings.Cut(text, "\n")
		lines = append(lines, strings.TrimSuffix(line, "\r"))
		text = rest
	}
	return lines
}

// clip shortens s for a message.
func clip(s string, n int) string {
	r := []rune(s)
	if len(r) <= n {
		return s
	}
	return string(r[:n]) + "…"
}
