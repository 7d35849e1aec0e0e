package weather

import (
	"fmt"
	"math"
	"regexp"
	"strings"
)

// Lines above the headings of a file of no known format often say where the
// station is: "LATITUDE:;-9,388323", "#Elevation: 250 m a.s.l.",
// "Site name,Old mill".
var (
	metadataLine = regexp.MustCompile(`^[#"\s]*([\p{L}][\p{L}0-9 ()._]*?)"?\s*[:=;,\t][:=;,\s"]*(.*?)[;,\s"]*$`)
	metadataSize = regexp.MustCompile(`^([-+]?\d+(?:[.,]\d+)?)\s*(.*)$`)
	legendLine   = regexp.MustCompile(`^#\s*(\w+)\s+-\s+.*\[([^\]]+)\]`)
)

const footInMetres = 0.3048 // exact

// metadata takes what one line above the headings says; ok is false where it
// says nothing that is known here.
func (a *anyCSV) metadata(text string, line int) (ok bool, err error) {
	if m := legendLine.FindStringSubmatch(text); m != nil {
		a.legend[strings.ToLower(m[1])] = strings.ReplaceAll(plainUnit(m[2]), "_", "")
		return true, nil
	}
	m := metadataLine.FindStringSubmatch(text)
	if m == nil || m[2] == "" {
		return false, nil
	}
	key, value := notLetters.ReplaceAllString(strings.ToLower(inBrackets.ReplaceAllString(m[1], "")), ""), m[2]
	st := &a.out.station
	switch key {
	case "latitude", "lat":
		return true, a.place(&st.Latitude, key, value, line)
	case "longitude", "lon", "long", "lng":
		return true, a.place(&st.Longitude, key, value, line)
	case "elevation", "altitude", "elev", "height":
		return true, a.place(&st.Elevation, key, value, line)
	case "station", "stationname", "site", "sitename", "estacao", "location":
		st.Name = value
		return true, nil
	case "timereference", "timezone", "utcoffset":
		return true, a.clockOf(value)
	}
	return false, nil
}

// place reads a number with what may stand behind it: degrees, a hemisphere,
// metres or feet.
func (a *anyCSV) place(to *float64, key, value string, line int) error {
	m := metadataSize.FindStringSubmatch(value)
	v := math.NaN()
	if m != nil {
		v = headerNumber(m[1])
	}
	if math.IsNaN(v) {
		return &Error{File: a.doc.name, Line: line, Heading: key, Text: fmt.Sprintf("%q is not a number", clip(value, 30)), Hint: "write a plain number such as 41.2"}
	}
	behind := strings.ToLower(strings.Trim(m[2], "°º. "))
	switch {
	case strings.HasPrefix(behind, "f") || strings.HasPrefix(behind, "'"):
		v *= footInMetres
	case (behind == "s" || behind == "w") && v > 0:
		v = -v
	}
	if e := stoodBefore(*to, v); e != "" {
		return &Error{File: a.doc.name, Line: line, Heading: key, Text: e, Hint: "keep the line that is right"}
	}
	*to = v
	return a.out.station.check(a.doc.name, line)
}

// clockOf reads a zone by name or as a number of hours.
func (a *anyCSV) clockOf(value string) error {
	if v := headerNumber(value); v >= -12 && v <= 14 {
		a.out.station.UTCOffset = v
		return nil
	}
	utc, offset, fixed, err := headingZone(value)
	if err != nil {
		return fileError(a.doc.name, "download it in local standard time or in UTC", "%v", err)
	}
	a.out.utc = a.out.utc || utc
	if fixed {
		a.out.station.UTCOffset = offset
	}
	return nil
}
