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
		{"Open-Meteo", isOpenMeteo, readOpenMeteo, `"utc_offset_seconds" in the first line`},
		{"IEM ASOS", isIEM, readIEM, `the columns station and valid`},
		{"Meteostat", isMeteostat, readMeteostat, `the columns date, hour, temp and rhum or dwpt, or thirteen fields without headings`},
		{"plain CSV", isPlain, readPlain, `headings such as temperature_c with the unit in them, see docs/weather.md`},
		{"CSV by headings", isAnyCSV, readAnyCSV, `the names in its line of headings, or those of --columns`}, // last: it takes what has headings
	}
}

// headLines is how many lines detection may look at.
const headLines = 40

func detect(doc *document) (*format, error) {
	if len(doc.columns) > 0 {
		return &formats[len(formats)-1], nil // the user said what the columns are
	}
	head := firstLines(doc.text, headLines)
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
