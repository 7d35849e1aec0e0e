package weather

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
)

// zoneWords are standard times a heading may name, hours ahead of UTC. CST and
// IST mean different things in different countries and are left out.
var zoneWords = map[string]float64{"est": -5, "mst": -7, "pst": -8, "akst": -9, "hst": -10, "wet": 0, "cet": 1, "eet": 2, "aest": 10, "nzst": 12, "sast": 2}

// summerWords are daylight-saving times.
var summerWords = []string{"edt", "cdt", "mdt", "pdt", "akdt", "west", "cest", "eest", "bst", "aedt", "nzdt", "dst"}

var offsetWord = regexp.MustCompile(`(?:utc|gmt)\s*([+-])\s*(\d{1,2})(?::?(\d\d))?`)

// headingZone reads what a heading says about the clock: UTC, a fixed offset,
// or nothing. Daylight-saving time is an error.
func headingZone(heading string) (utc bool, offset float64, fixed bool, err error) {
	text := strings.ToLower(heading)
	if m := offsetWord.FindStringSubmatch(text); m != nil {
		h, _ := strconv.Atoi(m[2])
		min := 0
		if m[3] != "" {
			min, _ = strconv.Atoi(m[3])
		}
		offset = float64(h) + float64(min)/60
		if m[1] == "-" {
			offset = -offset
		}
		return false, offset, true, nil
	}
	for _, w := range strings.FieldsFunc(text, func(r rune) bool { return r < 'a' || r > 'z' }) {
		if w == "utc" || w == "gmt" || w == "zulu" {
			return true, 0, false, nil
		}
		if o, ok := zoneWords[w]; ok {
			return false, o, true, nil
		}
		for _, s := range summerWords {
			if w == s {
				return false, 0, false, fmt.Errorf("the heading names daylight-saving time (%s)", strings.ToUpper(w))
			}
		}
	}
	return false, 0, false, nil
}
