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
}

// formats in the order in which they are tried. None looks at file names.
var formats []format

func init() { // set here because the readers themselves refer to format names
	formats = []format{
		{"TMY3", isTMY3, readTMY3},
		{"EPW", isEPW, readEPW},
		{"NOAA LCD", isLCD, readLCD},
		{"NOAA ISD global-hourly", isISD, readISD},
		{"NOAA ISD-Lite", isISDLite, readISDLite},
		{"NASA POWER", isPower, readPower},
		{"SAM CSV", isSAM, readNSRDB},
		{"NSRDB", isNSRDB, readNSRDB},
		{"PVGIS TMY", isPVGIS, readPVGIS},
		{"Open-Meteo", isOpenMeteo, readOpenMeteo},
		{"IEM ASOS", isIEM, readIEM},
		{"Meteostat", isMeteostat, readMeteostat},
		{"plain CSV", isPlain, readPlain},
		{"CSV by headings", isAnyCSV, readAnyCSV}, // last: it takes what has headings
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
