package weather

import (
	"fmt"
	"strings"
	"time"
)

// civil makes a time from a date and a clock; hour 24 is 00:00 of the next day.
// Dates that do not exist, such as 29 February 2021, are errors.
func civil(year, month, day, hour, minute int) (time.Time, error) {
	if month < 1 || month > 12 || day < 1 || day > daysIn(year, month) {
		return time.Time{}, fmt.Errorf("there is no day %04d-%02d-%02d", year, month, day)
	}
	if hour > 24 || minute > 59 || hour == 24 && minute > 0 {
		return time.Time{}, fmt.Errorf("there is no time %02d:%02d", hour, minute)
	}
	return time.Date(year, time.Month(month), day, hour, minute, 0, 0, time.UTC), nil
}

func daysIn(year, month int) int {
	return time.Date(year, time.Month(month)+1, 0, 0, 0, 0, 0, time.UTC).Day()
}

// parseUSDate reads 01/02/1999 or 1/2/1999, month first.
func parseUSDate(s string) (year, month, day int, err error) {
	m, rest, _ := strings.Cut(strings.TrimSpace(s), "/")
	d, y, _ := strings.Cut(rest, "/")
	var okY, okM, okD bool
	year, okY = digits(y)
	month, okM = digits(m)
	day, okD = digits(d)
	if !okY || !okM || !okD || len(y) != 4 {
		return 0, 0, 0, fmt.Errorf("%q is not a date of the form MM/DD/YYYY", clip(s, 30))
	}
	return year, month, day, nil
}

// parseISODate reads 1999-01-02.
func parseISODate(s string) (year, month, day int, err error) {
	s = strings.TrimSpace(s)
	if len(s) == 10 && s[4] == '-' && s[7] == '-' {
		var okY, okM, okD bool
		year, okY = digits(s[:4])
		month, okM = digits(s[5:7])
		day, okD = digits(s[8:])
		if okY && okM && okD {
			return year, month, day, nil
		}
	}
	return 0, 0, 0, fmt.Errorf("%q is not a date of the form YYYY-MM-DD", clip(s, 30))
}

// parseClock reads 01:00, 1:00 or 24:00:00; seconds are dropped.
func parseClock(s string) (hour, minute int, err error) {
	h, rest, _ := strings.Cut(strings.TrimSpace(s), ":")
	m, sec, hasSec := strings.Cut(rest, ":")
	var okH, okM bool
	hour, okH = digits(h)
	minute, okM = digits(m)
	okS := true
	if hasSec {
		sec, _, _ = strings.Cut(sec, ".")
		var n int
		n, okS = digits(sec)
		okS = okS && n < 60
	}
	if !okH || !okM || !okS {
		return 0, 0, fmt.Errorf("%q is not a time of the form HH:MM", clip(s, 30))
	}
	return hour, minute, nil
}

// parseStamp reads 2023-01-01T00:30:00, with T or a blank, with or without
// seconds and a trailing Z, which is ignored: the format says what the zone is.
func parseStamp(s string) (time.Time, error) {
	s = strings.TrimSuffix(strings.TrimSpace(s), "Z")
	if len(s) < 14 || s[10] != 'T' && s[10] != ' ' {
		return time.Time{}, fmt.Errorf("%q is not a time of the form YYYY-MM-DD HH:MM", clip(s, 30))
	}
	year, month, day, err := parseISODate(s[:10])
	if err != nil {
		return time.Time{}, err
	}
	hour, minute, err := parseClock(s[11:])
	if err != nil {
		return time.Time{}, err
	}
	return civil(year, month, day, hour, minute)
}
